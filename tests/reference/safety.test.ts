/** Time and temperature against public guidance. */
import { describe, expect } from 'vitest';
import { coolingOf, isEggDishDone, SAFETY, timeControlOf, type Reading } from '../../server/core/facts';
import { celsius, fahrenheit } from '../../server/core/units/temperature';
import { eachCheck, near } from './outside';

describe('food that spoils', () => {
  eachCheck<{ log: Reading[] }, { compliant: boolean; reason?: string }>('safety.cooling', (inputs, expected) => {
    expect(coolingOf(inputs.log)).toEqual(expected);
  });

  eachCheck<{ start_C: number; max_C: number; hours: number }, { compliant: boolean; limit_h: number }>('safety.time_control', (inputs, expected) => {
    expect(timeControlOf({ startCelsius: inputs.start_C, maxCelsius: inputs.max_C, hours: inputs.hours })).toEqual({
      compliant: expected.compliant,
      limitHours: expected.limit_h,
    });
  });

  eachCheck<{ internal_F: number[] }, { safe_minimum_F: number; ok: boolean[] }>('safety.egg_dish', (inputs, expected) => {
    near(fahrenheit(SAFETY.eggDishCelsius.value), expected.safe_minimum_F, 1e-9);
    expect(inputs.internal_F.map((value) => isEggDishDone(celsius(value)))).toEqual(expected.ok);
  });
});
