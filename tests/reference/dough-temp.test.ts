/** Dough temperature against published examples: the averaging rule, base temperature, ice, heat balance. */
import { describe, expect } from 'vitest';
import {
  baseFor, celsiusNeeded, doughByFactors, frictionFromMix, HEAT_OF_FUSION, iceByTradeFormula, iceFor, mixedCelsius, riseFromWork, riseOf,
  SPECIFIC_HEAT, specificHeatOfFerment, surplusHeatJoules, waterByFactors, waterFromBase, type Body,
} from '../../server/core/temperature';
import { celsius, celsiusDegrees, fahrenheit, fahrenheitDegrees } from '../../server/core/units/temperature';
import { eachCheck, near } from './outside';

interface Sum {
  factors: number;
  temperatures: Record<string, number>;
  unit: 'C' | 'F';
}

const reading = (value: number, unit: 'C' | 'F') => (unit === 'F' ? celsius(value) : value);
const printed = (value: number, unit: 'C' | 'F') => (unit === 'F' ? fahrenheit(value) : value);
const difference = (value: number, unit: 'C' | 'F') => (unit === 'F' ? celsiusDegrees(value) : value);

const flour = (kg: number, celsius: number): Body => ({ grams: kg * 1000, celsius, specificHeat: SPECIFIC_HEAT.flour.value });
const water = (kg: number, celsius: number): Body => ({ grams: kg * 1000, celsius, specificHeat: SPECIFIC_HEAT.water.value });
const openWater = (kg: number) => ({ grams: kg * 1000, specificHeat: SPECIFIC_HEAT.water.value });

describe('the averaging rule', () => {
  eachCheck<Sum & { desired_dough: number; friction_factor: number }, { water_temperature: number }>(
    'dough_temp.water_temperature',
    (inputs, expected, { degrees }) => {
      const known = Object.values(inputs.temperatures).map((value) => reading(value, inputs.unit));
      expect(known.length + 1).toBe(inputs.factors);
      const answer = waterByFactors(reading(inputs.desired_dough, inputs.unit), known, difference(inputs.friction_factor, inputs.unit));
      near(printed(answer, inputs.unit), expected.water_temperature, degrees);
    },
  );

  eachCheck<Sum & { actual_dough: number }, { friction_factor: number; real_temperature_rise_each: number }>(
    'dough_temp.friction_factor',
    (inputs, expected, { degrees }) => {
      const all = Object.values(inputs.temperatures).map((value) => reading(value, inputs.unit));
      expect(all).toHaveLength(inputs.factors);
      const friction = frictionFromMix(reading(inputs.actual_dough, inputs.unit), all);
      near(fahrenheitDegrees(friction), expected.friction_factor, degrees);
      near(fahrenheitDegrees(riseOf(friction, inputs.factors)), expected.real_temperature_rise_each, degrees);
    },
  );

  eachCheck<{ base_temperature: number; flour: number; room: number }, { water_temperature: number }>(
    'dough_temp.base_temperature',
    (inputs, expected, { degrees }) => {
      near(waterFromBase(inputs.base_temperature, inputs.flour, inputs.room), expected.water_temperature, degrees);
      // The rule with three factors, seen from the other side.
      const desired = 24;
      const friction = 3 * desired - inputs.base_temperature;
      near(baseFor(desired, friction), inputs.base_temperature, 1e-9);
      near(waterByFactors(desired, [inputs.flour, inputs.room], friction), expected.water_temperature, degrees);
    },
  );
});

describe('ice', () => {
  eachCheck<{ total_water_lb: number; tap_F: number; needed_F: number }, { ice_lb: number }>('dough_temp.ice_trade', (inputs, expected, { pounds }) => {
    near(iceByTradeFormula(inputs.total_water_lb, inputs.tap_F, inputs.needed_F), expected.ice_lb, pounds);
    near(iceFor(inputs.total_water_lb, celsius(inputs.tap_F), celsius(inputs.needed_F)), expected.ice_lb, pounds);
  });

  eachCheck<{ total_water_kg: number; tap_C: number; needed_C: number; latent_heat_kJ_kg: number }, { ice_kg: number; tap_water_kg: number }>(
    'dough_temp.ice_celsius',
    (inputs, expected, { kg }) => {
      expect(HEAT_OF_FUSION.value).toBe(inputs.latent_heat_kJ_kg);
      const ice = iceFor(inputs.total_water_kg, inputs.tap_C, inputs.needed_C);
      near(ice, expected.ice_kg, kg);
      near(inputs.total_water_kg - ice, expected.tap_water_kg, kg);
    },
  );
});

