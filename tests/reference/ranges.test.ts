/** Limits that names and claims stand for, against the rules that set them. */
import { describe, expect } from 'vitest';
import { fineBakedGood, germanRyeName, panettone, usBreadSolids, usLeastEggGrams, usRaisinBread } from '../../server/core/facts';
import { saltInWaterPct } from '../../server/core/fermentation';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { eachCheck, near } from './outside';

const waterOf = (name: string) => builtInCatalogue.find(name)?.composition.water ?? NaN;

describe('salt', () => {
  eachCheck<Record<'salt_pct_of_flour' | 'hydration_pct' | 'flour_moisture_pct', number>, { salt_pct_of_water_phase: number }>(
    'ranges.aqueous_salt',
    (inputs, expected, { percent }) => {
      expect(waterOf('bread flour')).toBe(inputs.flour_moisture_pct);
      near(saltInWaterPct(inputs.salt_pct_of_flour, inputs.hydration_pct, inputs.flour_moisture_pct), expected.salt_pct_of_water_phase, percent);
    },
  );
});

describe('names', () => {
  eachCheck<Record<'flour_g' | 'sugar_g' | 'butter_g' | 'butter_fat_pct', number>, { fat_plus_sugar_parts_per_90_cereal: number; is_fine_baked_good: boolean }>(
    'ranges.fine_baked_goods_threshold',
    (inputs, expected, { parts }) => {
      const found = fineBakedGood(inputs.flour_g, (inputs.butter_g * inputs.butter_fat_pct) / 100, inputs.sugar_g);
      near(found.parts, expected.fat_plus_sugar_parts_per_90_cereal, parts);
      expect(found.isFine).toBe(expected.is_fine_baked_good);
    },
  );

  eachCheck<
    Record<'flour_g' | 'flour_moisture_pct' | 'water_g' | 'salt_g' | 'yeast_instant_g' | 'yeast_moisture_pct', number>,
    Record<'dough_g' | 'solids_g' | 'max_bread_weight_at_62pct_solids_g' | 'min_total_loss_pct', number>
  >('ranges.bread_solids_us', (inputs, expected, { grams, percent }) => {
    const found = usBreadSolids([
      { grams: inputs.flour_g, waterPct: inputs.flour_moisture_pct },
      { grams: inputs.water_g, waterPct: 100 },
      { grams: inputs.salt_g, waterPct: 0 },
      { grams: inputs.yeast_instant_g, waterPct: inputs.yeast_moisture_pct },
    ]);
    near(found.doughGrams, expected.dough_g, grams);
    near(found.solidsGrams, expected.solids_g, grams);
    near(found.mostBreadGrams, expected.max_bread_weight_at_62pct_solids_g, grams);
    near(100 * found.leastLoss, expected.min_total_loss_pct, percent);
  });

  eachCheck<
    { dough_g: Record<'flour' | 'sugar' | 'butter' | 'egg_yolk' | 'water' | 'levain' | 'salt' | 'raisins' | 'candied_peel', number> },
    { total_g: number; butter_pct: number; fruit_pct: number; yolk_pct: number; butter_ok: boolean; fruit_ok: boolean; yolk_ok: boolean }
  >('ranges.panettone_decree', ({ dough_g: dough }, expected, { percent }) => {
    const total = Object.values(dough).reduce((sum, grams) => sum + grams, 0);
    expect(total).toBe(expected.total_g);
    const found = panettone({ total, butter: dough.butter, fruit: dough.raisins + dough.candied_peel, yolk: dough.egg_yolk, yeast: 0 });
    near(found.butterPct, expected.butter_pct, percent);
    near(found.fruitPct, expected.fruit_pct, percent);
    near(found.yolkPct, expected.yolk_pct, percent);
    expect(found).toMatchObject({ butterOk: expected.butter_ok, fruitOk: expected.fruit_ok, yolkOk: expected.yolk_ok, yeastOk: true });
  });

  eachCheck<{ flour_g: number; raisins_g: number }, { raisins_parts_per_100_flour: number; meets_50_parts: boolean }>(
    'ranges.raisin_bread_us',
    (inputs, expected, { parts }) => {
      const found = usRaisinBread(inputs.flour_g, inputs.raisins_g);
      near(found.parts, expected.raisins_parts_per_100_flour, parts);
      expect(found.isEnough).toBe(expected.meets_50_parts);
    },
  );

  eachCheck<{ finished_bread_g: number; egg_solids_pct_of_egg: number }, { min_whole_egg_g: number }>('ranges.egg_bread_us', (inputs, expected, { grams }) => {
    near(100 - waterOf('eggs'), inputs.egg_solids_pct_of_egg, 1e-9);
    near(usLeastEggGrams(inputs.finished_bread_g, inputs.egg_solids_pct_of_egg), expected.min_whole_egg_g, grams);
  });

  eachCheck<{ rye_share_pct: number[] }, { class: string[] }>('ranges.rye_class_de', (inputs, expected) => {
    expect(inputs.rye_share_pct.map(germanRyeName)).toEqual(expected.class);
  });
});
