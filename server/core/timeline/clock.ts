/**
 * Clock times in real time zones, right across a change of summer time. Text in, instants out, and back.
 *
 * The zone is always an argument: nothing here asks the system for its clock, locale or zone. The rules of the zones
 * are the platform's own (IANA time zone database, as every JavaScript engine ships it).
 */
import * as LocalTime from 'temporal-polyfill/fns/PlainDateTime';
import * as Zoned from 'temporal-polyfill/fns/ZonedDateTime';
import { nearestZones, zoneNamed } from './zone-names';

export type ParsedInstant =
  /** `note` says what a reader should know: the hour that comes twice in autumn. `zone` is spelled as the database has it. */
  | { readonly kind: 'instant'; readonly epochMs: number; readonly zone: string; readonly note?: string }
  /** `message` is one or two plain sentences. */
  | { readonly kind: 'bad'; readonly message: string };

export interface FormattedInstant {
  /** `2026-03-14` */
  readonly date: string;
  /** `08:00`, on a 24 hour clock; seconds are left out, not rounded. */
  readonly time: string;
  /** `Sat` */
  readonly weekday: string;
  /** `+00:00` */
  readonly offset: string;
  /** `2026-03-14T08:00:00+00:00` */
  readonly iso: string;
}

/** The widest instants that a date can have (ECMAScript, time values): about 270,000 years either way. */
const FARTHEST_MS = 8.64e15;
const NS_PER_MS = 1_000_000n;
const MS_PER_MINUTE = 60_000;
const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/** True if `epochMs` is an instant that `formatInstant` can write in any zone. */
export function isInstant(epochMs: number): boolean {
  // A day inside the limit, so that the local date exists too.
  return Number.isInteger(epochMs) && Math.abs(epochMs) <= FARTHEST_MS - 24 * 60 * MS_PER_MINUTE;
}

const LOCAL_INSTANT =
  /^(?<year>\d{4})-(?<month>\d{1,2})-(?<day>\d{1,2})(?:(?:[Tt]|\s+)(?<hour>\d{1,2}):(?<minute>\d{2})(?::(?<second>\d{2})(?:\.\d+)?)?)?(?<rest>.*)$/u;
const OFFSET_THEN_ZONE = /^(?:(?<utc>[Zz])|(?<sign>[+-])(?<hours>\d{2}):?(?<minutes>\d{2}))?(?:\s+(?<zone>\S.*))?$/u;
const HALF_OF_THE_DAY = /^[ap]\.?m\.?$/i;

/**
 * Reads `2026-03-14 08:00`: a date and a time of day on the clock of `zone`, with seconds or a `T` if there are any,
 * and optionally with another zone (`2026-03-14 08:00 Europe/Lisbon`) or an offset (`2026-03-14T08:00+00:00`) at the end.
 *
 * A time that the clocks skip in spring is refused, with the next one that exists; of a time that comes twice in autumn
 * the earlier one is taken, and `note` says so. Never throws.
 */
export function parseLocalInstant(text: string, zone: string): ParsedInstant {
  const written = LOCAL_INSTANT.exec(text.trim())?.groups;
  const tail = OFFSET_THEN_ZONE.exec(written?.rest?.trimEnd() ?? '')?.groups;
  if (!written || !tail) {
    return bad(`"${text.trim()}" is not a date and a time. Write them like this: 2026-03-14 08:00, with a 24 hour clock.`);
  }
  const number = (name: string): number => Number(written[name] ?? 0);
  const date = `${written.year}-${pad(number('month'))}-${pad(number('day'))}`;
  if (written.hour === undefined) return bad(`${date} has no time of day. Write it after the date: ${date} 08:00.`);

  const zoneWanted = tail.zone?.trim() ?? zone;
  if (HALF_OF_THE_DAY.test(zoneWanted)) return bad(`Write the time on a 24 hour clock, without "${zoneWanted}": ${date} 20:00 is eight in the evening.`);
  const knownZone = zoneNamed(zoneWanted);
  if (knownZone === undefined) return bad(unknownZone(zoneWanted));

  const [hour, minute, second] = [number('hour'), number('minute'), number('second')];
  const time = `${pad(hour)}:${pad(minute)}${second > 0 ? `:${pad(second)}` : ''}`;
  if (hour > 23 || minute > 59 || second > 59) {
    return bad(`There is no time ${time}. The day runs from 00:00 to 23:59${hour === 24 ? '; midnight at its end is 00:00 of the next day' : ''}.`);
  }
  const daysInMonth = daysOf(number('year'), number('month'));
  if (daysInMonth === undefined) return bad(`There is no date ${date}. A date is year-month-day, and months run from 01 to 12.`);
  if (number('day') < 1 || number('day') > daysInMonth) {
    return bad(`There is no date ${date}. That month has ${daysInMonth} days.`);
  }

  const local = LocalTime.create(number('year'), number('month'), number('day'), hour, minute, second);
  if (tail.utc !== undefined || tail.sign !== undefined) {
    const offsetMinutes = (tail.sign === '-' ? -1 : 1) * (Number(tail.hours ?? 0) * 60 + Number(tail.minutes ?? 0));
    const epochMs = LocalTime.toZonedDateTime(local, 'UTC').epochMilliseconds - offsetMinutes * MS_PER_MINUTE;
    return { kind: 'instant', epochMs, zone: knownZone };
  }

  const earlier = LocalTime.toZonedDateTime(local, knownZone, { disambiguation: 'earlier' });
  const later = LocalTime.toZonedDateTime(local, knownZone, { disambiguation: 'later' });
  if (earlier.epochMilliseconds === later.epochMilliseconds) return { kind: 'instant', epochMs: earlier.epochMilliseconds, zone: knownZone };

  // The two readings keep the wall time asked for when it comes twice, and cannot when it is skipped.
  const before = formatInstant(earlier.epochMilliseconds, knownZone);
  const after = formatInstant(later.epochMilliseconds, knownZone);
  if (before.date === after.date && before.time === after.time) {
    const note =
      `${time} comes twice on ${date} in ${knownZone}, for the clocks go back. The earlier one is taken; `
      + `the later one is ${date} ${time}${after.offset}.`;
    return { kind: 'instant', epochMs: earlier.epochMilliseconds, zone: knownZone, note };
  }
  const change = Zoned.getTimeZoneTransition(earlier, 'next');
  const next = formatInstant(change ? change.epochMilliseconds : later.epochMilliseconds, knownZone);
  const nextText = next.date === date ? next.time : `${next.date} ${next.time}`;
  return bad(`There is no ${time} on ${date} in ${knownZone}: the clocks go forward past it. The next time that there is, is ${nextText}.`);
}

