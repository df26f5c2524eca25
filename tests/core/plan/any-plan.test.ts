/** Whatever a plan says, it is read and answered: with a day, with what is in the way, or with nothing to do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scheduleDay } from '../../../server/core/plan/schedule/schedule';
import { shoppingOf, weighingsOf } from '../../../server/core/plan/lists';
import { workOf } from '../../../server/core/plan/work';
import { analyseText } from '../bake';
import { ROLLS, RYE, WHEAT } from './day';

const DISH = 'dish "Bake"\n  serves    4\n  uses      300 g "Rye"\n\nfilling\n  400 g     milk\n\nsteps\n  do        "layer it" 10 min\n  soak      30 to 60 min at 4 C\n  preheat   20 min at 180 C\n  bake      35 min at 180 C\n';
const VARIANT = 'formula "Other rye"\n  based on  "Rye"\n  set       water to 75 %\n';
const LOOSE = 'formula "Loose"\n\ndough\n  100 %     bread flour\n  70 %      water\n\nsteps\n  bulk      3000 d\n  bake\n  bake\n';

const count = fc.oneof(fc.integer({ min: 0, max: 30 }).map(String), fc.constantFrom('0', '1', '2.5', '4 to 6', '900', '1/2', '100000', '1000000000'));
const noun = fc.constantFrom('', ' loaves', ' rolls', ' kg', ' g of flour', ' trays', ' l', ' batches', ' portions');
const line = fc.oneof(
  fc.constantFrom(
    'ready 2026-03-14 08:00 Europe/Lisbon', 'ready 2026-03-14', 'ready 2026-03-29 01:30 Europe/Lisbon', 'ready 9999-12-31 23:59', 'ready 0001-01-01 00:00',
    'start 2026-03-13 18:00 UTC', 'ready 2026-03-14 08:00 Nowhere/Atall', 'room 40 C', 'room 2 C', 'room fridge',
    'asleep 22:30 to 05:00', 'asleep 08:00 to 08:00', 'asleep 00:00 to 23:59', 'away 09:00 to 17:00 on Mon to Fri', 'away 05:00 to 22:30 on Sat',
  ),
  fc.tuple(fc.constantFrom('oven', 'oven "deck"', 'fridge', 'mixer', 'hands', 'pots'), fc.constantFrom('', ' 2 decks of', ' 0 decks of'), count, noun)
    .map(([key, decks, number, of]) => `${key}${decks === '' ? '' : ' holds'}${decks} ${number}${of}`),
  fc.tuple(fc.constantFrom('bake', 'make'), count, noun, fc.constantFrom('Rye', 'Wheat', 'Rolls', 'Bake', 'Other rye', 'Loose', 'Nothing'), fc.constantFrom('', '', ', ready 07:00', ', ready 2026-03-15 12:00'))
    .map(([verb, number, of, name, ready]) => `${verb} ${number}${of} of "${name}"${ready}`),
);

describe('any plan', { timeout: 120_000 }, () => {
  it('is read, checked, put on the clock and listed without a fault', () => {
    let scheduled = 0;
    fc.assert(fc.property(fc.array(line, { maxLength: 9 }), fc.boolean(), (lines, timed) => {
      const text = [RYE, WHEAT, ROLLS, DISH, VARIANT, LOOSE].join('\n');
      const start = timed ? ['ready 2026-03-14 09:00 Europe/Lisbon', 'oven holds 8 loaves'] : [];
      const plan = `plan "P"\n${[...start, ...lines].map((each) => `  ${each}\n`).join('')}`;
      const analysis = analyseText(`${text}\n${plan}`, { zone: 'Europe/Lisbon' }).at(-1)!;
      for (const { message } of analysis.findings) expect(message).not.toMatch(/undefined|null|NaN|Infinity|\[object/);
      const day = analysis.day!;
      const schedule = scheduleDay(day, { zone: 'Europe/Lisbon', mayGoOn: () => false });
      const said = schedule.kind === 'conflict' ? [schedule.message, ...schedule.waysOut.map((way) => way.text), ...schedule.facts.map((fact) => fact.text)]
        : schedule.kind === 'scheduled' ? schedule.notes : [];
      for (const words of said) expect(words).not.toMatch(/undefined|null|NaN|Infinity|\[object/);
      const work = workOf(day);
      for (const { grams } of shoppingOf(work).rows) expect(grams === null || grams >= 0).toBe(true);
      if (schedule.kind !== 'scheduled') return;
      scheduled++;
      for (const { timeMs } of weighingsOf(schedule, work)) expect(Number.isInteger(timeMs)).toBe(true);
      for (const { steps } of schedule.batches) for (const step of steps) expect(step.endMs >= step.startMs && Number.isInteger(step.startMs)).toBe(true);
    }), { numRuns: Number(process.env['RUNS'] ?? 12), examples: [[['bake 2 loaves of "Rye"'], true], [['bake 20 rolls of "Rolls"', 'asleep 22:30 to 05:00', 'hands 2'], true]] });
    expect(scheduled).toBeGreaterThan(1);
  });
});
