/** What holds for any dough: each question undoes the other, and size does not matter. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  celsiusNeeded, doughByFactors, frictionFromMix, hoursUntil, iceAsWaterCelsius, iceFor, mixedCelsius, relaxedCelsius, rescaleFriction, SPECIFIC_HEAT,
  specificHeatOf, specificHeatOfFerment, timeConstantHours, waterByFactors, type Body,
} from '../../../server/core/temperature';

const celsius = fc.double({ min: -20, max: 100, noNaN: true });
const body: fc.Arbitrary<Body> = fc.record({
  grams: fc.double({ min: 1, max: 50_000, noNaN: true }),
  specificHeat: fc.double({ min: 1, max: 4.2, noNaN: true }),
  celsius,
});

describe('the factor method', () => {
  it('gives the dough that the water was worked out for', () => {
    fc.assert(
      fc.property(celsius, fc.array(celsius, { minLength: 2, maxLength: 3 }), fc.double({ min: 0, max: 20, noNaN: true }), (desired, known, friction) => {
        const water = waterByFactors(desired, known, friction);
        expect(doughByFactors([...known, water], friction)).toBeCloseTo(desired, 6);
        expect(frictionFromMix(desired, [...known, water])).toBeCloseTo(friction, 6);
      }),
    );
  });

  it('keeps the rise of the dough when friction is rescaled', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 30, noNaN: true }), (friction) => {
        const four = rescaleFriction(friction, 3, 4);
        expect(four).toBeCloseTo((friction * 4) / 3, 9);
        expect(rescaleFriction(four, 4, 3)).toBeCloseTo(friction, 9);
      }),
    );
  });
});

describe('the heat balance', () => {
  it('gives the dough that the water was worked out for', () => {
    fc.assert(
      fc.property(fc.array(body, { minLength: 1, maxLength: 6 }), body, celsius, fc.double({ min: 0, max: 8, noNaN: true }), (rest, water, desired, rise) => {
        const needed = celsiusNeeded(desired, rest, water, rise);
        expect(mixedCelsius([...rest, { ...water, celsius: needed }], rise)).toBeCloseTo(desired, 4);
      }),
    );
  });

  it('does not change with the size of the batch', () => {
    fc.assert(
      fc.property(fc.array(body, { minLength: 1, maxLength: 6 }), fc.double({ min: 0.1, max: 50, noNaN: true }), (bodies, factor) => {
        expect(mixedCelsius(bodies.map((one) => ({ ...one, grams: one.grams * factor })))).toBeCloseTo(mixedCelsius(bodies), 6);
      }),
    );
  });

  it('settles between the coldest and the warmest', () => {
    fc.assert(
      fc.property(fc.array(body, { minLength: 1, maxLength: 6 }), (bodies) => {
        const all = bodies.map((one) => one.celsius);
        expect(mixedCelsius(bodies)).toBeGreaterThanOrEqual(Math.min(...all) - 1e-6);
        expect(mixedCelsius(bodies)).toBeLessThanOrEqual(Math.max(...all) + 1e-6);
      }),
    );
  });

  it('gives by ice and tap water the temperature that was needed', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 24, noNaN: true }), fc.double({ min: 1, max: 25, noNaN: true }), fc.double({ min: -20, max: 0, noNaN: true }), (needed, tap, frozen) => {
        const ice = iceFor(1000, tap, needed, frozen);
        const bodies: Body[] = [
          { grams: 1000 - ice, specificHeat: SPECIFIC_HEAT.water.value, celsius: tap },
          { grams: ice, specificHeat: SPECIFIC_HEAT.water.value, celsius: iceAsWaterCelsius(frozen) },
        ];
        expect(mixedCelsius(bodies)).toBeCloseTo(Math.min(needed, tap) === tap ? tap : needed, 6);
      }),
    );
  });
});

describe('specific heat', () => {
  it('of water by composition is that of water', () => {
    expect(specificHeatOf({ water: 100, fat: 0, alcohol: 0 })).toBeCloseTo(4.18, 9);
  });

  it('of flour by composition lies in the published range', () => {
    const bread = specificHeatOf({ water: 13.36, fat: 1.66, alcohol: 0 });
    expect(bread).toBeGreaterThan(1.6);
    expect(bread).toBeLessThan(2.05);
  });

  it('of a levain lies between flour and water and rises with its water', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 2, noNaN: true }), (hydration) => {
        const heat = specificHeatOfFerment(hydration);
        expect(heat).toBeGreaterThan(1.8);
        expect(heat).toBeLessThan(4.18);
        expect(specificHeatOfFerment(hydration + 0.1)).toBeGreaterThan(heat);
      }),
    );
  });
});

describe('taking on the temperature around', () => {
  it('is undone by the question how long it takes', () => {
    fc.assert(
      fc.property(fc.double({ min: 15, max: 35, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true }), fc.double({ min: 0.1, max: 8, noNaN: true }), (start, ambient, hours) => {
        const reached = relaxedCelsius(start, ambient, hours, 2);
        expect(hoursUntil(reached, start, ambient, 2)).toBeCloseTo(hours, 6);
      }),
    );
  });

  it('is asked for what never comes, or has long been', () => {
    expect(hoursUntil(3, 25, 4, 2)).toBeNull();
    expect(hoursUntil(4, 25, 4, 2)).toBeNull();
    expect(hoursUntil(25, 25, 4, 2)).toBe(0);
    expect(hoursUntil(28, 25, 4, 2)).toBe(0);
  });

  it('takes the hours that bakers give for a loaf and for a tub', () => {
    const loaf = timeConstantHours(500).mid;
    const tub = timeConstantHours(1000).mid;
    expect(loaf).toBeGreaterThan(1);
    expect(loaf).toBeLessThan(1.5);
    expect(tub).toBeGreaterThan(2);
    expect(tub).toBeLessThan(3);
    expect(timeConstantHours(3000).mid).toBeGreaterThan(3);
  });
});
