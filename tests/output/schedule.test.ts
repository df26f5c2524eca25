import { describe, expect, test } from 'vitest';
import { scheduleJson } from '../../server/output/schedule-json';
import { scheduleText } from '../../server/output/schedule-text';
import { plain } from '../../server/output/paint';
import { widthOf } from '../../server/output/width';
import { scheduledFor } from './from-text';

const FIG = `
formula "Fig and walnut rye"
  makes     2 loaves of 970 g
  room      23 C

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

dough at 25 C
  880 g     bread flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts

steps
  mix         8 min, by hand
  bulk        3 h 30 min at 24 C
    fold      at 30 min, add half of walnuts
    fold      at 60 min, add rest of walnuts
  shape       10 min
  retard      10 to 16 h at 4 C
  preheat     60 min at 240 C
  bake        25 min at 240 C, lid on
  bake        18 to 22 min at 215 C, lid off, until core 97 C
  cool        2 h
`;

describe('a schedule as text', () => {
  test('back from a ready time: a heading a day, a line a step', () => {
    expect(`\n${scheduleText(scheduledFor(FIG, 'ready', '2026-03-14 08:00'))}`).toMatchInlineSnapshot(`
      "
      Fig and walnut rye
      start  Fri 13 March 2026, 04:22
      ready  Sat 14 March 2026, 08:00   (Europe/Lisbon)

      Fri 13 March 2026
      • 04:22 – 04:27       ~5 min         levain   mix the levain
                                                    can start 01:20 to 07:24
        04:27 – 12:27       8 h            levain   ripen at 24 °C
      • 12:27 – 12:35       8 min          dough    mix, by hand
                                                    can start 09:25 to 15:29
        12:35 – 16:05       3 h 30 min     dough    bulk at 24 °C
      • 13:05 – 13:10       ~5 min         dough    fold, add half of walnuts
      • 13:35 – 13:40       ~5 min         dough    fold, add rest of walnuts
      • 16:05 – 16:15       10 min         dough    shape
                                                    can start 13:03 to 19:07
      ◦ 16:15 – 05:15 Sat   10 to 16 h     dough    retard at 4 °C, into the fridge and out

      Sat 14 March 2026
      ◦ 04:15 – 05:15       1 h            dough    preheat at 240 °C (465 °F), oven on
                                                    can start 03:13 to 04:17
      ◦ 05:15 – 05:40       25 min         dough    bake at 240 °C (465 °F), lid on, into the oven
      ◦ 05:40 – 06:00       18 to 22 min   dough    bake at 215 °C (420 °F), lid off, until core 97 C, out
                                                    of the oven
        06:00 – 08:00       2 h            dough    cool

      • needs hands   ◦ needs a hand as it begins or ends   ~ length not written, a usual one taken
      "
    `);
  });

  test('a night in which the clocks change: lengths are true, and the sheet says why the clock times do not add up', () => {
    const text = scheduleText(scheduledFor('formula "X"\n\nsteps\n  retard 12 h\n  bake 30 min\n', 'start', '2026-03-28 20:00'));
    expect(`\n${text}`).toMatchInlineSnapshot(`
      "
      X
      start  Sat 28 March 2026, 20:00
      ready  Sun 29 March 2026, 09:30   (Europe/Lisbon)
      The clocks change on the way, from UTC+00:00 to UTC+01:00. Lengths are true; times are those on the
      wall.

      Sat 28 March 2026
      ◦ 20:00 – 09:00 Sun   12 h            retard, into the fridge and out

      Sun 29 March 2026
      ◦ 09:00 – 09:30       30 min          bake, into the oven and out

      ◦ needs a hand as it begins or ends
      "
    `);
  });

  test('nothing to place', () => {
    expect(scheduleText(scheduledFor('formula "X"\n\ndough\n  100 g bread flour\n', 'start', '2026-03-28 20:00'))).toBe(
      'X\nNo steps to place: write a "steps" block.\n',
    );
  });

  test('facts that cannot all hold are listed with their lines', () => {
    const text = scheduleText({
      entry: scheduledFor(FIG, 'ready', '2026-03-14 08:00').entry,
      timeline: {
        kind: 'conflict', message: 'The bulk is over before its last fold.',
        facts: [{ text: 'bulk 3 h', place: { block: 3, start: 0, end: 1 } }, { text: 'fold at 4 h', place: { block: 3, start: 20, end: 25 } }], waysOut: [],
      },
    });
    expect(text).toBe('Fig and walnut rye\nThe bulk is over before its last fold.\n  line 18   bulk 3 h\n  line 20   fold at 4 h\n');
  });

  test('ways out stand under the facts; what was asked has no line', () => {
    const { entry } = scheduledFor(FIG, 'ready', '2026-03-14 08:00');
    const text = scheduleText({
      entry,
      timeline: {
        kind: 'conflict', message: 'The bake is in the night.',
        facts: [{ text: 'retard 10 h to 16 h', place: { block: 3, start: 20, end: 25 } }, { text: 'asleep 22:30 to 05:30', place: undefined }],
        waysOut: [{ text: 'retard 9 h instead of 10 to 16 h', place: { block: 3, start: 20, end: 25 }, length: '9 h' }, { text: 'ready Sat 09:10', place: undefined, length: undefined }],
      },
    });
    expect(text).toBe(
      'Fig and walnut rye\nThe bake is in the night.\n  line 20   retard 10 h to 16 h\n  asked     asleep 22:30 to 05:30\n'
      + 'Ways out:\n  - retard 9 h instead of 10 to 16 h (line 20)\n  - ready Sat 09:10\n',
    );
  });

  test('hours off are lines between the steps, each under its own day', () => {
    const { entry, timeline } = scheduledFor(FIG, 'ready', '2026-03-14 08:00');
    const text = scheduleText({ entry, timeline, hoursOff: [{ kind: 'asleep', fromMinute: 22 * 60 + 30, toMinute: 4 * 60 }, { kind: 'away', fromMinute: 11 * 60, toMinute: 12 * 60, days: [5] }] });
    expect(text).toMatch(/ripen at 24 °C\n {2}── away 11:00 to 12:00 ──\n• 12:27/);
    expect(text).toMatch(/retard at 4 °C, into the fridge and out\n {2}── asleep 22:30 to 04:00 ──\n\nSat 14 March 2026\n/);
  });

  test('a night on which the clocks change is drawn on the clock of the wall', () => {
    const { entry, timeline } = scheduledFor('formula "X"\n\nsteps\n  retard 12 h\n  bake 30 min\n', 'start', '2026-03-28 20:00');
    expect(scheduleText({ entry, timeline, hoursOff: [{ kind: 'asleep', fromMinute: 0, toMinute: 6 * 60 }] })).toMatch(/\n\nSun 29 March 2026\n {2}── asleep 00:00 to 06:00 ──\n◦ 09:00/);
  });

  test('a length that the day has changed says why, and notes stand under the times', () => {
    const { entry, timeline } = scheduledFor(FIG, 'ready', '2026-03-14 08:00');
    if (timeline.kind !== 'placed') throw new Error('not placed');
    const why = '4 h 10 min instead of 3 h 30 min: the room is at 20 C, not 24 C (3 h 30 min to 5 h; watch the dough)';
    const steps = timeline.steps.map((step) => (step.kind === 'bulk' ? { ...step, adapted: { lowMinutes: 210, highMinutes: 210, why } } : step));
    const text = scheduleText({ entry, timeline: { ...timeline, steps, notes: ['Ready 10 min before 08:10, for nobody is up at 05:25.'] } });
    expect(text).toMatch(/\(Europe\/Lisbon\)\nReady 10 min before 08:10, for nobody is up at 05:25\.\n\nFri/);
    const lines = text.split('\n');
    const at = lines.findIndex((line) => line.includes('bulk at'));
    expect(lines[at + 1]).toMatch(/^ {40,}4 h 10 min instead of 3 h 30 min: the room/);
  });

  test('what somebody starts says how far it may move; what goes straight on from other work, or along with it, does not', () => {
    const { entry, timeline } = scheduledFor(FIG, 'ready', '2026-03-14 08:00');
    if (timeline.kind !== 'placed') throw new Error('not placed');
    const anHour = timeline.steps.map((step) => ({ ...step, earliestStartMs: step.startMs - 3_600_000, latestStartMs: step.startMs + 3_600_000 }));
    const rows = (steps: typeof timeline.steps) => scheduleText({ entry, timeline: { ...timeline, steps } }).split('\n');
    const movable = rows(anHour).flatMap((line, index, all) => (line.includes('can start') ? [all[index - 1]!.replace(/^.{45}/, '').trim()] : []));
    expect(movable).toEqual(['mix the levain', 'mix, by hand', 'shape', 'preheat at 240 °C (465 °F), oven on', 'bake at 240 °C (465 °F), lid on, into the oven']);
    expect(rows(anHour).join('\n')).toMatch(/shape\n +can start 15:05 to 17:05\n/);
    const aMinute = anHour.map((step) => ({ ...step, earliestStartMs: step.startMs - 60_000, latestStartMs: step.startMs + 60_000 }));
    expect(rows(aMinute).filter((line) => line.includes('can start'))).toEqual([]);
  });

  test('long notes are wrapped under themselves', () => {
    const note = 'turn the loaves halfway and mind the left side of the oven which is hotter than the right one by far';
    const scheduled = scheduledFor(`formula "X"\n\nsteps\n  bake 30 min, ${note}\n`, 'start', '2026-03-28 20:00');
    const lines = scheduleText(scheduled, { width: 70, paint: plain }).split('\n');
    for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(70);
    expect(lines.join(' ').replace(/\s+/g, ' ')).toContain(note);
  });
});

