import { describe, expect, it } from 'vitest';
import { prepareRenameAt, renameAt } from '../../server/features/rename';
import type { ProjectFile } from '../../server/project/file';
import type { Project } from '../../server/project/project';
import { edited, marked, RYE, textIn, uriOf } from './marked';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n\nformula "Knots"\n  makes 24 knots of 60 g\n\ndough\n  900 g mill flour\n  540 g water\n';

/** Every text after the rename by name, or why it is refused. */
export async function renamed(source: string, newName: string, others: Record<string, string> = {}, at?: string): Promise<Record<string, string> | string> {
  const { project, offset } = await marked(source, others);
  return renameIn(project, at ?? 'main.bake', offset, newName, ['main.bake', ...Object.keys(others)]);
}

async function renameIn(project: Project, at: string, offset: number, newName: string, names: readonly string[]): Promise<Record<string, string> | string> {
  const files = new Map<string, ProjectFile>();
  for (const name of names) files.set(name, (await project.prepare(uriOf(name)))!);
  const edit = renameAt(project.get(uriOf(at))!, offset, newName, {
    others: [...files.values()], documentChanges: false, versionOf: () => null,
    suppose: texts => {
      const supposed = project.supposing(texts);
      return uri => supposed.get(uri);
    },
  });
  if ('refused' in edit) return edit.refused;
  return Object.fromEntries([...files].map(([name, file]) => [name, edited(file.page?.source ?? file.text, edit.changes?.[uriOf(name)] ?? [])]));
}

/** The lines that are others after the rename: `file:line: text`. */
async function changed(source: string, newName: string, others: Record<string, string> = {}): Promise<string[] | string> {
  const after = await renamed(source, newName, others);
  if (typeof after === 'string') return after;
  const before: Record<string, string> = { 'main.bake': source.replace('┆', ''), ...others };
  return Object.entries(after).flatMap(([name, text]) => {
    const old = before[name]!.split(/\r?\n/);
    return text.split(/\r?\n/).flatMap((line, i) => (line === old[i] ? [] : [`${name}:${i + 1}: ${line.trim()}`]));
  });
}

const rye = (before: string, after = '') => RYE.replace(before + after, `${before}┆${after}`);

describe('rename of a part', () => {
  it('goes to every line and step that names it', async () => {
    expect(await changed(rye('soaker "fi', 'gs"'), 'soaked figs')).toEqual([
      'main.bake:13: soaker "soaked figs"', 'main.bake:25: all       soaked figs', 'main.bake:34: fold      at 90 min, add rest of walnuts, add soaked figs',
    ]);
    expect(await changed(rye('all       fi', 'gs'), 'soaked figs')).toHaveLength(3);
  });

  it('that has no name gives it one, and takes it away again', async () => {
    expect(await changed(rye('all       lev', 'ain'), 'night levain')).toEqual(['main.bake:7: levain "night levain"', 'main.bake:22: all       night levain']);
    const named = RYE.replace('\nlevain\n', '\nlevain "night levain"\n').replace('all       levain', 'all       night lev┆ain');
    expect(await renamed(named, 'levain')).toEqual({ 'main.bake': RYE });
  });

  it('goes to the variants of its formula, in whatever file', async () => {
    const variant = 'use "main.bake"\n\nformula "V"\n  based on "Fig and walnut rye"\n  swap dried figs for dried apricots in figs\n  drop walnuts in dough\n';
    expect(await changed(rye('soaker "fi', 'gs"'), 'fruit', { 'v.bake': variant })).toEqual([
      'main.bake:13: soaker "fruit"', 'main.bake:25: all       fruit', 'main.bake:34: fold      at 90 min, add rest of walnuts, add fruit',
      'v.bake:5: swap dried figs for dried apricots in fruit',
    ]);
  });

  it('leaves a part of that name in another formula alone', async () => {
    expect(await changed(`${rye('soaker "fi', 'gs"')}\n${RYE.replace('Fig and walnut rye', 'Other')}`, 'fruit')).toHaveLength(3);
  });

  it('leaves a short word in a step as long as it is understood', async () => {
    const source = RYE.replace('dried figs', 'dried apricots').replace('soaker "figs"', 'soaker "soaked f┆igs"').replace('all       figs', 'all       soaked figs');
    expect(await changed(source, 'wet figs')).toEqual(['main.bake:13: soaker "wet figs"', 'main.bake:25: all       wet figs']);
    expect(await changed(source, 'fruit')).toEqual([
      'main.bake:13: soaker "fruit"', 'main.bake:25: all       fruit', 'main.bake:34: fold      at 90 min, add rest of walnuts, add fruit',
    ]);
  });
});

