/** When a plan is ready or begins, and its orders, as instants. */
import { formatDuration, parseLocalInstant, type ParsedInstant } from '../timeline/clock';
import type { BakeDay, DayTime } from './model';

/**
 * The instant of a time as a plan writes it, on the clock of the zone it names, else of `zone`. A time that the clocks
 * skip is refused and one that comes twice is the earlier one, as `parseLocalInstant` has it.
 */
export function instantIn({ date, time, zone: own }: DayTime, zone: string): ParsedInstant {
  return parseLocalInstant(`${date}${time === undefined ? '' : ` ${time}`}`, own ?? zone);
}

export interface DayTimes {
  readonly anchor: { readonly kind: 'start' | 'ready'; readonly epochMs: number };
  readonly zone: string;
  /** When each order is ready, by its own time or the day's; undefined for a day that has a start only. */
  readonly readyMs: readonly (number | undefined)[];
  /** What a reader should know: an hour that comes twice. */
  readonly notes: readonly string[];
}

export type DayTimesOrNot =
  | { readonly kind: 'times'; readonly times: DayTimes }
  /** `of` is the line that is wrong; undefined when the plan has none. */
  | { readonly kind: 'bad'; readonly message: string; readonly of: DayTime | undefined };

/** All the times of a plan. */
export function timesOf(day: BakeDay, zone: string): DayTimesOrNot {
  const { anchor } = day;
  if (anchor === undefined) return { kind: 'bad', message: 'The plan does not say when it is ready: write, for example, `ready 2026-03-14 08:00`.', of: undefined };
  const parsed = instantIn(anchor, zone);
  if (parsed.kind === 'bad') return { kind: 'bad', message: parsed.message, of: anchor };
  const notes = parsed.note === undefined ? [] : [parsed.note];
  const readyMs: (number | undefined)[] = [];
  for (const { ready } of day.orders) {
    const own = ready && instantIn(ready, parsed.zone);
    if (own?.kind === 'bad') return { kind: 'bad', message: own.message, of: ready };
    if (own?.note !== undefined && !notes.includes(own.note)) notes.push(own.note);
    readyMs.push(own?.epochMs ?? (anchor.kind === 'ready' ? parsed.epochMs : undefined));
  }
  return { kind: 'times', times: { anchor: { kind: anchor.kind, epochMs: parsed.epochMs }, zone: parsed.zone, readyMs, notes } };
}

/** A sentence when a plan's time has gone by, for whoever knows what time it is; undefined when it has not, or cannot be read. */
export function pastReady(day: BakeDay, nowMs: number, zone: string): { readonly message: string; readonly of: DayTime } | undefined {
  const { anchor } = day;
  const parsed = anchor && instantIn(anchor, zone);
  if (anchor === undefined || parsed?.kind !== 'instant' || parsed.epochMs >= nowMs) return undefined;
  const ago = formatDuration(Math.max(1, Math.round((nowMs - parsed.epochMs) / 60_000)));
  return { message: `${anchor.date} ${anchor.time ?? ''} went by ${ago} ago: change the date for the next bake day.`, of: anchor };
}