describe('a schedule as JSON', () => {
  test('the stable form', () => {
    const { formulas } = JSON.parse(scheduleJson([scheduledFor(FIG, 'ready', '2026-03-14 08:00')])) as { formulas: { name: string; start: string; ready: string; steps: Record<string, unknown>[] }[] };
    const [formula] = formulas;
    expect(formula).toMatchObject({ name: 'Fig and walnut rye', ready: '2026-03-14T08:00:00+00:00' });
    expect(formula!.steps.find(({ kind }) => kind === 'ripen')).toEqual({
      id: 'levain/ripen', part: 'levain', kind: 'ripen', label: 'ripen', hands_on: false, hand_at_start: false, hand_at_end: false, adapted: null, ambient_c: 24,
      start: expect.any(String) as string, end: expect.any(String) as string,
      earliest_start: expect.any(String) as string, latest_start: expect.any(String) as string,
    });
    expect(formula!.steps.find(({ id }) => id === 'method/retard')).toMatchObject({ part: null, ambient_c: 4, hands_on: false });
    for (const { start, end } of formula!.steps) expect(Date.parse(String(end))).toBeGreaterThanOrEqual(Date.parse(String(start)));
  });

  test('offsets are those of the zone at that time: across a change of summer time a 12 h retard is 12 h long', () => {
    const { formulas } = JSON.parse(scheduleJson([scheduledFor('formula "X"\n\nsteps\n  retard 12 h\n', 'start', '2026-03-28 20:00')])) as { formulas: { start: string; ready: string }[] };
    expect(formulas[0]).toMatchObject({ start: '2026-03-28T20:00:00+00:00', ready: '2026-03-29T09:00:00+01:00' });
  });

  test('a conflict instead', () => {
    const { entry } = scheduledFor(FIG, 'ready', '2026-03-14 08:00');
    const text = scheduleJson([{ entry, timeline: { kind: 'conflict', message: 'No.', facts: [{ text: 'bulk', place: { block: 1, start: 1, end: 7 } }], waysOut: [] } }]);
    expect(JSON.parse(text)).toEqual({ conflict: { message: 'No.', facts: [{ text: 'bulk', line: 6 }], formula: 'Fig and walnut rye', ways_out: [] } });
  });

  test('what was asked for stands on no line, and ways out say what they change', () => {
    const { entry } = scheduledFor(FIG, 'ready', '2026-03-14 08:00');
    const text = scheduleJson([{
      entry,
      timeline: {
        kind: 'conflict', message: 'No.', facts: [{ text: 'asleep 22:30 to 05:30', place: undefined }],
        waysOut: [{ text: 'bulk 2 h instead of 3 h', place: { block: 1, start: 1, end: 7 }, length: '2 h' }, { text: 'ready at 09:00', place: undefined, length: undefined }],
      },
    }]);
    expect((JSON.parse(text) as { conflict: unknown }).conflict).toMatchObject({
      facts: [{ text: 'asleep 22:30 to 05:30', line: null }],
      ways_out: [{ text: 'bulk 2 h instead of 3 h', line: 6, length: '2 h' }, { text: 'ready at 09:00', line: null, length: null }],
    });
  });

  test('a formula without steps has no times', () => {
    expect(JSON.parse(scheduleJson([scheduledFor('formula "X"\n', 'start', '2026-03-28 20:00')]))).toEqual({
      formulas: [{ name: 'X', start: null, ready: null, notes: [], steps: [] }],
    });
  });
});
