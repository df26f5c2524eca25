/** Hours when nobody works, as people write them: `22:30 to 05:30`, `09:00 to 17:00 on Mon to Fri`. */
import type { HoursOff } from './model';

export type ParsedHoursOff =
  | { readonly kind: 'hours'; readonly hours: HoursOff }
  /** `message` is one or two plain sentences. */
  | { readonly kind: 'bad'; readonly message: string };

const HOURS = /^(?<from>[^\s–—-]+)\s*(?:\bto\b|[–—-])\s*(?<to>[^\s–—-]+)(?:\s+on\s+(?<days>.+))?$/iu;
const CLOCK = /^(?<hour>\d{1,2}):(?<minute>\d{2})$/;
const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;
const LAST_MINUTE = 24 * 60;

/** A regular expression for all that `parseHoursOff` reads and nothing else, without flags, as a JSON schema takes it. */
export const HOURS_OFF_PATTERN = patternOfHours();

/**
 * Reads a stretch of hours on a 24 hour clock, `22:30 to 05:30` or `22:30-05:30`, and after `on` the week days on which it
 * begins: `Mon to Fri`, `Sat, Sun`, short or whole names. Never throws.
 */
export function parseHoursOff(text: string, kind: HoursOff['kind']): ParsedHoursOff {
  const written = HOURS.exec(text.trim())?.groups;
  if (written?.from === undefined || written.to === undefined) {
    return bad(`"${text.trim()}" says no hours. Write when they begin and end: ${EXAMPLE[kind]}.`);
  }
  const fromMinute = minuteOf(written.from);
  if (fromMinute === undefined || fromMinute === LAST_MINUTE) return bad(noTime(written.from, kind));
  const toMinute = minuteOf(written.to);
  if (toMinute === undefined) return bad(noTime(written.to, kind));
  if (written.days === undefined) return { kind: 'hours', hours: { kind, fromMinute, toMinute } };
  const days = daysOf(written.days);
  if (typeof days === 'string') return bad(`"${days}" is no week day. Write them like this: on Mon to Fri, or: on Sat, Sun.`);
  return { kind: 'hours', hours: { kind, fromMinute, toMinute, ...(days.length < WEEKDAYS.length && { days }) } };
}

/** `22:30 to 05:30 on Mon to Fri`: what `parseHoursOff` reads as the same hours. The kind is not in it. */
export function hoursOffText({ fromMinute, toMinute, days }: HoursOff): string {
  const hours = `${clockText(fromMinute)} to ${clockText(toMinute)}`;
  return days === undefined ? hours : `${hours} on ${daysText(days)}`;
}

const EXAMPLE: Readonly<Record<HoursOff['kind'], string>> = { asleep: '22:30 to 05:30', away: '09:00 to 17:00 on Mon to Fri' };

function noTime(text: string, kind: HoursOff['kind']): string {
  return `"${text}" is no time of day. The day runs from 00:00 to 23:59, with a colon and no am or pm: ${EXAMPLE[kind]}.`;
}

function minuteOf(text: string): number | undefined {
  const clock = CLOCK.exec(text)?.groups;
  if (clock === undefined) return undefined;
  const [hour, minute] = [Number(clock.hour), Number(clock.minute)];
  const minutes = hour * 60 + minute;
  return minute > 59 || minutes > LAST_MINUTE ? undefined : minutes;
}

function clockText(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

/** Week days from 1 for Monday, each once and in order; or the word that is none. */
function daysOf(text: string): readonly number[] | string {
  const found = new Set<number>();
  for (const listed of text.trim().split(/\s*,\s*(?:and\s+)?|\s+and\s+/iu)) {
    const [first = '', last, ...more] = listed.split(/\s+to\s+|\s*[–—-]\s*/iu);
    const from = dayOf(first);
    const to = last === undefined ? from : dayOf(last);
    if (from === undefined || more.length > 0) return listed;
    if (to === undefined) return last ?? listed;
    // Over the end of the week, `Sat to Mon`, it goes round.
    for (let day = from; ; day = (day % WEEKDAYS.length) + 1) {
      found.add(day);
      if (day === to) break;
    }
  }
  return [...found].sort((a, b) => a - b);
}

function dayOf(text: string): number | undefined {
  const word = text.trim().toLowerCase();
  const index = WEEKDAYS.findIndex((day) => word === day.toLowerCase() || word === shortName(day).toLowerCase());
  return index < 0 ? undefined : index + 1;
}

/** `Mon to Fri`, `Sat, Sun`: three days in a row or more are written as a stretch. */
function daysText(days: readonly number[]): string {
  const stretches: { readonly from: number; to: number }[] = [];
  for (const day of [...days].sort((a, b) => a - b)) {
    const last = stretches.at(-1);
    if (last !== undefined && day === last.to + 1) last.to = day;
    else stretches.push({ from: day, to: day });
  }
  const name = (day: number): string => shortName(WEEKDAYS[day - 1] ?? '');
  return stretches
    .map(({ from, to }) => (to - from >= 2 ? `${name(from)} to ${name(to)}` : from === to ? name(from) : `${name(from)}, ${name(to)}`))
    .join(', ');
}

function shortName(day: string): string {
  return day.slice(0, 3);
}

function bad(message: string): ParsedHoursOff {
  return { kind: 'bad', message };
}

function patternOfHours(): string {
  const anyCase = (word: string): string => [...word].map((letter) => `[${letter.toUpperCase()}${letter.toLowerCase()}]`).join('');
  const to = `(?:\\s+${anyCase('to')}\\s+|\\s*[–—-]\\s*)`;
  const time = '(?:[01]?\\d|2[0-3]):[0-5]\\d';
  const day = `(?:${WEEKDAYS.map((name) => `${anyCase(name.slice(0, 3))}(?:${anyCase(name.slice(3))})?`).join('|')})`;
  const days = `${day}(?:${to}${day})?`;
  const and = `(?:\\s*,\\s*(?:${anyCase('and')}\\s+)?|\\s+${anyCase('and')}\\s+)`;
  return `^\\s*${time}${to}(?:${time}|24:00)(?:\\s+${anyCase('on')}\\s+${days}(?:${and}${days})*)?\\s*$`;
}
