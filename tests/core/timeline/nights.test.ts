/** Schedules around sleep and work: what gives, what does not, and what is said when nothing fits. */
import { describe, expect, test } from 'vitest';
import type { HoursOff, Timeline } from '../../../server/core/timeline/model';
import { parseLocalInstant } from '../../../server/core/timeline/clock';
import { parseHoursOff } from '../../../server/core/timeline/hours-off';
import { timelineOf } from '../../../server/core/timeline/timeline';
import { formulaOf, plan, startOf, stepOf, type Placed } from './placed';

const ZONE = 'Europe/Lisbon';
const loaf = (steps: string, parts = ''): string =>
  `formula "Loaf"\n\n${parts}${parts && '\n'}dough\n  500 g bread flour\n  350 g water\n  10 g  salt\n${parts.includes('levain') ? '  all levain\n' : ''}\nsteps\n${steps.split('\n').map((line) => `  ${line}`).join('\n')}\n`;
const LEVAIN = 'levain\n  60 g rye flour\n  60 g water\n  12 g starter\n  ripen 8 h at 24 C\n';

function hours(...texts: readonly string[]): readonly HoursOff[] {
  return texts.map((text) => {
    const [kind = '', ...rest] = text.split(' ');
    const read = parseHoursOff(rest.join(' '), kind === 'away' ? 'away' : 'asleep');
    if (read.kind === 'bad') throw new Error(read.message);
    return read.hours;
  });
}

function asked(text: string, anchor: 'ready' | 'start', time: string, ...off: readonly string[]): Timeline {
  const instant = parseLocalInstant(time, ZONE);
  if (instant.kind === 'bad') throw new Error(instant.message);
  return timelineOf(formulaOf(text), { anchor: { kind: anchor, epochMs: instant.epochMs }, zone: ZONE, hoursOff: hours(...off) });
}

function placed(...args: Parameters<typeof asked>): Placed {
  const result = asked(...args);
  if (result.kind !== 'placed') throw new Error(JSON.stringify(result));
  return result;
}

function conflict(...args: Parameters<typeof asked>): Extract<Timeline, { kind: 'conflict' }> {
  const result = asked(...args);
  if (result.kind !== 'conflict') throw new Error(plan(result as Placed).join('\n'));
  return result;
}

const minutes = (result: Placed, id: string): number => (stepOf(result, id).endMs - stepOf(result, id).startMs) / 60_000;

describe('hands rest in hours off', () => {
  const text = loaf('mix 10 min\nbulk 4 h\nshape 10 min\nretard 8 to 16 h\nbake 40 min\ncool 2 h');

  test('a range gives so that shaping is over by bedtime; nothing gives where nothing must', () => {
    // Back from 10:00: out of the oven at 08:00, in at 07:20, and 12 h of retard shape at 19:10.
    expect(minutes(placed(text, 'ready', '2026-03-14 10:00', 'asleep 22:30 to 05:30'), 'method/retard')).toBe(12 * 60);
    // Back from 13:00 the same would shape at 22:10 to 22:20: still before bed.
    expect(minutes(placed(text, 'ready', '2026-03-14 13:00', 'asleep 22:30 to 05:30'), 'method/retard')).toBe(12 * 60);
    // Back from 14:00 it would be 23:10: an hour longer in the cold, less ten minutes.
    const late = placed(text, 'ready', '2026-03-14 14:00', 'asleep 22:30 to 05:30');
    expect(minutes(late, 'method/retard')).toBe(12 * 60 + 50);
    expect(startOf(late, 'method/shape')).toBe('22:20');
  });

  test('work goes on to the minute of bedtime and begins with the minute of rising', () => {
    const early = placed(text, 'ready', '2026-03-14 09:00', 'asleep 22:30 to 06:20');
    expect(startOf(early, 'method/bake')).toBe('06:20');
  });

  test('dough rises and cools by itself, at night and at work', () => {
    const result = placed(loaf('mix 10 min\nbulk 10 h\nshape 10 min\nproof 1 h\nbake 40 min\ncool 10 h'), 'ready', '2026-03-14 18:00', 'asleep 22:30 to 05:30');
    expect(plan(result)).toEqual([
      'Fri 20:00-20:10 method/mix *', 'Fri 20:10-06:10 method/bulk', 'Sat 06:10-06:20 method/shape *', 'Sat 06:20-07:20 method/proof',
      'Sat 07:20-08:00 method/bake', 'Sat 08:00-18:00 method/cool',
    ]);
  });
});

