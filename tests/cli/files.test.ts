import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const GOOD = `formula "Plain loaf"
  makes     1 loaf of 850 g

dough
  500 g     bread flour
  340 g     water
  10 g      salt
  3 g       instant yeast
`;

const BAD = GOOD.replace('340 g', '340');

interface Checked {
  readonly files: readonly { readonly path: string; readonly findings: readonly { readonly code: string; readonly severity: string; readonly line: number; readonly column: number }[] }[];
}

const pathsOf = (out: string): readonly string[] => (JSON.parse(out) as Checked).files.map((file) => file.path);

describe('which files are read', () => {
  test('folders are walked for .bake files in order; hidden folders and node_modules are not', async () => {
    const cwd = workspace({
      'b.bake': GOOD, 'a.bake': GOOD, 'notes.txt': 'x', 'sub/deep/c.BAKE': GOOD,
      '.hidden/d.bake': GOOD, 'node_modules/m/e.bake': GOOD, 'sub/node_modules/f.bake': GOOD,
    });
    const { out, err } = await proofsheet(['check', '--json'], { cwd });
    expect(err).toBe('');
    expect(pathsOf(out)).toEqual(['a.bake', 'b.bake', 'sub/deep/c.BAKE']);
    expect(pathsOf((await proofsheet(['check', '--json', 'sub/'], { cwd })).out)).toEqual(['sub/deep/c.BAKE']);
    expect(pathsOf((await proofsheet(['check', '--json', './sub', 'b.bake'], { cwd })).out)).toEqual(['./sub/deep/c.BAKE', 'b.bake']);
  });

  test('a file named twice is read once, and one that is named needs no ending', async () => {
    const cwd = workspace({ 'a.bake': GOOD, 'loaf.txt': GOOD });
    const { out } = await proofsheet(['check', '--json', 'a.bake', '.', 'loaf.txt', './a.bake'], { cwd });
    expect(pathsOf(out)).toEqual(['a.bake', 'loaf.txt']);
  });

  test('links to folders are not followed, so a loop ends', async () => {
    const cwd = workspace({ 'book/a.bake': GOOD });
    symlinkSync(path.join(cwd, 'book'), path.join(cwd, 'book', 'again'));
    symlinkSync('a.bake', path.join(cwd, 'book', 'linked.bake'));
    symlinkSync('nothing', path.join(cwd, 'book', 'broken.bake'));
    const { out, status } = await proofsheet(['check', '--json', 'book'], { cwd });
    expect(pathsOf(out)).toEqual(['book/a.bake', 'book/linked.bake']);
    expect(status).toBe(0);
  });

  test('"-" is standard input', async () => {
    const { out, status } = await proofsheet(['check', '-', '--json'], { cwd: workspace({}), input: BAD });
    const { files } = JSON.parse(out) as Checked;
    expect(files).toHaveLength(1);
    expect(files[0]).toMatchObject({ path: '<stdin>', findings: [{ severity: 'error', line: 6, column: expect.any(Number) as number }] });
    expect(status).toBe(1);
  });

  test('a byte-order mark does not move the columns of the first line', async () => {
    const at = async (text: string): Promise<unknown> => {
      const { out } = await proofsheet(['check', '-', '--json'], { cwd: workspace({}), input: text });
      return (JSON.parse(out) as Checked).files[0]?.findings.map(({ code, line, column }) => ({ code, line, column }));
    };
    expect(await at('\uFEFFfromula "X"\n')).toEqual(await at('fromula "X"\n'));
  });
});

describe('what cannot be read is said by name, with exit status 2, and the rest is still checked', () => {
  test.each<readonly [string, string | Uint8Array, RegExp]>([
    ['not UTF-8', Uint8Array.from([0x64, 0x6f, 0x75, 0x67, 0x68, 0xe9, 0x0a]), /^odd\.bake is not in UTF-8\. Save it in that encoding\.$/m],
    ['binary', Uint8Array.from([0x50, 0x4b, 0x03, 0x04, 0x00, 0x00]), /^odd\.bake is not a text file\.$/m],
    ['far too large', 'a'.repeat(10_000_000), /^odd\.bake is larger than 2 MB, which no \.bake file is\.$/m],
  ])('%s', async (_what, content, sentence) => {
    const { status, out, err } = await proofsheet(['check', '--json', 'good.bake', 'odd.bake'], { cwd: workspace({ 'good.bake': GOOD, 'odd.bake': content }) });
    expect(err).toMatch(sentence);
    expect(pathsOf(out)).toEqual(['good.bake']);
    expect(status).toBe(2);
    const piped = await proofsheet(['check', '-'], { cwd: workspace({}), input: content });
    expect(piped.err).toMatch(new RegExp(sentence.source.replace('odd\\.bake', '<stdin>'), 'm'));
    expect(piped.status).toBe(2);
  });

  test('not there', async () => {
    const { status, err } = await proofsheet(['check', 'no\u001b[2Jsuch.bake'], { cwd: workspace({}) });
    expect(err).toBe('There is no file or folder no\uFFFD[2Jsuch.bake.\n');
    expect(status).toBe(2);
  });

  test('a folder without .bake files', async () => {
    const cwd = workspace({ 'empty/readme.txt': '' });
    expect(await proofsheet(['check', 'empty'], { cwd })).toEqual({ status: 2, out: '', err: 'There is no .bake file in the folder empty.\n' });
  });

  test('a file that may not be opened', async () => {
    const cwd = workspace({ 'a.bake': GOOD });
    mkdirSync(path.join(cwd, 'loop'));
    symlinkSync('self.bake', path.join(cwd, 'loop', 'self.bake'));
    const { status, err } = await proofsheet(['check', 'loop/self.bake'], { cwd });
    expect(err).toMatch(/^loop\/self\.bake cannot be read or written \(ELOOP\)\.$/m);
    expect(status).toBe(2);
  });
});

