/**
 * How a connection begins, the same for Node and for the browser: the editor's first request is answered from what it says of
 * itself, and all that answers the rest is read while the editor reads that.
 */
import type { InitializeParams } from 'vscode-languageserver';
import { clientOf, offersTo } from './lsp/client';
import type { Host } from './lsp/host';
import type { Connection } from './lsp/wire/connection';
import { ALIVE_REQUEST } from './requests';

export function serve(connection: Connection, host: Host): void {
  connection.onRequest(ALIVE_REQUEST, () => null);
  connection.onInitialize(params => {
    const client = clientOf(params);
    return {
      result: { capabilities: offersTo(params, client), serverInfo: { name: 'Proofsheet' } },
      ready: begin(connection, host, client, rootsIn(params)).catch((fault: unknown) => host.onFault('start', fault)),
    };
  });
  connection.listen();
}

async function begin(...[connection, host, client, roots]: readonly [Connection, Host, ReturnType<typeof clientOf>, readonly string[]]): Promise<void> {
  await new Promise(resolve => setTimeout(resolve, 0)); // the answer goes out first
  const { serveAll } = await import('./lsp/serve-all');
  serveAll(connection, host, client, roots);
}

function rootsIn({ workspaceFolders, rootUri }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(folder => folder.uri);
  return rootUri ? [rootUri] : [];
}
