/** Spoons and cups: what a set of them can measure, and nothing where a spoon would be a danger or a joke. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { gramsPerUnit } from '../../../server/core/ingredients/weigh';
import type { MeasureSystem } from '../../../server/core/units/volume';
import { homeMeasure, homeMeasureNote } from '../../../server/output/card/home-measure';

function measured(name: string, grams: number, measures: MeasureSystem = 'us'): string | undefined {
  const ingredient = builtInCatalogue.find(name);
  if (ingredient === undefined) throw new Error(`${name} is not known`);
  return homeMeasure({ ingredient, role: ingredient.role, grams }, measures);
}

describe('in words', () => {
  test.each<readonly [string, number, string | undefined]>([
    // A US cup of water weighs 237 g, a tablespoon of salt 18 g, a teaspoon 6 g.
    ['water', 237, '1 cup'],
    ['water', 355, '1½ cups'],
    ['water', 59, '¼ cup'],
    ['water', 30, '2 tbsp'],
    ['water', 5, '1 tsp'],
    ['salt', 18, '1 tbsp'],
    ['salt', 6, '1 tsp'],
    ['salt', 3, '½ tsp'],
    ['salt', 0.75, '⅛ tsp'],
    ['salt', 0.3, 'a pinch'],
    ['salt', 36, '2 tbsp'],
    ['instant yeast', 0.3, 'a pinch'],
    // Less than two fingers take, or more than anybody counts in spoons.
    ['instant yeast', 0.1, undefined],
    ['instant yeast', 120, undefined],
    ['salt', 100, undefined],
    ['water', 3000, undefined],
    ['bread flour', 5000, undefined],
    // Between the spoons of a set, so that it says it is not just that.
    ['salt', 5.5, 'about 1 tsp'],
    ['eggs', 150, '3 large eggs'],
    ['eggs', 145, 'about 3 large eggs'],
    ['eggs', 50, '1 large egg'],
    // Two and a half eggs cannot be cracked.
    ['eggs', 125, undefined],
    ['water', 0, undefined],
  ])('%s %d g', (name, grams, expected) => {
    expect(measured(name, grams)).toBe(expected);
  });

  test('by whose cups the settings say', () => {
    expect(measured('water', 250, 'metric')).toBe('1 cup');
    expect(measured('water', 284, 'imperial')).toBe('1 cup');
    expect(homeMeasureNote('metric')).toContain('metric (a cup is 250 ml)');
  });

  test('nothing for what nobody has weighed by the cup', () => {
    expect(homeMeasure({ ingredient: undefined, role: 'other', grams: 100 }, 'us')).toBeUndefined();
    expect(measured('fresh yeast', 14)).toBeUndefined();
  });
});

const FRACTIONS: Readonly<Record<string, number>> = { '⅛': 1 / 8, '¼': 1 / 4, '⅓': 1 / 3, '½': 1 / 2, '⅔': 2 / 3, '¾': 3 / 4 };

/** The weight of what is said, reckoned anew from the words. */
function gramsOf(words: string, name: string, measures: MeasureSystem): number {
  return words.replace(/^about /, '').split(' + ').reduce((sum, part) => {
    const [, whole = '', fraction = '', unit = ''] = /^(\d*)([⅛¼⅓½⅔¾]?) (tsp|tbsp|cup)s?$/.exec(part) ?? [];
    expect(unit, part).not.toBe('');
    return sum + (Number(whole) + (FRACTIONS[fraction] ?? 0)) * gramsPerUnit(builtInCatalogue.find(name)!, unit as 'tsp' | 'tbsp' | 'cup', measures)!;
  }, 0);
}

test.each(['water', 'bread flour', 'salt', 'instant yeast', 'sugar', 'olive oil', 'honey'])('%s: what is measured is near the weight, and says where it is not', (name) => {
  fc.assert(fc.property(fc.double({ min: 0.05, max: 3000, noNaN: true }), fc.constantFrom<MeasureSystem>('us', 'metric', 'imperial'), (grams, measures) => {
    const words = measured(name, grams, measures);
    if (words === undefined || words === 'a pinch') return;
    const off = Math.abs(gramsOf(words, name, measures) / grams - 1);
    expect(off).toBeLessThanOrEqual(0.251);
    // A tablespoon that is weighed a little differently from a sixteenth of a cup may carry it over the line.
    if (words.startsWith('about ')) expect(off).toBeGreaterThan(0.01);
    else expect(off).toBeLessThan(0.035);
    if (name === 'salt' || name === 'instant yeast') expect(off).toBeLessThanOrEqual(0.121);
  }));
});
