/** The stable JSON form of one step of a timeline, the same for a formula and for a bake day. */
import type { ResolvedFormula } from '../core/formula/model';
import type { TimelineStep } from '../core/timeline/model';

/** One step. Without the formula, its part is not known. `iso` writes an instant. */
export function stepForm(formula: Pick<ResolvedFormula, 'parts'> | undefined, step: TimelineStep, iso: (epochMs: number) => string): object {
  return {
    id: step.id,
    part: step.part === undefined ? null : (formula?.parts[step.part]?.name ?? null),
    kind: step.kind,
    label: step.label,
    start: iso(step.startMs),
    end: iso(step.endMs),
    earliest_start: iso(step.earliestStartMs),
    latest_start: iso(step.latestStartMs),
    hands_on: step.handsOn,
    hand_at_start: step.handAtStart,
    hand_at_end: step.handAtEnd,
    adapted: step.adapted === undefined ? null : { written_low_minutes: step.adapted.lowMinutes, written_high_minutes: step.adapted.highMinutes, why: step.adapted.why },
    ambient_c: step.ambientCelsius,
  };
}
