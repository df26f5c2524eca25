/** `check --changed-since`: what a change touches, and what uses it. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const loaf = (name: string, uses = ''): string => `${uses === '' ? '' : `use "${uses}"\n\n`}formula "${name}"

dough
  1000 g    bread flour
  700 g     water
  40 g      salt
`;

const PANTRY = 'ingredient "river flour"\n  like      bread flour\n';

function git(cwd: string, ...args: readonly string[]): string {
  return execFileSync('git', ['-c', 'user.name=Tomas', '-c', 'user.email=tomas@bakery.example', '-c', 'commit.gpgsign=false', '-c', 'protocol.file.allow=always', ...args], { cwd, encoding: 'utf8' });
}

/** A repository with these files in its one commit. */
function repository(files: Readonly<Record<string, string>>): string {
  const cwd = workspace(files);
  git(cwd, 'init', '--quiet', '--initial-branch=main');
  commit(cwd);
  return cwd;
}

function commit(cwd: string): void {
  git(cwd, 'add', '--all');
  git(cwd, 'commit', '--quiet', '--message', 'Loaves');
}

async function looked(cwd: string, ...args: readonly string[]): Promise<readonly string[]> {
  const { out, err } = await proofsheet(['check', '--json', '--changed-since', 'HEAD', ...args], { cwd });
  expect(err).toMatch(/^(None of the files, .*\n)?$/);
  return (JSON.parse(out) as { readonly files: readonly { readonly path: string }[] }).files.map((file) => file.path);
}

