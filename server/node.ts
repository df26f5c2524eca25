/**
 * The language server where there is Node: `--stdio`, `--node-ipc` or `--socket=PORT`.
 *
 * It reads `.bake` files inside the workspace folders and nothing else, writes nothing, starts nothing, and asks nothing of
 * any network.
 */
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './connection';
import { canonicalUri, schemeOf } from './project/uris';

/** As many files as a workspace of formulas may have before looking through it costs more than it is worth. */
const MOST_FOUND = 2000;
/** Bytes beyond which a file is not taken into memory; the project has its own limit on what it reads. */
const MOST_BYTES = 40_000_000;

const connection = createConnection(ProposedFeatures.all);

serve(connection, {
  reader: { read },
  find,
  onFault(where, fault) {
    const text = fault instanceof Error ? fault.stack ?? fault.message : String(fault);
    // A test must not pass over a fault that was contained.
    if (process.env['PROOFSHEET_THROW_FAULTS'] === '1') {
      process.stderr.write(`fault in ${where}: ${text}\n`, () => process.exit(70));
      return;
    }
    connection.console.error(`${where}: ${text}`);
  },
});

async function read(uri: string): Promise<string | undefined> {
  try {
    if (schemeOf(uri) !== 'file') return undefined;
    // A link that leads out of the folder it lies in may name anything on the machine: only `.bake` files are read.
    const file = await realpath(fileURLToPath(uri));
    if (!/\.bake$/i.test(file)) return undefined;
    const facts = await stat(file);
    if (!facts.isFile() || facts.size > MOST_BYTES) return undefined;
    // An editor shows a text without its byte-order mark, and columns must agree with what it shows.
    return (await readFile(file, 'utf8')).replace(/^\uFEFF/, '');
  } catch {
    return undefined; // not there, or not to be read: the finding on the `use` line says so
  }
}

async function find(roots: readonly string[]): Promise<readonly string[]> {
  const found: string[] = [];
  const folders = roots.filter(root => schemeOf(root) === 'file').map(root => fileURLToPath(root));
  for (const folder of folders) {
    if (found.length >= MOST_FOUND) break;
    try {
      for (const entry of await readdir(folder, { withFileTypes: true })) {
        if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
        if (entry.isDirectory()) folders.push(path.join(folder, entry.name));
        else if (entry.isFile() && /\.bake$/i.test(entry.name)) found.push(canonicalUri(pathToFileURL(path.join(folder, entry.name)).href));
      }
    } catch {
      // A folder that may not be read holds nothing that could be used.
    }
  }
  return found.slice(0, MOST_FOUND);
}
