/** Loads the files of a command line with everything they use, one after the other, and tells what each holds. */
import { existsSync } from 'node:fs';
import { readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Place } from '../core/formula/model';
import { SETTINGS_FILE } from '../core/settings/settings';
import type { FormulaEntry } from '../output/entry';
import { printable } from '../output/width';
import type { PlacedSection, ProjectFile } from '../project/file';
import { Project } from '../project/project';
import type { SettingsInFile } from '../project/settings';
import { canonicalUri } from '../project/uris';
import { cannotRead, LARGEST_BYTES, readSource, slashes, sourcesOf, type Source } from './files';
import type { Options } from './options';
import { counted } from '../output/numbers';
import type { Terminal } from './terminal';

export interface Document {
  /** As the person typed it. */
  readonly shown: string;
  readonly file: ProjectFile;
  /** Where a rewritten text goes; undefined for standard input. */
  readonly path: string | undefined;
  /** It begins with a byte-order mark, which is not in the file's text. */
  readonly bom: boolean;
}

/** A settings file that counts for some document, or was named itself. */
export interface SettingsDocument {
  /** From the current folder, `/` between folders. */
  readonly shown: string;
  readonly file: SettingsInFile;
}

/**
 * What the top of a project holds, in the order of what it says: the nearest folder upward with the first of them, failing
 * that with the next. `use` does not reach out of it, and neither does the search for settings.
 */
const ROOT_MARKERS = ['.git', SETTINGS_FILE, 'package.json'];

/** Nobody waits for less than this without wondering, ms. */
const SHOW_PROGRESS_AFTER_MS = 700;

/**
 * Every readable file of the command line (the current folder when it names none), in order. What cannot be read is said on the
 * terminal; the answer is how many that were. Each settings file is visited once, before the first document that it counts for;
 * without a visitor for it, it is only said when something in it is wrong.
 */
export async function eachDocument(
  options: Options, terminal: Terminal, stdin: Readable, visit: (document: Document) => void,
  visitSettings: (document: SettingsDocument) => void = (document) => sayProblems(document, terminal),
): Promise<{ readonly unreadable: number }> {
  const { sources, problems } = await sourcesOf(options.files.length === 0 ? ['.'] : options.files);
  for (const problem of problems) terminal.say(printable(problem));
  let unreadable = problems.length;
  const documents = new Documents(await rootsOf(sources));
  const visited = new Set<string>();
  const settings = (document: SettingsDocument): void => {
    if (visited.has(document.file.uri)) return;
    visited.add(document.file.uri);
    visitSettings(document);
  };
  const progress = new Progress(terminal, sources.length);
  for (const [index, source] of sources.entries()) {
    progress.at(index);
    const loaded = await documents.load(source, stdin);
    switch (loaded.kind) {
      case 'unreadable':
        terminal.say(printable(loaded.sentence));
        unreadable += 1;
        break;
      case 'settings':
        settings(loaded.settings);
        break;
      case 'document':
        if (loaded.settings !== undefined) settings(loaded.settings);
        visit(loaded.document);
    }
    documents.release(source);
  }
  progress.end();
  return { unreadable };
}

/** A passing line that says how many files are done, once somebody may wonder. */
export class Progress {
  readonly #terminal: Terminal;
  readonly #all: number;
  readonly #begun = Date.now();
  #shown = this.#begun;

  constructor(terminal: Terminal, all: number) {
    this.#terminal = terminal;
    this.#all = all;
  }

  at(done: number): void {
    const now = Date.now();
    if (now - this.#begun <= SHOW_PROGRESS_AFTER_MS || now - this.#shown <= 100) return;
    this.#shown = now;
    this.#terminal.progress(`${String(done)} of ${counted(this.#all, 'file')}`);
  }

  end(): void {
    this.#terminal.progress('');
  }
}

/** A file of a command line, with everything that it uses; or what is the matter with it. */
export type Loaded =
  | { readonly kind: 'unreadable'; readonly sentence: string }
  | { readonly kind: 'settings'; readonly settings: SettingsDocument }
  | { readonly kind: 'document'; readonly document: Document; readonly settings: SettingsDocument | undefined };

/** Files that others use are kept until so many newer ones have been used: most files of a folder use the same few. */
const MOST_KEPT = 64;

/** Loads one file after the other. Of a file that was released only what others are likely to use is kept, so that memory does not grow with their number. */
export class Documents {
  readonly project: Project;
  /** URIs of files that were used by others, those of the latest use last. */
  readonly #used = new Set<string>();

  constructor(roots: readonly string[]) {
    this.project = new Project({ reader: readerWithin(roots), roots: roots.map((root) => pathToFileURL(root).href) });
  }

