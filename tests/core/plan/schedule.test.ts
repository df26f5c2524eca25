import { describe, expect, it } from 'vitest';
import { shoppingOf, weighingsOf } from '../../../server/core/plan/lists';
import type { DaySchedule, ScheduledDay } from '../../../server/core/plan/schedule-model';
import { scheduleDay, scheduleSteps } from '../../../server/core/plan/schedule/schedule';
import { workOf } from '../../../server/core/plan/work';
import { formatInstant } from '../../../server/core/timeline/clock';
import { dayIn, ROLLS, RYE, WHEAT } from './day';
import { broken } from './kept';

const READY = Date.parse('2026-03-14T09:00Z');
const plan = (text: string, ...lines: readonly string[]) => dayIn(`${text}plan "S"\n${lines.map((line) => `  ${line}\n`).join('')}`);
const ready = (text: string, ...lines: readonly string[]) => plan(text, 'ready 2026-03-14 09:00 Europe/Lisbon', ...lines);
const at = (ms: number): string => {
  const { weekday, time } = formatInstant(ms, 'Europe/Lisbon');
  return `${weekday} ${time}`;
};
function scheduled(schedule: DaySchedule): ScheduledDay {
  if (schedule.kind !== 'scheduled') throw new Error(JSON.stringify(schedule));
  return schedule;
}
const loads = ({ ovenLoads }: ScheduledDay) => ovenLoads.map(({ oven, startMs, endMs, what }) => `${oven} ${at(startMs)} to ${at(endMs)}: ${what.map(({ pieces, formula }) => `${pieces} ${formula}`).join(' + ')}`);