describe('only what has changed', () => {
  test('nothing, when nothing has', async () => {
    const cwd = repository({ 'a.bake': loaf('A') });
    expect(await looked(cwd)).toEqual([]);
    expect(await proofsheet(['check', '--changed-since', 'main'], { cwd })).toEqual({
      status: 0, out: '', err: 'None of the files, nor anything that they use, has changed since main, so nothing was checked.\n',
    });
  });

  test('saved, staged and committed', async () => {
    const cwd = repository({ 'a.bake': loaf('A'), 'b.bake': loaf('B'), 'c.bake': loaf('C'), 'd.bake': loaf('D') });
    writeFileSync(path.join(cwd, 'a.bake'), loaf('AA'));
    commit(cwd);
    writeFileSync(path.join(cwd, 'b.bake'), loaf('BB'));
    git(cwd, 'add', 'b.bake');
    writeFileSync(path.join(cwd, 'c.bake'), loaf('CC'));
    expect(await looked(cwd)).toEqual(['b.bake', 'c.bake']);
    expect(await looked(cwd, '--changed-since', 'HEAD~1')).toEqual(['a.bake', 'b.bake', 'c.bake']);
  });

  test('what is new and not yet known to git, but for what it is told to ignore', async () => {
    const cwd = repository({ 'a.bake': loaf('A'), '.gitignore': 'scratch/\n' });
    writeFileSync(path.join(cwd, 'new.bake'), loaf('New'));
    mkdirSync(path.join(cwd, 'scratch'));
    writeFileSync(path.join(cwd, 'scratch', 'x.bake'), loaf('X'));
    expect(await looked(cwd)).toEqual(['new.bake']);
  });

  test('files that use a changed one, by any number of steps; one that was deleted or renamed, too', async () => {
    const files = { 'a.bake': loaf('A', 'mid.bake'), 'mid.bake': loaf('M', 'sub/pantry.bake'), 'sub/pantry.bake': PANTRY, 'z.bake': loaf('Z'), 'y.bake': loaf('Y', 'sub/other.bake'), 'sub/other.bake': loaf('O') };
    const cwd = repository(files);
    writeFileSync(path.join(cwd, 'sub', 'pantry.bake'), `${PANTRY}  protein   11 %\n`);
    expect(await looked(cwd)).toEqual(['a.bake', 'mid.bake', 'sub/pantry.bake']);
    rmSync(path.join(cwd, 'sub', 'pantry.bake'));
    expect(await looked(cwd)).toEqual(['a.bake', 'mid.bake']);
    git(cwd, 'checkout', '--quiet', '--', '.');
    renameSync(path.join(cwd, 'sub', 'other.bake'), path.join(cwd, 'sub', 'renamed.bake'));
    git(cwd, 'add', '--all');
    expect(await looked(cwd)).toEqual(['sub/renamed.bake', 'y.bake']);
  });

  test('everything that changed settings count for', async () => {
    const cwd = repository({ 'a.bake': loaf('A'), 'sub/b.bake': loaf('B'), 'sub/proofsheet.json': '{}', 'own/c.bake': loaf('C'), 'own/proofsheet.json': '{}' });
    writeFileSync(path.join(cwd, 'sub', 'proofsheet.json'), '{ "limits": {} }');
    expect(await looked(cwd)).toEqual(['sub/b.bake']);
    git(cwd, 'checkout', '--quiet', '--', '.');
    writeFileSync(path.join(cwd, 'proofsheet.json'), '{ "limits": {} }');
    expect(await looked(cwd)).toEqual(['a.bake']);
    rmSync(path.join(cwd, 'proofsheet.json'));
    rmSync(path.join(cwd, 'own', 'proofsheet.json'));
    expect(await looked(cwd)).toEqual(['own/c.bake']);
  });

  test('under any name that a file may have', async () => {
    const names = ['with spaces.bake', 'q"uo\'tes.bake', 'new\nline.bake', 'pão é 漢.bake', '-dash.bake', '[1]*?.bake'];
    const cwd = repository(Object.fromEntries(names.map((name) => [name, loaf(name.replace(/["\n]/g, ' '))])));
    for (const name of names) writeFileSync(path.join(cwd, name), loaf('Changed'));
    expect([...await looked(cwd)].sort()).toEqual([...names].sort());
  });

  test('from a folder below the top, and of files elsewhere in the repository', async () => {
    const cwd = repository({ 'sub/a.bake': loaf('A'), 'b.bake': loaf('B'), 'c.bake': loaf('C') });
    writeFileSync(path.join(cwd, 'b.bake'), loaf('BB'));
    writeFileSync(path.join(cwd, 'sub', 'a.bake'), loaf('AA'));
    expect(await looked(path.join(cwd, 'sub'))).toEqual(['a.bake']);
    expect(await looked(path.join(cwd, 'sub'), '..')).toEqual(['../b.bake', '../sub/a.bake']);
  });

  test('files outside of the repository, and standard input, are always looked at', async () => {
    const outside = workspace({ 'x.bake': loaf('X') });
    const cwd = repository({ 'a.bake': loaf('A') });
    expect(await looked(cwd, path.join(outside, 'x.bake'), 'a.bake')).toEqual([path.join(outside, 'x.bake')]);
    const { out } = await proofsheet(['check', '-', '--changed-since', 'HEAD'], { cwd, input: loaf('In') });
    expect(out).toContain('(salt-high)');
  });

  test('a submodule in which something has changed', async () => {
    const inner = repository({ 's.bake': loaf('S') });
    const cwd = repository({ 'a.bake': loaf('A') });
    git(cwd, 'submodule', '--quiet', 'add', inner, 'shared');
    commit(cwd);
    expect(await looked(cwd)).toEqual([]);
    writeFileSync(path.join(cwd, 'shared', 's.bake'), loaf('SS'));
    expect(await looked(cwd)).toEqual(['shared/s.bake']);
  });
});

describe('what cannot be said is a sentence, with status 2', () => {
  test('no such revision', async () => {
    const { status, out, err } = await proofsheet(['check', '--changed-since', 'no-such'], { cwd: repository({ 'a.bake': loaf('A') }) });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toBe('There is no revision "no-such" in this repository, so nobody can say what has changed since. A copy that was fetched in part may lack it: fetch it first.\n');
  });

  test('what would be an option of git is no revision, and is never handed to it', async () => {
    const cwd = repository({ 'a.bake': loaf('A') });
    for (const revision of ['--output=made', '-n']) {
      const { status, err } = await proofsheet(['check', `--changed-since=${revision}`], { cwd });
      expect(status).toBe(2);
      expect(err).toBe(`--changed-since takes a revision, such as main or HEAD~1, not "${revision}".\n`);
    }
    // Nor does a shell read it.
    const { err } = await proofsheet(['check', '--changed-since=main; echo made'], { cwd });
    expect(err).toMatch(/^There is no revision "main; echo made"/);
  });

  test('no repository', async () => {
    const cwd = workspace({ 'a.bake': loaf('A') });
    const { status, err } = await proofsheet(['check', '--changed-since', 'main'], { cwd, env: { GIT_CEILING_DIRECTORIES: path.dirname(cwd) } });
    expect({ status, err }).toEqual({ status: 2, err: '--changed-since asks git what has changed, and this folder is in no git repository. Leave the option out to check everything.\n' });
  });

  test('no git', async () => {
    const { status, err } = await proofsheet(['check', '--changed-since', 'main'], { cwd: workspace({ 'a.bake': loaf('A') }), env: { PATH: '/nowhere' } });
    expect({ status, err }).toEqual({ status: 2, err: '--changed-since asks git what has changed, and git was not found. Install it, or leave the option out to check everything.\n' });
  });
});