describe('the heat balance', () => {
  /** Where an example states the constants that it was worked with, ours are the same. */
  const constants = (inputs: object) => {
    const ours: Readonly<Record<string, number>> = {
      c_flour: SPECIFIC_HEAT.flour.value, c_water: SPECIFIC_HEAT.water.value, latent_heat_kJ_kg: HEAT_OF_FUSION.value,
    };
    const stated = Object.entries(inputs).filter(([name]) => name in ours);
    expect(stated.length).toBeGreaterThan(0);
    expect(Object.fromEntries(stated)).toEqual(Object.fromEntries(stated.map(([name]) => [name, ours[name]])));
  };

  eachCheck<Record<'flour_kg' | 'flour_C' | 'water_kg' | 'target_C' | 'mixing_rise_C', number>, { water_temperature_C: number }>(
    'dough_temp.heat_balance_water',
    (inputs, expected, { degrees }) => {
      constants(inputs);
      const answer = celsiusNeeded(inputs.target_C, [flour(inputs.flour_kg, inputs.flour_C)], openWater(inputs.water_kg), inputs.mixing_rise_C);
      near(answer, expected.water_temperature_C, degrees);
    },
  );

  eachCheck<
    Record<'flour_kg' | 'flour_C' | 'water_total_kg' | 'tap_C' | 'target_C' | 'mixing_rise_C', number>,
    Record<'heat_to_remove_kJ' | 'equivalent_water_temperature_C' | 'ice_kg' | 'tap_water_kg', number>
  >('dough_temp.heat_balance_ice', (inputs, expected, { kJ, degrees, kg }) => {
    constants(inputs);
    const rest = [flour(inputs.flour_kg, inputs.flour_C)];
    const needed = celsiusNeeded(inputs.target_C, rest, openWater(inputs.water_total_kg), inputs.mixing_rise_C);
    const heat = surplusHeatJoules(inputs.target_C, rest, openWater(inputs.water_total_kg), inputs.mixing_rise_C);
    const ice = iceFor(inputs.water_total_kg, inputs.tap_C, needed);
    near(heat / 1000, expected.heat_to_remove_kJ, kJ);
    near(needed, expected.equivalent_water_temperature_C, degrees);
    near(ice, expected.ice_kg, kg);
    near(inputs.water_total_kg - ice, expected.tap_water_kg, kg);
  });

  eachCheck<
    Record<
      'flour_kg' | 'flour_C' | 'water_kg' | 'preferment_kg' | 'preferment_hydration_pct' | 'preferment_C' | 'target_C' | 'mixing_rise_C', number
    >,
    Record<'c_preferment' | 'water_temperature_C', number>
  >('dough_temp.heat_balance_preferment', (inputs, expected, { degrees, c }) => {
    constants(inputs);
    const specificHeat = specificHeatOfFerment(inputs.preferment_hydration_pct / 100);
    near(specificHeat, expected.c_preferment, c);
    const rest = [flour(inputs.flour_kg, inputs.flour_C), { grams: inputs.preferment_kg * 1000, celsius: inputs.preferment_C, specificHeat }];
    near(celsiusNeeded(inputs.target_C, rest, openWater(inputs.water_kg), inputs.mixing_rise_C), expected.water_temperature_C, degrees);
  });

  eachCheck<
    Record<'flour_kg' | 'flour_C' | 'water_kg' | 'water_C' | 'friction_factor_F' | 'factors', number>,
    Record<'heat_balance_before_mixing_C' | 'plus_friction_C' | 'ddt_rule_says_C', number>
  >('dough_temp.method_comparison', (inputs, expected, { degrees }) => {
    constants(inputs);
    const bodies = [flour(inputs.flour_kg, inputs.flour_C), water(inputs.water_kg, inputs.water_C)];
    const friction = celsiusDegrees(inputs.friction_factor_F);
    near(mixedCelsius(bodies), expected.heat_balance_before_mixing_C, degrees);
    near(mixedCelsius(bodies, riseOf(friction, inputs.factors)), expected.plus_friction_C, degrees);
    near(doughByFactors([inputs.flour_C, inputs.flour_C, inputs.water_C], friction), expected.ddt_rule_says_C, degrees);
  });

  eachCheck<{ specific_energy_kJ_per_kg: number; c_dough: number }, { temperature_rise_C: number }>(
    'dough_temp.mixing_energy',
    (inputs, expected, { degrees }) => {
      expect(SPECIFIC_HEAT.dough.value).toBe(inputs.c_dough);
      near(riseFromWork(inputs.specific_energy_kJ_per_kg), expected.temperature_rise_C, degrees);
    },
  );
});
