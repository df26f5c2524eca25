// The least that a language client can be, where there is Node.
import path from 'node:path';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';

export async function activate(context) {
  const module = path.join(context.extensionPath, 'server.js');
  const client = new LanguageClient('hello', 'Hello', { module, transport: TransportKind.ipc }, { documentSelector: [{ language: 'hello' }] });
  context.subscriptions.push(client);
  await client.start();
}
