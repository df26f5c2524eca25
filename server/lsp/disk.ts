/** The disk, as far as the server may see it: `.bake` files, Markdown pages and `proofsheet.json`, read only. */
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { LARGEST_SETTINGS } from '../core/settings/json';
import { SETTINGS_FILE } from '../core/settings/settings';
import { isMarkdownName } from '../project/markdown';
import { canonicalUri, schemeOf } from '../project/uris';

/** As many files as a workspace of formulas may have before looking through it costs more than it is worth. */
const MOST_FOUND = 2000;
/** Folders that are looked into, for the same reason. */
const MOST_FOLDERS = 5000;
/** Bytes beyond which a file is not taken into memory; the project has its own limit on what it reads. */
const MOST_BYTES = 40_000_000;

/** The text of a `.bake` file, a Markdown page or a file of settings, or undefined when there is none or it may not be read. */
export async function readSource(uri: string): Promise<string | undefined> {
  try {
    if (schemeOf(uri) !== 'file') return undefined;
    // A link may lead to anything on the machine, whatever it is called itself.
    const file = await realpath(fileURLToPath(uri));
    const isSettings = path.basename(file) === SETTINGS_FILE;
    if (!isSettings && !/\.bake$/i.test(file) && !isMarkdownName(file)) return undefined;
    const facts = await stat(file);
    if (!facts.isFile() || facts.size > (isSettings ? 4 * LARGEST_SETTINGS : MOST_BYTES)) return undefined;
    // An editor shows a text without its byte-order mark, and columns must agree with what it shows.
    return (await readFile(file, 'utf8')).replace(/^\uFEFF/, '');
  } catch {
    return undefined; // not there or not to be read; the finding on a `use` line says so
  }
}

/** URIs of the `.bake` files under these folders, at most so many, nearest first. Hidden folders, `node_modules` and links are left out. */
export function findBakeFiles(roots: readonly string[], most = MOST_FOUND): Promise<readonly string[]> {
  return filesNamed(name => /\.bake$/i.test(name), roots, most);
}

/** URIs of the Markdown pages under these folders, found in the same way. */
export function findPages(roots: readonly string[]): Promise<readonly string[]> {
  return filesNamed(isMarkdownName, roots, MOST_FOUND);
}

async function filesNamed(isWanted: (name: string) => boolean, roots: readonly string[], most: number): Promise<readonly string[]> {
  const found: string[] = [];
  const folders = roots.flatMap(root => {
    try {
      return schemeOf(root) === 'file' ? [fileURLToPath(root)] : [];
    } catch {
      return []; // on another machine, whose files cannot be reached by a path here
    }
  });
  for (const [count, folder] of folders.entries()) {
    if (found.length >= most || count >= MOST_FOLDERS) break;
    try {
      for (const entry of await readdir(folder, { withFileTypes: true })) {
        if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
        if (entry.isDirectory()) folders.push(path.join(folder, entry.name));
        else if (entry.isFile() && isWanted(entry.name)) found.push(canonicalUri(pathToFileURL(path.join(folder, entry.name)).href));
      }
    } catch {
      // A folder that may not be read holds nothing that could be used.
    }
  }
  return found.slice(0, most);
}
