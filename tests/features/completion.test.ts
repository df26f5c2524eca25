import { describe, expect, it } from 'vitest';
import { asksForPath, completionsAt, resolvedCompletion } from '../../server/features/completion';
import { edited, marked, RYE } from './marked';

async function complete(source: string, { snippets = false, trigger, others }: { snippets?: boolean; trigger?: string; others?: Record<string, string> } = {}) {
  const { file, offset } = await marked(source, others);
  const items = completionsAt(file, offset, { snippets, paths: ['pantry.bake', '../knots.bake'], ...(trigger !== undefined && { trigger }) });
  const take = (label: string) => {
    const item = items.find(i => i.label === label);
    if (item?.textEdit === undefined || !('range' in item.textEdit)) throw new Error(`${label} is not offered`);
    return edited(file.text, [item.textEdit]);
  };
  const sorted = [...items].sort((a, b) => ((a.sortText ?? a.label) < (b.sortText ?? b.label) ? -1 : 1));
  return { labels: items.map(i => i.label), first: sorted[0]?.label, take, items, file };
}

describe('completion in the first column', () => {
  it('offers blocks', async () => {
    const { labels, take } = await complete('fo┆');
    expect(labels).toEqual(expect.arrayContaining(['formula', 'dish', 'levain', 'old dough', 'total formula', 'steps', 'plan']));
    expect(labels).not.toContain('mix');
    expect(take('formula')).toBe('formula');
    expect((await complete('old d┆')).take('old dough')).toBe('old dough');
  });

  it('fills in a form where the editor can', async () => {
    expect((await complete('fo┆', { snippets: true })).take('formula')).toMatch(/^formula "\$\{1:name\}"\n {2}makes/);
  });

  it('offers a temperature after the dough', async () => {
    expect((await complete('dough at ┆')).labels).toContain('25 C');
  });
});

describe('completion in a part', () => {
  const inDough = (line: string, after = '') => RYE.replace('  all       levain\n', `${line}${after}\n`);

  it('offers what may open a line', async () => {
    const { labels } = await complete(inDough('  ┆'));
    expect(labels).toEqual(expect.arrayContaining(['all', 'pinch', 'keep', 'yields', 'rest']));
    expect(labels).not.toContain('style');
  });

  it('offers units after a number, grams first', async () => {
    const { labels, first } = await complete(inDough('  100 ┆'));
    expect(labels).toEqual(expect.arrayContaining(['g', 'kg', '%', 'cup']));
    expect(first).toBe('g');
    expect(labels).toContain('eggs');
    expect((await complete(inDough('  100 k┆'))).take('kg')).toContain('  100 kg\n');
    expect((await complete(inDough('  1 1/2 t┆'))).labels).toContain('tsp');
  });

  it('offers ingredients after an amount, in place of what is typed of the name', async () => {
    const { labels, take } = await complete(inDough('  100 g bread f┆'));
    expect(labels).toContain('bread flour');
    expect(take('bread flour')).toContain('  100 g bread flour\n');
    expect((await complete(inDough('  5 to 6 % s┆'))).labels).toContain('salt');
    expect((await complete(inDough('  1 tsp (4.5 g) van┆'))).labels).toContain('vanilla extract');
    expect((await complete(inDough('  pinch ┆'))).labels).toContain('salt');
  });

  it('writes a name that needs quotes in quotes', async () => {
    expect((await complete(inDough('  100 g ┆'))).take('00 flour')).toContain('  100 g "00 flour"\n');
  });

  it('offers parts not taken in yet before everything else', async () => {
    const { first, items } = await complete(inDough('  100 g ┆'));
    expect(first).toBe('levain');
    expect(items.find(i => i.label === 'levain')?.detail).toBe('levain, not taken in yet');
    expect((await complete(inDough('  all ┆'))).labels).toEqual(['levain', 'figs']);
    expect((await complete(RYE.replace('  60 g      water at', '  all ┆\n  60 g      water at'))).labels).not.toContain('levain');
  });

  it('offers the baker’s own ingredients before the table', async () => {
    const others = { 'pantry.bake': 'ingredient "zest mix"\n  like orange zest\n' };
    const { first } = await complete('use "pantry.bake"\n\ndough\n  10 g ┆', { others });
    expect(first).toBe('zest mix');
  });

  it('brings the composition when an item is looked at', async () => {
    const { items, file } = await complete(inDough('  100 g bread f┆'));
    const item = items.find(i => i.label === 'bread flour')!;
    expect(item.documentation).toBeUndefined();
    expect(resolvedCompletion(file, item).documentation).toMatchObject({ value: expect.stringContaining('| protein |') });
    expect(resolvedCompletion(file, { label: 'x', data: 5 })).toEqual({ label: 'x', data: 5 });
  });

  it.each([
    ['  10 g oats as ┆', 'inclusion'], ['  10 g oats for ┆', 'dusting'], ['  10 g water at ┆', 'room'],
  ])('%s: %s', async (line, label) => expect((await complete(inDough(line))).labels).toContain(label));
});

