/** `check --baseline`: an old repository begins with no findings, and hears of what is new. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const loaf = (name: string, ...lines: readonly string[]): string => `formula "${name}"

dough
  1000 g    bread flour
  700 g     water
${lines.map((line) => `  ${line}\n`).join('')}  3 g       instant yeast
`;
const SALTY = loaf('Country loaf', '40 g      salt');

describe('a baseline', () => {
  test('takes in what is found, and is nothing to fail for', async () => {
    const cwd = workspace({ 'a.bake': SALTY, 'sub/b.bake': loaf('Oat loaf', '40       salt') });
    const { status, out, err } = await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    expect({ status, out, err }).toEqual({
      status: 0, out: '', err: 'known.json lists 2 findings in 2 files. Leave them out with: proofsheet check --baseline known.json\n',
    });
    expect(JSON.parse(readFileSync(path.join(cwd, 'known.json'), 'utf8'))).toEqual({
      version: 1,
      files: [
        { path: 'a.bake', findings: [{ code: 'salt-high', formula: 'Country loaf', line: '40 g salt', count: 1 }] },
        { path: 'sub/b.bake', findings: [{ code: 'needs-a-weight', formula: 'Oat loaf', line: '40 salt', count: 1 }] },
      ],
    });
    const after = await proofsheet(['check', '--baseline', 'known.json'], { cwd });
    expect(after).toEqual({ status: 0, out: 'no findings in 2 files\n', err: '2 findings that known.json lists are left out.\n' });
    expect(readdirSync(cwd).sort()).toEqual(['a.bake', 'known.json', 'sub']);
  });

  test('holds wherever the line goes in its file and wherever one stands, and no longer once the line says something else', async () => {
    const cwd = workspace({ 'ci/x': '', 'a.bake': SALTY });
    await proofsheet(['check', '--write-baseline', 'ci/known.json'], { cwd });
    writeFileSync(path.join(cwd, 'a.bake'), `# New at the top.\n\n${SALTY.replace('  40 g      salt', '     40 g   salt')}`);
    expect((await proofsheet(['check', '--baseline', 'ci/known.json'], { cwd })).out).toBe('no findings in 1 file\n');
    expect((await proofsheet(['check', '..', '--baseline', 'known.json'], { cwd: path.join(cwd, 'ci') })).out).toBe('no findings in 1 file\n');
    writeFileSync(path.join(cwd, 'a.bake'), SALTY.replace('40 g', '41 g'));
    const { out, err, status } = await proofsheet(['check', '--baseline', 'ci/known.json', '--fail-on', 'warning'], { cwd });
    expect(out).toContain('(salt-high)');
    expect(err).toBe('ci/known.json lists 1 finding that is no longer there. To make it shorter: proofsheet check --write-baseline ci/known.json\n');
    expect(status).toBe(1);
  });

  test('counts: a second same slip is told', async () => {
    const cwd = workspace({ 'a.bake': loaf('Country loaf', '20 g      salt', '5 g       saffron') });
    await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    writeFileSync(path.join(cwd, 'a.bake'), loaf('Country loaf', '20 g      salt', '5 g       saffron', '5 g       saffron'));
    const { out, err } = await proofsheet(['check', '--baseline', 'known.json'], { cwd });
    expect(out).toMatch(/^a\.bake:8:.*\(unknown-ingredient\)$/m);
    expect(out).toMatch(/^1 warning in 1 file$/m);
    expect(err).toBe('1 finding that known.json lists is left out.\n');
  });

  test('the same line in another formula, or another file, is another finding', async () => {
    const cwd = workspace({ 'a.bake': SALTY });
    await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    writeFileSync(path.join(cwd, 'a.bake'), SALTY.replace('Country', 'Village'));
    writeFileSync(path.join(cwd, 'b.bake'), SALTY);
    expect((await proofsheet(['check', '--baseline', 'known.json'], { cwd })).out).toMatch(/^2 warnings in 2 files$/m);
  });

  test('entries of files that are gone are told, those of files that were not looked at are not', async () => {
    const cwd = workspace({ 'a.bake': SALTY, 'b.bake': SALTY });
    await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    expect((await proofsheet(['check', 'a.bake', '--baseline', 'known.json'], { cwd })).err).toBe('1 finding that known.json lists is left out.\n');
    rmSync(path.join(cwd, 'b.bake'));
    expect((await proofsheet(['check', 'a.bake', '--baseline', 'known.json'], { cwd })).err).toContain('known.json lists 1 finding that is no longer there.');
  });

  test('written again, it keeps what it knew of files that were not looked at, and nothing of those that are gone', async () => {
    const cwd = workspace({ 'a.bake': SALTY, 'b.bake': SALTY, 'c.bake': SALTY });
    await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    rmSync(path.join(cwd, 'c.bake'));
    writeFileSync(path.join(cwd, 'a.bake'), loaf('Country loaf', '20 g      salt'));
    const { err } = await proofsheet(['check', 'a.bake', '--write-baseline', 'known.json'], { cwd });
    expect(err).toMatch(/^known\.json lists 1 finding in 1 file\./);
    expect(readFileSync(path.join(cwd, 'known.json'), 'utf8')).toMatch(/"path": "b\.bake"/);
  });

  test('leaves standard input alone, and takes settings in', async () => {
    const cwd = workspace({ 'a.bake': loaf('Country loaf', '20 g      salt'), 'proofsheet.json': '{ "limit": {} }' });
    await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    expect((await proofsheet(['check', '--baseline', 'known.json'], { cwd })).out).toBe('no findings in 2 files\n');
    expect((await proofsheet(['check', '-', '--baseline', 'known.json'], { cwd, input: SALTY })).out).toContain('(salt-high)');
  });

  test('is not written when a file cannot be read, for nobody knows what is in it', async () => {
    const cwd = workspace({ 'a.bake': SALTY, 'odd.bake': Uint8Array.from([0xe9, 0x0a]) });
    const { status, err } = await proofsheet(['check', '--write-baseline', 'known.json'], { cwd });
    expect(status).toBe(2);
    expect(err).toContain('known.json was not written, for 1 file could not be read, and what is in it is not known.');
    expect(existsSync(path.join(cwd, 'known.json'))).toBe(false);
  });
});

describe('a baseline that cannot be read ends the run with a sentence and status 2, and stays as it is', () => {
  test.each([
    ['not JSON', '{ "version": 1, "files": [\n<<<<<<< ours\n', /^known\.json is no baseline that can be read: it is no JSON \(.+\)\. Nothing was checked, and the file is left as it is\./],
    ['another shape', '[]', /it has no "version"\./],
    ['a version of the future', '{ "version": 2, "files": [] }', /its version is 2, and this program knows 1\./],
    ['entries without a count', '{ "version": 1, "files": [{ "path": "a.bake", "findings": [{ "code": "salt-high", "formula": "", "line": "x", "count": 0 }] }] }', /its "files" are not a list/],
    ['empty', '', /it is no JSON/],
  ])('%s', async (_what, text, sentence) => {
    const cwd = workspace({ 'a.bake': SALTY, 'known.json': text });
    for (const option of ['--baseline', '--write-baseline']) {
      const { status, out, err } = await proofsheet(['check', option, 'known.json'], { cwd });
      expect({ status, out }).toEqual({ status: 2, out: '' });
      expect(err).toMatch(sentence);
      expect(readFileSync(path.join(cwd, 'known.json'), 'utf8')).toBe(text);
    }
  });

  test('one that is not there, or is a folder', async () => {
    const cwd = workspace({ 'a.bake': SALTY });
    mkdirSync(path.join(cwd, 'folder'));
    expect(await proofsheet(['check', '--baseline', 'no.json'], { cwd })).toEqual({ status: 2, out: '', err: 'There is no file or folder no.json.\n' });
    expect((await proofsheet(['check', '--baseline', 'folder'], { cwd })).err).toBe('folder is a folder, and a baseline is a file.\n');
    expect((await proofsheet(['check', '--write-baseline', 'folder'], { cwd })).status).toBe(2);
    expect(await proofsheet(['check', '--write-baseline', 'no/such.json'], { cwd })).toEqual({ status: 2, out: '', err: 'There is no folder no.\n' });
  });

  test('a file of the name of what every object has is a file like any other', async () => {
    const cwd = workspace({ '__proto__.bake': SALTY, 'constructor': SALTY });
    await proofsheet(['check', '.', 'constructor', '--write-baseline', 'known.json'], { cwd });
    expect((await proofsheet(['check', '.', 'constructor', '--baseline', 'known.json'], { cwd })).out).toBe('no findings in 2 files\n');
  });
});
