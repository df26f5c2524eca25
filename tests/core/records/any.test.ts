/** Whatever stands in a record, and whatever formula it is of: figures are numbers, every one has a sentence, and nothing throws. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRecord, fitPace, recordsOf } from '../../../server/core/records';
import { adaptedLength, conditionNotes } from '../../../server/core/timeline/conditions';
import { wholeText } from '../arbitrary';
import { analyseText } from '../bake';

const number = fc.oneof(fc.integer({ min: 0, max: 3000 }), fc.double({ min: 0, max: 120, noNaN: true }).map((value) => Number(value.toFixed(1))));
const line = fc.tuple(fc.constantFrom(
  'room # C', 'room # F', 'fridge # C', 'dough # C', 'bulk # min, volume # %', 'bulk # h at # C, volume # %', 'bulk overnight at room', 'bulk # min', 'proof # min',
  'retard # h at fridge', 'retard # to # h', 'ripen # h at # C', 'bake # min at # C, core # C', 'core # C', 'weighed # g, # loaves, after # h', 'weighed # kg', 'ph #', 'note "x"', 'cool',
  'fold at # min', 'bulk', 'room', 'weighed', '???',
), fc.array(number, { minLength: 4, maxLength: 4 })).map(([text, numbers]) => {
  let at = 0;
  return text.replace(/#/g, () => String(numbers[at++]));
});
const record = fc.tuple(fc.integer({ min: 1, max: 31 }), fc.array(line, { maxLength: 8 })).map(([day, lines]) => `record 2026-02-${String(day).padStart(2, '0')}\n${lines.map((one) => `  ${one}\n`).join('')}`);
const temperature = fc.option(fc.double({ min: -20, max: 60, noNaN: true }), { nil: undefined });

const formulasIn = (text: string) => analyseText(text).flatMap(({ formula }) => formula ?? []);

describe('any record', () => {
  it('is compared in numbers and sentences', () => {
    let compared = 0;
    fc.assert(
      fc.property(wholeText, fc.array(record, { minLength: 1, maxLength: 5 }), (text, records) => {
        for (const formula of formulasIn(`${text}\n${records.join('\n')}`)) {
          const all = recordsOf(formula);
          for (const { comparisons } of all.map((one) => compareRecord(formula, one))) {
            compared += comparisons.length;
            for (const { was, planned, difference, meaning } of comparisons) {
              const numbers = [was, ...(planned ? [planned.low, planned.high] : []), ...(difference === null ? [] : [difference])];
              expect(numbers.every(Number.isFinite)).toBe(true);
              expect(meaning).toMatch(/^[A-Z\d].*\.$/);
              expect(meaning).not.toMatch(/undefined|NaN|null|Infinity/);
              expect(difference === null).toBe(planned === null);
            }
          }
          const pace = fitPace(formula, all);
          if ('reason' in pace) expect(pace.reason).toMatch(/\.$/);
          else expect([pace.pace, pace.low, pace.high, pace.residualPct].every((one) => Number.isFinite(one) && one >= 0)).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(100);
  });
});

describe('any day', () => {
  it('gives every step a length that is a length, or leaves it', () => {
    let adapted = 0;
    fc.assert(
      fc.property(wholeText, temperature, temperature, fc.option(fc.double({ min: 0.2, max: 5, noNaN: true }), { nil: undefined }), (text, room, dough, pace) => {
        const conditions = { ...(room !== undefined && { roomCelsius: room }), ...(dough !== undefined && { doughCelsius: dough }), ...(pace !== undefined && { pace }) };
        for (const formula of formulasIn(text)) {
          for (const note of conditionNotes(formula, conditions)) expect(note).not.toMatch(/undefined|NaN|null|Infinity/);
          const steps = [...formula.parts.flatMap((part) => part.steps.map((step) => ({ step, part }))), ...formula.method.map((step) => ({ step, part: undefined }))];
          for (const { step, part } of steps) {
            const length = adaptedLength(step, part, formula, conditions);
            if (length === undefined) continue;
            adapted += 1;
            expect(length.lowMinutes).toBeGreaterThanOrEqual(0);
            expect(length.highMinutes).toBeGreaterThanOrEqual(length.lowMinutes);
            expect(Number.isFinite(length.highMinutes)).toBe(true);
            expect(length.why).not.toMatch(/undefined|NaN|null|Infinity|: \(/);
          }
        }
      }),
      { numRuns: 150 },
    );
    expect(adapted).toBeGreaterThan(20);
  });
});
