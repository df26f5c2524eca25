/**
 * The language server where there is Node: `--stdio`, `--node-ipc`, `--socket=PORT` or `--pipe=NAME`.
 *
 * It reads `.bake` files, Markdown pages and `proofsheet.json` and nothing else, writes nothing, starts nothing, and asks nothing of any network.
 */
import { Console } from 'node:console';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { serve } from './connection';
import { oncePerKind } from './lsp/faults';
import { connectionOf } from './lsp/wire/node';

// What a library prints must not come between messages.
if (process.argv.includes('--stdio')) globalThis.console = new Console(process.stderr);

const connection = connectionOf(process.argv.slice(2));

/** The page of checks as it lies beside the bundle in `dist/`. */
const checksPage = path.join(__dirname, '..', 'server', 'core', 'checks', 'README.md');

const log = oncePerKind(text => connection.console.error(text));

serve(connection, {
  reader: { read: async uri => (await import('./lsp/disk')).readSource(uri) },
  find: async (...asked) => (await import('./lsp/disk')).findBakeFiles(...asked),
  findPages: async (...asked) => (await import('./lsp/disk')).findPages(...asked),
  ...(existsSync(checksPage) && { checksPage: pathToFileURL(checksPage).href }),
  onFault(where, fault) {
    // A test must not pass over a fault that was contained.
    if (process.env['PROOFSHEET_THROW_FAULTS'] !== '1') return log(where, fault);
    process.stderr.write(`fault in ${where}: ${fault instanceof Error ? fault.stack ?? fault.message : String(fault)}\n`, () => process.exit(70));
  },
});