/**
 * The clock time of an instant (epoch milliseconds) in a zone.
 * @throws RangeError if the zone is unknown or the instant beyond all calendars; ask `zoneNamed` and `isInstant` first.
 */
export function formatInstant(epochMs: number, zone: string): FormattedInstant {
  if (!isInstant(epochMs)) throw new RangeError(`${epochMs} ms is not an instant`);
  const zoned = Zoned.create(BigInt(epochMs) * NS_PER_MS, zone);
  const offset = Zoned.offset(zoned);
  // Its date and time, as those of an instant in UTC that reads the same.
  const wall = new Date(epochMs + Math.floor(Zoned.offsetNanoseconds(zoned) / Number(NS_PER_MS))).toISOString();
  const [date = '', clock = ''] = wall.split('T');
  const weekday = WEEKDAYS[Zoned.dayOfWeek(zoned) - 1] ?? '';
  return { date, time: clock.slice(0, 5), weekday, offset, iso: `${date}T${clock.slice(0, 8)}${offset}` };
}

/**
 * A length of time as bakers say it: `45 min`, `3 h 30 min`, `12 h`, `48 h`; `1 min 30 s` where seconds count, and days
 * from a week up (`10 d 6 h`). To the nearest second.
 */
export function formatDuration(minutes: number): string {
  if (!Number.isFinite(minutes)) return 'no end of time';
  let seconds = Math.round(Math.abs(minutes) * 60);
  const sign = minutes < 0 && seconds > 0 ? '-' : '';
  const words: string[] = [];
  const take = (unitSeconds: number, unit: string): void => {
    const count = Math.floor(seconds / unitSeconds);
    seconds -= count * unitSeconds;
    if (count > 0) words.push(`${count} ${unit}`);
  };
  if (seconds >= 7 * 86_400) take(86_400, 'd');
  take(3600, 'h');
  take(60, 'min');
  take(1, 's');
  return sign + (words.join(' ') || '0 min');
}

/** Says that a zone is unknown and what may have been meant. For a zone that `zoneNamed` does not know. */
export function unknownZone(name: string): string {
  const nearest = nearestZones(name);
  const hint = nearest.length > 0 ? `Did you mean ${nearest.join(' or ')}?` : 'Write a region and a city, such as Europe/Lisbon.';
  return `There is no time zone "${name}". ${hint}`;
}

function bad(message: string): ParsedInstant {
  return { kind: 'bad', message };
}

function pad(number: number): string {
  return String(number).padStart(2, '0');
}

/** Days in a month of the Gregorian calendar; undefined if there is no such month. */
function daysOf(year: number, month: number): number | undefined {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return [31, undefined, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
}

/** A range of lengths, in minutes: `10 to 16 h`, `18 to 22 min`, `1 h 30 min to 2 h`. */
export function formatDurations(lowMinutes: number, highMinutes: number): string {
  const [from, to] = [formatDuration(lowMinutes), formatDuration(highMinutes)];
  if (from === to) return to;
  const [fromUnit, toUnit] = [/^(\S+) (\S+)$/.exec(from), /^(\S+) (\S+)$/.exec(to)];
  return fromUnit !== null && toUnit !== null && fromUnit[2] === toUnit[2] ? `${fromUnit[1] ?? ''} to ${to}` : `${from} to ${to}`;
}
