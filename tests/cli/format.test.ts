import { chmodSync, lstatSync, readFileSync, readdirSync, statSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const UNTIDY = 'dough\n\t500 g bread flour   # from the mill\n\t340 g   water\n';
const read = (...names: readonly string[]): string => readFileSync(path.join(...names), 'utf8');

async function tidy(): Promise<string> {
  return (await proofsheet(['format', '-'], { input: UNTIDY })).out;
}

describe('format', () => {
  test('prints one file as it would be, and leaves it alone', async () => {
    const cwd = workspace({ 'a.bake': UNTIDY });
    const { status, out, err } = await proofsheet(['format', 'a.bake'], { cwd });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe(await tidy());
    expect(out).toMatch(/^dough\n {2}500 g +bread flour +# from the mill\n {2}340 g +water\n$/);
    expect(read(cwd, 'a.bake')).toBe(UNTIDY);
  });

  test('several files are not run together', async () => {
    const cwd = workspace({ 'a.bake': UNTIDY, 'b.bake': UNTIDY });
    const { status, out, err } = await proofsheet(['format', '.'], { cwd });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(/^Those are 2 files, and only one can be printed\./);
  });

  test('--check names what would change and changes nothing', async () => {
    const cwd = workspace({ 'tidy.bake': await tidy(), 'untidy.bake': UNTIDY });
    const { status, out } = await proofsheet(['format', '--check'], { cwd });
    expect({ status, out }).toEqual({ status: 1, out: 'untidy.bake\n' });
    expect(read(cwd, 'untidy.bake')).toBe(UNTIDY);
    expect(await proofsheet(['format', '--check', 'tidy.bake'], { cwd })).toEqual({ status: 0, out: '', err: '' });
    expect((await proofsheet(['format', '--check', '-'], { cwd, input: UNTIDY })).status).toBe(1);
  });

  test('--write rewrites only what changes, keeps its permissions and leaves nothing else behind', async () => {
    const cwd = workspace({ 'tidy.bake': await tidy(), 'untidy.bake': UNTIDY });
    chmodSync(path.join(cwd, 'untidy.bake'), 0o640);
    const before = statSync(path.join(cwd, 'tidy.bake'));
    const { status, out, err } = await proofsheet(['format', '--write'], { cwd });
    expect({ status, out, err }).toEqual({ status: 0, out: '', err: '1 rewritten, of 2 files.\n' });
    expect(read(cwd, 'untidy.bake')).toBe(await tidy());
    expect(statSync(path.join(cwd, 'untidy.bake')).mode & 0o777).toBe(0o640);
    const after = statSync(path.join(cwd, 'tidy.bake'));
    expect([after.ino, after.mtimeMs]).toEqual([before.ino, before.mtimeMs]);
    expect(readdirSync(cwd).sort()).toEqual(['tidy.bake', 'untidy.bake']);
    expect((await proofsheet(['format', '--write'], { cwd })).err).toBe('Nothing to change, of 2 files.\n');
  });

  test('--write takes the place of the file whole: whoever has the old one open keeps it', async () => {
    const cwd = workspace({ 'a.bake': UNTIDY });
    const before = statSync(path.join(cwd, 'a.bake')).ino;
    await proofsheet(['format', '--write', 'a.bake'], { cwd });
    expect(statSync(path.join(cwd, 'a.bake')).ino).not.toBe(before);
  });

  test('a link stays a link, and what it points to is rewritten', async () => {
    const cwd = workspace({ 'real/a.bake': UNTIDY });
    symlinkSync(path.join('real', 'a.bake'), path.join(cwd, 'link.bake'));
    await proofsheet(['format', '--write', 'link.bake'], { cwd });
    expect(lstatSync(path.join(cwd, 'link.bake')).isSymbolicLink()).toBe(true);
    expect(read(cwd, 'real', 'a.bake')).toBe(await tidy());
  });

  test('a byte-order mark stays', async () => {
    const cwd = workspace({ 'a.bake': `\uFEFF${UNTIDY}` });
    await proofsheet(['format', '--write', 'a.bake'], { cwd });
    expect(read(cwd, 'a.bake')).toBe(`\uFEFF${await tidy()}`);
  });
});
