/** Texts that nobody wrote by hand: long lines and long runs of one sign. They come to an end; a pattern that looked back would not. */
import { describe, expect, it } from 'vitest';
import { parse } from '../../../grammar';
import { convert, MOST_LINES } from '../../../server/core/convert/convert';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';

const LONG = 60_000;
const runs: readonly string[] = [' ', '\t', ':', '.', '-', '1', '1/', '1 ', '1,', '1.', '(', ')', '|', '"', '#', 'a', 'A ', 'the ', 'of ', 'or ', '1 g ', 'to ', '*', '_', '> ', '<', '&', '<p>', '½', '°', 'x', 'mix ', 'for ', ', for the a', '2 h ', '230 C ', 'word-'];

describe('long runs', () => {
  it.each(runs)('of %j', (run) => {
    const long = run.repeat(LONG / run.length);
    for (const text of [long, `500 g ${long}`, `Method:\n${long} bake.`, `Loaf\n\n1 g salt\n${long}end`, `{"@type":"Recipe","recipeIngredient":[${JSON.stringify(long)}],"recipeInstructions":${JSON.stringify(`Bake ${long}`)}}`]) {
      const converted = convert(text, { catalogue: builtInCatalogue });
      const draft = converted.kind === 'drafted' ? converted.text : '';
      expect(parse(draft).blocks.flatMap(({ block }) => block.problems.map(({ message }) => message))).toEqual([]);
    }
  });
});

it('as many lines as are read', () => {
  const lines = Array.from({ length: MOST_LINES - 1 }, (_, index) => `${index + 1} g bread flour, number ${index}`);
  const converted = convert(`Loaf\n${lines.join('\n')}`, { catalogue: builtInCatalogue });
  expect(converted.kind === 'drafted' && converted.text.split('\n').length).toBeGreaterThan(MOST_LINES);
});
