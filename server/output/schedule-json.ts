/** The stable JSON form of timelines: ISO 8601 times with the offset of their zone, or the facts that cannot all hold. */
import type { Timeline } from '../core/timeline/model';
import { formatInstant } from '../core/timeline/clock';
import type { FormulaEntry } from './entry';
import { json } from './json';

export interface ScheduledEntry {
  readonly entry: Pick<FormulaEntry, 'section' | 'formula' | 'lineOf'>;
  readonly timeline: Timeline;
}

/**
 * `{"formulas": […]}`; or, when one of the timelines has no answer, `{"conflict": {"message", "facts"}}` of the first such.
 * A formula with no steps is listed without times.
 */
export function scheduleJson(scheduled: readonly ScheduledEntry[]): string {
  for (const { entry, timeline } of scheduled) {
    if (timeline.kind !== 'conflict') continue;
    const facts = timeline.facts.map(({ text, place }) => ({ text, line: place === undefined ? null : entry.lineOf(place) }));
    return json({ conflict: { message: timeline.message, facts } });
  }
  return json({ formulas: scheduled.map(formulaOf) });
}

function formulaOf({ entry: { formula }, timeline }: ScheduledEntry): unknown {
  if (timeline.kind !== 'placed') return { name: formula.name, start: null, ready: null, steps: [] };
  const iso = (epochMs: number): string => formatInstant(epochMs, timeline.zone).iso;
  return {
    name: formula.name,
    start: iso(timeline.startMs),
    ready: iso(timeline.readyMs),
    steps: timeline.steps.map((step) => ({
      id: step.id,
      part: step.part === undefined ? null : (formula.parts[step.part]?.name ?? null),
      kind: step.kind,
      label: step.label,
      start: iso(step.startMs),
      end: iso(step.endMs),
      earliest_start: iso(step.earliestStartMs),
      latest_start: iso(step.latestStartMs),
      hands_on: step.handsOn,
      ambient_c: step.ambientCelsius,
    })),
  };
}
