import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatDuration, formatInstant, isInstant, parseLocalInstant } from '../../../server/core/timeline/clock';
import { nearestZones, zoneNamed } from '../../../server/core/timeline/zone-names';

const HOUR_MS = 3_600_000;

/** The instant, in UTC, that a text means; fails with the message if it means none. */
function utc(text: string, zone = 'Europe/Lisbon'): string {
  const parsed = parseLocalInstant(text, zone);
  if (parsed.kind === 'bad') throw new Error(parsed.message);
  return new Date(parsed.epochMs).toISOString();
}

function message(text: string, zone = 'Europe/Lisbon'): string {
  const parsed = parseLocalInstant(text, zone);
  if (parsed.kind === 'instant') throw new Error(`${text} was read as ${new Date(parsed.epochMs).toISOString()}`);
  return parsed.message;
}

describe('a date and a time', () => {
  test.each([
    ['2026-03-14 08:00', '2026-03-14T08:00:00.000Z'],
    ['2026-07-14 08:00', '2026-07-14T07:00:00.000Z'],
    ['  2026-3-4   8:05 ', '2026-03-04T08:05:00.000Z'],
    ['2026-03-14T08:00', '2026-03-14T08:00:00.000Z'],
    ['2026-03-14 08:00:30', '2026-03-14T08:00:30.000Z'],
    ['2028-02-29 00:00', '2028-02-29T00:00:00.000Z'],
  ])('%s in Lisbon is %s', (text, expected) => {
    expect(utc(text)).toBe(expected);
  });

  test('a zone at the end goes before the one that is given', () => {
    expect(utc('2026-03-14 08:00 Asia/Kolkata')).toBe('2026-03-14T02:30:00.000Z');
    expect(parseLocalInstant('2026-03-14 08:00 europe/lisbon', 'Asia/Tokyo')).toMatchObject({ kind: 'instant', zone: 'Europe/Lisbon' });
  });

  test('an offset at the end says the instant, and the zone stays', () => {
    expect(utc('2026-03-14T08:00:00+05:30')).toBe('2026-03-14T02:30:00.000Z');
    expect(utc('2026-03-14T08:00-03:00')).toBe('2026-03-14T11:00:00.000Z');
    expect(parseLocalInstant('2026-03-14T08:00Z', 'Asia/Tokyo')).toEqual({
      kind: 'instant', epochMs: Date.UTC(2026, 2, 14, 8), zone: 'Asia/Tokyo',
    });
    expect(parseLocalInstant('2026-07-14T08:00+00:00 America/New_York', 'Asia/Tokyo')).toEqual({
      kind: 'instant', epochMs: Date.UTC(2026, 6, 14, 8), zone: 'America/New_York',
    });
  });
});

