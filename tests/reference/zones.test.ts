/**
 * Our clock against two sources outside of it: the platform's own date formatting (ICU, built from the IANA time zone
 * database), hour by hour; and the text of the laws that fix summer time.
 */
import { describe, expect } from 'vitest';
import { formatInstant, parseLocalInstant } from '../../server/core/timeline/clock';
import { windowsOf } from '../../server/core/timeline/windows';
import { scheduledFor } from '../output/from-text';
import { outside } from './outside';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** What `Intl.DateTimeFormat` says the wall clock shows, and how far that is from UTC, in minutes. */
function platformClock(zone: string): (epochMs: number) => { readonly wall: string; readonly offsetMinutes: number } {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone, calendar: 'gregory', numberingSystem: 'latn', hourCycle: 'h23', weekday: 'short',
    year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit', second: '2-digit',
  });
  return (epochMs) => {
    const parts = Object.fromEntries(format.formatToParts(epochMs).map(({ type, value }) => [type, value]));
    const { year, month, day, hour, minute, second, weekday } = parts;
    const asUtc = Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute), Number(second));
    return { wall: `${weekday} ${year}-${month}-${day} ${hour}:${minute}`, offsetMinutes: (asUtc - epochMs) / 60_000 };
  };
}

function minutesOf(offset: string): number {
  const [hours = '', minutes = ''] = offset.slice(1).split(':');
  return (offset.startsWith('-') ? -1 : 1) * (Number(hours) * 60 + Number(minutes));
}

describe('every hour of 2026, against the platform', () => {
  const check = outside('general-purpose library', 'Intl.DateTimeFormat of the platform: ICU, built from the IANA time zone database');
  const zones: readonly (readonly [zone: string, changes: number])[] = [
    ['Europe/Lisbon', 2],
    ['America/New_York', 2],
    ['Australia/Lord_Howe', 2], // half an hour of summer time
    ['Pacific/Chatham', 2], // 45 min off the hour
    ['America/St_Johns', 2], // half an hour off, west
    ['America/Santiago', 2], // southern summer
    ['Asia/Kolkata', 0],
    ['Asia/Tokyo', 0],
    ['Africa/Casablanca', 2], // goes back for Ramadan
  ];
  for (const [zone, changes] of zones) check(`${zone}, which changes its clocks ${changes} times`, () => {
    const platform = platformClock(zone);
    const wrong: string[] = [];
    let changed = 0;
    let previous: number | undefined;
    for (let epochMs = Date.UTC(2026, 0, 1); epochMs < Date.UTC(2027, 0, 1); epochMs += HOUR_MS) {
      const ours = formatInstant(epochMs, zone);
      const theirs = platform(epochMs);
      const offsetMinutes = minutesOf(ours.offset);
      if (offsetMinutes !== theirs.offsetMinutes || `${ours.weekday} ${ours.date} ${ours.time}` !== theirs.wall) {
        wrong.push(`${ours.weekday} ${ours.iso}, platform ${theirs.wall} and ${theirs.offsetMinutes} min`);
      }
      if (previous !== undefined && previous !== offsetMinutes) changed += 1;
      previous = offsetMinutes;
    }
    expect(wrong).toEqual([]);
    expect(changed).toBe(changes); // the year had in it what the zone is listed for
  });
});

/** The nth Sunday of a month (from 1), or the last one, at midnight UTC. Months from 1. */
function sunday(year: number, month: number, which: number | 'last'): number {
  if (which === 'last') {
    const end = Date.UTC(year, month, 0);
    return end - new Date(end).getUTCDay() * DAY_MS;
  }
  const first = Date.UTC(year, month - 1, 1);
  return first + (((7 - new Date(first).getUTCDay()) % 7) + (which - 1) * 7) * DAY_MS;
}

/** The offset just before and just at a change. */
function around(changeMs: number, zone: string): readonly [string, string] {
  return [formatInstant(changeMs - 1000, zone).offset, formatInstant(changeMs, zone).offset];
}

describe('the days on which the law changes the clocks, 2010 to 2026', () => {
  const years = Array.from({ length: 17 }, (_, index) => 2010 + index);

  const europe = outside('published standard', 'Directive 2000/84/EC, articles 2 and 3');
  const states = outside('published standard', 'Energy Policy Act of 2005 (Public Law 109-58), section 110');
  const lordHowe = outside('published table', 'IANA time zone database, file australasia, rules LH from 2008 on');

  for (const year of years) {
    // From 01:00 UTC on the last Sunday in March to 01:00 UTC on the last Sunday in October.
    europe(`${year} in Lisbon`, () => {
      expect(around(sunday(year, 3, 'last') + HOUR_MS, 'Europe/Lisbon')).toEqual(['+00:00', '+01:00']);
      expect(around(sunday(year, 10, 'last') + HOUR_MS, 'Europe/Lisbon')).toEqual(['+01:00', '+00:00']);
    });

    // From 02:00 local time on the second Sunday of March to 02:00 local time on the first Sunday of November. Eastern
    // standard time is five hours behind UTC.
    states(`${year} in New York`, () => {
      expect(around(sunday(year, 3, 2) + 7 * HOUR_MS, 'America/New_York')).toEqual(['-05:00', '-04:00']);
      expect(around(sunday(year, 11, 1) + 6 * HOUR_MS, 'America/New_York')).toEqual(['-04:00', '-05:00']);
    });

    // From 02:00 local time on the first Sunday of October to 02:00 local time on the first Sunday of April; 30 min.
    // Standard time is ten and a half hours ahead.
    lordHowe(`${year} on Lord Howe Island`, () => {
      expect(around(sunday(year, 10, 1) - 8.5 * HOUR_MS, 'Australia/Lord_Howe')).toEqual(['+10:30', '+11:00']);
      expect(around(sunday(year, 4, 1) - 9 * HOUR_MS, 'Australia/Lord_Howe')).toEqual(['+11:00', '+10:30']);
    });
  }
});

