/** Loads the files of a command line with everything they use, one after the other, and tells what each holds. */
import { readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Place } from '../core/formula/model';
import type { FormulaEntry } from '../output/entry';
import { byPlace, type PlacedFinding } from '../output/findings';
import { printable } from '../output/width';
import type { PlacedSection, ProjectFile } from '../project/file';
import { Project } from '../project/project';
import { LARGEST_BYTES, readSource, sourcesOf, type Source } from './files';
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

/** Folders that hold one of these are where a project begins: `use` does not reach out of it. */
const ROOT_MARKERS = ['.git', 'proofsheet.json', 'package.json'];

/** Nobody waits for less than this without wondering, ms. */
const SHOW_PROGRESS_AFTER_MS = 700;

/**
 * Every readable file of the command line (the current folder when it names none), in order. What cannot be read is said on the
 * terminal; the answer is how many that were.
 */
export async function eachDocument(
  options: Options, terminal: Terminal, stdin: Readable, visit: (document: Document) => void,
): Promise<{ readonly unreadable: number }> {
  const { sources, problems } = await sourcesOf(options.files.length === 0 ? ['.'] : options.files);
  for (const problem of problems) terminal.say(printable(problem));
  let unreadable = problems.length;
  const roots = await rootsOf(sources);
  const project = new Project({ reader: readerWithin(roots), roots: roots.map((root) => pathToFileURL(root).href) });
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
    const file = await project.prepare(uri);
    if (file !== undefined) visit({ shown: source.shown, file, path: source.file, bom: read.bom });
    project.close(uri);
  }
  terminal.progress('');
  return { unreadable };
}

/** The nearest folder upward that looks like the top of a project, of each file; where there is none, the folder that all share. */
async function rootsOf(sources: readonly Source[]): Promise<readonly string[]> {
  const folders = new Set(sources.map(({ file }) => (file === undefined ? process.cwd() : path.dirname(file))));
  const known = new Map<string, string | undefined>();
  const find = async (folder: string): Promise<string | undefined> => {
    if (known.has(folder)) return known.get(folder);
    let root: string | undefined;
    if (await holdsMarker(folder)) root = folder;
    else if (path.dirname(folder) !== folder) root = await find(path.dirname(folder));
    known.set(folder, root);
    return root;
  };
  const roots = new Set<string>();
  const rootless: string[] = [];
  for (const folder of folders) {
    const root = await find(folder);
    if (root === undefined) rootless.push(folder);
    else roots.add(root);
  }
  const [first, ...others] = rootless;
  if (first !== undefined) roots.add(others.reduce(commonFolder, first));
  return [...roots];
}

async function holdsMarker(folder: string): Promise<boolean> {
  for (const marker of ROOT_MARKERS) {
    if (await stat(path.join(folder, marker)).then(() => true, () => false)) return true;
  }
  return false;
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
        return new TextDecoder('utf-8', { fatal: true }).decode(await readFile(file));
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
      related: finding.related.map(({ place, message }) => ({ line: lineOf(file, section)(place), message })),
    };
  })).sort(byPlace);
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
