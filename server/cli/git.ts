/** What an earlier version of a file said, as git has it. */
import path from 'node:path';
import { LARGEST_BYTES, textOf, type Read } from './files';
import { Refusal } from './refusal';
import { runGit, type Ran } from './run-git';

/** `REV:path`, where the path may be empty for everything. */
export interface AtRevision {
  readonly revision: string;
  readonly path: string;
}

/** A revision never begins as an option does, and has nothing in it that git names no revision with (git-check-ref-format, gitrevisions). */
const REVISION = /^[^-\s:][^\s:\\?*[]*$/;

/** `REV:path` taken apart; undefined for what is none, such as a file on a drive. */
export function atRevision(argument: string): AtRevision | undefined {
  const colon = argument.indexOf(':');
  const revision = argument.slice(0, colon);
  const wanted = argument.slice(colon + 1).replaceAll('\\', '/').replace(/\/+$/, '');
  // On Windows one letter before a colon is a drive.
  if (colon < (process.platform === 'win32' ? 2 : 1) || !REVISION.test(revision) || hasControl(argument)) return undefined;
  return { revision, path: wanted };
}

function hasControl(text: string): boolean {
  return [...text].some((character) => character < ' ' || character === '\u007f');
}

export interface Repository {
  /** Absolute; `/` between folders. */
  readonly top: string;
  /** The way from there to the folder that was asked from, with a `/` at its end, or empty. */
  readonly prefix: string;
}

/** @throws Refusal where git is missing, or the folder is in no repository. */
export async function repositoryAt(folder: string): Promise<Repository> {
  const asked = await git(folder, ['rev-parse', '--show-toplevel', '--show-prefix']);
  if (asked.status !== 0) {
    if (asked.error.includes('dubious ownership')) throw new Refusal('git does not trust this folder, for it belongs to somebody else. "git help safe.directory" says what to do.');
    throw new Refusal('This folder is in no git repository, so there are no earlier versions here. Name two files instead.');
  }
  const [top = '', prefix = ''] = asked.out.toString('utf8').split('\n');
  return { top, prefix };
}

/** The full id of what a revision names. @throws Refusal where there is none. */
export async function commitOf({ top }: Repository, revision: string): Promise<string> {
  const { status, out } = await git(top, ['rev-parse', '--verify', '--quiet', `${revision}^{commit}`]);
  if (status !== 0) throw new Refusal(`There is no revision ${revision} in this repository. "git log --oneline" lists those there are.`);
  return out.toString('utf8').trim();
}

/** What stands at a path of a commit: a file, a folder or nothing. The path is from the top, `/` between folders. */
export async function kindAt({ top }: Repository, commit: string, wanted: string): Promise<'file' | 'folder' | 'nothing'> {
  const { status, out } = await git(top, ['cat-file', '-t', `${commit}:${wanted}`]);
  const kind = status === 0 ? out.toString('utf8').trim() : '';
  return kind === 'blob' ? 'file' : kind === 'tree' ? 'folder' : 'nothing';
}

/** Paths of all files of a commit in a folder, from the top of the repository. */
export async function filesAt({ top }: Repository, commit: string, folder: string): Promise<readonly string[]> {
  const { out } = await git(top, ['ls-tree', '-r', '-z', '--name-only', '--full-tree', commit, ...(folder === '' ? [] : ['--', `${folder}/`])]);
  return out.toString('utf8').split('\0').filter((name) => name !== '');
}

/** The text of a file of a commit, as that of a file on disk is read. @param shown what it is called in a sentence */
export async function textAt({ top }: Repository, commit: string, wanted: string, shown: string): Promise<Read> {
  const { status, out, isTooLong } = await git(top, ['show', '--no-textconv', `${commit}:${wanted}`]);
  if (isTooLong) return textOf(new Uint8Array(LARGEST_BYTES + 1), shown);
  return status === 0 ? textOf(out, shown) : { kind: 'unreadable', sentence: `There is no ${shown}.` };
}

/** Folders, from the top of the repository, in which git keeps a file of that name. */
export async function foldersOf({ top }: Repository, name: string): Promise<readonly string[]> {
  const { out } = await git(top, ['ls-files', '-z', '--', `:(top,glob)**/${name.replace(/[[\]*?\\]/g, '?')}`]);
  return [...new Set(out.toString('utf8').split('\0').filter((file) => path.posix.basename(file) === name).map((file) => path.posix.dirname(file)))];
}

const WITHOUT_GIT = 'git is not installed, or not on the PATH, so no earlier version can be read. Install git, or name two files.';

function git(folder: string, args: readonly string[]): Promise<Ran> {
  return runGit(args, { folder, mostBytes: LARGEST_BYTES + 1, withoutGit: WITHOUT_GIT });
}