describe('rename of an ingredient', () => {
  it('goes to every use in every file that means the same block', async () => {
    const others = { 'pantry.bake': PANTRY, 'b.bake': 'use "pantry.bake"\n\ningredient "rye mix"\n  like mill flour\n', 'apart.bake': 'ingredient "mill flour"\n  like rye flour\n' };
    expect(await changed('use "pantry.bake"\n\ndough\n  500 g mill fl┆our\n  300 g water\n', 'stone flour', others)).toEqual([
      'main.bake:4: 500 g stone flour', 'pantry.bake:1: ingredient "stone flour"', 'pantry.bake:8: 900 g stone flour', 'b.bake:4: like stone flour',
    ]);
  });

  it('keeps number, capitals and words of preparation', async () => {
    const source = 'ingredient "Duck eg┆g"\n  like egg\n  each 70 g\n\ndough\n  500 g bread flour\n  4 duck eggs\n  1 duck egg\n  50 g beaten duck egg\n  300 g water\n';
    expect(await changed(source, 'Goose egg')).toEqual([
      'main.bake:1: ingredient "Goose egg"', 'main.bake:7: 4 goose eggs', 'main.bake:8: 1 goose egg', 'main.bake:9: 50 g beaten goose egg',
    ]);
    expect(await changed(source.replace('┆', '').replace('4 duck egg', '4 duck e┆gg'), 'quail eggs')).toEqual([
      'main.bake:1: ingredient "Quail egg"', 'main.bake:7: 4 quail eggs', 'main.bake:8: 1 quail egg', 'main.bake:9: 50 g beaten quail egg',
    ]);
  });

  it('puts in quotes what needs them, where it needs them, and takes them away', async () => {
    const source = 'ingredient "mill fl┆our"\n  like bread flour\n\ndough\n  500 g mill flour  # as ever\n  300 g water\n\nsteps\n  mix 8 min, add mill flour\n';
    const lines = ['main.bake:1: ingredient "00 flour"', 'main.bake:5: 500 g "00 flour"  # as ever', 'main.bake:9: mix 8 min, add "00 flour"'];
    expect(await changed(source, '00 flour')).toEqual(lines);
    const quoted = (await renamed(source, '00 flour')) as Record<string, string>;
    expect(await renamed(quoted['main.bake']!.replace('500 g "00', '500 g "0┆0'), 'mill flour')).toEqual({ 'main.bake': source.replace('┆', '') });
    expect(await changed(source, 'flour for Sunday')).toContain('main.bake:5: 500 g "flour for Sunday"  # as ever');
    expect(await changed(source, 'flour, sifted')).toContain('main.bake:5: 500 g "flour, sifted"  # as ever');
  });

  it('leaves alone the one of the table that its block is like', async () => {
    expect(await changed('ingredient "bread flo┆ur"\n  like bread flour\n  protein 13 %\n\ndough\n  500 g bread flour\n  300 g water\n', 'stall flour')).toEqual([
      'main.bake:1: ingredient "stall flour"', 'main.bake:6: 500 g stall flour',
    ]);
  });

  it('that nothing knows stays in its file', async () => {
    expect(await changed('dough\n  500 g bread flour\n  20 g wibb┆le\n  300 g water\n\nsteps\n  mix 5 min, add wibble\n', 'wobble')).toEqual(['main.bake:3: 20 g wobble', 'main.bake:7: mix 5 min, add wobble']);
  });
});

describe('rename of a formula or dish', () => {
  it('goes to variants, dishes and plans, in whatever file', async () => {
    const others = { 'pantry.bake': PANTRY, 'plan.bake': 'use "pantry.bake"\n\nplan "P"\n  bake 24 knots of "knots"\n  ready 2026-03-14 08:00 Europe/Lisbon\n  oven holds 24 knots\n' };
    expect(await changed('use "pantry.bake"\n\nformula "V"\n  based on "Kn┆ots"\n\ndish "D"\n  uses 300 g “Knots”\n', 'Twists', others)).toEqual([
      'main.bake:4: based on "Twists"', 'main.bake:7: uses 300 g “Twists”', 'pantry.bake:4: formula "Twists"', 'plan.bake:4: bake 24 knots of "twists"',
    ]);
  });
});

