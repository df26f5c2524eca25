/** git itself with the set-up that the README shows: a real repository in which one formula has six versions, read with `git log -p`. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { folder, program, proofsheet } from './program';

const README = readFileSync(path.join(import.meta.dirname, '..', '..', 'README.md'), 'utf8');

const FIRST = `formula "Cais loaf"
  makes     2 loaves of 860 g

dough
  1000 g    bread flour
  700 g     water
  17 g      salt
  3 g       instant yeast

steps
  mix       8 min
  bulk      3 h at 24 C
  preheat   45 min at 230 C
  bake      40 min at 230 C
  cool      2 h
`;
const SCALED = FIRST.replace('2 loaves', '4 loaves').replace('1000 g ', '2000 g ').replace('700 g ', '1400 g').replace('17 g ', '34 g ').replace('3 g ', '6 g ');
const LAID_OUT = SCALED.replaceAll(/ {3,}/g, '  ').replace('formula', '# For the stall.\nformula');
const MENDED = LAID_OUT.replace('34 g  salt', '40 g  salt');
const WITH_NUTS = MENDED.replace('6 g  instant yeast', '6 g  instant yeast\n  200 g  walnuts, toasted');

const hasGit = spawnSync('git', ['--version'], { stdio: 'ignore' }).status === 0;
if (!hasGit) console.warn('git is not installed, so its diff driver was not tried. On Debian: apt-get install git');

describe.runIf(hasGit)('the history of a formula', () => {
  let repository = '';
  const git = (...args: readonly string[]): string => execFileSync('git', [...args], {
    cwd: repository, encoding: 'utf8', env: { ...process.env, GIT_CONFIG_GLOBAL: path.join(repository, '.git', 'none'), GIT_CONFIG_NOSYSTEM: '1' },
  });
  const commit = (message: string): void => {
    git('add', '-A');
    git('commit', '-q', '-m', message);
  };

  beforeAll(async () => {
    repository = folder();
    git('init', '-q');
    for (const [name, value] of [['user.name', 'Inês'], ['user.email', 'ines@cais.example'], ['diff.renames', 'true']] as const) git('config', name, value);
    const cli = `"${process.execPath}" "${await program()}"`;
    // The lines of the README, with the program of this test in the place of the one that is installed.
    const shown = [...README.matchAll(/^git config (diff\.proofsheet\.\S+) "proofsheet (compare [^"]*)"$/gm)];
    expect(shown.map(([, name]) => name)).toEqual(['diff.proofsheet.command', 'diff.proofsheet.textconv']);
    for (const [, name = '', args = ''] of shown) git('config', name, `${cli} ${args}`);
    const attributes = /^echo '(\*\.bake [^']*)' >> \.gitattributes$/m.exec(README)?.[1];
    writeFileSync(path.join(repository, '.gitattributes'), `${attributes ?? ''}\n`);
    for (const [message, text] of [['first', FIRST], ['scaled', SCALED], ['laid out', LAID_OUT], ['salt mended', MENDED], ['walnuts', WITH_NUTS]] as const) {
      writeFileSync(path.join(repository, 'loaf.bake'), text);
      commit(message);
    }
    git('mv', 'loaf.bake', 'market loaf.bake');
    writeFileSync(path.join(repository, 'market loaf.bake'), WITH_NUTS.replace('"Cais loaf"', '"Market loaf"'));
    commit('renamed');
  });

  /** What the log says under each subject. */
  const log = (...options: readonly string[]): ReadonlyMap<string, string> => new Map(
    git('log', '-p', '--format=@@@%s', ...options, '--', '*.bake').split('@@@').slice(1).map((page) => [page.slice(0, page.indexOf('\n')), page.slice(page.indexOf('\n') + 1)]),
  );

  it('reads as what was done, version by version', () => {
    const pages = log('--ext-diff');
    expect([...pages.keys()]).toEqual(['renamed', 'walnuts', 'salt mended', 'laid out', 'scaled', 'first']);
    expect(pages.get('first')).toContain('loaf.bake, a new file\nCais loaf\n  new, 1720 g of dough\n');
    expect(pages.get('scaled')).toContain('the same formula × 2: 1720 g → 3440 g of dough');
    expect(pages.get('laid out')).toContain('Only layout and comments differ.');
    expect(pages.get('salt mended')).toMatch(/ salt +34 g → 40 g \(1\.7 → 2\.0 %\)/);
    expect(pages.get('walnuts')).toContain('Cais loaf\n  allergens gained: nuts (walnut) (EU list), from walnuts\n');
    expect(pages.get('renamed')).toContain('loaf.bake → market loaf.bake, renamed\nMarket loaf\n  called "Cais loaf" before\n');
    for (const page of pages.values()) expect(page).not.toMatch(/^[+-] /m);
  });

  it('or line by line of what it means, where layout does not show', () => {
    const pages = log('--no-ext-diff');
    expect(pages.get('laid out')).not.toMatch(/^[+-][^+-]/m);
    expect(pages.get('salt mended')).toMatch(/^-dough: salt {2}34 g {2}1\.7 %\n\+dough: salt {2}40 g {2}2\.0 %$/m);
    expect(pages.get('walnuts')).toMatch(/^\+dough: walnuts {2}200 g {2}10\.0 %$/m);
    expect(pages.get('renamed')).toMatch(/^-formula "Cais loaf"\n\+formula "Market loaf"$/m);
  });

  it('goes on over a file that cannot be read, one that is deleted, and what is none of its business', () => {
    writeFileSync(path.join(repository, 'odd.bake'), new Uint8Array([1, 0, 2]));
    writeFileSync(path.join(repository, 'notes.txt'), 'a\n');
    writeFileSync(path.join(repository, '-dash.bake'), FIRST);
    commit('odd');
    git('rm', '-q', 'market loaf.bake');
    const cli = git('config', 'diff.proofsheet.command').trim();
    const diff = execFileSync('git', ['diff', 'HEAD~1'], { cwd: repository, encoding: 'utf8', env: { ...process.env, GIT_EXTERNAL_DIFF: cli } });
    expect(diff).toContain('odd.bake is not a text file.\n');
    expect(diff).toContain('notes.txt is no .bake file, so there is nothing to tell of it.\n');
    expect(diff).toContain('-dash.bake, a new file\n');
    expect(diff).toContain('market loaf.bake, deleted\nMarket loaf\n  dropped\n');
    git('reset', '-q', '--hard', 'HEAD~1');
  });

  it('a merge that does not go through is told by its two sides', async () => {
    git('checkout', '-q', '-b', 'wetter', 'HEAD');
    const file = path.join(repository, 'market loaf.bake');
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('1400 g', '1500 g'));
    commit('wetter');
    git('checkout', '-q', '-');
    writeFileSync(file, text.replace('1400 g', '1350 g'));
    commit('drier');
    expect(spawnSync('git', ['merge', '-q', 'wetter'], { cwd: repository }).status).toBe(1);
    const told = await proofsheet(['compare', '--', 'market loaf.bake'], { cwd: repository });
    expect(told).toMatchObject({ status: 0, out: expect.stringContaining('1350 g → 1500 g (67.5 → 75.0 %)') });
    // What git itself shows of a file that is not merged yet is made of the plain lines of both sides.
    expect(git('diff')).toMatch(/^\+\+HEAD, of two versions that a merge left:$/m);
  });
});
