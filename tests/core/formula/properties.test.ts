import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundWeights } from '../../../server/core/formula/rounding';
import type { Totals } from '../../../server/core/formula/model';
import { resolveText, type Resolved } from '../../reference/resolve-text';

const grams = fc.integer({ min: 1, max: 3000 });
const pct = fc.integer({ min: 1, max: 120 });
const small = fc.integer({ min: 1, max: 40 });

/** A preferment in grams or in shares, with or without a starter and something kept back. */
const levain = fc
  .record({ shares: fc.boolean(), flour: grams, water: pct, starter: fc.option(small), keep: fc.option(small), rye: fc.boolean() })
  .map(({ shares, flour, water, starter, keep, rye }) => ({
    shares,
    text: [
      'levain',
      shares ? `  100 % ${rye ? 'dark rye flour' : 'bread flour'}` : `  ${flour} g ${rye ? 'dark rye flour' : 'bread flour'}`,
      `  ${water} % water`,
      ...(starter ? [`  ${starter} % starter at 60 % hydration`] : []),
      ...(keep ? [`  keep ${Math.min(keep, flour / 2)} g`] : []),
    ].join('\n'),
  }));

const soaker = fc
  .record({ seeds: small, water: small, flour: fc.boolean(), yields: fc.boolean() })
  .map(({ seeds, water, flour, yields }) =>
    [
      flour ? 'scald "seeds"' : 'soaker "seeds"',
      flour ? `  ${seeds} g whole wheat flour` : `  ${seeds} g sunflower seeds`,
      `  ${water} g water`,
      ...(yields ? [`  yields ${seeds + water / 2} g`] : []),
    ].join('\n'),
  );

/** A formula as a home baker writes it: what goes into the dough, the parts among it. */
const homeFormula = fc
  .record({ levain, soaker, flour: grams, second: fc.option(grams), water: pct, salt: fc.integer({ min: 0, max: 3 }), take: small, walnuts: fc.option(grams) })
  .map(({ levain: l, soaker: s, flour, second, water, salt, take, walnuts }) =>
    [
      'formula "Random"',
      l.text,
      s,
      'dough',
      `  ${flour} g bread flour`,
      ...(second ? [`  ${second} g whole wheat flour`] : []),
      `  ${water} % water`,
      `  ${salt} % salt`,
      l.shares ? `  ${take * 10} g levain` : '  all levain',
      '  all seeds',
      ...(walnuts ? [`  ${walnuts} g walnuts`] : []),
      '',
    ].join('\n'),
  );

/** A professional sheet whose list holds all that its preferment needs. */
const totalFormula = fc
  .record({ flour: grams, water: fc.integer({ min: 60, max: 100 }), hydration: pct, pff: fc.integer({ min: 1, max: 40 }), starter: fc.option(small), byMakes: fc.boolean() })
  .map(({ flour, water, hydration, pff, starter, byMakes }) =>
    [
      'formula "Random sheet"',
      ...(byMakes ? [`  makes 2 loaves of ${flour} g`] : []),
      'levain',
      '  100 % bread flour',
      `  ${hydration} % water`,
      ...(starter ? [`  ${starter} % starter`] : []),
      'total formula',
      byMakes ? '  80 % bread flour' : `  ${flour * 4} g bread flour`,
      byMakes ? '  20 % whole wheat flour' : `  ${flour} g whole wheat flour`,
      `  ${water} % water`,
      '  2 % salt',
      `  ${pff} % of flour in levain`,
      '',
    ].join('\n'),
  );

const anyFormula = fc.oneof(homeFormula, totalFormula);

function closeTo(actual: number | null, expected: number | null): void {
  if (actual === null || expected === null) return expect(actual).toBe(expected);
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
}

const rowsTotal = ({ sheet }: Resolved) => sheet.rows.reduce((sum, row) => sum + row.grams!, 0);

