/** The language server in a browser, as a worker. It has no disk: files come from the editor. */
import { BrowserMessageReader, BrowserMessageWriter } from 'vscode-jsonrpc/browser';
import { serve } from './connection';
import { oncePerKind } from './lsp/faults';
import { connectionOver } from './lsp/wire/connection';
import { FIND_FILES_REQUEST, READ_FILE_REQUEST } from './requests';
import type { FindFilesAnswer, FindFilesParams, ReadFileAnswer, ReadFileParams } from './requests';

/** As many files as a workspace of formulas may have before looking for more of them costs more than it is worth. */
const MOST_FOUND = 2000;

/** A worker's own scope is its port. The compiler knows the scope of a page only. */
const port = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = connectionOver(new BrowserMessageReader(port), new BrowserMessageWriter(port), {
  // Where this script lies, for what reads its parts.
  begin({ initializationOptions: options }: { readonly initializationOptions?: { readonly codeAt?: unknown } }) {
    if (typeof options?.codeAt === 'string') Object.assign(globalThis, { proofsheetCode: options.codeAt });
  },
  end: () => close(),
});

async function found(params: FindFilesParams): Promise<FindFilesAnswer> {
  try {
    return await connection.sendRequest<FindFilesAnswer>(FIND_FILES_REQUEST, params);
  } catch {
    return []; // an editor that does not know the request: only what is open counts
  }
}

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
  find: (_roots, most = MOST_FOUND) => found({ most }),
  findPages: () => found({ most: MOST_FOUND, pages: true }),
  onFault: oncePerKind(text => connection.console.error(text)),
});
