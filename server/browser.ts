/** The language server in a browser, as a worker. It has no disk: files come from the editor. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection, ProposedFeatures } from 'vscode-languageserver/browser';
import { serve } from './connection';
import { READ_FILE_REQUEST } from './requests';
import type { ReadFileAnswer, ReadFileParams } from './requests';

/** A worker's own scope is its port. The compiler knows the scope of a page only. */
const port = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = createConnection(ProposedFeatures.all, new BrowserMessageReader(port), new BrowserMessageWriter(port));

serve(connection, {
  reader: {
    async read(uri) {
      const params: ReadFileParams = { uri };
      try {
        return (await connection.sendRequest<ReadFileAnswer>(READ_FILE_REQUEST, params))?.replace(/^\uFEFF/, '');
      } catch {
        return undefined; // an editor that does not know the request has no file to give
      }
    },
  },
  onFault(where, fault) {
    connection.console.error(`${where}: ${fault instanceof Error ? fault.stack ?? fault.message : String(fault)}`);
  },
});
