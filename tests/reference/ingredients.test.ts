/** The ingredient table against its sources: facts by row, mass balance by row, allergens against the two official lists. */
import { describe, expect, it } from 'vitest';
import { allergenLabels, allergensOf } from '../../server/core/ingredients/allergens';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { densityOf } from '../../server/core/ingredients/weigh';
import { CSV_RECORDS, cell, type CsvRecord } from '../core/ingredients/csv';
import checks from './checks.json';

const of = (name: string) => builtInCatalogue.find(name)!;
const recordOf = (key: string): CsvRecord => CSV_RECORDS.find((record) => record.key === key)!;
const sourceOf = (key: string): string => `${recordOf(key).source_id}, ${recordOf(key).release}`;

describe('facts, each read from the row that its source names', () => {
  it(`egg: ${sourceOf('egg-whole')}`, () => {
    expect(of('egg').composition.water).toBe(76.15);
    expect(of('egg').eachGrams).toBe(50);
    expect(of('egg white')).toMatchObject({ eachGrams: 33, composition: { water: 87.57 } });
    expect(of('egg yolk')).toMatchObject({ eachGrams: 17, composition: { water: 52.31 } });
  });

  it(`butter: ${sourceOf('butter-unsalted')}; ${sourceOf('butter-salted')}`, () => {
    expect(of('butter').composition).toMatchObject({ water: 17.94, fat: 81.11 });
    expect(of('salted butter').composition.water).toBe(15.87);
    expect(cell(recordOf('butter-salted'), 'sodium_mg')).toBe(643);
    expect(of('salted butter').composition.salt).toBeCloseTo(1.6, 1);
  });

  it(`bread flour: ${sourceOf('bread-flour')}; flours of the SR28 rows hold 4 to 15 % water`, () => {
    expect(of('bread flour').composition).toMatchObject({ water: 13.36, protein: 11.98 });
    for (const record of CSV_RECORDS.filter(({ group }) => group === 'flour')) {
      expect(cell(record, 'water_g'), record.key).toBeGreaterThanOrEqual(4);
      expect(cell(record, 'water_g'), record.key).toBeLessThanOrEqual(15);
    }
  });

  it(`salt: ${sourceOf('salt')}`, () => {
    expect(of('salt').composition.salt).toBeCloseTo(98.5, 1);
    expect(of('salt').gramsPerMeasure.tsp).toBe(6);
  });

  it(`honey and sugar: ${sourceOf('honey')}; ${sourceOf('sugar-white')}`, () => {
    expect(of('honey').composition).toMatchObject({ water: 17.1, sugars: 82.12 });
    expect(densityOf(of('honey'))).toBeCloseTo(1.43, 2);
    expect(densityOf(of('sugar'))).toBeCloseTo(0.845, 3);
  });

  it(`milk: ${sourceOf('milk-whole')}`, () => {
    expect(of('milk').composition.water).toBe(88.13);
    expect(densityOf(of('milk'))).toBeCloseTo(1.031, 3);
  });

  it(`yeast: ${sourceOf('yeast-fresh')}; ${sourceOf('yeast-dry-active')}: by dry matter 1 part dry is 3.06 parts fresh`, () => {
    const dry = (name: string): number => 100 - of(name).composition.water!;
    expect(of('fresh yeast').composition.water).toBe(69);
    expect(of('dry yeast').composition.water).toBe(5.08);
    expect(dry('dry yeast') / dry('fresh yeast')).toBeCloseTo(3.06, 2);
    expect(of('instant yeast').composition).toEqual(of('dry yeast').composition);
    expect(of('instant yeast').gramsPerMeasure).toEqual({});
  });

  it(`dried fruit: ${sourceOf('figs-dried')}; ${sourceOf('fig')}; ${sourceOf('raisins')}; ${sourceOf('cranberries-dried')}`, () => {
    expect(of('dried figs').composition.water).toBe(30.05);
    expect(of('figs').composition.water).toBe(79.11);
    expect(of('raisins').composition.water).toBe(15.43);
    expect(of('dried cranberries').composition.water).toBe(15.79);
  });

  it(`alcohol by weight: ${sourceOf('wine-red')}; ${sourceOf('vanilla-extract')}; ${sourceOf('beer')}`, () => {
    expect([of('red wine'), of('vanilla extract'), of('beer')].map(({ composition }) => composition.alcohol)).toEqual([10.6, 34.4, 3.9]);
  });

  it(`fibre: ${sourceOf('rye-flour-dark')}; ${sourceOf('rye-flour-light')}; ${sourceOf('bread-flour')}; ${sourceOf('wheat-bran')}`, () => {
    const names = ['dark rye flour', 'light rye flour', 'bread flour', 'wheat bran'];
    expect(names.map((name) => of(name).composition.fibre)).toEqual([23.8, 8, 2.4, 42.8]);
  });
});

describe('mass balance: the parts of each row come to 100 g', () => {
  /** Grams that the source's own parts come to. Alcohol and ash count; fibre only where it stands beside the carbohydrate. */
  function sumOf(record: CsvRecord): number {
    const columns = ['water_g', 'protein_g', 'fat_g', 'carbohydrate_g', 'ash_g', 'alcohol_g'];
    if (record.carbohydrate_basis === 'available') columns.push('fibre_g');
    return columns.reduce((sum, column) => sum + (cell(record, column) ?? 0), 0);
  }

  /** Rows that do not, and why. */
  const EXCEPTIONS: Readonly<Record<string, readonly [sum: number, why: string]>> = {
    'baking-soda': [37.1, 'gas and water are driven off in ashing'],
    'vinegar-cider': [94.91, 'acetic acid is in no part'],
    'pepper-black': [94.55, 'so in SR28'],
    'goat-cheese-soft': [101.93, 'so in SR28'],
    'creme-fraiche': [98.1, 'the Swiss table gives no ash'],
    'onion-roasted': [98.4, 'the Swiss table gives no ash'],
  };

  it.each(Object.entries(EXCEPTIONS))('%s: %j', (key, [sum]) => {
    expect(sumOf(recordOf(key))).toBeCloseTo(sum, 1);
  });

  it('every other row within 1 g', () => {
    const out = CSV_RECORDS.filter(({ key }) => !(key! in EXCEPTIONS)).flatMap((record) => {
      const sum = sumOf(record);
      return Math.abs(sum - 100) > 1.0001 ? [`${record.key} ${sum.toFixed(2)}`] : [];
    });
    expect(out).toEqual([]);
  });
});

describe('allergens', () => {
  /** The worked examples print cereals and nuts in a form of their own. */
  const printed: Readonly<Record<string, string>> = { 'cereals containing gluten (spelt=wheat, barley)': 'cereals containing gluten (barley, wheat)' };
  const orderless = (label: string): string => {
    const [head, kinds] = (printed[label] ?? label).replace('cereals containing gluten (wheat, rye)', 'cereals containing gluten (rye, wheat)').split(' (');
    return kinds === undefined ? head! : `${head} (${kinds}`;
  };

  for (const check of checks) {
    if (check.topic !== 'allergen.map') continue;
    it(`${check.id}: ${check.source}`, () => {
      const { ingredients } = check.inputs as unknown as { ingredients: string[] };
      const expected = check.expected as unknown as { eu: string[]; us: string[] };
      const found = ingredients.map(of);
      for (const list of ['eu', 'us'] as const) {
        const labels = allergenLabels(allergensOf(found, list), list);
        expect([...labels].sort(), list).toEqual(expected[list].map(orderless).sort());
      }
    });
  }
});
