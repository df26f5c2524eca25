/** Builds the program as it ships and runs it as a person would: a real process, in a folder of its own. */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';
import { afterAll } from 'vitest';

const root = path.join(__dirname, '..', '..');
const folders: string[] = [];
let bundled: Promise<string> | undefined;

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A new folder, taken away after the tests of the file. */
export function folder(): string {
  const made = realpathSync(mkdtempSync(path.join(tmpdir(), 'proofsheet-')));
  folders.push(made);
  return made;
}

/** A folder with these files: texts, or bytes. */
export function workspace(files: Readonly<Record<string, string | Uint8Array>>): string {
  const made = folder();
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(made, name)), { recursive: true });
    writeFileSync(path.join(made, name), content);
  }
  return made;
}

/** The bundle, with the settings of the build that ships. */
export function program(): Promise<string> {
  bundled ??= (async () => {
    const outfile = path.join(folder(), 'cli.cjs');
    await build({
      absWorkingDir: root, entryPoints: ['server/cli.ts'], outfile, bundle: true, minify: true, platform: 'node', format: 'cjs',
      target: 'node20', mainFields: ['module', 'main'], logLevel: 'error',
    });
    return outfile;
  })();
  return bundled;
}

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

export interface Setting {
  readonly cwd?: string;
  readonly input?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  /** Called with the running process. */
  readonly during?: (child: ReturnType<typeof spawn>) => void;
}

export async function proofsheet(args: readonly string[], { cwd = root, input, env = {}, during }: Setting = {}): Promise<Ran> {
  const file = await program();
  const { NO_COLOR: _no, FORCE_COLOR: _force, ...outer } = process.env;
  return await new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [file, ...args], { cwd, env: { ...outer, TZ: 'Europe/Lisbon', ...env } });
    let [out, err] = ['', ''];
    child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, out, err }));
    // The program may end without reading all of it.
    child.stdin.on('error', () => undefined);
    child.stdin.end(input ?? '');
    during?.(child);
  });
}
