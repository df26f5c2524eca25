/**
 * Our clock against two sources outside of it: the platform's own date formatting (ICU, built from the IANA time zone
 * database), hour by hour; and the text of the laws that fix summer time.
 */
import { describe, expect } from 'vitest';
import { formatInstant } from '../../server/core/timeline/clock';
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
