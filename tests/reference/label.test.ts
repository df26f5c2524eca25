/** Label figures against the rules that set them, and a loaf worked by them. */
import { describe, expect } from 'vitest';
import {
  nutrientsOf, nutritionOf, saltFromSodiumMg, timesNutrients, usCalories, usCholesterol, usEnergyKcal, usFat, usGrams, usSodium, type Food,
} from '../../server/core/facts';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { breadFrom } from '../../server/core/baking';
import { eachCheck, near, outsideChecks } from './outside';
import { resolveText } from './resolve-text';

describe('US rounding', () => {
  const rules: Readonly<Record<string, (value: number) => number | string>> = {
    calories: usCalories,
    total_fat_g: usFat,
    sodium_mg: usSodium,
    total_carbohydrate_g: usGrams,
    cholesterol_mg: usCholesterol,
  };

  eachCheck<Record<string, number[]>, { declared: (number | string)[] }>('label.us_rounding', (inputs, expected) => {
    const [[nutrient, values] = ['', []]] = Object.entries(inputs);
    const rule = rules[nutrient];
    expect(rule, nutrient).toBeDefined();
    expect(values.map((value) => rule?.(value))).toEqual(expected.declared);
  });
});

describe('energy and salt', () => {
  eachCheck<{ protein_g: number; fat_g: number; carbohydrate_g: number }, { kcal: number }>('label.atwater', (inputs, expected, { kcal }) => {
    near(usEnergyKcal({ protein: inputs.protein_g, fat: inputs.fat_g, carbohydrateTotal: inputs.carbohydrate_g, alcohol: 0 }), expected.kcal, kcal);
  });

  eachCheck<{ sodium_mg: number }, { salt_g: number }>('label.salt_equivalent', (inputs, expected, { grams }) => {
    near(saltFromSodiumMg(inputs.sodium_mg), expected.salt_g, grams);
  });
});

describe('a lean loaf', () => {
  interface Loaf {
    flour_bread_g: number; water_g: number; salt_g: number; yeast_g: number; bake_loss_pct: number; serving_g: number; salt_sodium_mg_per_100g: number;
    composition_per_100g: { protein: number; fat: number; carbohydrate: number; fibre: number; sodium_mg: number };
  }

  const compositionOf = (name: string) => builtInCatalogue.find(name)?.composition;

  /** The examples leave the yeast out of the nutrients, not out of the weight. */
  const workedOut = (inputs: Loaf) => {
    const flour = compositionOf('bread flour');
    const given = inputs.composition_per_100g;
    expect([flour?.protein, flour?.fat, flour?.carbohydrate, flour?.fibre]).toEqual([given.protein, given.fat, given.carbohydrate, given.fibre]);
    const foods: Food[] = [
      { grams: inputs.flour_bread_g, composition: flour },
      { grams: inputs.salt_g, composition: compositionOf('salt') },
      { grams: inputs.water_g, composition: undefined, negligible: true },
    ];
    const bread = breadFrom(inputs.flour_bread_g + inputs.water_g + inputs.salt_g + inputs.yeast_g, inputs.bake_loss_pct / 100);
    return { all: nutrientsOf(foods), bread };
  };

  /** The same loaf as a baker writes it: its yeast counts. */
  const written = (inputs: Loaf) => {
    const { formula, totals, sheet } = resolveText(`formula "Lean loaf"
  loses ${inputs.bake_loss_pct} % in the oven

dough
  ${inputs.flour_bread_g} g bread flour
  ${inputs.water_g} g water
  ${inputs.salt_g} g salt
  ${inputs.yeast_g} g active dry yeast
`);
    const nutrition = nutritionOf(formula, totals, sheet, { sliceGrams: inputs.serving_g });
    if (nutrition === null) throw new Error('not known');
    return nutrition;
  };

  eachCheck<
    Loaf,
    Record<'bread_g' | 'kcal_per_serving' | 'declared_kcal' | 'protein_g' | 'fat_g' | 'carb_g' | 'sodium_mg' | 'declared_sodium_mg', number>
  >('label.lean_bread_us', (inputs, expected, { grams, kcal, mg }) => {
    const { all, bread } = workedOut(inputs);
    const serving = timesNutrients(all, inputs.serving_g / bread);
    near(bread, expected.bread_g, grams);
    near(serving.energyKcalUs, expected.kcal_per_serving, kcal);
    near(serving.protein, expected.protein_g, grams);
    near(serving.fat, expected.fat_g, grams);
    near(serving.carbohydrateTotal, expected.carb_g, grams);
    near(serving.sodiumMg, expected.sodium_mg, mg);
    expect(usCalories(serving.energyKcalUs ?? NaN)).toBe(expected.declared_kcal);
    expect(usSodium(serving.sodiumMg ?? NaN)).toBe(expected.declared_sodium_mg);

    // 4 g of yeast bring 1.6 g of protein and as much carbohydrate to 1500 g of bread.
    const nutrition = written(inputs);
    near(nutrition.bakedGrams, expected.bread_g, grams);
    near(nutrition.perSlice.energyKcalUs, expected.kcal_per_serving, 0.6);
    near(nutrition.perSlice.protein, expected.protein_g, 0.06);
    near(nutrition.perSlice.carbohydrateTotal, expected.carb_g, 0.06);
    near(nutrition.perSlice.sodiumMg, expected.sodium_mg, mg);
    expect(usCalories(nutrition.perSlice.energyKcalUs ?? NaN)).toBe(expected.declared_kcal);
  });

  eachCheck<{ same_formula_as: string }, Record<'energy_kJ' | 'energy_kcal' | 'carbohydrate_available_g' | 'salt_g', number>>(
    'label.lean_bread_eu',
    ({ same_formula_as }, expected, { kJ, kcal, grams }) => {
      const inputs = outsideChecks.find(({ topic }) => topic === same_formula_as)?.inputs as Loaf;
      const { all, bread } = workedOut(inputs);
      const per100g = timesNutrients(all, 100 / bread);
      near(per100g.energyKj, expected.energy_kJ, kJ);
      near(per100g.energyKcal, expected.energy_kcal, kcal);
      near(per100g.carbohydrate, expected.carbohydrate_available_g, grams);
      near(per100g.salt, expected.salt_g, grams);
      near(written(inputs).per100g.energyKj, expected.energy_kJ, 5);
    },
  );
});