describe('ready means ready by then', () => {
  test('a little earlier, when that leaves the night alone, and it says so', () => {
    const result = placed(loaf('mix 10 min\nbake 40 min\nslice 10 min'), 'ready', '2026-03-14 06:00', 'asleep 05:30 to 08:00');
    expect(plan(result)).toEqual(['Sat 04:30-04:40 method/mix *', 'Sat 04:40-05:20 method/bake', 'Sat 05:20-05:30 method/slice *']);
    expect(result.notes).toEqual(['Ready at Sat 05:30, 30 min before it must be: what needs hands would fall into hours off otherwise.']);
  });

  test('a start in the night is put off to the morning', () => {
    const result = placed(loaf('mix 10 min\nbulk 4 h\nbake 40 min'), 'start', '2026-03-14 03:00', 'asleep 22:30 to 05:30');
    expect(startOf(result, 'method/mix')).toBe('05:30');
    expect(result.notes[0]).toContain('2 h 30 min later than asked');
  });
});

describe('who must be there', () => {
  test('the oven door and the fridge need a hand for a moment; a timer needs none', () => {
    const bake = (line: string): Timeline => asked(loaf(`mix 10 min\n${line}\nscore 2 min\nbake 40 min`), 'ready', '2026-03-14 07:00', 'asleep 22:30 to 06:00');
    expect(bake('retard 12 h\npreheat 60 min').kind).toBe('conflict');
    expect(bake('retard 12 h\npreheat 60 min, unattended').kind).toBe('placed');
    expect(bake('retard 12 h\npreheat 15 min').kind).toBe('placed');
  });

  test('what is attended is hands-on all along', () => {
    expect(asked(loaf('mix 10 min\nproof 10 h\nbake 40 min'), 'ready', '2026-03-14 07:00', 'asleep 22:30 to 05:30').kind).toBe('placed');
    expect(asked(loaf('mix 10 min\nproof 10 h, attended\nbake 40 min'), 'ready', '2026-03-14 07:00', 'asleep 22:30 to 05:30').kind).toBe('conflict');
  });

  test('folds are hands-on where they are pinned in their bulk', () => {
    const folds = (at: string): Timeline => asked(loaf(`mix 10 min\nbulk 12 h\n  fold at ${at}\nbake 40 min`), 'ready', '2026-03-14 08:00', 'asleep 22:30 to 05:30');
    expect(folds('60 min').kind).toBe('placed');
    expect(folds('6 h').kind).toBe('conflict');
  });
});

describe('hours of some days only', () => {
  test('away on working days leaves Saturday free', () => {
    const text = loaf('mix 10 min\nbake 40 min');
    expect(asked(text, 'ready', '2026-03-14 12:00', 'away 09:00 to 17:00 on Mon to Fri').kind).toBe('placed'); // a Saturday
    expect(asked(text, 'ready', '2026-03-13 12:00', 'away 09:00 to 17:00 on Mon to Fri').kind).toBe('conflict'); // the Friday before
  });

  test('a night that begins on Friday is still one on Saturday morning', () => {
    const text = loaf('mix 10 min\nbake 40 min');
    expect(asked(text, 'ready', '2026-03-14 05:00', 'asleep 22:30 to 05:30 on Fri').kind).toBe('conflict');
    expect(asked(text, 'ready', '2026-03-15 05:00', 'asleep 22:30 to 05:30 on Fri').kind).toBe('placed');
  });
});

