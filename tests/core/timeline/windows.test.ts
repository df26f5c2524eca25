/** Hours off on the clock of a zone, as stretches of real time. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatInstant } from '../../../server/core/timeline/clock';
import type { HoursOff } from '../../../server/core/timeline/model';
import { windowsOf } from '../../../server/core/timeline/windows';

const HOUR = 3_600_000;
const asleep = (fromMinute: number, toMinute: number, days?: readonly number[]): HoursOff => ({ kind: 'asleep', fromMinute, toMinute, ...(days && { days }) });
const NIGHT = asleep(22 * 60 + 30, 5 * 60 + 30);

/** `Fri 22:30 to Sat 05:30, 7 h` */
function words(hours: readonly HoursOff[], from: string, to: string, zone = 'Europe/Lisbon'): readonly string[] {
  return windowsOf(hours, zone, Date.parse(from), Date.parse(to)).map(({ startMs, endMs }) => {
    const [start, end] = [formatInstant(startMs, zone), formatInstant(endMs, zone)];
    return `${start.weekday} ${start.time} to ${end.weekday} ${end.time}, ${String((endMs - startMs) / HOUR)} h`;
  });
}

describe('hours off', () => {
  test('run over midnight', () => {
    expect(words([NIGHT], '2026-03-13T12:00Z', '2026-03-15T00:00Z')).toEqual(['Fri 22:30 to Sat 05:30, 7 h', 'Sat 22:30 to Sun 05:30, 7 h']);
  });

  test('are an hour shorter the night the clocks go forward, and an hour longer the night they go back', () => {
    expect(words([NIGHT], '2026-03-28T12:00Z', '2026-03-29T12:00Z')).toEqual(['Sat 22:30 to Sun 05:30, 6 h']);
    expect(words([NIGHT], '2026-10-24T12:00Z', '2026-10-25T12:00Z')).toEqual(['Sat 22:30 to Sun 05:30, 8 h']);
  });

  test('that begin or end in an hour that is skipped or comes twice are the longer', () => {
    // Lisbon: 01:00 to 02:00 does not exist on 29 March, and comes twice on 25 October 2026.
    expect(words([asleep(90, 300)], '2026-03-29T00:00Z', '2026-03-29T12:00Z')).toEqual(['Sun 00:30 to Sun 05:00, 3.5 h']);
    expect(words([asleep(1350, 90)], '2026-10-24T12:00Z', '2026-10-25T12:00Z')).toEqual(['Sat 22:30 to Sun 01:30, 4 h']);
  });

  test('of some days begin on those days', () => {
    expect(words([asleep(1350, 330, [5])], '2026-03-09T00:00Z', '2026-03-16T00:00Z')).toEqual(['Fri 22:30 to Sat 05:30, 7 h']);
  });

  test('that overlap are one', () => {
    expect(words([NIGHT, { kind: 'away', fromMinute: 300, toMinute: 420 }], '2026-03-13T20:00Z', '2026-03-14T12:00Z')).toEqual(['Fri 22:30 to Sat 07:00, 8.5 h']);
  });

  test('round the clock are one stretch, none at all are none', () => {
    expect(words([asleep(0, 1440)], '2026-03-13T12:00Z', '2026-03-14T12:00Z')).toHaveLength(1);
    expect(words([asleep(300, 300)], '2026-03-13T12:00Z', '2026-03-14T12:00Z')).toEqual([]);
  });

  test('hold a moment just when the clock on the wall does, in any zone and any season', () => {
    const zone = fc.constantFrom('Europe/Lisbon', 'America/St_Johns', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'America/Sao_Paulo', 'UTC');
    const minute = fc.integer({ min: 0, max: 1439 });
    fc.assert(fc.property(zone, minute, minute, fc.integer({ min: Date.UTC(2024, 0, 1) / 60_000, max: Date.UTC(2027, 0, 1) / 60_000 }), (name, from, to, at) => {
      const ms = at * 60_000;
      const before = formatInstant(ms - 26 * HOUR, name);
      const after = formatInstant(ms + 26 * HOUR, name);
      fc.pre(before.offset === after.offset); // around a change the longer reading counts: the tests above
      const { time } = formatInstant(ms, name);
      const wall = Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
      const inside = from < to ? wall > from && wall < to : from > to && (wall > from || wall < to);
      const found = windowsOf([asleep(from, to)], name, ms - HOUR, ms + HOUR).some(({ startMs, endMs }) => startMs < ms && endMs > ms);
      expect(found).toBe(inside);
    }), { numRuns: 500 });
  });
});
