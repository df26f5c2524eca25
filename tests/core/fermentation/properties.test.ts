/** What holds of any fermentation. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  equalHours, equivalentHours, prefermentHours, prefermentYeastPct, relativeRate, ripeningHours, saltFactor, SOURDOUGH_BACTERIA, SOURDOUGH_YEAST, sugarFactor,
  yeastAs, type Organism,
} from '../../../server/core/fermentation';

const organism = fc.constantFrom<Organism>('sourdough yeast', 'sourdough bacteria', "baker's yeast");
const warm = fc.double({ min: 5, max: 33, noNaN: true });
const hours = fc.double({ min: 0.1, max: 48, noNaN: true });

describe('rates', () => {
  it('lie between nothing and the best', () => {
    fc.assert(
      fc.property(organism, fc.double({ min: -30, max: 120, noNaN: true }), (who, celsius) => {
        const rate = relativeRate(who, celsius);
        expect(rate).toBeGreaterThanOrEqual(0);
        expect(rate).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  it('rise up to the best and fall after it', () => {
    const best = { 'sourdough yeast': SOURDOUGH_YEAST.best, 'sourdough bacteria': SOURDOUGH_BACTERIA.best, "baker's yeast": 38 } as const;
    fc.assert(
      fc.property(organism, fc.double({ min: -10, max: 50, noNaN: true }), fc.double({ min: 0.01, max: 5, noNaN: true }), (who, celsius, more) => {
        if (celsius + more <= best[who]) expect(relativeRate(who, celsius + more)).toBeGreaterThanOrEqual(relativeRate(who, celsius) - 1e-12);
        if (celsius >= best[who]) expect(relativeRate(who, celsius + more)).toBeLessThanOrEqual(relativeRate(who, celsius) + 1e-12);
      }),
    );
  });

  it('have no step in them', () => {
    fc.assert(
      fc.property(organism, fc.double({ min: -10, max: 50, noNaN: true }), (who, celsius) => {
        expect(Math.abs(relativeRate(who, celsius + 0.001) - relativeRate(who, celsius))).toBeLessThan(0.002);
      }),
    );
  });
});

describe('time of equal fermentation', () => {
  it('leads back to where it came from', () => {
    fc.assert(
      fc.property(organism, hours, warm, warm, (who, time, from, to) => {
        const there = equalHours(who, time, from, to);
        expect(equalHours(who, there?.mid ?? NaN, to, from)?.mid).toBeCloseTo(time, 6);
      }),
    );
  });

  it('is a range around its middle, wider away from 20 to 28 C', () => {
    expect(equalHours("baker's yeast", 4, 24, 21)).toEqual({ low: expect.closeTo(4.259, 2), mid: expect.closeTo(5.324, 2), high: expect.closeTo(6.389, 2) });
    const cold = equalHours("baker's yeast", 4, 24, 12);
    expect((cold?.low ?? NaN) / (cold?.mid ?? NaN)).toBeCloseTo(0.6, 9);
  });

  it('is longer where it is cooler', () => {
    fc.assert(
      fc.property(hours, fc.double({ min: 12, max: 27, noNaN: true }), fc.double({ min: 0.1, max: 5, noNaN: true }), (time, from, cooler) => {
        expect(equalHours('sourdough yeast', time, from, from - cooler)?.mid).toBeGreaterThan(time);
      }),
    );
  });

  it('is not given where nothing grows', () => {
    expect(equalHours('sourdough yeast', 4, 24, 36)).toBeNull();
    expect(equalHours('sourdough yeast', 4, 24, -5)).toBeNull();
    expect(equalHours('sourdough yeast', 4, 36, 24)).toBeNull();
  });
});

describe('fermentation along the way', () => {
  it('at a steady temperature is the time itself', () => {
    fc.assert(
      fc.property(organism, hours, fc.double({ min: 10, max: 33, noNaN: true }), (who, time, celsius) => {
        const { hours: got, endCelsius } = equivalentHours((c) => relativeRate(who, c), celsius, celsius, [{ hours: time, ambientCelsius: celsius, timeConstantHours: 2 }]);
        expect(got).toBeCloseTo(time, 6);
        expect(endCelsius).toBeCloseTo(celsius, 9);
      }),
    );
  });

  it('does not change when a stage is cut in two', () => {
    fc.assert(
      fc.property(organism, hours, fc.double({ min: 0.1, max: 0.9, noNaN: true }), fc.double({ min: 0, max: 33, noNaN: true }), fc.double({ min: 15, max: 30, noNaN: true }), (who, time, cut, ambient, start) => {
        const rate = (celsius: number) => relativeRate(who, celsius);
        const stage = { ambientCelsius: ambient, timeConstantHours: 2.2 };
        const whole = equivalentHours(rate, 24, start, [{ ...stage, hours: time }]);
        const halves = equivalentHours(rate, 24, start, [{ ...stage, hours: time * cut }, { ...stage, hours: time * (1 - cut) }]);
        expect(halves.hours).toBeCloseTo(whole.hours, 3);
        expect(halves.endCelsius).toBeCloseTo(whole.endCelsius, 6);
      }),
    );
  });

  it('goes on longer in a fridge when the piece is larger', () => {
    const in12Hours = (timeConstantHours: number) =>
      equivalentHours((celsius) => relativeRate('sourdough yeast', celsius), 24, 25, [{ hours: 12, ambientCelsius: 4, timeConstantHours }]).hours;
    expect(in12Hours(3)).toBeGreaterThan(in12Hours(1));
    expect(in12Hours(0)).toBeGreaterThan(0);
  });
});

describe('ripening', () => {
  it('takes longer for a larger feeding, and the same for the same feeding twice as large', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 500, noNaN: true }), fc.double({ min: 0.5, max: 10, noNaN: true }), fc.double({ min: 16, max: 30, noNaN: true }), (seed, ratio, celsius) => {
        const feeding = { seed, flour: seed * ratio, water: seed * ratio };
        const time = ripeningHours(feeding, celsius);
        const twice = ripeningHours({ seed: 2 * feeding.seed, flour: 2 * feeding.flour, water: 2 * feeding.water }, celsius);
        const richer = ripeningHours({ ...feeding, flour: feeding.flour * 2 }, celsius);
        expect(twice?.mid).toBeCloseTo(time?.mid ?? NaN, 9);
        expect(richer?.mid).toBeGreaterThan(time?.mid ?? NaN);
        expect(time?.low).toBeLessThan(time?.mid ?? NaN);
        expect(time?.high).toBeGreaterThan(time?.mid ?? NaN);
      }),
    );
  });

  it('is the lag and then the doublings', () => {
    const time = ripeningHours({ seed: 10, flour: 10, water: 10 }, 27);
    expect(time?.mid).toBeCloseTo(1 + Math.log2(3) * 1.65, 9);
    expect(time?.low).toBeCloseTo(0.8 * Math.log2(3) * 1.65, 9);
    expect(time?.high).toBeCloseTo(2 + 1.2 * Math.log2(3) * 1.65, 9);
  });

  it('is not given without seed, without food, or where it is too hot', () => {
    expect(ripeningHours({ seed: 0, flour: 50, water: 50 }, 24)).toBeNull();
    expect(ripeningHours({ seed: 50, flour: 0, water: 0 }, 24)).toBeNull();
    expect(ripeningHours({ seed: 10, flour: 50, water: 50 }, 36)).toBeNull();
  });

  it('of a preferment and its yeast undo each other, inside the table only', () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 13.5, noNaN: true }), (time) => {
        expect(prefermentHours(prefermentYeastPct(time) ?? NaN, 22)?.mid).toBeCloseTo(time, 6);
      }),
    );
    expect(prefermentYeastPct(2)).toBeNull();
    expect(prefermentYeastPct(16)).toBeNull();
    expect(prefermentHours(0.05, 22)).toBeNull();
    expect(prefermentHours(2, 22)).toBeNull();
    expect(prefermentHours(0, 22)).toBeNull();
  });
});

describe('salt, sugar and yeast', () => {
  it('slow the pace the more there is, never below nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true }), (pct, more) => {
        for (const factor of [saltFactor, (x: number) => sugarFactor(x), (x: number) => sugarFactor(x, 'osmotolerant')]) {
          expect(factor(pct + more)).toBeLessThanOrEqual(factor(pct));
          expect(factor(pct)).toBeGreaterThan(0);
        }
        expect(sugarFactor(pct, 'osmotolerant')).toBeGreaterThanOrEqual(sugarFactor(pct));
      }),
    );
  });

  it('of one kind is exchanged for another and back', () => {
    expect(yeastAs(yeastAs(7, 'instant', 'fresh'), 'fresh', 'instant')).toBeCloseTo(7, 12);
  });
});
