/** The stable JSON form of timelines: ISO 8601 times with the offset of their zone, or the facts that cannot all hold. */
import { formatInstant } from '../core/timeline/clock';
import type { HoursOff, Timeline } from '../core/timeline/model';
import type { Place } from '../core/formula/model';
import { dayConflict, dayForm } from './day-json';
import type { DayEntry } from './day-words';
import type { FormulaEntry } from './entry';
import { json } from './json';
import { stepForm } from './schedule-step-json';

export interface ScheduledEntry {
  readonly entry: Pick<FormulaEntry, 'section' | 'formula' | 'lineOf'>;
  readonly timeline: Timeline;
  /** Hours off that were asked for, to be drawn between the steps. */
  readonly hoursOff?: readonly HoursOff[];
}

/**
 * `{"formulas": […]}`; or, when one of the timelines has no answer, `{"conflict": {"formula", "message", "facts", "ways_out"}}` of the
 * first such. The line of a fact is null when it was asked for and stands in no file. A formula with no steps is listed without
 * times.
 */
export function scheduleJson(scheduled: readonly ScheduledEntry[], days: readonly DayEntry[] = []): string {
  for (const { entry, timeline } of scheduled) {
    if (timeline.kind !== 'conflict') continue;
    const lineOf = (place: Place | undefined): number | null => (place === undefined ? null : entry.lineOf(place));
    const facts = timeline.facts.map(({ text, place }) => ({ text, line: lineOf(place) }));
    const waysOut = timeline.waysOut.map(({ text, place, length }) => ({ text, line: lineOf(place), length: length ?? null }));
    return json({ conflict: { formula: entry.formula.name, message: timeline.message, facts, ways_out: waysOut } });
  }
  for (const day of days) {
    const conflict = dayConflict(day);
    if (conflict !== undefined) return json({ conflict });
  }
  return json({ formulas: scheduled.map(formulaOf), ...(days.length > 0 && { plans: days.map(dayForm) }) });
}

function formulaOf({ entry: { formula }, timeline }: ScheduledEntry): unknown {
  if (timeline.kind !== 'placed') return { name: formula.name, start: null, ready: null, notes: [], steps: [] };
  const iso = (epochMs: number): string => formatInstant(epochMs, timeline.zone).iso;
  return {
    name: formula.name,
    start: iso(timeline.startMs),
    ready: iso(timeline.readyMs),
    notes: timeline.notes,
    steps: timeline.steps.map((step) => stepForm(formula, step, iso)),
  };
}
