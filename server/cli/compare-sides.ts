/** The two versions that a command line means, read with all that they use: files, folders, revisions, standard input, and what a merge left. */
import { realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { hasConflict, sidesOfConflict, type ComparedFile } from '../core/compare';
import { printable } from '../output/width';
import { comparedFile } from '../project/compared';
import type { ProjectFile } from '../project/file';
import { isMarkdownName } from '../project/markdown';
import { Project, type Reader } from '../project/project';
import { readerWithin, rootsOf } from './documents';
import { cannotRead, readSource, slashes, sourcesOf, STDIN, STDIN_NAME, type Read } from './files';
import { atRevision, commitOf, filesAt, kindAt, repositoryAt, textAt, type Repository } from './git';
import { Refusal } from './refusal';

/** One version, ready to be compared. */
export interface Side {
  readonly shown: string;
  readonly files: readonly ComparedFile[];
  /** The files themselves, as the settings of their folders have them. */
  readonly loaded: readonly ProjectFile[];
}

/** A text and where it is taken to stand, which says what it uses. */
interface Text {
  /** By which it is matched with a file of the other version; '' where a version is one file. */
  readonly key: string;
  /** Absolute. */
  readonly file: string;
  readonly text: string;
  /** A merge left two versions in it, and `text` is the first of them. */
  readonly isOneOfTwo?: true;
}

export interface Given {
  readonly shown: string;
  readonly texts: readonly Text[];
  readonly reader: Reader;
  readonly roots: readonly string[];
  /** The version is one file, which may bear the marks of a merge. */
  readonly isFile: boolean;
  /** It lies on the disk, so that there may be a committed version beside it. */
  readonly isOnDisk?: true;
}

/** Nothing: the side of a file that is new, or gone. */
export const NOTHING: Given = { shown: 'nothing', texts: [], reader: { read: () => Promise.resolve(undefined) }, roots: [], isFile: false };

/** Parses and computes a version. */
export async function loaded({ shown, texts, reader, roots }: Given): Promise<Side> {
  const project = new Project({ reader, roots: roots.map((root) => pathToFileURL(root).href) });
  const files: ComparedFile[] = [];
  const projectFiles: ProjectFile[] = [];
  for (const { file, text } of texts) project.update(pathToFileURL(file).href, text, isMarkdownName(file) || undefined);
  for (const { key, file } of texts) {
    const read = await project.prepare(pathToFileURL(file).href);
    if (read === undefined) continue;
    projectFiles.push(read);
    files.push(comparedFile(read, key));
  }
  return { shown, files, loaded: projectFiles };
}

// --- from the command line --------------------------------------------------------------------------------------------

/** @throws Refusal in one sentence for what is not there or cannot be read. */
export async function given(argument: string, stdin: Readable): Promise<Given> {
  if (argument === '/dev/null' || argument === 'nul') return NOTHING;
  if (argument === STDIN) return await givenFile(STDIN_NAME, path.resolve('standard input.bake'), await readSource({ shown: STDIN_NAME, file: undefined }, stdin));
  const isThere = await stat(argument).then(() => true, () => false);
  const revision = isThere ? undefined : atRevision(argument);
  if (revision !== undefined) return await givenRevision(revision, argument);
  return await givenPath(argument, stdin);
}

async function givenPath(argument: string, stdin: Readable): Promise<Given> {
  const shown = slashes(argument);
  const at = path.resolve(argument);
  const isFolder = await stat(at).then((found) => found.isDirectory(), (error: unknown) => {
    throw new Refusal(cannotRead(shown, error));
  });
  if (!isFolder) return { ...await givenFile(shown, at, await readSource({ shown, file: at }, stdin)), isOnDisk: true };
  const { sources, problems } = await sourcesOf([argument]);
  if (problems[0] !== undefined && sources.length > 0) throw new Refusal(problems[0]);
  const texts: Text[] = [];
  for (const source of sources) {
    const file = source.file ?? at;
    texts.push({ key: slashes(path.relative(at, file)), file, ...inOneText(textIn(await readSource(source, stdin))) });
  }
  const roots = await rootsOf([{ shown, file: path.join(at, 'any.bake') }]);
  return { shown, texts, reader: readerWithin(roots), roots, isFile: false, isOnDisk: true };
}

async function givenFile(shown: string, file: string, read: Read): Promise<Given> {
  return givenText(shown, file, textIn(read));
}

/** A text as if it stood at a path. */
export async function givenText(shown: string, file: string, text: string): Promise<Given> {
  const roots = await rootsOf([{ shown, file }]);
  return { shown, texts: [{ key: '', file, text }], reader: readerWithin(roots), roots, isFile: true };
}

/** @param folder where git is asked; the current one if it is left out */
export async function givenRevision({ revision, path: wanted }: { readonly revision: string; readonly path: string }, shown: string, folder = process.cwd()): Promise<Given> {
  const repository = await repositoryAt(folder);
  const commit = await commitOf(repository, revision);
  // As git has it, from the top; failing that, as somebody in a folder means it. Without a path, the folder they are in.
  const candidates = wanted === '' ? [repository.prefix] : wanted.startsWith('./') ? [repository.prefix + wanted] : [wanted, repository.prefix + wanted];
  for (const candidate of candidates) {
    const from = path.posix.normalize(candidate === '' ? '.' : candidate).replace(/\/$/, '').replace(/^\.$/, '');
    if (from.startsWith('..')) continue;
    const kind = from === '' ? 'folder' : await kindAt(repository, commit, from);
    if (kind === 'nothing') continue;
    const reader = readerAt(repository, commit);
    const roots = [repository.top];
    const place = (file: string): string => path.join(repository.top, file);
    if (kind === 'file') {
      return { shown, texts: [{ key: '', file: place(from), text: textIn(await textAt(repository, commit, from, shown)) }], reader, roots, isFile: true };
    }
    const texts: Text[] = [];
    for (const file of await filesAt(repository, commit, from)) {
      if (!/\.bake$/i.test(file) || file.split('/').some((part) => part === 'node_modules' || part.startsWith('.'))) continue;
      const key = from === '' ? file : file.slice(from.length + 1);
      texts.push({ key, file: place(file), ...inOneText(textIn(await textAt(repository, commit, file, `${revision}:${file}`))) });
    }
    return { shown, texts, reader, roots, isFile: false };
  }
  throw new Refusal(`There is no ${wanted} in ${revision}. Was it called otherwise then? "git log --follow" tells.`);
}

/** Reads what a file uses as it was in a commit. */
function readerAt(repository: Repository, commit: string): Reader {
  return {
    async read(uri) {
      const wanted = slashes(path.relative(repository.top, fileURLToPath(uri)));
      if (wanted.startsWith('..') || path.isAbsolute(wanted) || (await kindAt(repository, commit, wanted)) !== 'file') return undefined;
      const read = await textAt(repository, commit, wanted, wanted);
      return read.kind === 'text' ? read.text : undefined;
    },
  };
}

/** The version of a file, or of a folder, that was committed last. @throws Refusal */
export async function committed(argument: string): Promise<Given> {
  const shown = slashes(argument);
  const at = await realpath(argument).catch((error: unknown) => {
    throw new Refusal(cannotRead(shown, error));
  });
  const isFolder = (await stat(at)).isDirectory();
  return await givenRevision({ revision: 'HEAD', path: isFolder ? '' : `./${path.basename(at)}` }, `HEAD:${shown}`, isFolder ? at : path.dirname(at));
}

function textIn(read: Read): string {
  if (read.kind === 'unreadable') throw new Refusal(printable(read.sentence));
  return read.text;
}

// --- what a merge left ------------------------------------------------------------------------------------------------

/** The two versions in one file; undefined where there are no marks of a merge in it. */
export function conflictSides(given: Given): readonly [Given, Given] | undefined {
  const [only] = given.texts;
  const sides = given.isFile && only !== undefined ? sidesOfConflict(only.text) : undefined;
  if (sides === undefined || only === undefined) return undefined;
  const side = (text: string, name: string): Given => ({ ...given, shown: name === '' ? given.shown : name, texts: [{ ...only, text }] });
  return [side(sides.ours, sides.oursName), side(sides.theirs, sides.theirsName)];
}

/** In a folder, the first of the two counts: the marks themselves are no lines of a formula. */
function inOneText(text: string): Pick<Text, 'text' | 'isOneOfTwo'> {
  const sides = hasConflict(text) ? sidesOfConflict(text) : undefined;
  return sides === undefined ? { text } : { text: sides.ours, isOneOfTwo: true };
}
