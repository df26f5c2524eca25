/** Baking against published weights, pans, boiling points and cooling. */
import { describe, expect } from 'vitest';
import {
  boilingCelsius, boxPanMl, breadFrom, breadYieldPct, chained, CM_PER_INCH, COOLING_MINUTES, coolingMinutes, CORE_OUT_CELSIUS, CUT_CELSIUS, doughFor, doughForPan,
  factorFromInches, factorInInches, lossOf, ML_PER_CUBIC_INCH, panFactor, summed, taperedPanMl,
} from '../../server/core/baking';
import { gramsFrom } from '../../server/core/units/mass';
import { celsius, fahrenheit } from '../../server/core/units/temperature';
import { eachCheck, near } from './outside';

const inches = ([length, width]: readonly number[]) => ({ lengthCm: (length ?? NaN) * CM_PER_INCH, widthCm: (width ?? NaN) * CM_PER_INCH });

describe('loss', () => {
  eachCheck<{ dough_oz?: number; bread_oz?: number; loss_fraction?: string }, { loss_pct: number }>('baking.loss', (inputs, expected, { percent }) => {
    if (inputs.loss_fraction === undefined) {
      near(100 * lossOf(gramsFrom(inputs.dough_oz ?? NaN, 'oz'), gramsFrom(inputs.bread_oz ?? NaN, 'oz')), expected.loss_pct, percent);
    } else {
      const [lost = NaN, whole = NaN] = inputs.loss_fraction.split('/').map(Number);
      near(100 * lossOf(whole, whole - lost), expected.loss_pct, percent);
    }
  });

  eachCheck<{ baked_g: number; loss_pct: number }, { dough_g: number }>('baking.dough_for_baked_weight', (inputs, expected, { grams }) => {
    near(doughFor(inputs.baked_g, inputs.loss_pct / 100), expected.dough_g, grams);
  });

  eachCheck<
    { baked_weight_lb: number; mixing_fermentation_loss_pct: number; proof_bake_cool_loss_pct: number; combine: string },
    { total_loss_pct: number; ingredients_lb: number }
  >('bakers_percent.dough_for_baked_weight', (inputs, expected, { pounds }) => {
    expect(inputs.combine).toBe('sum');
    const losses = [inputs.mixing_fermentation_loss_pct / 100, inputs.proof_bake_cool_loss_pct / 100];
    near(100 * summed(...losses), expected.total_loss_pct, 1e-9);
    near(doughFor(inputs.baked_weight_lb, summed(...losses)), expected.ingredients_lb, pounds);
    // The same source's numbers, one loss after the other.
    near(doughFor(inputs.baked_weight_lb, chained(...losses)), 573.3, pounds);
  });

  eachCheck<
    Record<'flour_g' | 'total_formula_pct' | 'mix_divide_loss_pct' | 'bake_loss_pct' | 'cool_loss_pct', number>,
    { bread_g: number; bread_yield_per_100_flour: number }
  >('baking.loss_chain', (inputs, expected, { grams, percent }) => {
    const dough = (inputs.flour_g * inputs.total_formula_pct) / 100;
    const loss = chained(inputs.mix_divide_loss_pct / 100, inputs.bake_loss_pct / 100, inputs.cool_loss_pct / 100);
    const bread = breadFrom(dough, loss);
    near(bread, expected.bread_g, grams);
    near(breadYieldPct(bread, inputs.flour_g), expected.bread_yield_per_100_flour, percent);
  });
});

describe('pans', () => {
  eachCheck<{ in3_per_oz: number; pan_in?: [number, number, number]; dough_oz: number }, { cm3_per_g: number; volume_in3: number; in3_per_oz: number }>(
    'baking.pan_factor',
    (inputs, expected, { ratio, in3 }) => {
      if (inputs.pan_in === undefined) {
        near(factorFromInches(inputs.in3_per_oz), expected.cm3_per_g, ratio);
        return;
      }
      const ml = boxPanMl(inches(inputs.pan_in), inputs.pan_in[2] * CM_PER_INCH);
      const factor = panFactor(ml, gramsFrom(inputs.dough_oz, 'oz'));
      near(ml / ML_PER_CUBIC_INCH, expected.volume_in3, in3);
      near(factor, expected.cm3_per_g, ratio);
      near(factorInInches(factor), expected.in3_per_oz, ratio);
    },
  );

  eachCheck<{ top_in: number[]; bottom_in: number[]; depth_in: number }, { volume_in3: number; volume_cm3: number }>(
    'baking.pan_volume',
    (inputs, expected, { in3, cm3 }) => {
      const ml = taperedPanMl(inches(inputs.top_in), inches(inputs.bottom_in), inputs.depth_in * CM_PER_INCH);
      near(ml, expected.volume_cm3, cm3);
      near(ml / ML_PER_CUBIC_INCH, expected.volume_in3, in3);
    },
  );

  eachCheck<{ volume_cm3: number; cm3_per_g: number[] }, { dough_g: number[] }>('baking.pan_dough_weight', (inputs, expected, { grams }) => {
    expect(inputs.cm3_per_g).toHaveLength(expected.dough_g.length);
    inputs.cm3_per_g.forEach((factor, index) => near(doughForPan(inputs.volume_cm3, factor), expected.dough_g[index] ?? NaN, grams));
  });
});

describe('heat', () => {
  eachCheck<{ altitude_m: number }, { boiling_C: number }>('baking.altitude_boiling_point', (inputs, expected, { degrees }) => {
    near(boilingCelsius(inputs.altitude_m), expected.boiling_C, degrees);
  });

  eachCheck<{ C?: number[]; F?: number[] }, { C?: number[]; F?: number[] }>('baking.temperature_units', (inputs, expected, { degrees }) => {
    const given = inputs.C ?? inputs.F ?? [];
    const wanted = expected.F ?? expected.C ?? [];
    expect(given).toHaveLength(wanted.length);
    given.forEach((value, index) => near(inputs.C ? fahrenheit(value) : celsius(value), wanted[index] ?? NaN, degrees));
  });

  eachCheck<{ start_C: number; ambient_C: number; target_C: number; time_constant_min: number }, { minutes: number }>(
    'baking.cooling',
    (inputs, expected, { minutes }) => {
      expect([CORE_OUT_CELSIUS.value, CUT_CELSIUS.value, COOLING_MINUTES.value]).toEqual([inputs.start_C, inputs.target_C, inputs.time_constant_min]);
      near(coolingMinutes(inputs.start_C, inputs.ambient_C, inputs.target_C, inputs.time_constant_min), expected.minutes, minutes);
    },
  );
});
