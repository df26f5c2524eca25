/** What is written for other programs against the standards that they read by. */
import { describe, expect } from 'vitest';
import { csvRecord } from '../../server/output/export/csv';
import { exported } from '../../server/output/export/forms';
import { isoDuration } from '../../server/output/export/iso-duration';
import { energy, mass } from '../../server/output/export/recipe';
import { exportsOf } from '../output/export/samples';
import { eachCheck } from './outside';

describe('lengths of time', () => {
  eachCheck<{ readonly minutes: readonly number[] }, { readonly duration: readonly string[] }>('export.iso8601', ({ minutes }, { duration }) => {
    expect(minutes.map(isoDuration)).toEqual(duration);
  });
});

describe('a record of a table', () => {
  eachCheck<{ readonly fields: readonly string[] }, { readonly record: string }>('export.csv', ({ fields }, { record }) => {
    expect(csvRecord(fields)).toBe(record);
  });
});

describe('a recipe', () => {
  interface Minutes {
    readonly prep_min: number;
    readonly bake_min: number;
    readonly total_min: number;
    readonly kcal: number;
    readonly carb_g: number;
  }
  interface Expected {
    readonly prepTime: string;
    readonly cookTime: string;
    readonly totalTime: string;
    readonly calories: string;
    readonly carbohydrateContent: string;
  }

  eachCheck<Minutes, Expected>('export.schema_recipe', ({ prep_min, bake_min, total_min, kcal, carb_g }, expected) => {
    // A dough whose steps take as long as the example says, and whose rise is the rest of it.
    const text = `formula "Example"
  makes  1 loaf of 800 g

dough
  500 g  bread flour
  300 g  water

steps
  mix    ${String(prep_min)} min
  bulk   ${String(total_min - prep_min - bake_min)} min at 20 C
  bake   ${String(bake_min)} min at 230 C
`;
    const { prepTime, cookTime, totalTime } = JSON.parse(exported('jsonld', exportsOf(text), 0)) as Record<string, string>;
    expect(prepTime).toBe(expected.prepTime);
    expect(cookTime).toBe(expected.cookTime);
    expect(totalTime).toBe(expected.totalTime);
    expect(energy(kcal)).toBe(expected.calories);
    expect(mass(carb_g)).toBe(expected.carbohydrateContent);
  });
});