/** Nights on which the clocks change: the day before, and by how much the wall is ahead of the time gone by, in minutes. */
const NIGHTS: readonly (readonly [zone: string, evening: string, jumpMinutes: number])[] = [
  ['Europe/Lisbon', '2026-03-28', 60],
  ['Europe/Lisbon', '2026-10-24', -60],
  ['America/New_York', '2026-03-07', 60],
  ['America/St_Johns', '2026-10-31', -60],
  ['America/Santiago', '2026-09-05', 60],
  ['Australia/Lord_Howe', '2026-10-03', 30],
  ['Australia/Lord_Howe', '2026-04-04', -30],
];

function nextDay(date: string): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + DAY_MS).toISOString().slice(0, 10);
}

describe('a night on which the clocks change, against the platform', () => {
  const check = outside('general-purpose library', 'Intl.DateTimeFormat of the platform: ICU, built from the IANA time zone database');

  for (const [zone, evening, jumpMinutes] of NIGHTS) {
    check(`${zone}, night after ${evening}: a retard of 12 h is 12 h long, and ${12 * 60 + jumpMinutes} min pass on the wall`, () => {
      const { timeline } = scheduledFor('formula "Loaf"\n\nsteps\n  retard 12 h at 4 C\n  bake 40 min at 230 C\n', 'start', `${evening} 20:00`, zone);
      if (timeline.kind !== 'placed') throw new Error('not placed');
      const [retard] = timeline.steps;
      expect(retard!.endMs - retard!.startMs).toBe(12 * HOUR_MS);
      const wall = platformClock(zone);
      expect(wall(retard!.startMs).wall.slice(4)).toBe(`${evening} 20:00`);
      const [hour, minute] = [8 + Math.floor(jumpMinutes / 60), ((jumpMinutes % 60) + 60) % 60];
      expect(wall(retard!.endMs).wall.slice(4)).toBe(`${nextDay(evening)} ${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`);
    });

    check(`${zone}, night after ${evening}: asleep 22:30 to 05:30 is ${7 * 60 - jumpMinutes} min long`, () => {
      const [noon, next] = [evening, nextDay(evening)].map((date) => Date.parse(`${date}T12:00:00Z`)) as [number, number];
      const nights = windowsOf([{ kind: 'asleep', fromMinute: 22 * 60 + 30, toMinute: 5 * 60 + 30 }], zone, noon - DAY_MS, next + DAY_MS);
      const wall = platformClock(zone);
      const night = nights.find(({ startMs }) => wall(startMs).wall.slice(4) === `${evening} 22:30`);
      expect(wall(night!.endMs).wall.slice(4)).toBe(`${nextDay(evening)} 05:30`);
      expect((night!.endMs - night!.startMs) / 60_000).toBe(7 * 60 - jumpMinutes);
    });

    check(`${zone}, night after ${evening}: every quarter of an hour on the wall is read as the platform shows it, once, twice or never`, () => {
      const wall = platformClock(zone);
      const noon = Date.parse(`${evening}T12:00:00Z`);
      const instants = new Map<string, number[]>();
      for (let epochMs = noon - DAY_MS; epochMs < noon + 2 * DAY_MS; epochMs += 15 * 60_000) {
        const shown = wall(epochMs).wall.slice(4);
        instants.set(shown, [...(instants.get(shown) ?? []), epochMs]);
      }
      const seen = { once: 0, twice: 0, never: 0 };
      for (const date of [evening, nextDay(evening)]) {
        for (let minute = 0; minute < 24 * 60; minute += 15) {
          const text = `${date} ${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
          const [first, second] = instants.get(text) ?? [];
          const read = parseLocalInstant(text, zone);
          if (first === undefined) {
            expect(read, text).toMatchObject({ kind: 'bad', message: expect.stringContaining('the clocks go forward') as string });
            seen.never += 1;
          } else {
            expect(read, text).toMatchObject({ kind: 'instant', epochMs: first });
            expect('note' in read, text).toBe(second !== undefined);
            seen[second === undefined ? 'once' : 'twice'] += 1;
          }
        }
      }
      const quarters = Math.abs(jumpMinutes) / 15;
      expect(seen).toEqual({
        once: 192 - quarters, twice: jumpMinutes < 0 ? quarters : 0, never: jumpMinutes > 0 ? quarters : 0,
      });
    });
  }
});
