/** Ingredients in the order and with the emphasis of a label. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { declarationOf, type LawList } from '../../../server/core/facts';
import { LAW_WORDS, lawWords } from '../../../server/core/facts/law-words';
import { EU_ALLERGENS, US_ALLERGENS } from '../../../server/core/ingredients/allergens';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { formulaText } from '../scaling/arbitrary';
import { analyseFormula, analyseText } from '../bake';

const listOf = (text: string, list: LawList = 'eu'): string => declarationOf(analyseFormula(text).formula, list).map((one) => one.text).join(', ');

const KNOTS = `formula "Knots"
  makes     20 knots
  loses     10 % in the oven

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  100 g     dark rye flour
  500 g     whole milk
  150 g     water
  all       levain
  100 g     butter
  20 g      salt
  80 g      walnuts
  30 g      rice flour for dusting
  10 g      sesame seeds for the top

filling
  200 g     butter
  150 g     sugar
  15 g      cinnamon
`;

describe('the ingredients of a label', () => {
  it('are in descending order of weight, one ingredient of all parts together', () => {
    expect(listOf(KNOTS)).toBe(
      'bread flour (WHEAT), whole MILK, filling (butter (MILK), sugar, cinnamon), dark RYE flour, butter (MILK), WALNUTS, '
      + 'sourdough culture (flour, water), salt, SESAME seeds, water',
    );
    const [flour] = declarationOf(analyseFormula(KNOTS).formula, 'eu');
    expect(flour).toMatchObject({ name: 'bread flour', grams: 1000, allergens: ['WHEAT'] });
  });

  it('have water where what is left of it belongs by EU law, and as it went in by US law', () => {
    // Of 2445 g a tenth is lost, and of 250 g of water 5.5 g are left. Rye is nobody's allergen there, a walnut by its own name.
    expect(listOf(KNOTS, 'us')).toContain('filling (butter (MILK), sugar, cinnamon), water, dark rye flour, butter (MILK), WALNUTS, ');
  });

  it('name what is dusted or greases the tin nowhere', () => {
    expect(listOf(KNOTS)).not.toContain('rice');
  });

  it('of bread that a dish takes are listed behind its name', () => {
    const [, pudding] = analyseText(`formula "Loaf"
  makes     2 loaves of 500 g

dough
  100 %     bread flour
  65 %      water
  2 %       salt

dish "Pudding"
  serves    4
  uses      300 g of "Loaf"
  400 g     milk
`);
    expect(declarationOf(pudding!.formula!, 'eu').map(({ text }) => text)).toEqual(['MILK', 'Loaf (bread flour (WHEAT), water, salt)']);
  });

  it('without a weight come last', () => {
    const found = declarationOf(analyseFormula('dough\n  500 g bread flour\n  2 tsp grains of paradise\n  300 g water\n').formula, 'us');
    expect(found.map(({ name, grams }) => [name, grams])).toEqual([['bread flour', 500], ['water', 300], ['grains of paradise', null]]);
  });

  it('never go up in weight, and weigh what goes in', () => {
    fc.assert(fc.property(formulaText, (text) => {
      const { formula, sheet } = analyseFormula(text);
      const weights = declarationOf(formula, 'us').map(({ grams }) => grams ?? NaN);
      for (const [i, grams] of weights.entries()) expect(grams).toBeLessThanOrEqual(weights[i - 1] ?? Infinity);
      const sum = (values: readonly (number | null)[]) => values.reduce<number>((total, value) => total + (value ?? NaN), 0);
      const all = sum(sheet.rows.map(({ grams }) => grams));
      expect(Math.abs(sum(weights) - all)).toBeLessThan(1e-6 * all);
    }), { numRuns: 60 });
  });
});

describe('words of the law', () => {
  it.each([
    ['walnuts', ['nuts:walnut'], 'WALNUTS'],
    ['whole wheat flour', ['gluten:wheat'], 'whole WHEAT flour'],
    ['spelt flour', ['gluten:wheat'], 'spelt flour (WHEAT)'],
    ['buttermilk', ['milk'], 'buttermilk (MILK)'],
    ['dark chocolate', ['soy', 'milk'], 'dark chocolate (SOYBEANS, MILK)'],
    ['eggs', ['eggs', 'egg'], 'EGGS'],
    ['rolled oats', ['gluten:oats'], 'rolled OATS'],
    ['water', [], 'water'],
    ['stall mix', ['kiwi'], 'stall mix (KIWI)'],
  ])('%s, which holds %j, is %s', (name, ids, text) => {
    expect(lawWords(name, ids).text).toBe(text);
  });

  it('are there for every class of both lists, and for all that the table holds', () => {
    const ids = new Set(builtInCatalogue.all.flatMap(({ ingredient: { allergens } }) => [...allergens.eu, ...allergens.us]));
    expect(ids.size).toBeGreaterThan(10);
    for (const id of [...ids, ...EU_ALLERGENS.map((one) => one.id), ...US_ALLERGENS.map((one) => one.id)]) expect(Object.keys(LAW_WORDS), id).toContain(id.split(':').at(-1));
  });
});
