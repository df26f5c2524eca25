/** Loads the files of a command line with everything they use, one after the other, and tells what each holds. */
import { readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Place } from '../core/formula/model';
import { SETTINGS_CODE } from '../core/settings/read';
import { SETTINGS_FILE } from '../core/settings/settings';
import type { FormulaEntry } from '../output/entry';
import { byPlace, type PlacedFinding } from '../output/findings';
import { printable } from '../output/width';
import { placesOfRelated, type PlacedSection, type ProjectFile } from '../project/file';
import { Project } from '../project/project';
import type { SettingsInFile } from '../project/settings';
import { LARGEST_BYTES, readSource, slashes, sourcesOf, type Source } from './files';
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
  const roots = await rootsOf(sources);
  const project = new Project({ reader: readerWithin(roots), roots: roots.map((root) => pathToFileURL(root).href) });
  const visited = new Set<string>();
  const settings = (file: SettingsInFile | undefined, shown?: string): void => {
    if (file === undefined || visited.has(file.uri)) return;
    visited.add(file.uri);
    visitSettings({ shown: shown ?? slashes(path.relative('', fileURLToPath(file.uri))), file });
  };
  const begun = Date.now();
  let shown = begun;
  for (const [index, source] of sources.entries()) {
    if (Date.now() - begun > SHOW_PROGRESS_AFTER_MS && Date.now() - shown > 100) {
      shown = Date.now();
      terminal.progress(`${String(index)} of ${counted(sources.length, 'file')}`);
    }
    const read = await readSource(source, stdin);
    if (read.kind === 'unreadable') {
      terminal.say(printable(read.sentence));
      unreadable += 1;
      continue;
    }
    const uri = pathToFileURL(source.file ?? path.resolve('standard input.bake')).href;
    project.update(uri, read.text);
    if (source.file !== undefined && path.basename(source.file) === SETTINGS_FILE) {
      settings(await project.settingsAt(uri), source.shown);
      continue;
    }
    const file = await project.prepare(uri);
    settings(file?.settingsFile);
    if (file !== undefined) visit({ shown: source.shown, file, path: source.file, bom: read.bom });
    project.close(uri);
  }
  terminal.progress('');
  return { unreadable };
}

function sayProblems({ shown, file: { problems } }: SettingsDocument, terminal: Terminal): void {
  if (problems.length > 0) terminal.say(printable(`${shown}: ${counted(problems.length, 'problem')}, so not all of it counts. See: proofsheet check ${shown}`));
}

/** The folder that is the top of the project, of each file; where there is none, the folder that all share. */
async function rootsOf(sources: readonly Source[]): Promise<readonly string[]> {
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
function readerWithin(roots: readonly string[]): { read(uri: string): Promise<string | undefined> } {
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

/** Every finding of a file, in the order of the text. */
export function findingsOf(file: ProjectFile, sections: readonly PlacedSection[] = file.sections): readonly PlacedFinding[] {
  return sections.flatMap((section) => section.analysis.findings.map((finding): PlacedFinding => {
    const { start, end } = section.offsetsOf(finding.place);
    const range = file.lineIndex.rangeOf(start, end);
    return {
      code: finding.code,
      severity: finding.severity,
      message: finding.message,
      line: range.start.line + 1,
      column: range.start.character + 1,
      endLine: range.end.line + 1,
      endColumn: range.end.character + 1,
      fixes: finding.fixes.map(({ title }) => title),
      related: finding.related.flatMap((one) => placesOfRelated(file, section, finding, one).map((place) => ({
        ...(place.file.uri !== file.uri && { path: pathFrom(file.uri, place.file.uri) }), line: place.range.start.line + 1, message: one.message,
      }))),
    };
  })).sort(byPlace);
}

/** Another file from the folder of one, `/` between folders, as a `use` line would have it. */
function pathFrom(uri: string, other: string): string {
  return slashes(path.relative(path.dirname(fileURLToPath(uri)), fileURLToPath(other)));
}

/** What is wrong with a settings file. */
export function settingsFindingsOf({ problems, lineIndex }: SettingsInFile): readonly PlacedFinding[] {
  return problems.map(({ start, end, severity, message }): PlacedFinding => {
    const range = lineIndex.rangeOf(start, end);
    return {
      code: SETTINGS_CODE, severity, message,
      line: range.start.line + 1, column: range.start.character + 1, endLine: range.end.line + 1, endColumn: range.end.character + 1,
      fixes: [], related: [],
    };
  });
}

/** Line from 1 of a place in a section. */
export function lineOf(file: ProjectFile, section: PlacedSection): (place: Place) => number {
  return (place) => file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1;
}

/** The formula or dish of a section; undefined for any other section. */
export function entryOf(file: ProjectFile, section: PlacedSection): FormulaEntry | undefined {
  const { formula, totals, sheet } = section.analysis;
  if (formula === undefined || totals === undefined || sheet === undefined) return undefined;
  return { section: section.section, formula, totals, sheet, lineOf: lineOf(file, section), label: file.settings };
}
