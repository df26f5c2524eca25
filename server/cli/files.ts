/** Which files a command line means, and their text; or a sentence on why there is none. */
import { constants } from 'node:fs';
import { open, readdir, realpath, rename, stat, unlink } from 'node:fs/promises';
import path from 'node:path';
import type { Readable } from 'node:stream';

/** Standard input, on a command line and in what is printed about it. */
export const STDIN = '-';
export const STDIN_NAME = '<stdin>';

/** Some 60,000 lines: a book of a thousand formulas has less. More is a mistake, not a .bake file. */
export const LARGEST_BYTES = 2_000_000;

export interface Source {
  /** As the person typed it, or what they typed and the way down from there; `/` between folders. */
  readonly shown: string;
  /** Absolute; undefined for standard input. */
  readonly file: string | undefined;
}

/** `bom`: it begins with a byte-order mark, which is not in `text` and goes back in front when the file is rewritten. */
export type Read =
  | { readonly kind: 'text'; readonly text: string; readonly bom: boolean }
  | { readonly kind: 'unreadable'; readonly sentence: string };

/**
 * The files that the arguments name, folders walked: `.bake` files by name, hidden folders and `node_modules` left out, links
 * to folders not followed. Each file once, however often it is named.
 */
export async function sourcesOf(args: readonly string[]): Promise<{ readonly sources: readonly Source[]; readonly problems: readonly string[] }> {
  const sources: Source[] = [];
  const problems: string[] = [];
  const seen = new Set<string | undefined>();
  const add = (source: Source): void => {
    if (seen.has(source.file)) return;
    seen.add(source.file);
    sources.push(source);
  };
  for (const arg of args) {
    if (arg === STDIN) {
      add({ shown: STDIN_NAME, file: undefined });
      continue;
    }
    const file = path.resolve(arg);
    try {
      if (!(await stat(file)).isDirectory()) {
        add({ shown: slashes(arg), file });
        continue;
      }
      const found = await walk(file, slashes(arg), problems);
      if (found.length === 0) problems.push(`There is no .bake file in the folder ${slashes(arg)}.`);
      found.forEach(add);
    } catch (error) {
      problems.push(cannotRead(slashes(arg), error));
    }
  }
  return { sources, problems };
}

async function walk(folder: string, shown: string, problems: string[]): Promise<Source[]> {
  const found: Source[] = [];
  let entries;
  try {
    entries = await readdir(folder, { withFileTypes: true });
  } catch (error) {
    problems.push(cannotRead(shown, error));
    return found;
  }
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const file = path.join(folder, entry.name);
    const below = shown === '.' ? entry.name : `${shown.replace(/\/$/, '')}/${entry.name}`;
    if (entry.isDirectory()) {
      if (!entry.name.startsWith('.') && entry.name !== 'node_modules') found.push(...(await walk(file, below, problems)));
    } else if (/\.bake$/i.test(entry.name) && (entry.isFile() || (await isLinkToFile(file)))) {
      found.push({ shown: below, file });
    }
  }
  return found;
}

async function isLinkToFile(file: string): Promise<boolean> {
  try {
    return (await stat(file)).isFile();
  } catch {
    return false; // a link to nothing
  }
}

/** The text of a file, or of standard input. `kind`: what it should be, for the sentence on one that is too large. */
export async function readSource(source: Source, stdin: Readable, kind = '.bake file'): Promise<Read> {
  if (source.file === undefined) return textOf(await bytesOfStream(stdin), source.shown, kind);
  try {
    return textOf(await bytesOfFile(source.file), source.shown, kind);
  } catch (error) {
    return { kind: 'unreadable', sentence: cannotRead(source.shown, error) };
  }
}

/** At most one byte more than is taken, so that a file without end ends. */
async function bytesOfFile(file: string): Promise<Uint8Array> {
  const handle = await open(file, constants.O_RDONLY);
  try {
    return await bytesOfStream(handle.createReadStream({ end: LARGEST_BYTES, autoClose: false }));
  } finally {
    await handle.close();
  }
}

async function bytesOfStream(stream: Readable): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes = Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk));
    chunks.push(bytes);
    size += bytes.length;
    if (size > LARGEST_BYTES) break;
  }
  return Buffer.concat(chunks);
}

const BOM = '\uFEFF';

/** UTF-8 and nothing else. */
export function textOf(bytes: Uint8Array, shown: string, kind = '.bake file'): Read {
  const unreadable = (what: string): Read => ({ kind: 'unreadable', sentence: `${shown} ${what}` });
  if (bytes.length > LARGEST_BYTES) return unreadable(`is larger than ${String(LARGEST_BYTES / 1_000_000)} MB, which no ${kind} is.`);
  if (bytes.includes(0)) return unreadable('is not a text file.');
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    const bom = text.startsWith(BOM);
    return { kind: 'text', text: bom ? text.slice(BOM.length) : text, bom };
  } catch {
    return unreadable('is not in UTF-8. Save it in that encoding.');
  }
}

/** Puts a text in place of a file's, whole or not at all: a new file beside it takes its name. Links and permissions stay. */
export async function replaceFile(file: string, text: string): Promise<void> {
  const target = await realpath(file);
  const { mode } = await stat(target);
  const fresh = path.join(path.dirname(target), `.${path.basename(target)}.${String(process.pid)}.tmp`);
  const handle = await open(fresh, 'wx', mode);
  try {
    try {
      await handle.writeFile(text, 'utf8');
      await handle.chmod(mode & 0o7777); // `open` lets the umask take some of it away
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(fresh, target);
  } catch (error) {
    await unlink(fresh).catch(() => undefined);
    throw error;
  }
}

/** What a fault of the file system means to the person who named the file. */
export function cannotRead(shown: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return `There is no file or folder ${shown}.`;
    case 'EACCES':
    case 'EPERM':
      return `${shown} may not be read or written: permission is denied.`;
    case 'EISDIR':
      return `${shown} is a folder, and one file is asked for.`;
    default:
      return `${shown} cannot be read or written${code === '' ? '' : ` (${code})`}.`;
  }
}

export function slashes(file: string): string {
  return path.sep === '\\' ? file.replaceAll('\\', '/') : file;
}
