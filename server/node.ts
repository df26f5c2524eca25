/**
 * The language server where there is Node: `--stdio`, `--node-ipc` or `--socket=PORT`.
 *
 * It reads `.bake` files and nothing else, writes nothing, starts nothing, and asks nothing of any network.
 */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './connection';
import { findBakeFiles, readBakeFile } from './lsp/disk';

const connection = createConnection(ProposedFeatures.all);

serve(connection, {
  reader: { read: readBakeFile },
  find: findBakeFiles,
  onFault(where, fault) {
    const text = fault instanceof Error ? fault.stack ?? fault.message : String(fault);
    // A test must not pass over a fault that was contained.
    if (process.env['PROOFSHEET_THROW_FAULTS'] === '1') process.stderr.write(`fault in ${where}: ${text}\n`, () => process.exit(70));
    else connection.console.error(`${where}: ${text}`);
  },
});
