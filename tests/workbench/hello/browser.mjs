// The least that a language client can be, in a browser.
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';

export async function activate(context) {
  const worker = new Worker(vscode.Uri.joinPath(context.extensionUri, 'server.browser.js').toString(true));
  const client = new LanguageClient('hello', 'Hello', worker, { documentSelector: [{ language: 'hello' }] });
  context.subscriptions.push(client);
  await client.start();
}