describe('a rename is refused', () => {
  const because = async (source: string, newName = 'x', others = {}) => {
    const after = await renamed(source, newName, others);
    return typeof after === 'string' ? after : expect.fail(`renamed: ${JSON.stringify(after)}`);
  };

  it('where there is nothing to rename', async () => {
    expect(await because(rye('bread fl', 'our'))).toBe('“bread flour” is of the built-in table; add an `ingredient` block to name your own.');
    expect(await because(rye('12 g      star', 'ter'))).toBe('“starter” is the language’s word for a ripe culture and keeps its name.');
    expect(await because(rye('ma', 'kes'))).toBe('“makes” is a word of the language and keeps its name.');
    expect(await because('plan "P"\n  bake 6 loaves of "Now┆here"\n')).toBe('No formula in sight is called “Nowhere”, so there is nothing to rename.');
    expect(await because('use "pan┆try.bake"\n', 'x', { 'pantry.bake': PANTRY })).toMatch(/^This is the path of a file/);
    for (const source of ['┆', 'dough\n  70┆0 g flour\n', '# ingredient "x┆"\n']) expect(await because(source)).toMatch(/^There is no name here/);
  });

  it('for what is no name', async () => {
    expect(await because(rye('soaker "fi', 'gs"'), ' ')).toBe('A name needs at least one letter.');
    expect(await because(rye('soaker "fi', 'gs"'), 'a "b"')).toBe('A name cannot hold quotation marks, since they end it.');
    expect(await because(rye('soaker "fi', 'gs"'), 'a\nb')).toBe('A name stands on one line, without tabs.');
  });

  it('for a name that is taken', async () => {
    expect(await because(rye('soaker "fi', 'gs"'), 'Salt')).toBe('“Salt” would be taken for “salt” on line 23 of main.bake: choose a name that nothing has yet.');
    expect(await because(rye('soaker "fi', 'gs"'), 'levain')).toBe('“levain” would be taken for “levain” on line 7 of main.bake: choose a name that nothing has yet.');
    expect(await because('use "pantry.bake"\n\ndough\n  500 g mill fl┆our\n  300 g water\n  10 g salt\n', 'Salts', { 'pantry.bake': PANTRY })).toMatch(/“salt” on line 6 of main.bake/);
    expect(await because(`${rye('"Fig and walnut r', 'ye"')}\nformula "Knots"\n\ndough\n  1 kg bread flour\n  600 g water\n`, 'knots')).toMatch(/^“knots” will not do on line 1 of main\.bake: .*“knots”/i);
  });

  it('where a short word would mean something else', async () => {
    const source = RYE.replace('soaker "figs"', 'soaker "soaked f┆igs"').replace('all       figs', 'all       soaked figs');
    expect(await because(source, 'fruit')).toBe('With “fruit”, “figs” on line 34 of main.bake would mean something else: write that name in full first.');
  });

  it('where another file would be mixed up', async () => {
    const other = 'use "main.bake"\n\ningredient "river rye"\n  like dark rye flour\n\ndough\n  300 g river rye\n  200 g hill rye\n  300 g water\n';
    expect(await because('ingredient "hill r┆ye"\n  like dark rye flour\n', 'River rye', { 'b.bake': other })).toMatch(/^“River rye” would be taken for “river rye” on line 3 of b\.bake/);
  });
});

describe('prepare', () => {
  const prepared = async (source: string) => {
    const { file, offset } = await marked(source);
    const found = prepareRenameAt(file, offset);
    return 'refused' in found ? found.refused : [textIn(file.text, found.range), found.placeholder];
  };

  it('gives the name without quotes and without words of preparation', async () => {
    expect(await prepared(rye('soaker "fi', 'gs"'))).toEqual(['figs', 'figs']);
    expect(await prepared(rye('\nlev', 'ain\n'))).toEqual(['levain', 'levain']);
    expect(await prepared('ingredient "hill nuts"\n  like walnuts\n\ndough\n  20 g toasted hill nu┆ts\n')).toEqual(['hill nuts', 'hill nuts']);
    expect(await prepared('ingredient “hill nuts┆\n')).toEqual(['hill nuts', 'hill nuts']);
  });

  it('gives the full name for a short word of a step', async () => {
    expect(await prepared('ingredient "hill nut mix"\n\ndough\n  20 g hill nut mix\n\nsteps\n  mix 5 min, add nu┆t\n')).toEqual(['nut', 'hill nut mix']);
  });

  it('knows where it is behind letters of any script, and with CRLF', async () => {
    const source = 'ingredient "é 漢 👩‍🍳 mix"\r\n  like rye flour\r\n\r\ndough\r\n  1 kg bread flour  # é 漢 👩‍🍳\r\n  100 g "é 漢 👩‍🍳 m┆ix", for 👩‍🍳\r\n  600 g water\r\n';
    expect(await prepared(source)).toEqual(['é 漢 👩‍🍳 mix', 'é 漢 👩‍🍳 mix']);
    expect(await renamed(source, '漢 mix')).toEqual({
      'main.bake': source.replace('┆', '').replace('é 漢 👩‍🍳 mix', '漢 mix').replace('"é 漢 👩‍🍳 mix"', '漢 mix'),
    });
  });
});

describe('rename across a Markdown page', () => {
  it('changes its fences, with their indent, and nothing around them', async () => {
    const page = '# mill flour\n\n- today\n\n  ```bake\n  use "main.bake"\n\n  dough\n    500 g mill flour\n    300 g water\n  ```\n\nMore mill flour.\n';
    const source = 'ingredient "mill fl┆our"\n  like bread flour\n';
    expect(await renamed(source, '00 flour', { 'page.md': page })).toEqual({
      'main.bake': 'ingredient "00 flour"\n  like bread flour\n', 'page.md': page.replace('500 g mill flour', '500 g "00 flour"'),
    });
  });
});
