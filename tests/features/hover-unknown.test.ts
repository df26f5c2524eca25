/** A number that cannot be known: the hover says why, in one sentence that names what is missing. */
import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../server/features/hover';
import { marked } from './marked';

async function hover(source: string): Promise<string | undefined> {
  const { file, offset } = await marked(source);
  const contents = hoverAt(file, offset)?.contents;
  return contents !== undefined && typeof contents === 'object' && 'value' in contents ? contents.value : undefined;
}

const SHARES = 'dough\n  100 % bread flour\n  70 % water\n  2 % salt\n';
const formula = (head: string, body: string) => `form┆ula "Stall loaf"\n${head}\n${body}`;

describe('of a formula', () => {
  it.each([
    ['no size', formula('', SHARES), 'nothing fixes how much dough is made'],
    ['no pieces', formula('  makes 0 loaves of 900 g\n', SHARES), 'makes says no pieces'],
    ['no flour', formula('', 'dough\n  0 g bread flour\n  700 g water\n'), 'no line of the dough is flour with a weight'],
    ['a cup of nobody knows what', formula('', 'dough\n  500 g bread flour\n  2 cups moon dust\n'), '2 cups moon dust has no weight'],
    ['a number that is none', formula('', 'dough\n  1/0 g bread flour\n  300 g water\n'), 'the amount of bread flour cannot be read'],
    ['parts in a ring', formula('', 'poolish "one"\n  100 g bread flour\n  all two\n\npoolish "two"\n  100 g bread flour\n  all one\n\ndough\n  500 g bread flour\n  all one\n'), 'one and two need each other first'],
    ['more kept than made', formula('', 'levain\n  100 g bread flour\n  100 g water\n  keep 500 g\n\ndough\n  500 g bread flour\n  all levain\n'), 'levain keeps back more than it makes'],
  ])('%s', async (_what, source, reason) => {
    expect(((await hover(source)) ?? '').replace(/\\/g, '')).toContain(`Not known: ${_what === 'no flour' ? 'the shares of the flour, for ' : ''}${reason}`);
  });

  it('says why a piece has no weight of its own', async () => {
    expect(await hover(formula('', 'dough\n  500 g bread flour\n  300 g water\n'))).toContain('| one piece | not known: no `makes` line says how many there are |');
    expect(await hover(formula('  makes 0 loaves\n', 'dough\n  500 g bread flour\n  300 g water\n'))).toContain('not known: the `makes` line says no pieces');
  });

  it('says that there is no dough', async () => {
    expect(await hover('form┆ula "Stall loaf"\n')).toContain('no `dough` is written under it');
  });
});

it('of a part, and of an amount', async () => {
  expect(await hover(`formula "Stall loaf"\n\ndou┆gh\n${SHARES.slice('dough\n'.length)}`)).toContain('**dough**: Not known: nothing fixes how much dough is made');
  expect(await hover(`formula "Stall loaf"\n\n${SHARES.replace('70 %', '7┆0 %')}`)).toContain('Not known: nothing fixes how much dough is made');
  expect(await hover('dough\n  500 g bread flour\n  2 cu┆ps moon dust\n')).toContain('2 cups moon dust has no weight');
  // Of what is known nothing is said.
  expect(await hover('dough\n  50┆0 g bread flour\n  300 g water\n')).not.toContain('Not known');
});
