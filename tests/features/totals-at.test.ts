/** The totals of the formula at the cursor, as the status bar shows them. */
import { describe, expect, it } from 'vitest';
import { totalsAt } from '../../server/features/totals-at';
import { marked } from './marked';

const at = async (source: string) => {
  const { file, offset } = await marked(source);
  return totalsAt(file, offset);
};

const country = (cursor: string): string => `use "none.bake"
${cursor}
formula "Country *loaf*"
  makes     4 loaves of 950 g

dough
  100 %     bread flour
  72 %      water
  2 %       salt
`;

describe('the totals at the cursor', () => {
  it('are hydration, salt and pieces of the formula, in short, aloud and in full', async () => {
    expect(await at(country('').replace('water', 'wa┆ter'))).toEqual({
      short: '72 % · salt 2 % · 4 × 950 g',
      spoken: 'Country *loaf*: hydration 72 %, salt 2 %, 4 loaves of 950 g',
      all: expect.stringMatching(/^\*\*Country \\\*loaf\\\*\*\*\n\n\| {2}\| of all the flour \|[^]*\| hydration \| 72 % \|[^]*\| salt \| 2 % \|/),
    });
  });

  it('are those of the formula that the cursor is in, of several', async () => {
    const two = `${country('')}
formula "Flat"
dough
  500 g     bread flour
  300 g     wa┆ter
`;
    expect(await at(two)).toMatchObject({ short: '60 % · salt 0 % · 800 g', spoken: 'Flat: hydration 60 %, salt 0 %, 800 g in all' });
  });

  it('of a dish, which has no percentages, are none', async () => {
    expect(await at('dish "Custard"\ncustard\n  4 eggs (220 g)\n  1 l mi┆lk\n')).toBeUndefined();
  });

  it('leave out what is not known', async () => {
    expect(await at('formula "A"\n  makes 2 loaves of 400 g\ndough\n  500 g bread flour\n  2 cups of stall mil┆k\n  9 g salt\n')).toMatchObject({ short: 'salt 1.8 %' });
    expect(await at('formula "A"┆\n')).toBeUndefined();
  });

  it('are none among the use lines, in a plan, or in an empty file', async () => {
    expect(await at(country('').replace('none', 'no┆ne'))).toBeUndefined();
    expect(await at('plan "Market"\n  ready┆ 2026-05-16 07:30\n')).toBeUndefined();
    expect(await at('┆')).toBeUndefined();
  });
});
