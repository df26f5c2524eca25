/** The timeline of a card: by the clock where a time was asked for, else day 1, day 2 with the times of day. */
import type { HoursOff, Timeline, TimelineStep } from '../../core/timeline/model';
import { timelineOf } from '../../core/timeline/timeline';
import { formatInstant } from '../../core/timeline/clock';
import type { ResolvedFormula } from '../../core/formula/model';
import { minutesRange } from '../numbers';
import { dayName, handMoments, type Placed } from '../schedule-words';
import { printable } from '../width';
import type { CardTimeline, TimelineDay } from './model';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const MINUTE_MS = 60_000;
/** Any midnight will do where nobody asks for a date. */
const SOME_MIDNIGHT_MS = Date.UTC(2001, 0, 1);
/** The night that a card keeps free where the settings say none. */
const USUAL_NIGHT: HoursOff = { kind: 'asleep', fromMinute: 22 * 60, toMinute: 6 * 60 };
/** Hours at which people begin, the likeliest first. */
const BEGIN_HOURS = [8, 9, 7, 10, 18, 19, 17, 20, 16, 11, 12, 13, 14, 15, 21, 6] as const;
/** A day that is so much longer than the shortest is no better for beginning at a likelier hour. */
const NO_LONGER = 1.1;

/** Without a clock: the lengths as written, one step after another, nobody asleep. For how long it takes. */
export function unhurried(formula: ResolvedFormula): Timeline {
  return timelineOf(formula, { anchor: { kind: 'start', epochMs: SOME_MIDNIGHT_MS }, zone: 'UTC' });
}

/**
 * A day that begins at an hour people begin at and leaves the night alone, the shortest there is; where a night cannot be left
 * alone, one that begins in the morning.
 */
export function usualDay(formula: ResolvedFormula, hoursOff: readonly HoursOff[] | undefined): Timeline {
  const at = (hour: number, off: readonly HoursOff[]): Timeline => timelineOf(formula, { anchor: { kind: 'start', epochMs: SOME_MIDNIGHT_MS + hour * HOUR_MS }, zone: 'UTC', hoursOff: off });
  const off = hoursOff ?? [USUAL_NIGHT];
  const tries = BEGIN_HOURS.map((hour) => ({ hour, timeline: at(hour, off) })).flatMap(({ hour, timeline }) => (
    timeline.kind === 'placed' && timeline.startMs === SOME_MIDNIGHT_MS + hour * HOUR_MS ? [timeline] : []
  ));
  const shortest = Math.min(...tries.map(lengthMs));
  return tries.find((timeline) => lengthMs(timeline) <= shortest * NO_LONGER) ?? at(BEGIN_HOURS[0], []);
}

function lengthMs({ startMs, readyMs }: Placed): number {
  return readyMs - startMs;
}

/** @param isClocked the times are those of a clock that somebody asked for */
export function timelineWords(formula: ResolvedFormula, timeline: Timeline | undefined, isClocked: boolean): CardTimeline | undefined {
  if (timeline?.kind !== 'placed' || timeline.steps.length === 0) return undefined;
  return { about: isClocked ? clockedAbout(timeline) : usualAbout(timeline), days: daysOf(formula, timeline, isClocked) };
}

function clockedAbout(timeline: Placed): string {
  const { startMs, readyMs, zone, notes } = timeline;
  const at = (ms: number): string => `${dayName(ms, zone)} ${formatInstant(ms, zone).time}`;
  return [`Begun ${at(startMs)}, ready ${at(readyMs)} (${zone}).`, ...hands(timeline), ...notes.map(printable)].join(' ');
}

function usualAbout(timeline: Placed): string {
  return [`About ${roundedLength(lengthMs(timeline))} from start to ready.`, ...hands(timeline), 'One way to fit it in; begin when it suits you.'].join(' ');
}

function hands({ steps }: Placed): readonly string[] {
  const ms = steps.filter(({ handsOn }) => handsOn).reduce((sum, step) => sum + step.endMs - step.startMs, 0);
  return ms === 0 ? [] : [`Hands at work for about ${roundedLength(ms)} of it.`];
}

/** To 5 minutes, from 6 h on to half an hour: nobody's dough keeps a closer time. */
function roundedLength(ms: number): string {
  const minutes = ms / MINUTE_MS;
  const step = minutes >= 360 ? 30 : 5;
  const rounded = Math.max(step, Math.round(minutes / step) * step);
  return minutesRange(rounded, rounded);
}

function daysOf(formula: ResolvedFormula, timeline: Placed, isClocked: boolean): readonly TimelineDay[] {
  const { zone, startMs } = timeline;
  const days = new Map<string, Map<string, string[]>>();
  for (const step of timeline.steps.filter(({ id }) => !isInside(id))) {
    const { date, time } = formatInstant(step.startMs, zone);
    const day = isClocked ? dayName(step.startMs, zone) : `Day ${String(1 + Math.floor((Date.parse(date) - Date.parse(formatInstant(startMs, zone).date)) / DAY_MS))}`;
    const when = isClocked ? time : timeOfDay(Number(time.slice(0, 2)));
    const stretches = days.get(day) ?? new Map<string, string[]>();
    days.set(day, stretches);
    const sofar = stretches.get(when) ?? [];
    const words = stepWords(formula, timeline, step);
    // A bake of several stages is one.
    stretches.set(when, !isClocked && sofar.at(-1) === words ? sofar : [...sofar, words]);
  }
  return [...days].map(([name, stretches]) => ({ name, stretches: [...stretches].map(([when, what]) => ({ when, what })) }));
}

/** Folds stand in the method; they happen inside their bulk. */
function isInside(id: string): boolean {
  return id.split('/').length > 2;
}

/** `retard, into the fridge`; of a part its name, unless the words have it. */
function stepWords(formula: ResolvedFormula, timeline: Placed, step: TimelineStep): string {
  const part = step.part === undefined || step.part === formula.dough ? '' : (formula.parts[step.part]?.name ?? '');
  const label = part === '' || step.label.includes(part) ? step.label : `${step.label} the ${part}`;
  const [moment] = handMoments(timeline, step).filter(({ at }) => at === 'start');
  return printable(moment?.text === undefined || step.kind === 'bake' ? label : `${label} (${moment.text})`);
}

function timeOfDay(hour: number): string {
  if (hour < 5 || hour >= 22) return 'night';
  if (hour < 12) return 'morning';
  return hour < 17 ? 'afternoon' : 'evening';
}