describe('what is not a time is refused in plain sentences', () => {
  test.each([
    ['tomorrow', '"tomorrow" is not a date and a time. Write them like this: 2026-03-14 08:00, with a 24 hour clock.'],
    ['', '"" is not a date and a time. Write them like this: 2026-03-14 08:00, with a 24 hour clock.'],
    ['14/03/2026 08:00', '"14/03/2026 08:00" is not a date and a time. Write them like this: 2026-03-14 08:00, with a 24 hour clock.'],
    ['2026-03-14 08:00x', '"2026-03-14 08:00x" is not a date and a time. Write them like this: 2026-03-14 08:00, with a 24 hour clock.'],
    ['2026-03-14', '2026-03-14 has no time of day. Write it after the date: 2026-03-14 08:00.'],
    ['2026-03-14 Europe/Lisbon', '2026-03-14 has no time of day. Write it after the date: 2026-03-14 08:00.'],
    ['2026-03-14 8:00 pm', 'Write the time on a 24 hour clock, without "pm": 2026-03-14 20:00 is eight in the evening.'],
    ['2026-03-14 24:00', 'There is no time 24:00. The day runs from 00:00 to 23:59; midnight at its end is 00:00 of the next day.'],
    ['2026-03-14 08:75', 'There is no time 08:75. The day runs from 00:00 to 23:59.'],
    ['2026-02-30 08:00', 'There is no date 2026-02-30. That month has 28 days.'],
    ['2100-02-29 08:00', 'There is no date 2100-02-29. That month has 28 days.'],
    ['2026-04-31 08:00', 'There is no date 2026-04-31. That month has 30 days.'],
    ['2026-01-00 08:00', 'There is no date 2026-01-00. That month has 31 days.'],
    ['2026-14-03 08:00', 'There is no date 2026-14-03. A date is year-month-day, and months run from 01 to 12.'],
  ])('%j', (text, expected) => {
    expect(message(text)).toBe(expected);
  });

  test('an unknown zone, with the ones that may be meant', () => {
    expect(message('2026-03-14 08:00 Europe/Lisboa')).toBe('There is no time zone "Europe/Lisboa". Did you mean Europe/Lisbon?');
    expect(message('2026-03-14 08:00', 'Lisbon')).toBe('There is no time zone "Lisbon". Did you mean Europe/Lisbon?');
    expect(message('2026-03-14 08:00 Narnia/Cair_Paravel')).toBe(
      'There is no time zone "Narnia/Cair_Paravel". Write a region and a city, such as Europe/Lisbon.');
    expect(message('2026-03-14 08:00', '')).toBe('There is no time zone "". Write a region and a city, such as Europe/Lisbon.');
  });

  test.each([
    ['Asia/Kolkatta', 'Asia/Kolkata'],
    ['europe/kyv', 'Europe/Kyiv'],
    ['new york', 'America/New_York'],
    ['America/Lisbon', 'Europe/Lisbon'],
    ['Australia/Lord Howe', 'Australia/Lord_Howe'],
  ])('%s is near %s', (typed, meant) => {
    expect(nearestZones(typed)[0]).toBe(meant);
    expect(zoneNamed(typed)).toBeUndefined();
  });
});

describe('summer time', () => {
  test('a time that the clocks skip is refused, with the next there is', () => {
    expect(message('2026-03-29 01:30', 'Europe/Lisbon')).toBe(
      'There is no 01:30 on 2026-03-29 in Europe/Lisbon: the clocks go forward past it. The next time that there is, is 02:00.');
    expect(message('2026-03-08 02:00', 'America/New_York')).toContain('The next time that there is, is 03:00.');
    expect(message('2026-10-04 02:15', 'Australia/Lord_Howe')).toContain('The next time that there is, is 02:30.');
  });

  test('the moments on either side of the gap are there', () => {
    expect(utc('2026-03-29 00:59')).toBe('2026-03-29T00:59:00.000Z');
    expect(utc('2026-03-29 02:00')).toBe('2026-03-29T01:00:00.000Z');
    expect(utc('2026-10-04 01:59', 'Australia/Lord_Howe')).toBe('2026-10-03T15:29:00.000Z');
    expect(utc('2026-10-04 02:30', 'Australia/Lord_Howe')).toBe('2026-10-03T15:30:00.000Z');
  });

  test('a whole day that an island left out is refused, with the day after it', () => {
    expect(message('2011-12-30 12:00', 'Pacific/Apia')).toContain('is 2011-12-31 00:00.');
  });

  test('of a time that comes twice the earlier is taken, and the note tells how to write the later', () => {
    const parsed = parseLocalInstant('2026-10-25 01:30', 'Europe/Lisbon');
    expect(parsed).toEqual({
      kind: 'instant',
      epochMs: Date.UTC(2026, 9, 25, 0, 30),
      zone: 'Europe/Lisbon',
      note: '01:30 comes twice on 2026-10-25 in Europe/Lisbon, for the clocks go back. The earlier one is taken; the later one is 2026-10-25 01:30+00:00.',
    });
    expect(utc('2026-10-25 01:30+00:00')).toBe('2026-10-25T01:30:00.000Z');
    expect(parseLocalInstant('2026-10-25 02:00', 'Europe/Lisbon')).not.toHaveProperty('note');
    expect(parseLocalInstant('2026-04-05 01:45', 'Australia/Lord_Howe')).toMatchObject({
      epochMs: Date.UTC(2026, 3, 4, 14, 45), note: expect.stringContaining('2026-04-05 01:45+10:30'),
    });
  });
});

