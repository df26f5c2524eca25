/** What holds of every day that is found, and that small days are as good as any: found anew by trying every order in the oven. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scheduleDay } from '../../../server/core/plan/schedule/schedule';
import { dayIn, ROLLS, RYE, WHEAT } from './day';
import { broken } from './kept';

const MINUTE = 60_000;
const READY = Date.parse('2026-03-14T09:00Z');

const anyDay = fc.record({
  rye: fc.integer({ min: 0, max: 12 }), wheat: fc.integer({ min: 0, max: 8 }), rolls: fc.integer({ min: 0, max: 60 }),
  oven: fc.integer({ min: 2, max: 8 }), ovens: fc.integer({ min: 1, max: 2 }), fridge: fc.integer({ min: 8, max: 30 }), mixer: fc.integer({ min: 3, max: 9 }),
  hands: fc.integer({ min: 1, max: 3 }), asleep: fc.constantFrom('', '22:30 to 05:00', '21:00 to 03:30'), away: fc.constantFrom('', '12:00 to 14:00 on Fri'),
  start: fc.boolean(),
});

describe('any bake day', { timeout: 120_000 }, () => {
  it('that is found keeps to all that the plan says, and never betters its bound', () => {
    let found = 0;
    fc.assert(fc.property(anyDay, ({ rye, wheat, rolls, oven, ovens, fridge, mixer, hands, asleep, away, start }) => {
      const orders = [rye > 0 ? `bake ${rye} loaves of "Rye"` : '', wheat > 0 ? `bake ${wheat} loaves of "Wheat"` : '', rolls > 0 ? `bake ${rolls} rolls of "Rolls"` : ''];
      const lines = [
        start ? 'start 2026-03-12 06:00 Europe/Lisbon' : 'ready 2026-03-14 09:00 Europe/Lisbon', asleep && `asleep ${asleep}`, away && `away ${away}`,
        ...Array<string>(ovens).fill(`oven holds ${oven} loaves or ${oven * 5} rolls`), `fridge holds ${fridge} loaves`, `mixer holds ${mixer} kg`, `hands ${hands}`, ...orders,
      ].filter((line) => line !== '');
      const day = dayIn(`${RYE}${WHEAT}${ROLLS}plan "S"\n${lines.map((line) => `  ${line}\n`).join('')}`);
      const schedule = scheduleDay(day, { zone: 'UTC' });
      if (schedule.kind === 'conflict') {
        expect(schedule.message).toMatch(/^\S.*[.?]$/s);
        expect(schedule.message).not.toMatch(/undefined|NaN|Infinity/);
        return;
      }
      if (schedule.kind === 'empty') return;
      found++;
      expect(broken(schedule, day, start ? undefined : READY)).toEqual([]);
      if (start) expect(schedule.readyMs).toBeGreaterThanOrEqual(schedule.boundMs);
      else expect(schedule.startMs).toBeLessThanOrEqual(schedule.boundMs);
      expect(schedule.proven).toBe(schedule.gapMinutes === 0);
    }), { numRuns: Number(process.env['RUNS'] ?? 12) });
    // Most days can be had; a search that finds none would pass the rest.
    expect(found).toBeGreaterThan(2);
  });
});

/** Loaves of one dough that nothing holds back but the oven. */
interface Loaf {
  readonly mix: number;
  readonly proof: number;
  readonly more: number;
  readonly bake: number;
  readonly celsius: number;
}

const text = ({ mix, proof, more, bake, celsius }: Loaf, name: string): string => `formula "${name}"
  makes     4 loaves of 500 g

dough
  1200 g    bread flour
  800 g     water
  24 g      salt

steps
  mix       ${mix} min
  proof     ${proof} to ${proof + more} min
  bake      ${bake} min at ${celsius} C
  cool      10 min
`;

/** The latest beginning of all, with the oven used in every order there is. */
function bestStart(loaves: readonly Loaf[]): number {
  let best = -Infinity;
  const tryOrder = (order: readonly Loaf[]): void => {
    // From the last back: each bake as late as the next one and its own loaf allow, each proof as short as may be.
    let next: { readonly startMs: number; readonly celsius: number } | undefined;
    let start = Infinity;
    for (const loaf of [...order].reverse()) {
      const gap = next === undefined ? 0 : Math.max(10, next.celsius > loaf.celsius ? (next.celsius - loaf.celsius) / 4 : (loaf.celsius - next.celsius) / 3);
      const out = Math.min(READY - 10 * MINUTE, next === undefined ? Infinity : next.startMs - Math.ceil(gap) * MINUTE);
      const into = out - loaf.bake * MINUTE;
      start = Math.min(start, into - (loaf.proof + loaf.mix) * MINUTE);
      next = { startMs: into, celsius: loaf.celsius };
    }
    best = Math.max(best, start);
  };
  const permute = (left: readonly Loaf[], taken: readonly Loaf[]): void => {
    if (left.length === 0) tryOrder(taken);
    left.forEach((loaf, index) => permute(left.filter((_, other) => other !== index), [...taken, loaf]));
  };
  permute(loaves, []);
  return best;
}

describe('a day with one oven and hands enough', { timeout: 60_000 }, () => {
  it('begins as late as the best of all orders, and the bound is no better than that', () => {
    const anyLoaf = fc.record({
      mix: fc.integer({ min: 5, max: 30 }), proof: fc.integer({ min: 30, max: 90 }), more: fc.integer({ min: 0, max: 60 }),
      bake: fc.integer({ min: 10, max: 25 }), celsius: fc.constantFrom(180, 200, 220, 240),
    });
    fc.assert(fc.property(fc.array(anyLoaf, { minLength: 2, maxLength: 5 }), (loaves) => {
      const names = ['One', 'Two', 'Three', 'Four', 'Five'];
      const day = dayIn(`${loaves.map((loaf, index) => text(loaf, names[index]!)).join('\n')}
plan "S"
  ready 2026-03-14 09:00 Europe/Lisbon
  oven holds 4 loaves
  hands 9
${loaves.map((_, index) => `  bake 4 loaves of "${names[index]}"\n`).join('')}`);
      const schedule = scheduleDay(day, { zone: 'UTC' });
      if (schedule.kind !== 'scheduled') throw new Error(schedule.kind);
      expect(broken(schedule, day, READY)).toEqual([]);
      const best = bestStart(loaves);
      expect(Math.min(...schedule.batches.map(({ startMs }) => startMs))).toBe(best);
      expect(schedule.boundMs).toBeGreaterThanOrEqual(best);
    }), { numRuns: Number(process.env['RUNS'] ?? 12) });
  });
});
