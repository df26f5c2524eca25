import { describe, expect, it } from 'vitest';
import { codeActionsOf } from '../../server/features/code-actions';
import { scaleAt } from '../../server/features/scale';
import type { ScaleAnswer, ScaleParams } from '../../server/requests';
import { edited, marked } from './marked';

const LOAF = `formula "Loaf"
  makes     2 loaves of 860 g

dough
  1000 g    bread fl┆our
  700 g     water
  20 g      salt

formula "Buns"
  makes     12 buns of 80 g
dough
  500 g     bread flour
  300 g     milk
  2 eggs
`;

async function answer(source: string, request?: ScaleParams['request'], more: Pick<ScaleParams, 'step' | 'smallStep'> = {}): Promise<ScaleAnswer | null> {
  const { file, offset } = await marked(source);
  return scaleAt(file, offset, { request, ...more } as Parameters<typeof scaleAt>[2]);
}

async function after(source: string, request: ScaleParams['request'], more?: Pick<ScaleParams, 'step' | 'smallStep'>): Promise<{ readonly text: string; readonly notes: readonly string[] }> {
  const { file } = await marked(source);
  const found = await answer(source, request, more);
  if (found?.kind !== 'edit') throw new Error(JSON.stringify(found));
  return { text: edited(file.text, found.edits), notes: found.notes.map(({ line, message }) => `${line}: ${message}`) };
}

describe('scaling in an editor', () => {
  it('asks how, with what the formula at the cursor is now', async () => {
    expect(await answer(LOAF)).toEqual({
      kind: 'sizes',
      title: 'Loaf',
      sizes: [
        { by: 'pieces', label: 'Number of loaves', now: '2 loaves', example: '4' },
        { by: 'piece', label: 'Weight of a piece', now: '860 g', example: '860 g' },
        { by: 'dough', label: 'Weight of the dough', now: '1720 g', example: '3440 g' },
        { by: 'flour', label: 'Weight of all the flour', now: '1000 g', example: '1 kg' },
        { by: 'factor', label: 'Times what is written', now: '', example: '2' },
        { by: 'have', label: 'What I have of one ingredient', now: '', example: '1000 g bread flour' },
        { by: 'tin', label: 'Volume of a tin', now: '', example: '1.8 l' },
      ],
    });
  });

  it('every example that it gives is understood', async () => {
    const sizes = await answer(LOAF);
    if (sizes?.kind !== 'sizes') throw new Error('no sizes');
    for (const { by, example } of sizes.sizes) expect(await answer(LOAF, { by, value: example }), by).toMatchObject({ kind: 'edit' });
  });

  it('edits the formula at the cursor and no other', async () => {
    const { text, notes } = await after(LOAF, { by: 'pieces', value: '3' });
    expect(notes).toEqual([]);
    expect(text).toBe(LOAF.replace('┆', '').replace('2 loaves', '3 loaves').replace('1000 g', '1500 g').replace('700 g ', '1050 g').replace('20 g ', '30 g '));
  });

  it('says what rounding did, by line', async () => {
    const buns = LOAF.replace('┆', '').replace('300 g', '30┆0 g');
    const { text, notes } = await after(buns, { by: 'factor', value: '1.25' }, { step: '10 g', smallStep: '1 g' });
    expect(text).toContain('  630 g     bread flour\n  350 g     milk\n  3 eggs');
    expect(notes).toEqual(['12: milk: 25 g less, for the eggs stay whole.', '13: eggs: 2.5 is taken as 3.']);
  });

  it('with carriage returns the ranges are right', async () => {
    const { text } = await after(LOAF.replaceAll('\n', '\r\n'), { by: 'factor', value: '2' });
    expect(text).toContain('  2000 g    bread flour\r\n  1400 g    water\r\n  40 g      salt\r\n');
  });

  it.each<readonly [by: string, value: string, message: RegExp]>([
    ['pieces', 'two', /^Write a number above 0, such as 4 or 2\.5\.$/],
    ['tin', '2', /^Write a volume above 0/],
    ['factor', '0', /^Write a number above 0/],
    ['have', '3 g saffron', /^There is no "saffron" in this formula\.$/],
    ['factor', '999999', /more than 100,000 times/],
    ['constructor', '3', /^There is no size "constructor"\.$/],
  ])('cannot: %s %s', async (by, value, message) => {
    const found = await answer(LOAF, { by, value });
    expect(found).toMatchObject({ kind: 'cannot' });
    expect(found?.kind === 'cannot' && found.message).toMatch(message);
  });

  it('names the line that stands in the way', async () => {
    expect(await answer(LOAF.replace('700 g     water', 'water, 700'), { by: 'factor', value: '2' })).toEqual({
      kind: 'cannot', message: 'Line 6: This line cannot be read, so it would keep its old size.',
    });
  });

  it('there is nothing to scale outside of a formula', async () => {
    expect(await answer('ingredient "mill fl┆our"\n  like bread flour\n')).toBeNull();
  });
});

describe('the action', () => {
  const offered = async (source: string, more: { readonly scaleCommand?: string; readonly isAskedFor?: boolean; readonly only?: readonly string[] }): Promise<readonly string[]> => {
    const { file, offset } = await marked(source);
    const range = file.lineIndex.rangeOf(offset, offset);
    return codeActionsOf(file, range, { diagnostics: [], version: 1, documentChanges: true, snippets: true, ...more }).filter(({ title }) => title === 'Scale this formula…').map(({ title }) => title);
  };
  const scaleCommand = 'proofsheet.scaleFormula';

  it('is there in a formula when it is asked for, and calls the editor\'s own command', async () => {
    expect(await offered(LOAF, { scaleCommand, isAskedFor: true })).toEqual(['Scale this formula…']);
    expect(await offered(LOAF, { scaleCommand, only: ['refactor'] })).toEqual(['Scale this formula…']);
    const { file, offset } = await marked(LOAF);
    const [action] = codeActionsOf(file, file.lineIndex.rangeOf(offset, offset), { diagnostics: [], only: ['refactor.rewrite'], version: 1, documentChanges: true, snippets: true, scaleCommand });
    expect(action?.command).toEqual({ title: 'Scale this formula…', command: scaleCommand });
  });

  it('lights no bulb but at the head and at makes', async () => {
    expect(await offered(LOAF, { scaleCommand, isAskedFor: false })).toEqual([]);
    expect(await offered(LOAF.replace('┆', '').replace('makes', 'ma┆kes'), { scaleCommand, isAskedFor: false })).toEqual(['Scale this formula…']);
    expect(await offered(`┆${LOAF.replace('┆', '')}`, { scaleCommand })).toEqual(['Scale this formula…']);
  });

  it('is not there for an editor without the command, nor where there is no formula', async () => {
    expect(await offered(LOAF, { isAskedFor: true })).toEqual([]);
    expect(await offered(LOAF, { scaleCommand: '', isAskedFor: true })).toEqual([]);
    expect(await offered('use "pan┆try.bake"\n', { scaleCommand, isAskedFor: true })).toEqual([]);
    expect(await offered(LOAF, { scaleCommand, only: ['quickfix'] })).toEqual([]);
  });
});