describe('whatever formula is written', () => {
  it('the columns of the parts add up to the total, to the last digit', () => {
    fc.assert(fc.property(anyFormula, (text) => {
      const result = resolveText(text);
      for (const row of result.sheet.rows) {
        expect(row.columns.reduce<number>((sum, grams) => sum + grams!, 0)).toBe(row.grams);
      }
      closeTo(rowsTotal(result) - result.sheet.cookedOffGrams, result.totals.dough_g);
    }));
  });

  it('what is weighed into a part and what it gives agree with what the others take and what is kept and left', () => {
    fc.assert(fc.property(anyFormula, (text) => {
      for (const part of resolveText(text).formula.parts) {
        if (part.calledForGrams === null || part.leftOverGrams === null) continue;
        closeTo(part.yieldGrams, part.calledForGrams + part.keepGrams + part.leftOverGrams);
      }
    }));
  });

  it('a total formula stays the list that was written, and nothing in it goes below zero', () => {
    fc.assert(fc.property(totalFormula, (text) => {
      const result = resolveText(text);
      expect(result.formula.troubles).toEqual([]);
      const list = result.formula.parts.at(-1)!.lines.filter((line) => line.part === undefined);
      closeTo(list.reduce((sum, line) => sum + line.listed!.grams!, 0), rowsTotal(result));
      expect(list.every((line) => line.grams! >= 0 && line.grams! <= line.listed!.grams!)).toBe(true);
      // The starter counts as the flour and water it is, so the flour is the list's flour.
      closeTo(result.totals.flour_g, list.filter((line) => line.role === 'flour').reduce((sum, line) => sum + line.listed!.grams!, 0));
    }));
  });

  it('scaling changes weights by one factor and percentages not at all; back again is where it was', () => {
    fc.assert(fc.property(anyFormula, fc.double({ min: 0.01, max: 50, noNaN: true }), (text, factor) => {
      const { totals, scaled } = resolveText(text, { by: 'factor', factor });
      for (const name of Object.keys(totals) as (keyof Totals)[]) {
        const isWeight = name.endsWith('_g') && !name.includes('piece');
        closeTo(scaled!.totals[name], totals[name] === null ? null : totals[name]! * (isWeight ? factor : 1));
      }
    }));
  });

  it('grams and the shares they amount to are the same dough', () => {
    fc.assert(fc.property(grams, pct, small, (flour, water, salt) => {
      const inGrams = resolveText(`formula "A"\ndough\n  ${flour} g bread flour\n  ${(flour * water) / 100} g water\n  ${(flour * salt) / 1000} g salt\n`);
      const inShares = resolveText(`formula "A"\n  makes ${inGrams.totals.dough_g} g\ndough\n  100 % bread flour\n  ${water} % water\n  ${salt / 10} % salt\n`);
      for (const row of inGrams.sheet.rows) {
        closeTo(inShares.sheet.rows.find(({ key }) => key === row.key)!.grams, row.grams);
      }
    }));
  });
});

describe('printed weights', () => {
  it('sum to the printed total, each within a step of the truth', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 5000, noNaN: true }), { minLength: 1, maxLength: 30 }), (weights) => {
      const { values, total } = roundWeights(weights);
      const printed = values.reduce((sum, value) => sum + value, 0);
      const truth = weights.reduce((sum, value) => sum + value, 0);
      const fine = weights.filter((value) => value < 9.95).length;
      values.forEach((value, i) => expect(Math.abs(value - weights[i]!)).toBeLessThanOrEqual(1 + 1e-6));
      if (fine === 0 || fine === weights.length) closeTo(printed, total);
      else expect(Math.abs(printed - total)).toBeLessThanOrEqual(0.5 + 1e-6);
      expect(Math.abs(total - truth)).toBeLessThanOrEqual(fine === weights.length ? 0.05 * fine + 1e-6 : 0.5 + 1e-6);
    }));
  });

  it('a scale step of one’s own rules them all', () => {
    expect(roundWeights([12.4, 7.45, 5.4], 5)).toEqual({ values: [10, 10, 5], total: 25 });
  });

  it('what was written in whole grams stays as written beside half a gram of spice', () => {
    expect(roundWeights([220, 600, 60, 0.5])).toEqual({ values: [220, 600, 60, 0.5], total: 881 });
    expect(roundWeights([220, 600, 60, 0.46])).toEqual({ values: [220, 600, 60, 0.5], total: 880 });
  });

  it('the weight that is furthest off gives way, of equals the heaviest', () => {
    expect(roundWeights([100.45, 200.4, 300.4])).toEqual({ values: [101, 200, 300], total: 601 });
    expect(roundWeights([100.4, 200.4, 300.4])).toEqual({ values: [100, 200, 301], total: 601 });
    // The last one is a part's, that stands at the foot of its own column as 300 g too.
    expect(roundWeights([100.4, 200.4, 300.4], undefined, [false, false, true])).toEqual({ values: [100, 201, 300], total: 601 });
    expect(roundWeights([300.4, 300.4], undefined, [true, true])).toEqual({ values: [300, 301], total: 601 });
  });
});