describe('when nothing fits', () => {
  test('the fewest facts that clash, each with its line, and ways out with their clock times', () => {
    // The levain would be put together at 02:05.
    const result = conflict(loaf('mix 10 min\nbulk 4 h\nbake 40 min', LEVAIN), 'ready', '2026-03-14 15:00', 'asleep 22:30 to 05:30');
    expect(result.message).toBe(
      'To be ready Sat 2026-03-14 15:00, "mix the levain" needs hands at Sat 02:05 with every length as planned, but you are asleep 22:30 to 05:30; no length within its range avoids it.');
    expect(result.facts.map(({ text }) => text)).toEqual(['ripen 8 h', 'bulk 4 h', 'asleep 22:30 to 05:30', 'ready Sat 2026-03-14 15:00']);
    expect(result.facts.every(({ text, place }) => (place === undefined) === /asleep|ready/.test(text))).toBe(true);
    expect(result.waysOut.map(({ text }) => text)).toMatchInlineSnapshot(`
      [
        "ripen 9 h 40 min instead of 8 h: mix the levain at Fri 22:25",
        "be ready at Sat 18:25 instead of Sat 15:00",
        "be ready at Sat 11:20 instead of Sat 15:00",
      ]
    `);
  });

  test('a length is offered as the line would say it', () => {
    const result = conflict(loaf('mix 10 min\nshape 10 min\nretard 10 to 16 h\nbake 40 min'), 'ready', '2026-03-14 08:10', 'asleep 22:00 to 05:30', 'away 12:00 to 22:00');
    expect(result.waysOut.find(({ length }) => length !== undefined)).toMatchInlineSnapshot(`
      {
        "length": "17 h 30 min",
        "place": {
          "block": 2,
          "end": 54,
          "start": 37,
        },
        "text": "retard 17 h 30 min instead of 10 h to 16 h, begun at Fri 12:00",
      }
    `);
  });

  test('a bulk whose folds follow from its length is not offered another length: they would fall elsewhere', () => {
    const ways = (fold: string) => conflict(
      loaf(`mix 1 min\nbulk 10 h\n  ${fold}\nshape 10 min\ncool 4 h`), 'ready', '2026-03-14 12:00', 'away 19:10 to 22:30',
    ).waysOut.filter(({ text }) => text.startsWith('bulk'));
    expect(ways('fold 3 min at 10 h').length).toBe(1);
    expect(ways('fold 3 min')).toEqual([]);
  });

  test('with two clashes, two changes', () => {
    const result = conflict(
      loaf('mix 10 min\nbulk 4 h\nshape 10 min\nretard 10 h\npreheat 60 min\nbake 40 min\ncool 1 h', LEVAIN), 'ready', '2026-03-14 07:00',
      'asleep 22:30 to 05:30', 'away 09:00 to 17:00');
    expect(result.waysOut.map(({ text }) => text)).toMatchInlineSnapshot(`
      [
        "be ready at Sat 09:00 instead of Sat 07:00",
      ]
    `);
  });

  test('round the clock there is no way out, and it is said all the same', () => {
    const result = conflict(loaf('mix 10 min'), 'ready', '2026-03-14 08:00', 'asleep 00:00 to 24:00');
    expect(result.facts.map(({ text }) => text)).toEqual(['asleep 00:00 to 24:00']);
    expect(result.waysOut).toEqual([]);
  });
});

test('the night the clocks go forward has the same length of retard and less sleep', () => {
  const text = loaf('shape 10 min\nretard 12 h\nbake 40 min');
  const result = placed(text, 'ready', '2026-03-29 08:00', 'asleep 22:30 to 05:30');
  expect(minutes(result, 'method/retard')).toBe(12 * 60);
  expect(startOf(result, 'method/shape')).toBe('18:10');
});

test('in a warm room a shorter bulk has its folds sooner, and all of them', () => {
  const text = loaf('mix 10 min\nbulk 4 h at 22 C\n  fold at 60 min\n  fold at 3 h 50 min\nbake 40 min', LEVAIN).replace('"Loaf"\n', '"Loaf"\n  room 22 C\n');
  const instant = parseLocalInstant('2026-07-11 12:00', ZONE);
  if (instant.kind === 'bad') throw new Error(instant.message);
  const ask = (roomCelsius: number) => timelineOf(formulaOf(text), { anchor: { kind: 'start', epochMs: instant.epochMs }, zone: ZONE, conditions: { roomCelsius } });
  const [warm, cool] = [ask(27), ask(20)] as readonly Placed[];
  const offset = (result: Placed, id: string): number => (stepOf(result, id).startMs - stepOf(result, 'method/bulk').startMs) / 60_000;
  expect(minutes(warm!, 'method/bulk')).toBeLessThan(4 * 60);
  expect(offset(warm!, 'method/bulk/fold-2')).toBeCloseTo((230 * minutes(warm!, 'method/bulk')) / 240, 0);
  expect(minutes(cool!, 'method/bulk')).toBeGreaterThan(4 * 60);
  expect(offset(cool!, 'method/bulk/fold-2')).toBe(230);
});