describe('completion in other blocks', () => {
  it.each([
    ['steps\n  bu┆', 'bulk'], ['steps\n  bulk 3 h\n    co┆', 'coil fold'], ['steps\n  bulk 3 ┆', 'min'], ['steps\n  bulk 3 h at 24 ┆', 'C'],
    ['steps\n  bulk 3 h at ┆', 'fridge'], ['steps\n  bake 3 min, lid on, ┆', 'until core'], ['steps\n  bake 3 min, until core 97 ┆', 'C'],
    ['formula "A"\n  ┆', 'makes'], ['formula "A"\n  st┆', 'style'], ['formula "A"\n  style ┆', 'hearth'], ['formula "A"\n  style hearth, ┆', 'with inclusions'],
    ['formula "A"\n  loses 12 % ┆', 'in the oven'], ['formula "A"\n  room 23 ┆', 'C'], ['ingredient "a"\n  like br┆', 'bread flour'],
    ['ingredient "a"\n  contains ┆', 'milk'], ['ingredient "a"\n  role ┆', 'flour'], ['ingredient "a"\n  ┆', 'density'], ['record 2026-03-14\n  ┆', 'core'],
    ['plan "a"\n  ┆', 'asleep'], ['dish "a"\n  ┆', 'serves'],
  ])('%j: %s', async (source, label) => expect((await complete(source)).labels).toContain(label));

  it('offers what a step can add', async () => {
    const { labels } = await complete(RYE.replace('add half of walnuts', 'add ┆'));
    expect(labels).toEqual(expect.arrayContaining(['half of', 'rest of', 'walnuts', 'figs', 'salt']));
    expect((await complete(RYE.replace('add half of walnuts', 'add half of ┆'))).labels).not.toContain('half of');
  });

  it('offers the names of formulas, other files’ too, but not its own', async () => {
    const others = { 'b.bake': 'formula "Knots"\n' };
    const start = 'use "b.bake"\n\nformula "Loaf"\n';
    expect((await complete(`${start}  based on ┆`, { others })).labels).toEqual(['Knots']);
    expect((await complete(`${start}  based on ┆`, { others })).take('Knots')).toContain('  based on "Knots"');
    expect((await complete(`${start}\nplan "P"\n  bake 6 loaves of "┆`, { others })).take('Loaf')).toContain('of "Loaf"');
    expect((await complete(`${start}\nplan "P"\n  bake 6 loaves of "Lo┆"`, { others })).take('Loaf')).toMatch(/of "Loaf"$/);
    expect((await complete(`${start}\ndish "D"\n  uses 8 slices of ┆`, { others })).labels).toEqual(['Knots', 'Loaf']);
  });

  it('offers what a variant can change', async () => {
    const variant = (line: string) => `${RYE}\nformula "Apricot rye"\n  based on "Fig and walnut rye"\n  ${line}`;
    expect((await complete(variant('swap ┆'))).labels).toContain('walnuts');
    expect((await complete(variant('swap walnuts for pist┆'))).labels).toContain('pistachios');
    expect((await complete(variant('drop rice flour in ┆'))).labels).toEqual(expect.arrayContaining(['dough', 'levain', 'figs']));
    expect((await complete(variant('add 10 g or┆'))).labels).toContain('orange zest');
  });

  it('looks for files only where a path goes', async () => {
    const asks = async (source: string) => {
      const { file, offset } = await marked(source);
      return asksForPath(file, offset);
    };
    expect([await asks('use "┆'), await asks('use "pan┆"'), await asks('use ┆'), await asks('formula "┆'), await asks('# use "┆')]).toEqual([true, true, false, false, false]);
  });

  it('offers paths of files', async () => {
    expect((await complete('use "┆')).labels).toEqual(['pantry.bake', '../knots.bake']);
    expect((await complete('use "pan┆"')).take('pantry.bake')).toBe('use "pantry.bake"');
  });
});

describe('completion keeps quiet', () => {
  it.each([
    '# ┆', 'dough # ┆', 'dough\n  100 g water # w┆', 'formula "┆', 'formula "A"\n  note "┆', 'dough\n  100 g water, w┆', 'steps\n  do "┆',
    'steps\n  bake 3 min, until "┆', 'soaker "┆', 'use "a.bake"\n  ┆', 'wibble\n  ┆', '  ┆',
  ])('in %j', async source => expect((await complete(source)).labels).toEqual([]));

  it('on a line that no baker wrote', async () => {
    expect((await complete(`steps\n  bake 3 min${',          '.repeat(100)}┆`)).labels).toEqual([]);
  });

  it('after a space that nobody meant as a question', async () => {
    for (const source of ['dough\n  ┆', 'dough\n  100 g bread ┆', 'formula "A"\n  makes ┆', 'levain ┆']) {
      expect((await complete(source, { trigger: ' ' })).labels).toEqual([]);
    }
    expect((await complete('dough\n  100 g ┆', { trigger: ' ' })).labels).toContain('bread flour');
    expect((await complete(`${RYE}\nsteps\n  bake 3 min, ┆`, { trigger: ' ' })).labels).toContain('lid on');
  });
});