describe('a bake day on the clock', () => {
  it('puts one order where its own timeline would, and proves that nothing is better', () => {
    const day = ready(RYE, 'oven holds 6 loaves', 'bake 2 loaves of "Rye"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(broken(found, day, READY)).toEqual([]);
    // 7 h of ripening at the least, 5 min to build it, 10 min, 3 h, 10 min, 10 h, 40 min and 1 h before nine.
    expect(at(found.startMs)).toBe(at(READY - (7 * 60 + 5 + 10 + 180 + 10 + 600 + 40 + 60) * 60_000));
    expect(found).toMatchObject({ readyMs: READY, gapMinutes: 0, proven: true });
    expect(loads(found)).toEqual(['oven Sat 07:20 to Sat 08:00: 2 Rye']);
    expect(found.heatings.map(({ oven, startMs, celsius }) => [oven, at(startMs), celsius])).toEqual([['oven', 'Sat 06:35', 240]]);
  });

  it('has what ripens for a dough without steps ready by the time', () => {
    const withoutMethod = RYE.slice(0, RYE.indexOf('\nsteps\n') + 1);
    const day = ready(withoutMethod, 'oven holds 6 loaves', 'bake 2 loaves of "Rye"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(found).toMatchObject({ readyMs: READY, gapMinutes: 0 });
    expect(broken(found, day, READY)).toEqual([]);
  });

  it('bakes loads of one dough one after the other, the oven coming back to its heat between', () => {
    const day = ready(RYE, 'oven holds 4 loaves', 'bake 8 loaves of "Rye"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(broken(found, day, READY)).toEqual([]);
    expect(loads(found)).toEqual(['oven Sat 06:30 to Sat 07:10: 4 Rye', 'oven Sat 07:20 to Sat 08:00: 4 Rye']);
    expect(found.batches).toHaveLength(1);
    expect(found.heatings).toHaveLength(1);
  });

  it('puts loads that bake alike into one oven together, and others apart', () => {
    const half = ['oven holds 8 loaves', 'bake 4 loaves of "Rye"', 'bake 4 loaves of "Wheat"'];
    const together = ready(RYE + WHEAT, ...half);
    const found = scheduled(scheduleDay(together, { zone: 'UTC' }));
    expect(broken(found, together, READY)).toEqual([]);
    expect(loads(found)).toHaveLength(1);
    expect(found.ovenLoads[0]!.filled).toBeCloseTo(1, 9);
    const cooler = ready(RYE + WHEAT.replaceAll('240 C', '225 C'), ...half);
    const apart = scheduled(scheduleDay(cooler, { zone: 'UTC' }));
    expect(broken(apart, cooler, READY)).toEqual([]);
    expect(loads(apart)).toHaveLength(2);
  });

  it('waits for an oven to get hotter or cooler between two loads', () => {
    const day = ready(RYE + ROLLS, 'oven holds 8 loaves or 40 rolls', 'bake 4 loaves of "Rye"', 'bake 40 rolls of "Rolls"');
    const hot = scheduled(scheduleDay(day, { zone: 'UTC' }));
    const gaps = hot.ovenLoads.slice(1).map((load, index) => (load.startMs - hot.ovenLoads[index]!.endMs) / 60_000);
    // 20 degrees less take under 10 min at 3 a minute, so the door counts.
    expect(gaps.every((gap) => gap >= 10)).toBe(true);
    const cold = ready(RYE + ROLLS.replaceAll('220 C', '150 C'), 'oven holds 8 loaves or 40 rolls', 'bake 4 loaves of "Rye"', 'bake 40 rolls of "Rolls"');
    const found = scheduled(scheduleDay(cold, { zone: 'UTC' }));
    const [first, second] = found.ovenLoads;
    const minutes = (second!.startMs - first!.endMs) / 60_000;
    // From 240 C down to 150 C at 3 a minute, or up at 4.
    expect(minutes).toBeGreaterThanOrEqual(first!.startCelsius! > second!.startCelsius! ? 30 : 23);
  });

  it('keeps hands, mixer and fridge to what they hold, and everybody asleep', () => {
    const day = ready(
      RYE + WHEAT + ROLLS, 'asleep 22:30 to 05:00', 'oven holds 6 loaves or 24 rolls', 'fridge holds 20 loaves', 'mixer holds 6 kg', 'hands 2',
      'bake 12 loaves of "Rye"', 'bake 8 loaves of "Wheat"', 'bake 40 rolls of "Rolls"',
    );
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(broken(found, day, READY)).toEqual([]);
    expect(found.startMs).toBeLessThanOrEqual(found.boundMs);
  });

  it('bakes in several ovens and decks at once', () => {
    const day = ready(ROLLS, 'oven "deck" holds 2 decks of 20 rolls', 'oven holds 20 rolls', 'hands 3', 'bake 60 rolls of "Rolls"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(broken(found, day, READY)).toEqual([]);
    expect(new Set(found.ovenLoads.map(({ oven }) => oven))).toEqual(new Set(['deck 1', 'deck 2', 'oven']));
  });

  it('has an order ready by a time of its own', () => {
    const day = ready(ROLLS, 'oven holds 40 rolls', 'bake 20 rolls of "Rolls"', 'bake 20 rolls of "Rolls", ready 07:30');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(found.batches.map(({ readyMs }) => at(readyMs))).toEqual(['Sat 09:00', 'Sat 07:30']);
  });

  it('from a start is done as soon as can be', () => {
    const day = plan(ROLLS, 'start 2026-03-14 06:00 Europe/Lisbon', 'oven holds 20 rolls', 'bake 20 rolls of "Rolls"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(broken(found, day, undefined)).toEqual([]);
    // 8 + 60 + 15 + 50 + 15 + 20 min.
    expect([at(found.startMs), at(found.readyMs), found.proven]).toEqual(['Sat 06:00', 'Sat 08:48', true]);
    const more = plan(ROLLS, 'start 2026-03-14 06:00 Europe/Lisbon', 'oven holds 20 rolls', 'bake 40 rolls of "Rolls"');
    const second = scheduled(scheduleDay(more, { zone: 'UTC' }));
    expect(broken(second, more, undefined)).toEqual([]);
    expect(at(second.readyMs)).toBe('Sat 09:13');
  });

  it('builds a levain once where the doughs are near enough in time, and apart where they are not', () => {
    const day = ready(RYE + WHEAT, 'oven holds 8 loaves', 'hands 2', 'bake 4 loaves of "Rye"', 'bake 4 loaves of "Wheat"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(found.builds).toHaveLength(1);
    expect(found.builds[0]!.portions.map(({ batch }) => batch)).toEqual([0, 1]);
    expect(found.notes).toContain('The levain for 2 doughs is built once.');
    const far = ready(RYE + WHEAT, 'oven holds 8 loaves', 'hands 2', 'bake 4 loaves of "Rye"', 'bake 4 loaves of "Wheat", ready 2026-03-14 21:00');
    const apart = scheduled(scheduleDay(far, { zone: 'UTC' }));
    expect(apart.builds).toHaveLength(2);
    expect(apart.notes.join(' ')).toContain('is built more than once');
  });

  it('takes more time for more pieces where they are done one by one', () => {
    const day = ready(RYE, 'oven holds 12 loaves', 'bake 12 loaves of "Rye"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    const shape = found.batches[0]!.steps.find(({ kind }) => kind === 'shape')!;
    expect((shape.endMs - shape.startMs) / 60_000).toBe(60);
    expect(found.notes.join(' ')).toContain('piece by piece');
  });

  it('makes a dish beside the bread, all of it weighed as it is begun', () => {
    const dish = 'dish "Pudding"\n  serves 4\n\ncustard\n  4 eggs\n  500 g milk\n\nsteps\n  whisk 5 min\n  soak 30 to 60 min at 4 C\n  preheat 20 min at 170 C\n  bake 40 min at 170 C\n';
    const day = ready(RYE + dish, 'oven holds 4', 'fridge holds 6', 'bake 4 loaves of "Rye"', 'make 2 "Pudding"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(broken(found, day, READY)).toEqual([]);
    expect(found.ovenLoads.map(({ what }) => what.map(({ formula }) => formula))).toContainEqual(['Pudding']);
    const custard = weighingsOf(found, workOf(day)).find(({ what }) => what === 'custard')!;
    expect(custard).toMatchObject({ timeMs: found.batches[1]!.startMs, items: [{ name: 'eggs' }, { name: 'milk', grams: 1000 }] });
  });

  it('goes by the room of the plan', () => {
    const room = RYE.replace('makes     2 loaves of 900 g', 'makes     2 loaves of 900 g\n  room      24 C');
    const cold = scheduled(scheduleDay(ready(room, 'room 20 C', 'oven holds 4', 'bake 2 "Rye"'), { zone: 'UTC' }));
    const usual = scheduled(scheduleDay(ready(room, 'room 24 C', 'oven holds 4', 'bake 2 "Rye"'), { zone: 'UTC' }));
    expect(cold.startMs).toBeLessThan(usual.startMs);
    expect(cold.batches[0]!.steps.some(({ adapted }) => adapted !== undefined)).toBe(true);
  });

  it('gives the same day each time, and stops trying when it is told to', () => {
    const day = ready(RYE + WHEAT + ROLLS, 'asleep 22:30 to 05:00', 'oven holds 4 loaves or 20 rolls', 'hands 2', 'bake 8 "Rye"', 'bake 8 "Wheat"', 'bake 40 "Rolls"');
    expect(scheduleDay(day, { zone: 'UTC' })).toEqual(scheduleDay(day, { zone: 'UTC' }));
    const hurried = scheduled(scheduleDay(day, { zone: 'UTC', mayGoOn: () => false }));
    expect(broken(hurried, day, READY)).toEqual([]);
  });

  it('is looked for in steps: the first day that stands, then the best; and ends between two of them', () => {
    const day = ready(RYE + WHEAT + ROLLS, 'asleep 22:30 to 05:00', 'oven holds 4 loaves or 20 rolls', 'hands 2', 'bake 8 "Rye"', 'bake 8 "Wheat"', 'bake 40 "Rolls"');
    let [goesOn, steps, first] = [true, 0, undefined as DaySchedule | undefined];
    for (const search = scheduleSteps(day, { zone: 'UTC', mayGoOn: () => goesOn }); ;) {
      const { done, value } = search.next();
      if (done) break;
      if (!goesOn) steps++;
      if (value === undefined) continue;
      first = value;
      goesOn = false;
    }
    expect(broken(scheduled(first!), day, READY)).toEqual([]);
    // All that is left is to bring the lengths near their middle, batch by batch.
    expect(steps).toBeLessThanOrEqual(2 * workOf(day).batches.length);
  });

  it('goes by the place of a dough, not by how many before it have no steps', () => {
    const bare = 'formula "Bare"\n  makes     2 loaves of 500 g\n\ndough\n  100 %     bread flour\n  70 %      water\n\n';
    const day = ready(bare + RYE + ROLLS, 'oven holds 4 loaves or 20 rolls', 'hands 2', 'bake 2 "Bare"', 'bake 4 "Rye"', 'bake 60 "Rolls"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    expect(found.batches.map(({ steps }) => steps.length > 0)).toEqual([false, true, true, true, true]);
    expect(broken(found, day, READY)).toEqual([]);
  });

  it('says that an oven is switched on in hours off, where no formula says how long it heats', () => {
    const notes = (rolls: string) => scheduled(scheduleDay(ready(rolls, 'away 07:35 to 08:20', 'oven holds 20 rolls', 'bake 20 rolls of "Rolls"'), { zone: 'UTC' })).notes.join(' ');
    expect(notes(ROLLS.replace(/ {2}preheat.*\n/, ''))).toMatch(/^To be hot at Sat 08:2\d, oven is switched on at Sat 07:[34]\d, in hours off: set a timer, or write a `preheat` line in Rolls, /);
    expect(notes(ROLLS)).not.toContain('switched on');
  });

  it('says what to weigh when, every gram of the shopping list once', () => {
    const day = ready(RYE + WHEAT + ROLLS, 'oven holds 40', 'hands 2', 'bake 4 "Rye"', 'bake 4 "Wheat"', 'bake 40 "Rolls"');
    const work = workOf(day);
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    const weighed = weighingsOf(found, work);
    expect(weighed.map(({ timeMs }) => timeMs)).toEqual([...weighed.map(({ timeMs }) => timeMs)].sort((a, b) => a - b));
    const grams = (key: string) => weighed.flatMap(({ items }) => items).filter((item) => item.key === key).reduce((sum, item) => sum + item.grams!, 0);
    for (const row of shoppingOf(work).rows) expect(grams(row.key), row.name).toBeCloseTo(row.grams!, 6);
    const levain = weighed.find(({ what }) => what === 'levain')!;
    expect(levain).toMatchObject({ timeMs: found.builds[0]!.startMs, formulas: ['Rye', 'Wheat'] });
  });

  it('weighs a filling when it goes in, and not with the dough', () => {
    const filled = ROLLS.replace('steps\n', 'filling\n  200 g butter\n\nsteps\n').replace('  shape     15 min', '  fill      10 min, add filling\n  shape     15 min');
    const day = ready(filled, 'oven holds 40', 'bake 20 "Rolls"');
    const found = scheduled(scheduleDay(day, { zone: 'UTC' }));
    const times = new Map(weighingsOf(found, workOf(day)).map(({ what, timeMs }) => [what, timeMs]));
    const stepAt = (kind: string) => found.batches[0]!.steps.find((step) => step.kind === kind)!.startMs;
    expect([times.get('dough'), times.get('filling')]).toEqual([stepAt('mix'), stepAt('fill')]);
  });
});

describe('a day that does not fit', () => {
  const conflict = (schedule: DaySchedule) => {
    if (schedule.kind !== 'conflict') throw new Error(schedule.kind);
    return schedule;
  };

  it('has no steps, or no time', () => {
    expect(scheduleDay(ready(RYE, 'oven holds 4', 'bake 4 of "Pumpkin"'), { zone: 'UTC' })).toEqual({ kind: 'empty' });
    expect(conflict(scheduleDay(plan(RYE, 'oven holds 4', 'bake 4 "Rye"'), { zone: 'UTC' })).message).toContain('does not say when it is ready');
    expect(conflict(scheduleDay(plan(RYE, 'ready 2026-03-14 08:00 Europe/Lisboa', 'oven holds 4', 'bake 4 "Rye"'), { zone: 'UTC' }))).toMatchObject({
      message: expect.stringContaining('Did you mean Europe/Lisbon?'), facts: [{ text: 'ready 2026-03-14 08:00', place: { block: 0 } }],
    });
  });

  it('says what clashes with the hours off, in the formula and in the plan', () => {
    const day = plan(ROLLS, 'ready 2026-03-14 09:00 Europe/Lisbon', 'asleep 22:00 to 08:00', 'away 08:30 to 22:00', 'oven holds 20', 'bake 20 "Rolls"');
    const found = conflict(scheduleDay(day, { zone: 'UTC' }));
    expect(found.message).toMatch(/^Rolls: /);
    expect(found.facts.map(({ text, formula, place }) => [text, formula, place !== undefined])).toContainEqual(['asleep 22:00 to 08:00', undefined, true]);
  });

  it('names what there is too little of, with ways out that were tried', () => {
    // Two ovens' worth of rolls that cannot wait, all to be ready at nine, and everybody asleep until six.
    const day = plan(ROLLS, 'ready 2026-03-14 09:00 Europe/Lisbon', 'asleep 16:00 to 06:00', 'oven holds 20 rolls', 'hands 4', 'bake 80 rolls of "Rolls"');
    const found = conflict(scheduleDay(day, { zone: 'UTC' }));
    expect(found.message).toMatch(/^No day was found that holds it all: Rolls, dough \d of 4 has no place beside the others\. With more than one oven it would have\.$/);
    expect(found.facts.map(({ text }) => text)).toEqual(['ready Sat 2026-03-14 09:00', expect.stringMatching(/^Rolls, dough \d of 4$/), 'oven']);
    expect(found.waysOut.length).toBeGreaterThan(0);
    const later = found.waysOut.find(({ text }) => text.startsWith('ready at'))!;
    expect(later.text).toMatch(/^ready at Sat \d\d:\d\d instead$/);
    const moved = plan(ROLLS, `ready 2026-03-14 ${later.text.slice(13, 18)} Europe/Lisbon`, 'asleep 16:00 to 06:00', 'oven holds 20 rolls', 'hands 4', 'bake 80 rolls of "Rolls"');
    expect(scheduleDay(moved, { zone: 'UTC' }).kind).toBe('scheduled');
  });

  it('says that one dough alone is too much for the fridge', () => {
    const found = conflict(scheduleDay(ready(RYE, 'oven holds 12 loaves', 'fridge holds 4 loaves', 'bake 12 loaves of "Rye"'), { zone: 'UTC' }));
    expect(found.message).toBe('Rye is too much for this fridge even by itself.');
    expect(found.facts.map(({ text, place }) => [text, place !== undefined])).toEqual([['Rye', true], ['fridge', true]]);
  });
});
