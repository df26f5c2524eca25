/** Which files have changed since a revision, by git. */
import { realpathSync } from 'node:fs';
import path from 'node:path';
import { Refusal } from '../refusal';
import { runGit } from '../run-git';

/** What git knows of a working tree. */
export interface ChangedFiles {
  /** The real path of the top of the repository. */
  readonly top: string;
  /** Real paths of files that were changed, made, renamed (under both names) or deleted, and of submodules in which something was. */
  readonly paths: ReadonlySet<string>;
}

/**
 * Files of the repository that the current folder is in which differ from the revision, saved and committed or not, new ones that
 * git does not ignore among them.
 *
 * @throws Refusal where there is no git, no repository or no such revision
 */
export async function changedSince(revision: string): Promise<ChangedFiles> {
  // What begins like this would be read as an option of git, and no revision can.
  if (revision.startsWith('-')) throw new Refusal(`--changed-since takes a revision, such as main or HEAD~1, not "${revision}".`);
  const top = (await git(['rev-parse', '--show-toplevel'])).replace(/\n$/, '');
  const commit = (await git(['rev-parse', '--verify', '--quiet', `${revision}^{commit}`], () => (
    `There is no revision "${revision}" in this repository, so nobody can say what has changed since. A copy that was fetched in part may lack it: fetch it first.`
  ))).trim();
  const differing = await git(['-C', top, 'diff', '--name-only', '-z', '--no-renames', '--no-ext-diff', '--ignore-submodules=none', commit, '--']);
  const untracked = await git(['-C', top, 'ls-files', '--others', '--exclude-standard', '-z']);
  const paths = `${differing}${untracked}`.split('\0').filter((name) => name !== '');
  return { top: realPath(path.resolve(top)), paths: new Set(paths.map((name) => path.join(realPath(path.resolve(top)), ...name.replace(/\/$/, '').split('/')))) };
}

/** Whether a file has changed; one outside of the repository may have, for all that git knows. */
export function isChanged({ top, paths }: ChangedFiles, file: string): boolean {
  // A link changes with what it leads to, and when it leads elsewhere.
  return [path.join(realPath(path.dirname(file)), path.basename(file)), realPath(file)].some((real) => {
    if (!real.startsWith(top.endsWith(path.sep) ? top : top + path.sep)) return true;
    for (let above = real; above.length > top.length; above = path.dirname(above)) if (paths.has(above)) return true;
    return false;
  });
}

/** The path without links; of what is not there, as far as there is something. */
function realPath(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    const above = path.dirname(file);
    return above === file ? file : path.join(realPath(above), path.basename(file));
  }
}

/** Larger than the list of all files of any repository. */
const MOST_BYTES = 1_000_000_000;

async function git(args: readonly string[], whyNot?: () => string): Promise<string> {
  const { status, out, error, isTooLong } = await runGit(args, { mostBytes: MOST_BYTES, withoutGit: WITHOUT_GIT });
  if (status === 0 && !isTooLong) return out.toString('utf8');
  throw new Refusal(whyGitFailed(error, isTooLong, whyNot));
}

const WITHOUT_GIT = '--changed-since asks git what has changed, and git was not found. Install it, or leave the option out to check everything.';

function whyGitFailed(said: string, isTooLong: boolean, whyNot: (() => string) | undefined): string {
  if (isTooLong) return 'git cannot say what has changed: its list is longer than 1 GB. Leave the option out to check everything.';
  if (/not a git repository/.test(said)) return '--changed-since asks git what has changed, and this folder is in no git repository. Leave the option out to check everything.';
  const first = said.trim().split('\n')[0] ?? '';
  if (whyNot !== undefined && first === '') return whyNot();
  return `git cannot say what has changed${first === '' ? '.' : `: ${first}`}`;
}
