import { describe, expect, it } from 'vitest';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { weigh } from '../../../server/core/ingredients/weigh';
import type { MeasureSystem } from '../../../server/core/units/volume';
import { blocksOf } from './blocks';

/** The grams of an ingredient line, as a baker writes it in a dough. */
function gramsOf(line: string, measures: MeasureSystem = 'us'): number | null {
  const node = blocksOf(`dough\n  ${line}\n`)[0]!.lines[0]!.node;
  if (node.kind !== 'ingredient') throw new Error(`${line} is read as ${node.kind}`);
  return weigh(node.amount, builtInCatalogue.find(node.name.text), measures);
}

describe('weighing an amount', () => {
  it.each([
    ['700 g bread flour', 700], ['1.5 kg bread flour', 1500], ['500 mg salt', 0.5], ['2 oz butter', 56.69904625], ['1 lb butter', 453.59237],
    ['4 to 5 g salt', 4.5], ['1 1/2 kg moon dust', 1500],
  ])('mass: %s', (line, grams) => {
    expect(gramsOf(line)).toBeCloseTo(grams, 9);
  });

  it.each([
    // As the source weighs the very measure.
    ['2 cup bread flour', 274], ['1 tsp salt', 6], ['1 tbsp salt', 18], ['1/2 cup sugar', 100], ['1 to 2 cup sugar', 300], ['2 tbsp honey', 42],
    ['8 fl oz milk', 244],
    // A packet of 7 g is 2 1/4 tsp (from memory).
    ['2 1/4 tsp instant yeast', 7], ['1 tbsp osmotolerant yeast', 28 / 3],
  ])('volume by its own measure: %s', (line, grams) => {
    expect(gramsOf(line)).toBeCloseTo(grams, 9);
  });

  it.each([
    // Through the density that its largest measure gives; a US cup holds 236.5882365 ml.
    ['100 ml water', 'us', 100], ['1 l water', 'metric', 1000], ['100 ml milk', 'us', (100 * 244) / 236.5882365], ['1 tsp honey', 'us', 339 / 48],
    ['1 tbsp sugar', 'us', 200 / 16], ['1 tbsp baking powder', 'us', 4.6 * 3], ['1 cup bread flour', 'metric', (250 * 137) / 236.5882365],
    ['1 cup bread flour', 'imperial', (284.130625 * 137) / 236.5882365], ['1 tsp salt', 'metric', (5 * 292) / 236.5882365],
    // By the density of its source.
    ['1 cup oat flour', 'us', 236.5882365 * 0.53], ['100 ml wheat gluten', 'metric', 69],
    // Agave: the spoon, never the source's cup that would float.
    ['1 cup agave syrup', 'us', 6.9 * 48],
  ] as const)('volume by density: %s (%s)', (line, measures, grams) => {
    expect(gramsOf(line, measures)).toBeCloseTo(grams, 9);
  });

  it.each([
    ['4 eggs', 200], ['1 egg', 50], ['2 egg yolks', 34], ['3 egg whites', 99], ['2 medium eggs', 88], ['2 M eggs', 102.08], ['2 sticks butter', 226], ['1 stick of unsalted butter', 113],
    ['2 cloves garlic', 6], ['1 packet active dry yeast', 7.2], ['3 slices of ham', 84], ['3 to 4 dried figs', 29.4], ['2 garlic cloves', 6],
  ])('count: %s', (line, grams) => {
    expect(gramsOf(line)).toBeCloseTo(grams, 9);
  });

  it.each([
    ['1 tsp (4.5 g) vanilla extract', 4.5], ['4 (220 g) eggs', 220], ['2 cup (250 g) moon dust', 250],
  ])('the bracket wins: %s', (line, grams) => {
    expect(gramsOf(line)).toBe(grams);
  });

  it('takes a pinch for 0.3 g', () => {
    expect(gramsOf('pinch salt')).toBe(0.3);
    expect(gramsOf('2 pinches salt')).toBeCloseTo(0.6, 12);
  });

  it.each([
    ['1 cup moon dust', 'unknown'], ['3 moon dust', 'unknown'],
    ['1 tsp flaky salt', 'flakes pack as they like'], ['2 breads', 'unknown'], ['1 cup dark chocolate', 'no measure'], ['2 flour', 'no piece of flour'],
    ['72 % water', 'a share'], ['all levain', 'a part'],
  ])('cannot know %s (%s)', (line) => {
    expect(gramsOf(line)).toBeNull();
  });
});
