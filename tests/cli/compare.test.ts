/** `proofsheet compare`: files, folders, revisions, what a merge left, and what cannot be compared. */
import { execFileSync, spawnSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { ran } from './in-process';
import { proofsheet, workspace } from './program';

const LOAF = `use "pantry.bake"

formula "Stall loaf"
  makes     2 loaves

dough
  1000 g    quay flour
  700 g     water
  20 g      quay salt

steps
  bulk      4 h at 24 C
  bake      40 min at 230 C
`;
const PANTRY = 'ingredient "Quay flour"\n  like      bread flour\n  costs     1.20 EUR per kg\n\ningredient "Quay salt"\n  like      salt\n  costs     1 EUR per kg\n';
const WETTER = LOAF.replace('700 g     water', '750 g     water');
const CONFLICT = LOAF.replace('  700 g     water\n', '<<<<<<< HEAD\n  700 g     water\n=======\n  750 g     water\n>>>>>>> wetter\n');

const here = process.cwd();
afterEach(() => process.chdir(here));

/** Goes into a new folder with these files; the answer is the folder. */
function inside(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = workspace(files);
  process.chdir(folder);
  return folder;
}

describe('two files', () => {
  it('each with what it uses, by one line that says it all at the end', async () => {
    inside({ 'a.bake': LOAF, 'b.bake': WETTER, 'pantry.bake': PANTRY });
    const { status, out, err } = await ran(['compare', 'a.bake', 'b.bake']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('    water                   700 g → 750 g (70.0 → 75.0 %)\n');
    expect(out).toMatch(/\n1 formula changed\.\n$/);
    expect((await ran(['compare', 'a.bake', 'a.bake'])).out).toBe('No change.\n');
  });

  it('one of them from standard input', async () => {
    inside({ 'a.bake': LOAF, 'pantry.bake': PANTRY });
    expect((await ran(['compare', 'a.bake', '-'], { input: WETTER })).out).toContain('700 g → 750 g');
    expect(await ran(['compare', '-', '-'])).toMatchObject({ status: 2, err: 'Standard input can be one of the two versions, not both.\n' });
  });

  it('as Markdown and as JSON; findings that appear fail only when that is asked for', async () => {
    inside({ 'a.bake': LOAF, 'b.bake': LOAF.replace('20 g      quay salt', '40 g      quay salt'), 'pantry.bake': PANTRY });
    expect((await ran(['compare', 'a.bake', 'b.bake', '--format', 'markdown'])).out).toMatch(/^\*\*1 formula changed\.\*\*\n/);
    const { out } = await ran(['compare', 'a.bake', 'b.bake', '--json']);
    expect((JSON.parse(out) as { changes: object[] }).changes).toContainEqual(expect.objectContaining({ what: 'finding-appeared', name: 'salt-high', line_after: 9 }));
    expect((await ran(['compare', 'a.bake', 'b.bake', '--fail-on', 'error'])).status).toBe(0);
    expect((await ran(['compare', 'a.bake', 'b.bake', '--fail-on', 'warning'])).status).toBe(1);
    expect((await ran(['compare', 'b.bake', 'a.bake', '--fail-on', 'warning'])).status).toBe(0);
    expect((await ran(['compare', 'a.bake', 'b.bake', '--json', '--format', 'text'])).status).toBe(2);
  });

  it('formulas in a page', async () => {
    inside({ 'a.md': `# Friday\n\n\`\`\`bake\n${LOAF}\`\`\`\n`, 'b.md': `# Friday, wetter\n\n\`\`\`bake\n${WETTER}\`\`\`\n`, 'pantry.bake': PANTRY });
    expect((await ran(['compare', 'a.md', 'b.md'])).out).toContain('700 g → 750 g');
  });
});

it('two folders: files by their names, formulas that went to another file', async () => {
  inside({ 'old/a.bake': LOAF, 'old/pantry.bake': PANTRY, 'new/breads/b.bake': WETTER.replace('pantry', '../pantry'), 'new/pantry.bake': PANTRY.replace('1.20', '1.40') });
  const { out, status } = await ran(['compare', 'old', 'new']);
  expect(status).toBe(0);
  expect(out).toContain('  moved from a.bake to breads/b.bake\n');
  expect(out).toContain('700 g → 750 g');
  expect(out).toContain('    costs                   1.20 EUR per kg → 1.40 EUR per kg\n');
  expect(out).toMatch(/ cost +1\.22 EUR +1\.42 EUR\n/);
});

describe('a merge that left both versions in a file', () => {
  it('has its two sides compared', async () => {
    inside({ 'a.bake': CONFLICT, 'b.bake': LOAF, 'pantry.bake': PANTRY });
    for (const args of [['a.bake'], ['b.bake', 'a.bake']]) {
      const { out, err, status } = await ran(['compare', ...args]);
      expect(status).toBe(0);
      expect(err).toBe('a.bake has the conflicts of a merge in it. Its own two sides are compared: HEAD with wetter.\n');
      expect(out).toContain('700 g → 750 g');
    }
  });

  it('in a folder is said, for only its first side is taken there', async () => {
    inside({ 'old/a.bake': LOAF, 'new/a.bake': CONFLICT });
    const { out, err } = await ran(['compare', 'old', 'new']);
    expect(out).toBe('No change.\n');
    expect(err).toBe('a.bake has the conflicts of a merge in it: the first of its two sides is taken here. Name that file alone to have the two compared.\n');
  });

  it('finds nothing in a variant of what was merged, which is told at the marks', async () => {
    inside({ 'a.bake': `${CONFLICT}\nformula "Salted loaf"\n  based on  "Stall loaf"\n  set       quay salt to 22 g\n`, 'pantry.bake': PANTRY });
    expect((await ran(['check', 'a.bake'])).out).toMatch(/^a\.bake:8:1: error: [^]*\(merge-conflict\)[^]*\n1 error in 1 file\n$/);
  });

  it('is one finding of check', async () => {
    inside({ 'a.bake': CONFLICT, 'pantry.bake': PANTRY });
    const { out, status } = await ran(['check', 'a.bake']);
    expect(status).toBe(1);
    expect(out).toMatch(/^a\.bake:8:1: error: .*\(merge-conflict\)/);
    expect(out).toMatch(/\n1 error in 1 file\n$/);
  });
});

describe('what cannot be compared is said in one sentence', () => {
  it.each([
    [['a.bake', 'none.bake'], 'There is no file or folder none.bake.\n'],
    [['a.bake', 'binary.bake'], 'binary.bake is not a text file.\n'],
    [['a.bake', 'sub'], 'One is a file and the other a folder: name two files, or two folders.\n'],
    [['HEAD:a.bake', 'a.bake'], 'This folder is in no git repository, so there are no earlier versions here. Name two files instead.\n'],
    [[], 'Name two versions, the earlier one first: proofsheet compare BEFORE AFTER. One file alone is compared with its committed version.\n'],
  ])('%j', async (args, sentence) => {
    inside({ 'a.bake': LOAF, 'binary.bake': new Uint8Array([1, 0, 2]), 'sub/b.bake': LOAF });
    expect(await ran(['compare', ...args])).toEqual({ status: 2, out: '', err: sentence });
  });
});

const hasGit = spawnSync('git', ['--version'], { stdio: 'ignore' }).status === 0;
if (!hasGit) console.warn('git is not installed, so nothing was compared with an earlier version. On Debian: apt-get install git');

describe.runIf(hasGit)('with git', () => {
  const git = (folder: string, ...args: readonly string[]): string => execFileSync('git', ['-c', 'user.name=Tomas', '-c', 'user.email=tomas@cais.example', '-c', 'init.defaultBranch=main', ...args], { cwd: folder, encoding: 'utf8' });
  const repository = (files: Readonly<Record<string, string>>): string => {
    const folder = inside(files);
    git(folder, 'init', '-q');
    git(folder, 'add', '.');
    git(folder, 'commit', '-q', '-m', 'first');
    return folder;
  };

  it('a file alone is compared with its committed version, and a folder too', async () => {
    const folder = repository({ 'breads/a.bake': LOAF.replace('pantry', '../pantry'), 'pantry.bake': PANTRY });
    expect((await ran(['compare', 'breads/a.bake'])).out).toBe('No change.\n');
    writeFileSync(path.join(folder, 'breads/a.bake'), WETTER.replace('pantry', '../pantry'));
    expect((await ran(['compare', 'breads/a.bake'])).out).toContain('700 g → 750 g');
    expect((await ran(['compare', '.'])).out).toContain('700 g → 750 g');
    process.chdir(path.join(folder, 'breads'));
    for (const args of [['a.bake'], ['HEAD:a.bake', 'a.bake'], ['HEAD:breads/a.bake', 'a.bake'], ['HEAD:./a.bake', 'a.bake'], ['HEAD:', '.']]) expect((await ran(['compare', ...args])).out, args.join(' ')).toContain('700 g → 750 g');
  });

  it('what a revision uses is that of the revision', async () => {
    const folder = repository({ 'a.bake': LOAF, 'pantry.bake': PANTRY });
    writeFileSync(path.join(folder, 'pantry.bake'), PANTRY.replace('1.20', '2.40'));
    expect((await ran(['compare', 'HEAD:a.bake', 'a.bake'])).out).toMatch(/ cost +1\.22 EUR +2\.42 EUR\n/);
  });

  it('what is no revision, or not in it, is said; and nothing is taken for an option', async () => {
    const folder = repository({ 'a.bake': LOAF, 'pantry.bake': PANTRY });
    expect((await ran(['compare', 'v9:a.bake', 'a.bake'])).err).toBe('There is no revision v9 in this repository. "git log --oneline" lists those there are.\n');
    expect((await ran(['compare', 'HEAD:b.bake', 'a.bake'])).err).toBe('There is no b.bake in HEAD. Was it called otherwise then? "git log --follow" tells.\n');
    expect((await ran(['compare', '--', '--output=x:a.bake', 'a.bake'])).err).toBe('There is no file or folder --output=x:a.bake.\n');
    expect((await ran(['compare', 'HEAD:../../etc', 'a.bake'])).status).toBe(2);
    expect((await ran(['compare', 'HEAD:a.bake'])).err).toBe('Name the other version too: proofsheet compare BEFORE AFTER.\n');
    expect(git(folder, 'status', '--short')).toBe('');
  });

  it('without git on the PATH, that is said', async () => {
    const folder = repository({ 'a.bake': LOAF, 'pantry.bake': PANTRY });
    const { status, err } = await proofsheet(['compare', 'HEAD:a.bake', 'a.bake'], { cwd: folder, env: { PATH: path.join(folder, 'nothing') } });
    expect({ status, err }).toEqual({ status: 2, err: 'git is not installed, or not on the PATH, so no earlier version can be read. Install git, or name two files.\n' });
  });

  it('--summary says what a file means line by line, of a copy that git made too', async () => {
    const folder = repository({ 'breads/a.bake': LOAF.replace('pantry', '../pantry'), 'pantry.bake': PANTRY });
    const { out } = await ran(['compare', '--summary', 'breads/a.bake']);
    expect(out).toBe(`use "../pantry.bake"

formula "Stall loaf"
makes: 2 loaves, 860 g each
allergens: cereals containing gluten (wheat)
dough: quay flour  1000 g  100.0 %
dough: water  700 g  70.0 %
dough: quay salt  20 g  2.0 %
total: flour 1000 g
total: dough 1720 g
total: hydration 70.0 %
total: salt 2.0 %
step: bulk 4 h at 24 °C
step: bake 40 min at 230 °C
`);
    const copy = path.join(workspace({ 'git-blob-x/a.bake': LOAF.replace('pantry', '../pantry') }), 'git-blob-x', 'a.bake');
    expect((await ran(['compare', '--summary', copy])).out).toBe(out);
    rmSync(path.join(folder, 'pantry.bake'));
    expect((await ran(['compare', '--summary', copy])).out).not.toBe(out);
  });
});
