import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BAKE_CLASSES, bakeClassOf, bakingReport, boilingCelsius, boxPanMl, breadFrom, chained, CLASS_FIGURES, coolingConstantMinutes, coolingMinutes, doughFor,
  doughFromKnownPan, lossOf, panFactor, roundPanMl, taperedPanMl,
} from '../../../server/core/baking';
import { analyseFormula } from '../bake';

const share = fc.double({ min: 0, max: 0.9, noNaN: true });
const length = fc.double({ min: 1, max: 100, noNaN: true });

describe('loss', () => {
  it('is undone by the dough for a baked weight', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 50_000, noNaN: true }), share, (grams, loss) => {
        const dough = doughFor(grams, loss) ?? NaN;
        expect(breadFrom(dough, loss)).toBeCloseTo(grams, 6);
        expect(lossOf(dough, grams)).toBeCloseTo(loss, 9);
      }),
    );
    expect(doughFor(500, 1)).toBeNull();
  });

  it('in a chain does not depend on the order and is never more than the sum', () => {
    fc.assert(
      fc.property(share, share, share, (a, b, c) => {
        expect(chained(a, b, c)).toBeCloseTo(chained(c, a, b), 12);
        expect(chained(a, b, c)).toBeLessThanOrEqual(a + b + c + 1e-12);
      }),
    );
    expect(chained()).toBe(0);
  });
});

describe('pans', () => {
  it('with straight sides are boxes and cylinders', () => {
    fc.assert(
      fc.property(length, length, length, (a, b, depth) => {
        const opening = { lengthCm: a, widthCm: b };
        expect(taperedPanMl(opening, opening, depth) / boxPanMl(opening, depth)).toBeCloseTo(1, 9);
        expect(roundPanMl(a, a, depth) / (Math.PI * (a / 2) ** 2 * depth)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('of the same shape hold the cube of their size', () => {
    const small = taperedPanMl({ lengthCm: 20, widthCm: 10 }, { lengthCm: 18, widthCm: 8 }, 6);
    const large = taperedPanMl({ lengthCm: 40, widthCm: 20 }, { lengthCm: 36, widthCm: 16 }, 12);
    expect(large).toBeCloseTo(8 * small, 6);
  });

  it('scale from one that is known to work', () => {
    expect(doughFromKnownPan(1800, { panMl: 1440, doughGrams: 480 })).toBeCloseTo(600, 9);
  });
});

describe('heat', () => {
  it('boils water at a lower temperature the higher up', () => {
    fc.assert(
      fc.property(fc.double({ min: -400, max: 8000, noNaN: true }), fc.double({ min: 1, max: 500, noNaN: true }), (metres, more) => {
        expect(boilingCelsius(metres + more)).toBeLessThan(boilingCelsius(metres));
      }),
    );
  });

  it('leaves a small loaf sooner', () => {
    const minutes = (grams: number) => coolingMinutes(97, 22, 35, coolingConstantMinutes(grams).mid) ?? NaN;
    expect(minutes(80)).toBeLessThan(minutes(400));
    expect(minutes(400)).toBeLessThan(minutes(1500));
    expect(coolingMinutes(97, 36, 35, 68)).toBeNull();
  });
});

describe('a class of bake', () => {
  it('comes from the words of the style line', () => {
    expect(bakeClassOf(['hearth', 'with inclusions'])).toBe('hearth');
    expect(bakeClassOf(['with inclusions', 'pan'])).toBe('pan');
    expect(bakeClassOf(['Baguette'])).toBe('baguette');
    expect(bakeClassOf(['pizza'])).toBe('flatbread');
    expect(bakeClassOf(['panettone'])).toBe('sweet sourdough');
    expect(bakeClassOf(['constructor'])).toBeNull();
    expect(bakeClassOf([])).toBeNull();
  });

  it.each(BAKE_CLASSES)('%s has figures in order', (name) => {
    for (const constant of Object.values(CLASS_FIGURES[name])) {
      if (constant === null) continue;
      expect(constant.low <= constant.value && constant.value <= constant.high).toBe(true);
      expect(constant.source).not.toBe('');
    }
  });
});

describe('the report', () => {
  const LOAF = `formula "Tin loaf"
  makes     2 tins of 1.8 l
  style     pan
  room      22 C
  loses     11 % in the oven

dough
  700 g     bread flour
  440 g     water
  14 g      salt
  14 g      fresh yeast

steps
  mix         8 min, by hand
  bulk        90 min
  preheat     30 min at 220 C
  bake        20 min at 220 C, lid on
  bake        15 to 20 min at 200 C, lid off, until core 94 C
  cool        2 h
`;

  it('says what is usual and what is written', () => {
    const report = bakingReport(analyseFormula(LOAF).formula);
    expect(report).toMatchObject({ bakeClass: 'pan', usualCoreCelsius: { low: 88, mid: 92, high: 96 }, boilingCelsius: null });
    expect(report.bakes.map(({ ovenCelsius, coreCelsius, lid, minutes }) => [ovenCelsius, coreCelsius, lid, minutes?.mid])).toEqual([
      [220, null, true, 20],
      [200, 94, false, 17.5],
    ]);
    expect(report.panFactor).toBeCloseTo(panFactor(1800, 584), 9);
    expect(report.minutesToCut?.mid).toBeGreaterThan(60);
    expect(report.minutesToCut?.mid).toBeLessThan(120);
  });

  it('lowers the core by the height', () => {
    const high = bakingReport(analyseFormula(LOAF.replace('room      22 C', 'room      22 C\n  altitude  1500 m')).formula);
    expect(high.boilingCelsius).toBeCloseTo(95, 0);
    expect(high.usualCoreCelsius?.high).toBeCloseTo(96 - (100 - 95), 0);
  });

  it('knows nothing of a style that nobody said', () => {
    const report = bakingReport(analyseFormula(LOAF.replace('  style     pan\n', '').replace('  room      22 C\n', '')).formula);
    expect(report).toMatchObject({ bakeClass: null, usualCoreCelsius: null, usualOvenLoss: null, minutesToCut: null });
  });
});
