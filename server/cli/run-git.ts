/** The one place where git is run: with an argument array, never through a shell. */
import { execFile } from 'node:child_process';
import { Refusal } from './refusal';

export interface Ran {
  readonly status: number;
  readonly out: Buffer;
  readonly error: string;
  readonly isTooLong: boolean;
}

export interface GitRequest {
  /** Where it is asked; the current folder if left out. */
  readonly folder?: string;
  readonly mostBytes: number;
  /** What is said where there is no git. */
  readonly withoutGit: string;
}

/** English, since its words are read here; no question, no lock, nothing fetched. */
const SURROUNDINGS = { LC_ALL: 'C', GIT_TERMINAL_PROMPT: '0', GIT_OPTIONAL_LOCKS: '0', GIT_NO_LAZY_FETCH: '1' };

/** What git answers, whatever its exit status. @throws Refusal where git is missing */
export async function runGit(args: readonly string[], { folder, mostBytes, withoutGit }: GitRequest): Promise<Ran> {
  return await new Promise((resolve, reject) => {
    const options = { ...(folder !== undefined && { cwd: folder }), maxBuffer: mostBytes, windowsHide: true, env: { ...process.env, ...SURROUNDINGS } };
    execFile('git', [...args], { ...options, encoding: 'buffer' }, (error, out, err) => {
      const code: unknown = error === null ? 0 : error.code;
      if (code === 'ENOENT') {
        reject(new Refusal(withoutGit));
        return;
      }
      resolve({ status: typeof code === 'number' ? code : 1, out, error: err.toString('utf8'), isTooLong: code === 'ERR_CHILD_PROCESS_STDIO_MAXBUFFER' });
    });
  });
}
