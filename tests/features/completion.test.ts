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
    'steps\n  bake 3 min, until "┆', 'soaker "┆', 'use "a.bake"\n  ┆', 'record ┆', 'levain ┆', 'wibble\n  ┆', '  ┆',
  ])('in %j', async source => expect((await complete(source)).labels).toEqual([]));

  it('on a line that no baker wrote', async () => {
    expect((await complete(`steps\n  bake 3 min${',          '.repeat(100)}┆`)).labels).toEqual([]);
  });

  it('after a space that nobody meant as a question', async () => {
    for (const source of ['dough\n  ┆', 'dough\n  100 g bread ┆', 'steps\n  bake 3 min, lid on ┆', 'formula "A"\n  makes ┆', 'levain ┆']) {
      expect((await complete(source, { trigger: ' ' })).labels).toEqual([]);
    }
    expect((await complete('dough\n  100 g ┆', { trigger: ' ' })).labels).toContain('bread flour');
    expect((await complete('plan "P"\n  start 2026-03-14 08:00 ┆', { trigger: ' ' })).labels).toContain('Europe/Lisbon');
    expect((await complete('plan "P"\n  asleep 22:30 to 05:00 on ┆', { trigger: ' ' })).labels).toContain('Sun');
    expect((await complete(`${RYE}\nsteps\n  bake 3 min, ┆`, { trigger: ' ' })).labels).toContain('lid on');
  });
});

