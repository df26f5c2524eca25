/** Timelines by the formula and what was asked, so that the lens, a hover and the findings of one text place its steps once. */
import type { ResolvedFormula } from '../core/formula/model';
import type { Timeline, TimelineRequest } from '../core/timeline/model';
import { timelineOf } from '../core/timeline/timeline';

/** What was asked of one formula; more than a few at once nobody asks. */
const MOST_REMEMBERED = 8;

const remembered = new WeakMap<ResolvedFormula, ReadonlyMap<string, Timeline>>();

/** The timeline of a formula, remembered for as long as the formula is the same object. */
export function timelineFor(formula: ResolvedFormula, request: TimelineRequest): Timeline {
  const known = remembered.get(formula);
  const key = JSON.stringify(request);
  const last = known?.get(key);
  if (last !== undefined) return last;
  const timeline = timelineOf(formula, request);
  remembered.set(formula, new Map([...[...known ?? []].slice(1 - MOST_REMEMBERED), [key, timeline]]));
  return timeline;
}
