/**
 * Other editors, as the README sets them up: what it shows is run in the editor itself, which opens a formula with a slip and tells what it
 * has found. Where the editor is not installed, the test says how to get it.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { serverBundle } from './editor';

const ROOT = path.join(import.meta.dirname, '..', '..');
const SERVER = '/path/to/proofsheet/dist/server.cjs';

const SLIP = '# é 漢 👩‍🍳\nformula "Loaf"\n  makes 1 loaf of 850 g\n\ndough\n  500 g bread flour\n  350 g water\n  é漢👩‍🍳, 2,5 g salt\n  2,5 g salt\n';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-editor-'));
  writeFileSync(path.join(folder, 'slip.bake'), SLIP);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The set-up of an editor as the README shows it, for the server that is tested. */
async function setUp(language: string, name: string): Promise<string> {
  const shown = new RegExp(`\`\`\`${language}\n([^]*?)\`\`\``).exec(readFileSync(path.join(ROOT, 'README.md'), 'utf8'))?.[1];
  if (shown?.includes(SERVER) !== true) throw new Error(`README.md shows no ${language} with ${SERVER}`);
  const file = path.join(folder, name);
  writeFileSync(file, shown.replaceAll(SERVER, await serverBundle()));
  return file;
}

interface Found {
  readonly diagnostics: readonly { readonly code?: string; readonly message: string; readonly line: number; readonly column: number; readonly endColumn: number }[];
  readonly hover: string;
}

function run(program: string, args: readonly string[]): Found {
  const { stdout, stderr, status } = spawnSync(program, args, { cwd: folder, encoding: 'utf8', env: { ...process.env, HOME: folder, XDG_CONFIG_HOME: folder } });
  const found = /^FOUND (.*)$/m.exec(stdout)?.[1];
  if (found === undefined) throw new Error(`${program} ended with ${status} and told nothing\n${stdout}\n${stderr}`);
  return JSON.parse(found) as Found;
}

function isThere(program: string, args: readonly string[], howToGetIt: string): boolean {
  const there = spawnSync(program, args, { stdio: 'ignore' }).status === 0;
  if (!there) console.warn(`${program} is not installed, so nothing was tried in it. On Debian: ${howToGetIt}`);
  return there;
}

const EGLOT = ['--batch', '--eval', '(progn (package-initialize) (require \'eglot))'];

/** Of the flour at the cursor. */
const HOVER = /^\*\*Bread flour\b[^]*\| protein \| 12 g \|/;

it.runIf(isThere('nvim', ['--version'], 'apt-get install neovim'))('Neovim shows findings and hovers', async () => {
  const config = await setUp('lua', 'init.lua');
  const { diagnostics, hover } = run('nvim', ['--headless', '-n', '-u', config, 'slip.bake', '-c', `luafile ${path.join(import.meta.dirname, 'editors', 'neovim.lua')}`]);
  // Columns of Neovim count bytes.
  expect(diagnostics).toContainEqual(expect.objectContaining({ code: 'comma-decimal', line: 8, column: 2, endColumn: 5 }));
  expect(hover).toMatch(HOVER);
});

it.runIf(isThere('emacs', EGLOT, 'apt-get install emacs-nox elpa-eglot'))('Emacs with Eglot shows findings and hovers', async () => {
  const config = await setUp('elisp', 'init.el');
  const { diagnostics, hover } = run('emacs', ['--batch', '--eval', '(package-initialize)', '-l', config, '-l', path.join(import.meta.dirname, 'editors', 'emacs.el'), 'slip.bake']);
  expect(diagnostics).toContainEqual(expect.objectContaining({ message: expect.stringContaining('Write 2.5 with a point'), line: 8, column: 2, endColumn: 5 }));
  expect(hover).toMatch(HOVER);
});
