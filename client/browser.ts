/** The extension in a browser with no Node: the server is a worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { activateWith, CLIENT_ID, CLIENT_NAME } from './common';
import { WorkerServer } from './worker';

export function activate(context: vscode.ExtensionContext): Promise<void> {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.browser.js').toString(true);
  return activateWith(context, (options) => {
    const server = new WorkerServer(script);
    // The worker is made from a blob, so it does not know where the parts of it lie that it reads when they are needed.
    const initializationOptions: object = { ...options.initializationOptions as object, codeAt: script };
    return { client: new LanguageClient(CLIENT_ID, CLIENT_NAME, server.open, { ...options, initializationOptions }), end: () => server.end() };
  });
}