describe('completion knows what is left to say', () => {
  const order = (items: readonly { label: string; sortText?: string }[]) => [...items].sort((a, b) => ((a.sortText ?? a.label) < (b.sortText ?? b.label) ? -1 : 1)).map(({ label }) => label);

  it('properties that are not there yet before those that are; `makes` before all', async () => {
    const { items } = await complete('formula "A"\n  room 20 C\n  ┆\n  style hearth\n');
    const labels = order(items);
    expect(labels[0]).toBe('makes');
    expect(labels.slice(-2).sort()).toEqual(['room', 'style']);
    expect(order((await complete('plan "P"\n  ┆')).items)[0]).toBe('ready');
    expect(order((await complete('dough\n  ┆')).items).slice(0, 2)).toEqual(['all', 'pinch']);
    expect(labels.indexOf('note')).toBeLessThan(labels.indexOf('room'));
    expect(order((await complete('formula "A"\n  ro┆')).items).indexOf('room')).toBeLessThan(5);
  });

  it('steps in the order of a usual method, from the last one on', async () => {
    const { items } = await complete('steps\n  mix 5 min\n  bulk 3 h\n  ┆\n  cool 2 h');
    const labels = order(items);
    expect(labels.slice(0, 4)).toEqual(['bulk', 'fold', 'stretch and fold', 'coil fold']);
    expect(labels.indexOf('shape')).toBeLessThan(labels.indexOf('bake'));
    expect(labels.indexOf('bake')).toBeLessThan(labels.indexOf('mix'));
  });

  it('details by the kind of step, blocks in the order of a file', async () => {
    expect(order((await complete('steps\n  mix 5 min, ┆')).items).slice(0, 2)).toEqual(['by hand', 'by mixer']);
    expect(order((await complete('steps\n  bake 5 min, ┆')).items)[0]).toBe('lid on');
    expect(order((await complete('┆')).items).slice(0, 2)).toEqual(['use', 'formula']);
  });

  it('what a step can add: the rest of what is half in, and what is all in last', async () => {
    const { items, take } = await complete(RYE.replace('add rest of walnuts, add figs', 'add ┆').replace('coil fold at 120 min', 'coil fold at 120 min, add figs'));
    const labels = order(items);
    expect(labels[0]).toBe('rest of walnuts');
    expect(items.find(({ label }) => label === 'rest of walnuts')?.detail).toBe('50 % of it is left');
    expect(labels.at(-1)).toBe('figs');
    expect(take('rest of walnuts')).toContain('fold      at 90 min, add rest of walnuts\n');
    expect((await complete(RYE.replace('add figs', 'add ┆'))).labels).not.toContain('rest of walnuts');
  });

  it.each([
    ['plan "a"\n  ready 2026-03-14 08:00 ┆', 'Europe/Lisbon'], ['plan "a"\n  away 09:00 to 17:00 on Mon to ┆', 'Fri'], ['plan "a"\n  oven ┆', 'holds'],
    ['ingredient "a"\n  costs 2.40 ┆', 'EUR'], ['ingredient "a"\n  costs 2.40 EUR ┆', 'per kg'], ['ingredient "a"\n  costs 2.40 EUR per ┆', 'kg'],
    ['ingredient "a"\n  absorbs 1.2 ┆', 'times its weight'], ['ingredient "a"\n  each 58 ┆', 'g'], ['formula "a"\n  makes 2 ┆', 'loaves'],
    ['formula "a"\n  makes 2 loaves of 900 ┆', 'g'], ['formula "a"\n  altitude 900 ┆', 'm'], ['levain at ┆', '25 C'], ['old dough at ┆', 'fridge'],
    ['dish "D"\n\nplan "a"\n  make 2 of "┆', 'D'], ['dish "D"\n\nplan "a"\n  make 2 "┆', 'D'],
  ])('%j: %s', async (source, label) => expect((await complete(source)).labels).toContain(label));

  it('in `# accept` the checks, those that find something there first', async () => {
    const { items, take, first } = await complete('formula "A"\n  room 20 C\n\ndough\n  700 g bread flour\n  490 g water\n  40 g salt # accept sa┆');
    expect(first).toBe('salt-high');
    expect(items.length).toBeGreaterThan(40);
    expect(take('salt-high')).toMatch(/# accept salt-high: $/);
    expect((await complete('dough\n  40 g salt # accept salt-high, ┆')).labels).toContain('high-yeast'.replace('high-yeast', 'yeast-high'));
    expect((await complete('dough\n  40 g salt # accept salt-high: the ┆')).labels).toEqual([]);
  });
});

describe('what completion puts in', () => {
  it('takes the place of the whole word or name, its quotes too', async () => {
    expect((await complete('steps\n  ba┆ke 25 min')).take('bake')).toBe('steps\n  bake 25 min');
    expect((await complete('steps\n  pro┆of 25 min', { snippets: true })).take('proof')).toBe('steps\n  proof 25 min');
    expect((await complete('dough\n  100 g br┆ead flour, sifted')).take('bread flour')).toBe('dough\n  100 g bread flour, sifted');
    expect((await complete('dough\n  100 g wa┆ter at 20 C')).take('water')).toBe('dough\n  100 g water at 20 C');
    expect((await complete('dough\n  100 g "00 fl┆our" # x')).take('00 flour')).toBe('dough\n  100 g "00 flour" # x');
    expect((await complete('dough\n  100 g "br┆')).take('bread flour')).toBe('dough\n  100 g bread flour');
    expect((await complete('formula "K L"\n\nplan "P"\n  bake 6 loaves of "K┆nots"\n')).take('K L')).toMatch(/of "K L"\n$/);
    expect((await complete('use "pan┆try.bak"')).take('pantry.bake')).toBe('use "pantry.bake"');
  });

  it('is found by what is typed, quote and all', async () => {
    const { items, labels } = await complete('dough\n  100 g "0┆');
    expect(items.find(({ label }) => label === '00 flour')?.filterText).toBe('"00 flour');
    expect(labels).not.toContain('g');
  });

  it('leaves the letters of prose alone: nothing is taken by a comma or a space', async () => {
    for (const source of ['dough\n  100 g ┆', 'steps\n  ┆', 'steps\n  bake 3 min, ┆', '┆']) {
      expect((await complete(source, { snippets: true })).items.filter(item => item.commitCharacters !== undefined)).toEqual([]);
    }
  });

  it('keeps quiet in quotes that are no names', async () => {
    for (const source of ['steps\n  do "x, add ┆', 'dough\n  10 g figs, "as ┆', 'formula "A"\n  note "at ┆', 'steps\n  bake 3 min, until "add ┆']) {
      expect([source, (await complete(source)).labels]).toEqual([source, []]);
    }
  });
});

describe('every stage of typing', () => {
  const lines: readonly (readonly [head: string, line: string])[] = [
    ['', 'formula "A"'], ['', 'dough at 25 C'], ['dough', '100 g bread flour at 20 C as flour for dusting, fine'], ['dough', 'all levain'],
    ['steps', 'bake 25 min at 240 C, lid on, until core 97 C, add half of figs'], ['steps', 'do "turn" 5 min'], ['formula "A"', 'makes 2 loaves of 970 g'],
    ['formula "A"', 'swap figs for dates in levain'], ['plan "P"', 'ready 2026-03-14 08:00 Europe/Lisbon'], ['plan "P"', 'bake 6 loaves of "A", ready 07:00'],
    ['ingredient "I"', 'costs 2.40 EUR per kg'], ['record 2026-03-14', 'weighed 1512 g, 2 loaves, after 3 h'], ['dish "D"', 'uses 8 slices of "A"'],
  ];
  it.each(lines)('%s: %s', async (head, line) => {
    const start = head === '' ? '' : `${head}\n  `;
    for (const after of ['', '\n', '\n\nsteps\n  mix 3 min\n', line]) {
      for (let length = 0; length <= line.length; length++) {
        const { items, file } = await complete(`${start}${line.slice(0, length)}┆${after}`, { snippets: true });
        expect(new Set(items.map(({ kind, label }) => `${kind} ${label}`)).size).toBe(items.length);
        for (const { textEdit, label } of items) {
          if (textEdit === undefined || !('range' in textEdit)) throw new Error(label);
          const { start: from, end: to } = textEdit.range;
          const at = file.lineIndex.positionAt(start.length + length);
          expect([from.line, to.line, from.character <= at.character, to.character >= at.character]).toEqual([at.line, at.line, true, true]);
        }
      }
    }
  });
});
