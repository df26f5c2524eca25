/** The extension where there is Node: the server is a process of its own. */
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateWith, CLIENT_ID, CLIENT_NAME } from './common';

export function activate(context: vscode.ExtensionContext): Promise<void> {
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.cjs').fsPath;
  return activateWith(context, (options) => ({
    client: new LanguageClient(CLIENT_ID, CLIENT_NAME, { module, transport: TransportKind.ipc }, options),
  }));
}
