/** A step of a timeline in a baker's words: what it is, whose it is, when a hand is needed, how far it may move. */
import type { StepDetail, StepKind } from '../../grammar';
import { formatInstant } from '../core/timeline/clock';
import type { HoursOff, Timeline, TimelineStep } from '../core/timeline/model';
import { windowsOf } from '../core/timeline/windows';
import { textAt } from './entry';
import { celsius, minutesRange, ovenCelsius } from './numbers';
import type { ScheduledEntry } from './schedule-json';
import { printable } from './width';

export type Placed = Extract<Timeline, { readonly kind: 'placed' }>;
export type Entry = ScheduledEntry['entry'];

/** Stands before a length that nobody wrote. */
export const ASSUMED = '~';

const MONTHS = [
  'January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December',
] as const;

/** `Fri 13 March 2026` */
export function dayName(epochMs: number, zone: string): string {
  const { date, weekday } = formatInstant(epochMs, zone);
  const [year = '', month = '', day = ''] = date.split('-');
  return `${weekday} ${String(Number(day))} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}

/** `16:15 – 05:15 Sat`: the week day where it is not the day of the start. One time when both are the same. */
export function clockRange(fromMs: number, toMs: number, zone: string): string {
  const from = formatInstant(fromMs, zone);
  return fromMs === toMs ? from.time : `${from.time} – ${clockOn(toMs, from.date, zone)}`;
}

/** `05:15`, or `05:15 Sat` on another day than `date`. */
export function clockOn(epochMs: number, date: string, zone: string): string {
  const at = formatInstant(epochMs, zone);
  return at.date === date ? at.time : `${at.time} ${at.weekday}`;
}

/** The length as written, a usual one with its sign, or nothing for a moment. */
export function lengthText({ startMs, endMs, lowMinutes, highMinutes, assumed }: TimelineStep): string {
  if (endMs === startMs && highMinutes === 0) return '';
  return `${assumed ? ASSUMED : ''}${minutesRange(lowMinutes, highMinutes)}`;
}

/** What the step belongs to: its part; the dough for steps of the method. */
export function partName({ formula }: Entry, { part }: TimelineStep): string {
  if (part !== undefined) return printable(formula.parts[part]?.name ?? '');
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined) return '';
  return printable(dough.kind === 'total formula' ? 'dough' : dough.name);
}

/**
 * `bulk at 24 °C, until volume 75 %`: the step and what its author says about it; its place in time is left out. At another size
 * than the written one, weights that it adds are left out too.
 */
export function stepWords({ section }: Pick<Entry, 'section'>, step: TimelineStep, isWrittenSize = true): string {
  const details = (step.step?.node.details ?? []).filter(isWorthSaying).map((detail) => (
    detail.kind === 'add' && detail.portion.kind === 'amount' && !isWrittenSize
      ? `add ${detail.name.text}` : textAt(section, { block: step.place.block, start: detail.start, end: detail.end })
  ));
  return printable([whatAt(step), ...details].join(', '));
}

/** The temperature is said where the author says it: that a loaf is shaped at room temperature goes without saying. */
function whatAt({ label, kind, step, ambientCelsius }: TimelineStep): string {
  if (ambientCelsius === null || step?.node.temperature === undefined) return label;
  return `${label} at ${isHot(kind) ? ovenCelsius(ambientCelsius) : celsius(ambientCelsius)}`;
}

/** Steps of the oven: their dial may be in either scale. */
function isHot(kind: StepKind): boolean {
  return kind === 'bake' || kind === 'preheat' || kind === 'fry' || kind === 'steam';
}

function isWorthSaying({ kind }: StepDetail): boolean {
  return kind !== 'at' && kind !== 'every' && kind !== 'times' && kind !== 'attended';
}

// --- moments that need a hand -----------------------------------------------------------------------------------------

export interface HandMoment {
  readonly at: 'start' | 'end';
  readonly epochMs: number;
  /** `into the fridge`; undefined where the words of the step say it: the next stage of a bake. */
  readonly text: string | undefined;
}

/** What somebody does as a step begins and as it ends, though it goes on by itself; and both in one phrase. */
const MOMENTS: Readonly<Partial<Record<StepKind, readonly [start: string, end: string, both: string]>>> = {
  retard: ['into the fridge', 'out of the fridge', 'into the fridge and out'],
  chill: ['into the fridge', 'out of the fridge', 'into the fridge and out'],
  freeze: ['into the freezer', 'out of the freezer', 'into the freezer and out'],
  thaw: ['out of the freezer', 'thawed', 'out of the freezer'],
  preheat: ['oven on', 'oven hot', 'oven on'],
  bake: ['into the oven', 'out of the oven', 'into the oven and out'],
  boil: ['into the water', 'out of the water', 'into the water and out'],
  fry: ['into the fat', 'out of the fat', 'into the fat and out'],
  steam: ['into the steam', 'out of the steam', 'into the steam and out'],
};
const OTHER = ['hands as it begins', 'hands as it ends', 'hands as it begins and ends'] as const;

/**
 * When a hand is needed at the two ends of a step that goes on by itself. A bake of several stages goes in once and comes out
 * once: where one stage follows the other at once, the change of stage is a moment of the later one.
 */
export function handMoments({ steps }: Pick<Placed, 'steps'>, step: TimelineStep): readonly HandMoment[] {
  if (step.handsOn) return [];
  const next = (other: TimelineStep): boolean => other.kind === step.kind && other.part === step.part && other !== step;
  const isLaterStage = steps.some((other) => next(other) && other.endMs === step.startMs);
  const hasLaterStage = steps.some((other) => next(other) && other.handAtStart && other.startMs === step.endMs);
  const [start, end] = MOMENTS[step.kind] ?? OTHER;
  return [
    ...(step.handAtStart ? [{ at: 'start', epochMs: step.startMs, text: isLaterStage ? undefined : start } as const] : []),
    ...(step.handAtEnd && !hasLaterStage ? [{ at: 'end', epochMs: step.endMs, text: end } as const] : []),
  ];
}

/** The moments of a step in one phrase, `into the fridge and out`; the times are those of the step. Empty when there is none to name. */
export function handPhrase(placed: Pick<Placed, 'steps'>, step: TimelineStep): string {
  const [first, second] = handMoments(placed, step).flatMap(({ text }) => text ?? []);
  return second === undefined ? (first ?? '') : (MOMENTS[step.kind] ?? OTHER)[2];
}

// --- how far it may move ----------------------------------------------------------------------------------------------

/** Less than this, earliest to latest, is not worth a line of anybody's attention, minutes. */
const LEAST_SLACK_MINUTES = 10;

/**
 * `can start 12:05 to 18:15`, and the rest still fits. Only for what somebody has to start; not for what goes straight on from
 * other work or along with another step, as folds with their bulk; undefined for all else, and where hardly anything gives.
 */
export function slackText({ steps, zone }: Placed, step: TimelineStep): string | undefined {
  const { id, kind, part, startMs, earliestStartMs, latestStartMs, handsOn, handAtStart } = step;
  const isInside = id.split('/').length > 2;
  if (!(handsOn || handAtStart) || isInside || latestStartMs - earliestStartMs < LEAST_SLACK_MINUTES * 60_000) return undefined;
  if (steps.some((other) => other !== step && (other.handsOn || other.kind === kind) && other.part === part && other.endMs === startMs)) return undefined;
  const { date } = formatInstant(startMs, zone);
  return `can start ${clockOn(earliestStartMs, date, zone)} to ${clockOn(latestStartMs, date, zone)}`;
}

// --- hours off --------------------------------------------------------------------------------------------------------

export interface Night {
  readonly startMs: number;
  /** `asleep 22:30 to 05:30` */
  readonly text: string;
}

/** The hours off that lie within a timeline, in order. */
export function nightsOf({ startMs, readyMs, zone }: Pick<Placed, 'startMs' | 'readyMs' | 'zone'>, hoursOff: readonly HoursOff[]): readonly Night[] {
  return hoursOff
    .flatMap((hours) => windowsOf([hours], zone, startMs, readyMs).map((window) => ({ kind: hours.kind, ...window })))
    .map((off): Night => ({ startMs: off.startMs, text: `${off.kind} ${formatInstant(off.startMs, zone).time} to ${formatInstant(off.endMs, zone).time}` }))
    .sort((a, b) => a.startMs - b.startMs);
}
