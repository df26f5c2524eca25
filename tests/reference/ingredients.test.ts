/** The ingredient table against its sources: facts by row, allergens against the two official lists. */
import { describe, expect } from 'vitest';
import { allergenLabels, allergensOf } from '../../server/core/ingredients/allergens';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { densityOf } from '../../server/core/ingredients/weigh';
import { CSV_RECORDS, cell, type CsvRecord } from '../core/ingredients/csv';
import { eachCheck, outside } from './outside';

const of = (name: string) => builtInCatalogue.find(name)!;
const recordOf = (key: string): CsvRecord => CSV_RECORDS.find((record) => record.key === key)!;
const sourceOf = (key: string): string => `${recordOf(key).source_id}, ${recordOf(key).release}`;

describe('facts, each read from the row that its source names', () => {
  outside('dataset', sourceOf('egg-whole'))('egg', () => {
    expect(of('egg').composition.water).toBe(76.15);
    expect(of('egg').eachGrams).toBe(50);
    expect(of('egg white')).toMatchObject({ eachGrams: 33, composition: { water: 87.57 } });
    expect(of('egg yolk')).toMatchObject({ eachGrams: 17, composition: { water: 52.31 } });
  });

  outside('dataset', `${sourceOf('butter-unsalted')}; ${sourceOf('butter-salted')}`)('butter', () => {
    expect(of('butter').composition).toMatchObject({ water: 17.94, fat: 81.11 });
    expect(of('salted butter').composition.water).toBe(15.87);
    expect(cell(recordOf('butter-salted'), 'sodium_mg')).toBe(643);
    expect(of('salted butter').composition.salt).toBeCloseTo(1.6, 1);
  });

  outside('dataset', sourceOf('bread-flour'))('bread flour; flours hold 4 to 15 % water', () => {
    expect(of('bread flour').composition).toMatchObject({ water: 13.36, protein: 11.98 });
    for (const record of CSV_RECORDS.filter(({ group }) => group === 'flour')) {
      expect(cell(record, 'water_g'), record.key).toBeGreaterThanOrEqual(4);
      expect(cell(record, 'water_g'), record.key).toBeLessThanOrEqual(15);
    }
  });

  outside('dataset', sourceOf('salt'))('salt', () => {
    expect(of('salt').composition.salt).toBeCloseTo(98.5, 1);
    expect(of('salt').gramsPerMeasure.tsp).toBe(6);
  });

  outside('dataset', `${sourceOf('honey')}; ${sourceOf('sugar-white')}`)('honey and sugar', () => {
    expect(of('honey').composition).toMatchObject({ water: 17.1, sugars: 82.12 });
    expect(densityOf(of('honey'))).toBeCloseTo(1.43, 2);
    expect(densityOf(of('sugar'))).toBeCloseTo(0.845, 3);
  });

  outside('dataset', sourceOf('milk-whole'))('milk', () => {
    expect(of('milk').composition.water).toBe(88.13);
    expect(densityOf(of('milk'))).toBeCloseTo(1.031, 3);
  });

  outside('dataset', `${sourceOf('yeast-fresh')}; ${sourceOf('yeast-dry-active')}`)('yeast: by dry matter 1 part dry is 3.06 parts fresh', () => {
    const dry = (name: string): number => 100 - of(name).composition.water!;
    expect(of('fresh yeast').composition.water).toBe(69);
    expect(of('dry yeast').composition.water).toBe(5.08);
    expect(dry('dry yeast') / dry('fresh yeast')).toBeCloseTo(3.06, 2);
    expect(of('instant yeast').composition).toEqual(of('dry yeast').composition);
    // A packet of 7 g is 2 1/4 tsp (from memory); the source has a spoon of active dry yeast only, and its grains pack otherwise.
    expect(of('instant yeast').gramsPerMeasure.tsp).toBeCloseTo(7 / 2.25, 9);
  });

  outside('dataset', `${sourceOf('figs-dried')}; ${sourceOf('fig')}; ${sourceOf('raisins')}; ${sourceOf('cranberries-dried')}`)('dried fruit', () => {
    expect(of('dried figs').composition.water).toBe(30.05);
    expect(of('figs').composition.water).toBe(79.11);
    expect(of('raisins').composition.water).toBe(15.43);
    expect(of('dried cranberries').composition.water).toBe(15.79);
  });

  outside('dataset', `${sourceOf('wine-red')}; ${sourceOf('vanilla-extract')}; ${sourceOf('beer')}`)('alcohol by weight', () => {
    expect([of('red wine'), of('vanilla extract'), of('beer')].map(({ composition }) => composition.alcohol)).toEqual([10.6, 34.4, 3.9]);
  });

  outside('dataset', `${sourceOf('rye-flour-dark')}; ${sourceOf('rye-flour-light')}; ${sourceOf('bread-flour')}; ${sourceOf('wheat-bran')}`)('fibre', () => {
    const names = ['dark rye flour', 'light rye flour', 'bread flour', 'wheat bran'];
    expect(names.map((name) => of(name).composition.fibre)).toEqual([23.8, 8, 2.4, 42.8]);
  });
});

describe('allergens', () => {
  /** The worked examples print cereals and nuts in a form of their own. */
  const printed: Readonly<Record<string, string>> = { 'cereals containing gluten (spelt=wheat, barley)': 'cereals containing gluten (barley, wheat)' };
  const orderless = (label: string): string => {
    const [head, kinds] = (printed[label] ?? label).replace('cereals containing gluten (wheat, rye)', 'cereals containing gluten (rye, wheat)').split(' (');
    return kinds === undefined ? head! : `${head} (${kinds}`;
  };

  eachCheck<{ ingredients: string[] }, { eu: string[]; us: string[] }>('allergen.map', ({ ingredients }, expected) => {
    const found = ingredients.map(of);
    for (const list of ['eu', 'us'] as const) {
      const labels = allergenLabels(allergensOf(found, list), list);
      expect([...labels].sort(), list).toEqual(expected[list].map(orderless).sort());
    }
  });
});