describe('check', () => {
  test('nothing found', async () => {
    const cwd = workspace({ 'a.bake': GOOD });
    const { status, err } = await proofsheet(['check', 'a.bake', '--fail-on', 'error'], { cwd });
    expect({ status, err }).toEqual({ status: 0, err: '' });
  });

  test('an error is printed with its line, and fails', async () => {
    const { status, out } = await proofsheet(['check', 'a.bake'], { cwd: workspace({ 'a.bake': BAD }) });
    expect(out).toMatch(/^a\.bake:6:\d+: error: .+ \([a-z-]+\)\n {2}6 \| {3}340 +water\n {4}\| +\^+\n/m);
    expect(out).toMatch(/1 error\b.* in 1 file\n$/);
    expect(status).toBe(1);
  });

  test('--fail-on decides what fails', async () => {
    const cwd = workspace({ 'a.bake': GOOD.replace('10 g ', '40 g ') });
    const { files } = JSON.parse((await proofsheet(['check', '--json'], { cwd })).out) as Checked;
    const severities = files.flatMap((file) => file.findings.map(({ severity }) => severity));
    expect(severities).toContain('warning');
    expect(severities).not.toContain('error');
    expect((await proofsheet(['check'], { cwd })).status).toBe(0);
    expect((await proofsheet(['check', '--fail-on', 'warning'], { cwd })).status).toBe(1);
    expect((await proofsheet(['check', '--fail-on=info'], { cwd })).status).toBe(1);
  });
});

describe('what a file uses', () => {
  const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';
  const USER = `use "../pantry.bake"\n\n${GOOD.replace('bread flour', 'mill flour')}`;

  test('comes from beside it, up to the top of its project', async () => {
    const cwd = workspace({ 'package.json': '{}', 'pantry.bake': PANTRY, 'loaves/plain.bake': USER });
    expect((await proofsheet(['check', 'loaves/plain.bake', '--fail-on', 'error'], { cwd })).status).toBe(0);
    expect((await proofsheet(['check', 'plain.bake'], { cwd: path.join(cwd, 'loaves') })).status).toBe(0);
  });

  test('of standard input comes from the current folder', async () => {
    const cwd = workspace({ 'package.json': '{}', 'pantry.bake': PANTRY, 'loaves/other.bake': GOOD });
    expect((await proofsheet(['check', '-'], { cwd: path.join(cwd, 'loaves'), input: USER })).status).toBe(0);
  });

  test('never from outside, whether by a path or by a link', async () => {
    const outside = workspace({ 'pantry.bake': PANTRY });
    const cwd = workspace({
      'book/proofsheet.json': '{}', 'pantry.bake': PANTRY, 'book/plain.bake': USER,
      'book/linked.bake': USER.replace('../pantry.bake', 'link.bake'),
    });
    symlinkSync(path.join(outside, 'pantry.bake'), path.join(cwd, 'book', 'link.bake'));
    for (const file of ['plain.bake', 'linked.bake']) {
      const { out, status } = await proofsheet(['check', '--json', file], { cwd: path.join(cwd, 'book') });
      expect(status).toBe(1);
      expect((JSON.parse(out) as Checked).files[0]?.findings.some(({ line, severity }) => line === 1 && severity === 'error')).toBe(true);
    }
  });
});

test('a reader that stops reading is no fault', async () => {
  const files = Object.fromEntries(Array.from({ length: 300 }, (_, i) => [`f${String(i)}.bake`, BAD]));
  const { status, err } = await proofsheet(['check'], { cwd: workspace(files), during: (child) => child.stdout?.destroy() });
  expect(err).toBe('');
  expect([0, 1]).toContain(status);
});

describe('colours', () => {
  const cwd = workspace({ 'a.bake': BAD });
  const ESCAPE = '\u001b[';

  test('none into a pipe', async () => {
    expect((await proofsheet(['check'], { cwd })).out).not.toContain(ESCAPE);
  });

  test('FORCE_COLOR brings them, and they add nothing else', async () => {
    const { out } = await proofsheet(['check'], { cwd, env: { FORCE_COLOR: '1' } });
    expect(out).toContain(`${ESCAPE}31merror:`);
    expect(out.replace(/\u001b\[\d+m/g, '')).toBe((await proofsheet(['check'], { cwd, env: { NO_COLOR: '1' } })).out);
  });
});

test('a file in a folder that may not be listed is said, and the others are checked', async () => {
  const cwd = workspace({ 'a.bake': GOOD, 'shut/b.bake': GOOD });
  chmodSync(path.join(cwd, 'shut'), 0o000);
  writeFileSync(path.join(cwd, 'c.bake'), GOOD);
  const { out, status, err } = await proofsheet(['check', '--json'], { cwd });
  chmodSync(path.join(cwd, 'shut'), 0o755);
  expect(pathsOf(out)).toEqual(expect.arrayContaining(['a.bake', 'c.bake']));
  // The one who may do everything is not stopped by permissions.
  const mayDoEverything = process.getuid?.() === 0;
  expect(status).toBe(mayDoEverything ? 0 : 2);
  expect(err).toMatch(mayDoEverything ? /^$/ : /^shut may not be read or written/);
});
