import { expect, test } from 'vitest';
import { instantOf, localTime, nextSaturday, zoneOf } from '../../client/clock';

test('a wall clock time and its instant, in winter and in summer', () => {
  expect(instantOf('2026-03-14T08:00', 'Europe/Lisbon')).toBe(Date.UTC(2026, 2, 14, 8));
  expect(instantOf('2026-07-04T08:00', 'Europe/Lisbon')).toBe(Date.UTC(2026, 6, 4, 7));
  expect(localTime(Date.UTC(2026, 6, 4, 7), 'Europe/Lisbon')).toBe('2026-07-04T08:00');
  expect(localTime(Date.UTC(2026, 6, 4, 0, 5), 'Asia/Kathmandu')).toBe('2026-07-04T05:50');
});

test('every hour around a change of clocks comes back as itself, the skipped one aside', () => {
  // Lisbon goes from 01:00 to 02:00 on 2026-03-29, so there is no 01:30.
  for (const time of ['00:30', '02:00', '02:30', '03:30']) {
    const instant = instantOf(`2026-03-29T${time}`, 'Europe/Lisbon');
    expect(localTime(instant!, 'Europe/Lisbon')).toBe(`2026-03-29T${time}`);
  }
  expect(['2026-03-29T00:30', '2026-03-29T02:30']).toContain(localTime(instantOf('2026-03-29T01:30', 'Europe/Lisbon')!, 'Europe/Lisbon'));
});

test('what is no time has no instant', () => {
  expect(instantOf('', 'UTC')).toBeUndefined();
  expect(instantOf('2026-13-45T08:00', 'UTC')).toBeUndefined();
});

test('the next Saturday is after today, on the zone’s own calendar', () => {
  expect(nextSaturday(Date.UTC(2026, 2, 11, 12), 'Europe/Lisbon')).toBe('2026-03-14T08:00'); // a Wednesday
  expect(nextSaturday(Date.UTC(2026, 2, 14, 12), 'Europe/Lisbon')).toBe('2026-03-21T08:00'); // a Saturday
  // Friday evening in UTC is Saturday morning in Auckland.
  expect(nextSaturday(Date.UTC(2026, 2, 13, 20), 'UTC')).toBe('2026-03-14T08:00');
  expect(nextSaturday(Date.UTC(2026, 2, 13, 20), 'Pacific/Auckland')).toBe('2026-03-21T08:00');
});

test('a zone that nobody knows is the computer’s own', () => {
  expect(zoneOf('Europe/Lisbon')).toBe('Europe/Lisbon');
  expect(zoneOf('Cais/Market')).toBe(zoneOf(''));
});
