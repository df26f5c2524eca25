/** Units of measure against their definitions and published tables. Each test names the source of its numbers. */
import { describe, expect } from 'vitest';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { EU_EGG_GRADES, euEggEdibleGrams, euEggGrade, US_EGG_SIZES } from '../../server/core/ingredients/eggs';
import { gramsPerUnit } from '../../server/core/ingredients/weigh';
import type { VolumeUnit } from '../../grammar';
import { gramsFrom, GRAMS_PER } from '../../server/core/units/mass';
import { celsius, fahrenheit } from '../../server/core/units/temperature';
import { AUSTRALIAN_TABLESPOON_ML, IMPERIAL_PINT_ML, US_LABEL_ML, volumeToMl } from '../../server/core/units/volume';
import { exampleOf, outside, outsideChecks, type OutsideCheck } from './outside';

/** Runs one worked example under the name of its source. */
function example(id: string, run: (inputs: Record<string, never>, expected: Record<string, never>, tolerance: number) => void): void {
  const check = outsideChecks.find((one) => one.id === id) as OutsideCheck<Record<string, never>, Record<string, never>> | undefined;
  if (check === undefined) throw new Error(`${id} is no worked example`);
  exampleOf(check, (inputs, expected, tolerance) => run(inputs, expected, Object.values(tolerance)[0] ?? 0));
}

function near(actual: number | null | undefined, expected: number, tolerance: number): void {
  expect(actual).not.toBeNull();
  expect(Math.abs((actual ?? NaN) - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance + 1e-9);
}

describe('volume', () => {
  example('units-01', (_, { mL }: Record<string, Record<string, number>>, tolerance) => {
    for (const [name, ml] of Object.entries(mL!)) near(volumeToMl(name.replace('_', ' ') as VolumeUnit, 'us'), ml, tolerance);
  });
  example('units-02', (_, { mL }: Record<string, Record<string, number>>) => {
    expect(US_LABEL_ML).toMatchObject(mL!);
  });
  example('units-03', (_, { mL }: Record<string, readonly number[]>) => {
    expect([volumeToMl('cup', 'metric'), AUSTRALIAN_TABLESPOON_ML, volumeToMl('tbsp', 'metric'), volumeToMl('tsp', 'metric')]).toEqual(mL);
  });
  example('units-04', (_, { mL }: Record<string, Record<string, number>>, tolerance) => {
    near(IMPERIAL_PINT_ML, mL!.pint!, tolerance);
    near(volumeToMl('cup', 'imperial'), mL!.cup!, tolerance);
    near(volumeToMl('fl oz', 'imperial'), mL!.fl_oz!, tolerance);
  });
});

describe('mass', () => {
  example('units-05', (_, { g }: Record<string, Record<string, number>>, tolerance) => {
    near(GRAMS_PER.lb, g!.lb!, tolerance);
    near(GRAMS_PER.oz, g!.oz!, tolerance);
  });
  example('units-06', ({ sticks }: Record<string, readonly number[]>, { g_label, g_exact }: Record<string, readonly number[]>, tolerance) => {
    const stickGrams = builtInCatalogue.find('butter')!.eachGrams!;
    sticks!.forEach((count, index) => {
      near(count * stickGrams, g_label![index]!, tolerance);
      near(count * gramsFrom(4, 'oz'), g_exact![index]!, tolerance);
    });
  });
});

describe('eggs', () => {
  example('units-07', ({ size }: Record<string, readonly string[]>, expected: Record<string, readonly number[]>) => {
    expect(US_EGG_SIZES.map((egg) => egg.size)).toEqual(size);
    expect(US_EGG_SIZES.map((egg) => egg.edibleGrams)).toEqual(expected.edible_g);
    expect(US_EGG_SIZES.map((egg) => egg.dozenOunces)).toEqual(expected.min_oz_per_dozen);
    expect(size!.map((one) => builtInCatalogue.find(`${one} eggs`)?.eachGrams)).toEqual(expected.edible_g);
  });
  example('units-08', (_, { in_shell_g_each }: Record<string, number>, tolerance) => {
    near(gramsFrom(US_EGG_SIZES.find(({ size }) => size === 'large')!.dozenOunces / 12, 'oz'), in_shell_g_each!, tolerance);
  });
  example('units-09', ({ grams_in_shell }: Record<string, readonly number[]>, { size }: Record<string, readonly string[]>) => {
    expect(grams_in_shell!.map(euEggGrade)).toEqual(size);
  });
  outside('dataset', 'USDA SR28 NDB 01123, 12 % refuse')('a European M egg without its shell is about a US large one', () => {
    near(euEggEdibleGrams('M'), 50, 1.5);
    expect(EU_EGG_GRADES.map(({ grade }) => euEggEdibleGrams(grade) === undefined)).toEqual([true, false, false, true]);
  });
});

describe('volume to mass', () => {
  example('units-10', ({ items }: Record<string, readonly (readonly [string, number, VolumeUnit])[]>, { g }: Record<string, readonly number[]>, tolerance) => {
    items!.forEach(([name, count, unit], index) => {
      const grams = gramsPerUnit(builtInCatalogue.find(name)!, unit, 'us');
      near(grams === null ? null : grams * count, g![index]!, tolerance);
    });
  });
});

describe('temperature', () => {
  example('baking-15', ({ C }: Record<string, readonly number[]>, { F }: Record<string, readonly number[]>, tolerance) => {
    C!.forEach((value, index) => near(fahrenheit(value), F![index]!, tolerance));
  });
  example('baking-16', ({ F }: Record<string, readonly number[]>, { C }: Record<string, readonly number[]>, tolerance) => {
    F!.forEach((value, index) => near(celsius(value), C![index]!, tolerance));
  });
});
