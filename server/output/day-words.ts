/** A bake day in words: what is done when and by whom, over all its doughs; and how good the day is. */
import { singular } from '../core/scaling/nouns';
import type { Section } from '../core/formula/model';
import type { BakeDay } from '../core/plan/model';
import type { DayFact, DaySchedule, DayStep, ScheduledBatch, ScheduledDay } from '../core/plan/schedule-model';
import type { DayWork } from '../core/plan/work';
import { formatDuration } from '../core/timeline/clock';
import type { HoursOff } from '../core/timeline/model';
import { ovenCelsius } from './numbers';
import { handMoments, stepWords, type HandMoment } from './schedule-words';
import { printable } from './width';

export interface DayEntry {
  readonly day: BakeDay;
  readonly work: DayWork;
  readonly schedule: DaySchedule;
  /** What it was hung on: the plan's own, or what was asked. */
  readonly anchor: 'start' | 'ready';
  readonly hoursOff: readonly HoursOff[];
  /** The section that a formula of the plan stands in. */
  readonly sectionOf: (formula: string) => Section | undefined;
  /** Where a fact stands: its line, from 1, and the file when it is not that of the plan. Undefined where it stands in none. */
  readonly whereOf: (fact: Pick<DayFact, 'place' | 'formula'>) => { readonly line: number; readonly file: string | undefined } | undefined;
}

export interface DayTask {
  readonly startMs: number;
  /** The same as `startMs` for a moment. */
  readonly endMs: number;
  /** Who works all the while, from 1; undefined for a moment that takes any hand. */
  readonly person: number | undefined;
  readonly what: string;
  /** The doughs it is for. */
  readonly whose: string;
}

/** Everything that takes a hand, in order of the clock. */
export function tasksOf(entry: DayEntry, day: ScheduledDay): readonly DayTask[] {
  const builds = day.builds.map(({ startMs, name, person, portions }): DayTask => ({
    startMs, endMs: startMs, person, what: printable(`mix the ${name}`),
    whose: printable(takers(day, portions)),
  }));
  const heatings = day.heatings.map(({ oven, startMs, celsius }): DayTask => ({
    startMs, endMs: startMs, person: undefined, what: printable(`${oven} on${celsius === null ? '' : `, to ${ovenCelsius(celsius)}`}`), whose: '',
  }));
  const steps = day.batches.flatMap((batch) => batch.steps.flatMap((step) => stepTasks(entry, batch, step)));
  return [...builds, ...heatings, ...steps].sort((a, b) => a.startMs - b.startMs);
}

/** Who takes of a build: a formula by its name where all of its doughs do, else each dough by itself. */
export function takers({ batches }: Pick<ScheduledDay, 'batches'>, portions: readonly { readonly batch: number }[]): string {
  const taking = new Set(portions.flatMap(({ batch }) => batches[batch] ?? []));
  const isWhole = (formula: string): boolean => batches.every((batch) => batch.formula !== formula || taking.has(batch));
  return [...new Set([...taking].map(({ formula, label }) => (isWhole(formula) ? formula : label)))].join(', ');
}

function stepTasks(entry: DayEntry, batch: ScheduledBatch, step: DayStep): readonly DayTask[] {
  const words = dayStepWords(entry, batch, step);
  const whose = printable(`${batch.label}${step.load === undefined || step.pieces === null ? '' : `, ${counted(step.pieces, batch.noun)}`}`);
  if (step.handsOn) return [{ startMs: step.startMs, endMs: step.endMs, person: step.person, what: words, whose }];
  return momentsOf(batch, step).map(({ epochMs, text }): DayTask => ({
    startMs: epochMs, endMs: epochMs, person: undefined, what: text === undefined ? words : printable(`${step.label}: ${text ?? ''}`), whose,
  }));
}

/** The moments of a step among the steps of its own load. */
export function momentsOf({ steps }: Pick<ScheduledBatch, 'steps'>, step: DayStep): readonly HandMoment[] {
  return handMoments({ steps: steps.filter(({ load }) => load === step.load) }, step);
}

/** A step in its author's words, but for weights at another size; the bare step where the text is not at hand. */
export function dayStepWords({ sectionOf }: DayEntry, { formula, factor }: ScheduledBatch, step: DayStep): string {
  const section = sectionOf(formula);
  return section === undefined ? printable(step.label) : stepWords({ section }, step, factor === 1);
}

/** `6 loaves`, `1 loaf`. */
export function counted(pieces: number | null, noun: string): string {
  return pieces === null ? noun : `${String(pieces)} ${pieces === 1 ? singular(noun) : noun}`;
}

/** How far from the best the day may be, in one plain sentence. */
export function gapText({ proven, gapMinutes }: Pick<ScheduledDay, 'proven' | 'gapMinutes'>, anchor: DayEntry['anchor']): string {
  const isReady = anchor === 'ready';
  if (proven) return `No better schedule exists: none ${isReady ? 'begins later' : 'is ready earlier'}.`;
  const gap = formatDuration(Math.max(1, Math.round(gapMinutes)));
  return isReady
    ? `Begins ${gap} earlier than the latest start that could not be ruled out: there may be a schedule that begins later, by no more than that.`
    : `Is ready ${gap} later than the earliest end that could not be ruled out: there may be a schedule that is ready earlier, by no more than that.`;
}
