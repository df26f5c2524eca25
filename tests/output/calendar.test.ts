import * as fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { calendarText, escapeText, foldLine, type CalendarEvent } from '../../server/output/calendar';

const STAMP = Date.UTC(2026, 2, 1, 12);

function eventsIn(text: string): readonly InstanceType<typeof ICAL.Event>[] {
  return new ICAL.Component(ICAL.parse(text) as unknown[]).getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));
}

const octets = (text: string): number => new TextEncoder().encode(text).length;

/** What a text may hold in a calendar: line ends are one kind, control characters and halves of characters are none. */
const known = (text: string): string =>
  text.replace(/\r\n?/g, '\n').replace(/[\u0000-\u0008\u000b-\u001f\u007f]|\p{Surrogate}/gu, '');

/** Letters of one to four octets, what must be escaped, and a sign of several characters. */
const text = fc.array(fc.oneof(
  fc.constantFrom(...'a,;:\\"é漢\n\r\t ', '👩‍🍳', '\r\n', '\\n', '\u0007', '\ud83d', 'e\u0301', 'BEGIN:VEVENT', 'long '.repeat(30)),
  fc.string({ unit: 'binary' }),
), { maxLength: 12 }).map((parts) => parts.join(''));

const event: fc.Arbitrary<CalendarEvent> = fc.record({
  uid: fc.uuid(),
  summary: text,
  description: text,
  startMs: fc.integer({ min: Date.UTC(2000, 0, 1) / 1000, max: Date.UTC(2100, 0, 1) / 1000 }).map((seconds) => seconds * 1000),
  minutes: fc.integer({ min: 0, max: 5000 }),
  busy: fc.boolean(),
  alarms: fc.array(fc.record({ at: fc.constantFrom('start' as const, 'end' as const), text }), { maxLength: 2 }),
}).map(({ minutes, ...rest }) => ({ ...rest, endMs: rest.startMs + minutes * 60_000 }));

describe('a calendar file, whatever is in it', () => {
  test('is read back by another program as it was meant', () => {
    fc.assert(fc.property(fc.array(event, { maxLength: 4 }), (events) => {
      const read = eventsIn(calendarText(events, STAMP));
      expect(read.map(({ uid, summary, description, startDate, endDate, component }) => ({
        uid,
        summary,
        description: description ?? '',
        startMs: startDate.toUnixTime() * 1000,
        endMs: endDate.toUnixTime() * 1000,
        busy: component.getFirstPropertyValue('transp') === 'OPAQUE',
        alarms: component.getAllSubcomponents('valarm').map((alarm) => ({
          at: alarm.getFirstProperty('trigger')!.getFirstParameter('related') === 'END' ? 'end' : 'start',
          text: alarm.getFirstPropertyValue('description'),
        })),
      }))).toEqual(events.map(({ summary, description, alarms, ...rest }) => ({
        ...rest,
        summary: known(summary),
        description: known(description),
        alarms: alarms.map((alarm) => ({ at: rest.endMs > rest.startMs ? alarm.at : 'start', text: known(alarm.text) })),
      })));
    }));
  });

  test('has lines of at most 75 octets that end in CR and LF, and no other line break', () => {
    fc.assert(fc.property(fc.array(event, { maxLength: 4 }), (events) => {
      const written = calendarText(events, STAMP);
      expect(written.endsWith('\r\n')).toBe(true);
      const lines = written.split('\r\n');
      for (const line of lines) {
        expect(octets(line)).toBeLessThanOrEqual(75);
        expect(line).not.toMatch(/[\r\n]/);
        // A character split in two would come out as another.
        expect(new TextDecoder('utf-8', { fatal: true }).decode(new TextEncoder().encode(line))).toBe(line);
      }
    }));
  });

  test('unfolds to the lines that were folded', () => {
    fc.assert(fc.property(text.map((raw) => `SUMMARY:${escapeText(raw)}`), (line) => {
      expect(foldLine(line).replaceAll('\r\n ', '')).toBe(line);
    }));
  });
});

describe('a calendar file', () => {
  const knead: CalendarEvent = {
    uid: 'a', summary: 'Knead; rest, fold \\ turn', description: '', startMs: Date.UTC(2026, 2, 14, 8), endMs: Date.UTC(2026, 2, 14, 8), busy: true, alarms: [],
  };

  test('escapes what would end a text', () => {
    expect(escapeText('a,b;c\\d\ne\r\nf\rg')).toBe('a\\,b\\;c\\\\d\\ne\\nf\\ng');
  });

  test('gives a moment no end', () => {
    const written = calendarText([knead], STAMP);
    expect(written).toContain('DTSTART:20260314T080000Z\r\nSUMMARY:');
    expect(written).not.toContain('DTEND');
  });

  test('is stamped with the time it is told', () => {
    expect(calendarText([knead], STAMP)).toContain('DTSTAMP:20260301T120000Z\r\n');
  });

  test('with no event is still one', () => {
    expect(calendarText([], STAMP)).toBe('BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Proofsheet//Schedule//EN\r\nCALSCALE:GREGORIAN\r\nEND:VCALENDAR\r\n');
  });
});
