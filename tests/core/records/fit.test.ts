/** The pace of a kitchen, recovered from bakes of a known pace, and refused where it cannot be told. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitPace, recordsOf } from '../../../server/core/records';
import { bulkMinutesUnder } from '../../../server/core/timeline/conditions';
import { analyseFormula } from '../bake';

const loaf = (bulk: string, records: readonly string[] = []): string => `formula "Market loaf"
  room      24 C

levain
  100 g     rye flour
  100 g     water
  20 g      starter
  ripen     8 h at 24 C

dough at 25 C
  900 g     bread flour
  620 g     water
  all       levain
  20 g      salt

steps
  mix         8 min, by hand
  bulk        ${bulk}
  bake        40 min at 240 C

${records.map((lines, at) => `record 2026-05-${String(at + 1).padStart(2, '0')}\n${lines}\n`).join('\n')}`;

const PLAN = '4 h at 24 C, until volume 75 %';

const fit = (records: readonly string[], bulk = PLAN) => {
  const { formula } = analyseFormula(loaf(bulk, records));
  return fitPace(formula, recordsOf(formula));
};

const formula = analyseFormula(loaf(PLAN)).formula;
const expectedAt = (roomCelsius: number, doughCelsius: number): number => bulkMinutesUnder(formula, { roomCelsius, doughCelsius })?.low ?? NaN;
const bake = (room: number, dough: number, minutes: number, volume: number): string => `  room ${room} C\n  dough ${dough} C\n  bulk ${minutes} min, volume ${volume} %`;

describe('a fitted pace', () => {
  it('is the pace that made the records, exactly where nothing scatters', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 2, noNaN: true }), fc.array(fc.tuple(fc.integer({ min: 16, max: 28 }), fc.integer({ min: 20, max: 27 }), fc.integer({ min: 50, max: 100 })), { minLength: 3, maxLength: 8 }), (pace, days) => {
        const records = days.map(([room, dough, volume]) => bake(room, dough, Number(((expectedAt(room, dough) * volume) / 75 / pace).toFixed(6)), volume));
        const found = fit(records);
        if ('reason' in found) throw new Error(found.reason);
        expect(found.pace).toBeCloseTo(pace, 5);
        expect(found.residualPct).toBeLessThan(0.001);
      }),
      { numRuns: 15 },
    );
  });

  it('is within the scatter of the records, and its range holds it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.6, max: 1.6, noNaN: true }),
        fc.array(fc.tuple(fc.integer({ min: 17, max: 27 }), fc.double({ min: -0.15, max: 0.15, noNaN: true })), { minLength: 3, maxLength: 8 }),
        (pace, days) => {
          const records = days.map(([room, off]) => bake(room, 25, Number((expectedAt(room, 25) / (pace * Math.exp(off))).toFixed(6)), 75));
          const found = fit(records);
          if ('reason' in found) throw new Error(found.reason);
          const offs = days.map(([, off]) => off);
          const ratio = Math.log(found.pace / pace);
          expect(ratio).toBeGreaterThanOrEqual(Math.min(...offs) - 1e-6);
          expect(ratio).toBeLessThanOrEqual(Math.max(...offs) + 1e-6);
          expect(found.low).toBeLessThanOrEqual(found.pace);
          expect(found.high).toBeGreaterThanOrEqual(found.pace);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('says what it does not know', () => {
    expect(fit([bake(24, 25, 240, 75), bake(25, 25, 230, 75), bake(24, 25, 250, 75)])).toMatchObject({ notes: [expect.stringContaining('all about as warm')] });
    expect(fit([bake(18, 25, 300, 75), bake(25, 25, 230, 75), bake(24, 25, 250, 75)])).toMatchObject({ notes: [expect.stringContaining('Only the pace is fitted')] });
  });

  it('is refused with a reason', () => {
    const three = [bake(20, 24, 270, 70), bake(22, 25, 245, 75), bake(26, 26, 170, 80)];
    expect(fit(three.slice(0, 2))).toEqual({ reason: expect.stringMatching(/takes 3 bakes .*; 2 here do\.$/) as string });
    expect(fit([])).toEqual({ reason: expect.stringMatching(/none here does\.$/) as string });
    // Neither how warm nor how far.
    expect(fit([...three.slice(0, 2), '  bulk 4 h, volume 75 %', '  room 20 C\n  bulk 4 h', '  room 20 C\n  bulk 4 h, volume 10 %'])).toHaveProperty('reason');
    expect(fit(three, '4 h at 24 C')).toEqual({ reason: expect.stringContaining('does not say how far it should rise') as string });
    expect(fit(three, 'until volume 75 %')).toEqual({ reason: expect.stringContaining('says no length') as string });
    const flat = analyseFormula('formula "F"\n\ndough\n  500 g flour\n  300 g water\n').formula;
    expect(fitPace(flat, [])).toEqual({ reason: expect.stringContaining('no bulk') as string });
    const roomless = analyseFormula(loaf('4 h, until volume 75 %', three).replace('  room      24 C\n', '')).formula;
    expect(fitPace(roomless, recordsOf(roomless))).toEqual({ reason: expect.stringContaining('how warm it was for the length of the bulk') as string });
  });
});