  async load(source: Source, stdin: Readable): Promise<Loaded> {
    const read = await readSource(source, stdin);
    if (read.kind === 'unreadable') return read;
    const uri = uriOf(source);
    this.project.update(uri, read.text);
    if (source.file !== undefined && path.basename(source.file) === SETTINGS_FILE) {
      const file = await this.project.settingsAt(uri);
      return file === undefined ? { kind: 'unreadable', sentence: cannotRead(source.shown, undefined) } : { kind: 'settings', settings: { shown: source.shown, file } };
    }
    const file = await this.project.prepare(uri);
    if (file === undefined) return { kind: 'unreadable', sentence: cannotRead(source.shown, undefined) };
    const { settingsFile } = file;
    return {
      kind: 'document',
      document: { shown: source.shown, file, path: source.file, bom: read.bom },
      settings: settingsFile && { shown: slashes(path.relative('', fileURLToPath(settingsFile.uri))), file: settingsFile },
    };
  }

  /** The file has been looked at. */
  release(source: Source): void {
    const uri = uriOf(source);
    for (const { uri: used } of this.project.get(uri)?.visible ?? []) {
      this.#used.delete(canonicalUri(used));
      this.#used.add(canonicalUri(used));
    }
    for (const oldest of this.#used) {
      if (this.#used.size <= MOST_KEPT) break;
      this.#used.delete(oldest);
    }
    this.project.retain(this.#used);
    this.project.close(uri);
  }
}

export function uriOf(source: Source): string {
  return pathToFileURL(source.file ?? path.resolve('standard input.bake')).href;
}

function sayProblems({ shown, file: { problems } }: SettingsDocument, terminal: Terminal): void {
  if (problems.length > 0) terminal.say(printable(`${shown}: ${counted(problems.length, 'problem')}, so not all of it counts. See: proofsheet check ${shown}`));
}

/** The folder that is the top of the project, of each file; where there is none, the folder that all share. */
export async function rootsOf(sources: readonly Source[]): Promise<readonly string[]> {
  const folders = new Set(sources.map(({ file }) => (file === undefined ? process.cwd() : path.dirname(file))));
  const roots = new Set<string>();
  const rootless: string[] = [];
  const known = new Map<string, boolean>();
  for (const folder of folders) {
    const root = await rootOf(folder, known);
    if (root === undefined) rootless.push(folder);
    else roots.add(root);
  }
  const [first, ...others] = rootless;
  if (first !== undefined) roots.add(others.reduce(commonFolder, first));
  return [...roots];
}

/** The top of the git repository that a folder is in; undefined outside of one. */
export function rootOfRepository(folder: string): string | undefined {
  for (let above = folder; ; above = path.dirname(above)) {
    if (existsSync(path.join(above, '.git'))) return above;
    if (path.dirname(above) === above) return undefined;
  }
}

/** `known`: whether a path is there, so that the folders that many files share are looked into once. */
async function rootOf(folder: string, known: Map<string, boolean>): Promise<string | undefined> {
  for (const marker of ROOT_MARKERS) {
    for (let above = folder; ; above = path.dirname(above)) {
      const file = path.join(above, marker);
      let isThere = known.get(file);
      if (isThere === undefined) known.set(file, (isThere = await stat(file).then(() => true, () => false)));
      if (isThere) return above;
      if (path.dirname(above) === above) break;
    }
  }
  return undefined;
}

function commonFolder(a: string, b: string): string {
  let folder = a;
  while (path.relative(folder, b).split(path.sep)[0] === '..' && path.dirname(folder) !== folder) folder = path.dirname(folder);
  return folder;
}

/** Reads what a file uses; a link that leads out of the roots is as good as not there. */
export function readerWithin(roots: readonly string[]): { read(uri: string): Promise<string | undefined> } {
  const real = Promise.all(roots.map((root) => realpath(root).catch(() => root)));
  return {
    async read(uri) {
      try {
        const file = await realpath(fileURLToPath(uri));
        const inside = (await real).some((root) => file.startsWith(root.endsWith(path.sep) ? root : root + path.sep));
        const { size } = await stat(file);
        if (!inside || size > LARGEST_BYTES) return undefined;
        // Settings with a stray byte are settings with a mistake, and it is said; to pass over them would be worse.
        return new TextDecoder('utf-8', { fatal: path.basename(file) !== SETTINGS_FILE }).decode(await readFile(file));
      } catch {
        return undefined;
      }
    },
  };
}

// --- what a document holds --------------------------------------------------------------------------------------------

/** Line from 1 of a place in a section. */
export function lineOf(file: ProjectFile, section: PlacedSection): (place: Place) => number {
  return (place) => file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1;
}

/** The formula or dish of a section; undefined for any other section. */
export function entryOf(file: ProjectFile, section: PlacedSection): FormulaEntry | undefined {
  const { formula, totals, sheet } = section.analysis;
  if (formula === undefined || totals === undefined || sheet === undefined) return undefined;
  return { section: section.analysis.section, formula, totals, sheet, lineOf: lineOf(file, section), label: file.settings };
}
