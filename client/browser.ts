/** The extension in a browser with no Node: the server is a worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { activateWith, CLIENT_ID, CLIENT_NAME } from './common';

export function activate(context: vscode.ExtensionContext): Promise<void> {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.browser.js').toString(true);
  return activateWith(context, (options) => {
    const worker = new Worker(script);
    return { client: new LanguageClient(CLIENT_ID, CLIENT_NAME, worker, options), end: () => worker.terminate() };
  });
}
