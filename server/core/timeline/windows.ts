/** Hours off, as stretches of real time: every day's own, on the clock of a zone, also where that clock is put on or back. */
import * as LocalTime from 'temporal-polyfill/fns/PlainDateTime';
import { formatInstant } from './clock';
import type { HoursOff } from './model';
import { joined, type Window } from './solve';

const MS_PER_DAY = 86_400_000;
const MINUTES_PER_DAY = 24 * 60;

/**
 * The hours off that touch the time from `fromMs` to `toMs`, in order and joined where they overlap. A time of day that the
 * clock skips, or that comes twice, is read so that the hours off are the longer: nobody is called in them.
 */
export function windowsOf(hours: readonly HoursOff[], zone: string, fromMs: number, toMs: number): readonly Window[] {
  const windows: Window[] = [];
  const first = dayNumber(formatInstant(fromMs, zone).date) - 1;
  const last = dayNumber(formatInstant(toMs, zone).date) + 1;
  const midnights = Array.from({ length: last - first + 3 }, (_, index) => instantAt(first + index, 0, zone, 'earlier'));
  /** On a day of 24 hours the clock runs with the time; on others each moment is looked up. */
  const instant = (day: number, minute: number, reading: 'earlier' | 'later'): number => {
    const whole = day + Math.floor(minute / MINUTES_PER_DAY);
    const [from, to] = [midnights[whole - first], midnights[whole - first + 1]];
    if (from === undefined || to === undefined || to - from !== MS_PER_DAY) return instantAt(day, minute, zone, reading);
    return from + (minute % MINUTES_PER_DAY) * 60_000;
  };
  for (const { fromMinute, toMinute, days } of hours) {
    if (fromMinute === toMinute) continue;
    const lastMinute = toMinute < fromMinute ? toMinute + MINUTES_PER_DAY : toMinute;
    for (let day = first; day <= last; day++) {
      if (days && !days.includes(isoWeekday(day))) continue;
      const window = { startMs: instant(day, fromMinute, 'earlier'), endMs: instant(day, lastMinute, 'later') };
      if (window.endMs > fromMs && window.startMs < toMs) windows.push(window);
    }
  }
  return joined(windows);
}

/** Hours off as windows around a moment, each worked out once: many timelines are tried before one is chosen. */
export type Calendar = (hours: readonly HoursOff[], fromMs: number, toMs: number) => readonly Window[];

/** A calendar for questions that mostly lie within `aroundMs` of a moment. */
export function calendarOf(zone: string, aboutMs: number, aroundMs: number): Calendar {
  const known = new Map<string, readonly Window[]>();
  const [wideFromMs, wideToMs] = [aboutMs - aroundMs, aboutMs + aroundMs];
  return (hours, fromMs, toMs) => {
    if (hours.length === 0) return [];
    if (fromMs < wideFromMs || toMs > wideToMs) return windowsOf(hours, zone, fromMs, toMs);
    const key = hours.map(({ fromMinute, toMinute, days }) => `${String(fromMinute)}-${String(toMinute)}-${days?.join('') ?? ''}`).join(' ');
    let windows = known.get(key);
    if (!windows) known.set(key, windows = windowsOf(hours, zone, wideFromMs, wideToMs));
    return windows;
  };
}

/** Days since 1970-01-01, a Thursday. */
function dayNumber(date: string): number {
  return Math.floor(Date.parse(`${date}T00:00:00Z`) / MS_PER_DAY);
}

/** 1 for Monday to 7 for Sunday. */
function isoWeekday(day: number): number {
  return ((((day + 3) % 7) + 7) % 7) + 1;
}

function instantAt(day: number, minute: number, zone: string, disambiguation: 'earlier' | 'later'): number {
  const wall = new Date(day * MS_PER_DAY + minute * 60_000);
  const local = LocalTime.create(
    wall.getUTCFullYear(), wall.getUTCMonth() + 1, wall.getUTCDate(), wall.getUTCHours(), wall.getUTCMinutes(),
  );
  return LocalTime.toZonedDateTime(local, zone, { disambiguation }).epochMilliseconds;
}