describe('an instant in print', () => {
  test('date, time, weekday, offset and ISO 8601', () => {
    expect(formatInstant(Date.UTC(2026, 2, 14, 8), 'Europe/Lisbon')).toEqual({
      date: '2026-03-14', time: '08:00', weekday: 'Sat', offset: '+00:00', iso: '2026-03-14T08:00:00+00:00',
    });
    expect(formatInstant(Date.UTC(2026, 6, 12, 23, 30, 59), 'Europe/Lisbon')).toEqual({
      date: '2026-07-13', time: '00:30', weekday: 'Mon', offset: '+01:00', iso: '2026-07-13T00:30:59+01:00',
    });
    expect(formatInstant(Date.UTC(2026, 0, 1), 'America/St_Johns')).toMatchObject({ date: '2025-12-31', time: '20:30', offset: '-03:30' });
    expect(formatInstant(-1, 'UTC').iso).toBe('1969-12-31T23:59:59+00:00');
  });

  test('all seven weekdays', () => {
    const days = Array.from({ length: 7 }, (_, day) => formatInstant(Date.UTC(2026, 2, 9 + day, 12), 'UTC').weekday);
    expect(days).toEqual(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']);
  });

  test('what is no instant or no zone is the fault of the caller', () => {
    expect(() => formatInstant(NaN, 'UTC')).toThrow(RangeError);
    expect(() => formatInstant(0.5, 'UTC')).toThrow(RangeError);
    expect(() => formatInstant(0, 'Lisbon')).toThrow(RangeError);
    expect(isInstant(8.65e15)).toBe(false);
    expect(() => formatInstant(8.64e15 - 24 * HOUR_MS, 'Pacific/Kiritimati')).not.toThrow();
  });

  test('what is printed reads back as the same instant, twice-told hours included', () => {
    const zones = ['Europe/Lisbon', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Chatham', 'UTC', '+01:00'];
    const seconds = fc.integer({ min: Date.UTC(1990, 0, 1) / 1000, max: Date.UTC(2060, 0, 1) / 1000 });
    fc.assert(fc.property(seconds, fc.constantFrom(...zones), (second, zone) => {
      const printed = formatInstant(second * 1000, zone);
      expect(parseLocalInstant(printed.iso, zone)).toEqual({ kind: 'instant', epochMs: second * 1000, zone });

      const local = parseLocalInstant(`${printed.date} ${printed.iso.slice(11, 19)}`, zone);
      if (local.kind === 'bad') throw new Error(local.message);
      if (local.epochMs !== second * 1000) expect(local.note).toContain(printed.offset);
    }));
  });
});

test('reading never throws, whatever the text and the zone', () => {
  const pieces = fc.constantFrom('2026', '-', '03', '14', ' ', 'T', '08', ':', '00', '+', 'Z', 'Europe/', 'Lisbon', '29', '99', '0000', '\n', '漢');
  const text = fc.oneof(fc.string(), fc.array(pieces, { maxLength: 14 }).map((all) => all.join('')));
  fc.assert(fc.property(text, fc.oneof(fc.string(), fc.constant('Europe/Lisbon')), (written, zone) => {
    const parsed = parseLocalInstant(written, zone);
    if (parsed.kind === 'instant') expect(isInstant(parsed.epochMs)).toBe(true);
    else expect(parsed.message).toMatch(/\.|\?/);
  }));
});

test.each([
  [210, '3 h 30 min'],
  [0, '0 min'],
  [45, '45 min'],
  [60, '1 h'],
  [720, '12 h'],
  [72 * 60, '72 h'],
  [1.5, '1 min 30 s'],
  [0.25, '15 s'],
  [0.001, '0 min'],
  [59.999, '1 h'],
  [10 * 1440 + 360, '10 d 6 h'],
  [-90, '-1 h 30 min'],
  [Infinity, 'no end of time'],
])('%d minutes are %s', (minutes, text) => {
  expect(formatDuration(minutes)).toBe(text);
});
