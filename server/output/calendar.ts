/**
 * Calendar files as RFC 5545 (iCalendar) has them: events with alarms, in UTC, which every calendar shows on the clock of
 * whoever looks. Words and instants in, text out.
 */

export interface CalendarAlarm {
  /** At the start or at the end of the event. */
  readonly at: 'start' | 'end';
  readonly text: string;
}

export interface CalendarEvent {
  /** The same each time the same thing is written, so that a calendar brings it up to date and does not double it. */
  readonly uid: string;
  readonly summary: string;
  readonly description: string;
  readonly startMs: number;
  /** The same as `startMs` for what takes no time. */
  readonly endMs: number;
  /** Whether it keeps somebody from doing something else. */
  readonly busy: boolean;
  readonly alarms: readonly CalendarAlarm[];
}

/** Octets of a line without its line end (RFC 5545, 3.1). */
const MOST_OCTETS = 75;
const NEWLINE = /\r\n?|\n/g;
// Control characters but for the tab have no place in a text (3.3.11), and half a character cannot be written in UTF-8.
const NOT_TEXT = /[\u0000-\u0008\u000b-\u001f\u007f]|\p{Surrogate}/gu;

/** A whole calendar file, with the line ends it must have. `stampMs`: when it is written. */
export function calendarText(events: readonly CalendarEvent[], stampMs: number): string {
  const stamp = utc(stampMs);
  return [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Proofsheet//Schedule//EN',
    'CALSCALE:GREGORIAN',
    ...events.flatMap((event) => linesOf(event, stamp)),
    'END:VCALENDAR',
  ].map((line) => `${foldLine(line)}\r\n`).join('');
}

function linesOf({ uid, summary, description, startMs, endMs, busy, alarms }: CalendarEvent, stamp: string): readonly string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${escapeText(uid)}`,
    `DTSTAMP:${stamp}`,
    `DTSTART:${utc(startMs)}`,
    // An end must come after its start; an event without one is over as it begins (3.6.1).
    ...(utc(endMs) > utc(startMs) ? [`DTEND:${utc(endMs)}`] : []),
    `SUMMARY:${escapeText(summary)}`,
    ...(description === '' ? [] : [`DESCRIPTION:${escapeText(description)}`]),
    `TRANSP:${busy ? 'OPAQUE' : 'TRANSPARENT'}`,
    ...alarms.flatMap(({ at, text }) => [
      'BEGIN:VALARM',
      'ACTION:DISPLAY',
      // With no end to hang on, the start is the end.
      `TRIGGER${at === 'end' && utc(endMs) > utc(startMs) ? ';RELATED=END' : ''}:PT0S`,
      `DESCRIPTION:${escapeText(text)}`,
      'END:VALARM',
    ]),
    'END:VEVENT',
  ];
}

/** A text as the value of a property: backslash, semicolon, comma and line break are escaped (3.3.11). */
export function escapeText(text: string): string {
  return text.replace(NEWLINE, '\n').replace(NOT_TEXT, '').replace(/[\\;,]/g, '\\$&').replaceAll('\n', '\\n');
}

/** Breaks a line after at most 75 octets, never inside a character; what goes on begins with a space (3.1). */
export function foldLine(line: string): string {
  let folded = '';
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character.codePointAt(0) ?? 0);
    if (octets + size > MOST_OCTETS) {
      folded += '\r\n ';
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return folded;
}

/** Octets of a character in UTF-8. */
function octetsOf(codePoint: number): number {
  if (codePoint < 0x80) return 1;
  if (codePoint < 0x800) return 2;
  return codePoint < 0x10000 ? 3 : 4;
}

/** `20260314T080000Z` */
function utc(epochMs: number): string {
  return `${new Date(epochMs).toISOString().slice(0, 19).replace(/[-:]/g, '')}Z`;
}
