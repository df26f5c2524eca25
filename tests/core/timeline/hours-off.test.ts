import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HOURS_OFF_PATTERN, hoursOffText, parseHoursOff } from '../../../server/core/timeline/hours-off';

describe('hours when nobody works', () => {
  test.each([
    ['22:30 to 05:30', { fromMinute: 1350, toMinute: 330 }],
    ['22:30-05:30', { fromMinute: 1350, toMinute: 330 }],
    [' 22:30 – 5:30 ', { fromMinute: 1350, toMinute: 330 }],
    ['09:00 to 17:00 on Mon to Fri', { fromMinute: 540, toMinute: 1020, days: [1, 2, 3, 4, 5] }],
    ['09:00-17:00 on Monday-Friday', { fromMinute: 540, toMinute: 1020, days: [1, 2, 3, 4, 5] }],
    ['12:00 TO 24:00 ON sat, sun', { fromMinute: 720, toMinute: 1440, days: [6, 7] }],
    ['12:00 to 14:00 on Sat to Mon and Wed', { fromMinute: 720, toMinute: 840, days: [1, 3, 6, 7] }],
    ['12:00 to 14:00 on Mon to Sun', { fromMinute: 720, toMinute: 840 }],
    ['00:00 to 00:00', { fromMinute: 0, toMinute: 0 }],
  ])('%s is read', (text, hours) => {
    expect(parseHoursOff(text, 'away')).toEqual({ kind: 'hours', hours: { kind: 'away', ...hours } });
  });

  test.each([
    ['', '"" says no hours. Write when they begin and end: 22:30 to 05:30.'],
    ['at night', '"at night" says no hours.'],
    ['22:30', '"22:30" says no hours.'],
    ['22 to 6', '"22" is no time of day.'],
    ['10pm to 6am', '"10pm" is no time of day. The day runs from 00:00 to 23:59, with a colon and no am or pm: 22:30 to 05:30.'],
    ['22:30 to 24:30', '"24:30" is no time of day.'],
    ['24:00 to 06:00', '"24:00" is no time of day.'],
    ['22:60 to 06:00', '"22:60" is no time of day.'],
    ['22:30 to 05:30 on Mo', '"Mo" is no week day. Write them like this: on Mon to Fri, or: on Sat, Sun.'],
    ['22:30 to 05:30 on Mon to market day', '"market day" is no week day.'],
    ['22:30 to 05:30 on Mon to Wed to Fri', '"Mon to Wed to Fri" is no week day.'],
  ])('%j is refused with what to write', (text, message) => {
    const read = parseHoursOff(text, 'asleep');
    expect(read.kind === 'bad' && read.message).toContain(message);
  });

  test.each(['22:30 to 05:30', '09:00 to 17:00 on Mon to Fri', '09:00 to 17:00 on Mon, Wed to Fri, Sun', '08:05 to 24:00 on Sat, Sun'])('%s is written as it is read', (text) => {
    const read = parseHoursOff(text, 'away');
    expect(read.kind === 'hours' && hoursOffText(read.hours)).toBe(text);
  });

  test('all hours that can be are read again as they were written', () => {
    const hoursOff = fc.record(
      {
        kind: fc.constantFrom('asleep', 'away'),
        fromMinute: fc.integer({ min: 0, max: 1439 }),
        toMinute: fc.integer({ min: 0, max: 1440 }),
        days: fc.subarray([1, 2, 3, 4, 5, 6, 7], { minLength: 1, maxLength: 6 }),
      },
      { requiredKeys: ['kind', 'fromMinute', 'toMinute'] },
    );
    fc.assert(fc.property(hoursOff, (hours) => {
      expect(parseHoursOff(hoursOffText(hours), hours.kind)).toEqual({ kind: 'hours', hours });
    }));
  });

  test('the pattern of it and the reader agree on any text', () => {
    const word = fc.constantFrom('22:30', '5:30', '24:00', '24:01', '9', ' to ', 'TO', '-', ' – ', ' ', ' on ', 'Mon', 'sunday', 'Mo', ', ', ' and ', ', and ');
    const text = fc.oneof(fc.string(), fc.array(word, { maxLength: 12 }).map((words) => words.join('')));
    const pattern = new RegExp(HOURS_OFF_PATTERN, 'u');
    fc.assert(fc.property(text, (any) => { expect(parseHoursOff(any, 'away').kind === 'hours').toBe(pattern.test(any)); }), { numRuns: 2000 });
    expect(pattern.test('09:00 to 17:00 on Mon to Fri, and Sunday')).toBe(true);
  });
});
