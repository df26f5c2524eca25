/** Round hours, midnights and nights of a stretch of time, on the clock of a zone. Instants are epoch milliseconds. */
import { formatDuration, formatInstant } from '../../core/timeline/clock';

export interface Tick {
  readonly ms: number;
  /** `18:00` */
  readonly label: string;
}

export interface Ticks {
  readonly hours: readonly Tick[];
  /** The first instant shown of each day: `Fri 13 Mar`. */
  readonly days: readonly Tick[];
  /** Stretches of night, cut to the stretch asked for. */
  readonly nights: readonly { readonly fromMs: number; readonly toMs: number }[];
}

const QUARTER_MS = 15 * 60_000;
const HOUR_MS = 60 * 60_000;
const NIGHT_FROM_HOUR = 22;
const NIGHT_TO_HOUR = 6;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** `Fri 13 Mar` of a `2026-03-13` and its weekday. */
export function dayLabel(date: string, weekday: string): string {
  return `${weekday} ${Number(date.slice(8))} ${MONTHS[Number(date.slice(5, 7)) - 1] ?? ''}`;
}

/** A length of time to the minute: the middle of a range is rarely a whole one, and nobody bakes by the second. */
export function lengthOf(milliseconds: number): string {
  const minutes = milliseconds / 60_000;
  return formatDuration(minutes >= 5 ? Math.round(minutes) : minutes);
}

/**
 * About `wanted` ticks at hours that people count in. Night is from 22:00 to 06:00 on the zone's own clock, so a change of
 * summer time makes it an hour longer or shorter, as it does for the baker.
 */
export function ticksOf(fromMs: number, toMs: number, zone: string, wanted = 8): Ticks {
  const spanHours = (toMs - fromMs) / HOUR_MS;
  const stepHours = [1, 2, 3, 4, 6, 12, 24].find((step) => spanHours / step <= wanted) ?? 24;
  const daily = Math.max(1, Math.ceil(spanHours / 24 / wanted));

  const hours: Tick[] = [];
  const days: Tick[] = [];
  const nights: { fromMs: number; toMs: number }[] = [];
  const firstDay = formatInstant(fromMs, zone);
  days.push({ ms: fromMs, label: dayLabel(firstDay.date, firstDay.weekday) });
  let dayCount = 0;
  let night: number | undefined = isNight(hourOf(firstDay.time)) ? fromMs : undefined;

  for (let ms = firstFullHour(fromMs, zone); ms <= toMs; ms = firstFullHour(ms + HOUR_MS, zone)) {
    const { date, weekday, time } = formatInstant(ms, zone);
    const hour = hourOf(time);
    if (hour === 0 && ms > fromMs) {
      dayCount += 1;
      if (dayCount % daily === 0) days.push({ ms, label: dayLabel(date, weekday) });
    }
    if (hour % stepHours === 0 && (stepHours < 24 || dayCount % daily === 0)) hours.push({ ms, label: time });
    if (isNight(hour)) night ??= ms;
    else if (night !== undefined) {
      nights.push({ fromMs: night, toMs: ms });
      night = undefined;
    }
  }
  if (night !== undefined && night < toMs) nights.push({ fromMs: night, toMs });
  return { hours: spanHours > SHORT_HOURS ? hours : minuteTicks(fromMs, toMs, zone, spanHours > 1 ? 30 : 15), days, nights };
}

/** Up to so long, whole hours are too few. */
const SHORT_HOURS = 2;

function minuteTicks(fromMs: number, toMs: number, zone: string, every: number): readonly Tick[] {
  const ticks: Tick[] = [];
  for (let ms = Math.ceil(fromMs / QUARTER_MS) * QUARTER_MS; ms <= toMs; ms += QUARTER_MS) {
    const { time } = formatInstant(ms, zone);
    if (Number(time.slice(3)) % every === 0) ticks.push({ ms, label: time });
  }
  return ticks;
}

function hourOf(time: string): number {
  return Number(time.slice(0, 2));
}

function isNight(hour: number): boolean {
  return hour >= NIGHT_FROM_HOUR || hour < NIGHT_TO_HOUR;
}

/** Zones differ from UTC by whole quarters of an hour, some by 30 or 45 minutes. */
function firstFullHour(ms: number, zone: string): number {
  let at = Math.ceil(ms / QUARTER_MS) * QUARTER_MS;
  for (let quarter = 0; quarter < 4 && !formatInstant(at, zone).time.endsWith(':00'); quarter += 1) at += QUARTER_MS;
  return at;
}
