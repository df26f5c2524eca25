/**
 * Every unit of mass, volume and temperature that the language reads, through a whole formula, against mathjs, a
 * general-purpose library: what the line weighs is what the library makes of the same amount.
 */
import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect } from 'vitest';
import type { MassUnit, VolumeUnit } from '../../grammar';
import type { MeasureSystem } from '../../server/core/units/volume';
import { outside } from './outside';
import { resolveText } from './resolve-text';

const MATHJS = 'mathjs 15, units';

describe('mass', () => {
  const check = outside('general-purpose library', MATHJS);
  const theirs: Readonly<Record<MassUnit, string>> = { g: 'g', kg: 'kg', mg: 'mg', oz: 'oz', lb: 'lbm' };

  for (const [ours, name] of Object.entries(theirs)) {
    check(ours, () => {
      for (const amount of [1, 0.25, 3, 17.5, 900]) close(weighed(`${amount} ${ours}`), unit(amount, name).toNumber('g'));
    });
  }

  check('spelled out: grams, kilograms, milligrams, ounces, pounds', () => {
    const words = { grams: 'g', kilograms: 'kg', milligrams: 'mg', ounces: 'oz', pounds: 'lbm' };
    for (const [word, name] of Object.entries(words)) close(weighed(`7 ${word}`), unit(7, name).toNumber('g'));
  });
});

/** Millilitres of one unit by mathjs, made of lengths and litres, since its own cups and spoons are rounded. */
const cubicInches = (count: number): number => unit(count, 'cuin').toNumber('m3') * 1e6;
const litres = (count: number): number => unit(count, 'litre').toNumber('m3') * 1e6;
const IMPERIAL_GALLON = litres(4.54609);

type Household = Exclude<VolumeUnit, 'ml' | 'l'>;
const HOUSEHOLD: Readonly<Record<MeasureSystem, Readonly<Record<Household, number>>>> = {
  // NIST SP 430: a gallon of 231 cubic inches is 16 cups, 128 fluid ounces, 256 tablespoons, 768 teaspoons.
  us: { cup: cubicInches(231 / 16), 'fl oz': cubicInches(231 / 128), tbsp: cubicInches(231 / 256), tsp: cubicInches(231 / 768) },
  metric: { cup: litres(0.25), 'fl oz': IMPERIAL_GALLON / 160, tbsp: litres(0.015), tsp: litres(0.005) },
  imperial: { cup: IMPERIAL_GALLON / 16, 'fl oz': IMPERIAL_GALLON / 160, tbsp: litres(0.015), tsp: litres(0.005) },
};

describe('volume, of water at 1 g/ml', () => {
  const check = outside('general-purpose library', `${MATHJS}; gallons of 231 cubic inches and of 4.54609 l`);

  for (const system of ['us', 'metric', 'imperial'] as const) {
    for (const ours of ['ml', 'l', 'tsp', 'tbsp', 'cup', 'fl oz'] as const satisfies readonly VolumeUnit[]) {
      check(`${ours}, ${system} measures`, () => {
        const one = ours === 'ml' ? litres(0.001) : ours === 'l' ? litres(1) : HOUSEHOLD[system][ours];
        for (const amount of [1, 0.5, 2.25, 12]) close(weighed(`${amount} ${ours}`, system), amount * one);
      });
    }
  }

  check('a US fluid ounce is the library’s own, to its seven figures', () => {
    expect(Math.abs(weighed('1 fl oz') / (unit(1, 'fluidounce').toNumber('m3') * 1e6) - 1)).toBeLessThan(1e-6);
  });

  check('a density in pounds a cup', () => {
    const grams = resolveText('ingredient "House flour"\n  like bread flour\n  density 0.25 lb per cup\n\nformula "A"\ndough\n  3 cups house flour\n').formula.parts[0]!.lines[0]!.grams;
    close(grams!, unit(0.75, 'lbm').toNumber('g'));
  });
});

describe('temperature', () => {
  const check = outside('general-purpose library', MATHJS);
  const inCelsius = (value: number) => unit(value, 'degF').toNumber('degC');

  check('a reading in F is what it is in C, to a hundredth', () => {
    fc.assert(fc.property(fc.integer({ min: -40, max: 550 }), (fahrenheit) => {
      expect(waterCelsius(`${fahrenheit} F`)).toBeCloseTo(inCelsius(fahrenheit), 2);
    }));
  });

  check('a reading in C stays', () => {
    fc.assert(fc.property(fc.integer({ min: -4000, max: 9900 }).map((n) => n / 100), (celsius) => {
      expect(waterCelsius(`${celsius} C`)).toBeCloseTo(unit(celsius, 'degC').toNumber('K') - 273.15, 9);
    }));
  });

  check('a friction in F is a difference: it scales, and 0 F of it is 0 C', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 60 }), (degrees) => {
      const difference = inCelsius(50 + degrees) - inCelsius(50);
      expect(frictionCelsius(`${degrees} F`)).toBeCloseTo(difference, 2);
      expect(frictionCelsius(`${2 * degrees} F`)).toBeCloseTo(2 * difference, 1);
      expect(frictionCelsius(`${degrees} C`)).toBeCloseTo(degrees, 9);
    }));
  });
});

function weighed(amount: string, measures: MeasureSystem = 'us'): number {
  return resolveText(`formula "A"\ndough\n  100 g bread flour\n  ${amount} water\n`, undefined, measures).formula.parts[0]!.lines[1]!.grams!;
}

function waterCelsius(temperature: string): number {
  return resolveText(`formula "A"\ndough\n  100 g bread flour\n  60 g water at ${temperature}\n`).formula.parts[0]!.lines[1]!.celsius!;
}

function frictionCelsius(temperature: string): number {
  return resolveText(`formula "A"\n  friction ${temperature}\ndough\n  100 g bread flour\n`).formula.frictionCelsius!;
}

function close(actual: number, expected: number): void {
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
}
