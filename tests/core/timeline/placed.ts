/** From bake text to a timeline that reads like a baker's day plan. */
import { parse } from '../../../grammar';
import { resolve } from '../../../server/core/formula/resolve';
import { sectionsOf } from '../../../server/core/formula/sections';
import type { ResolvedFormula } from '../../../server/core/formula/model';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { formatInstant, parseLocalInstant } from '../../../server/core/timeline/clock';
import type { Timeline, TimelineStep } from '../../../server/core/timeline/model';
import { timelineOf } from '../../../server/core/timeline/timeline';

export type Placed = Extract<Timeline, { readonly kind: 'placed' }>;
export type Conflict = Extract<Timeline, { readonly kind: 'conflict' }>;

/** The first formula or dish of a text, which must have no syntax problem. */
export function formulaOf(text: string): ResolvedFormula {
  const blocks = parse(text).blocks.map(({ block }) => block);
  const problems = blocks.flatMap((block) => block.problems);
  if (problems.length > 0) throw new Error(`${problems.map(({ message }) => message).join('\n')}\n${text}`);
  const section = sectionsOf(blocks).map((each) => each.section).find(({ kind }) => kind === 'formula' || kind === 'dish');
  if (!section) throw new Error(`no formula in\n${text}`);
  return resolve(section, { catalogue: builtInCatalogue, measures: 'us' });
}

export function timeline(text: string, anchor: 'start' | 'ready', time: string, zone = 'Europe/Lisbon'): Timeline {
  const instant = parseLocalInstant(time, zone);
  if (instant.kind === 'bad') throw new Error(instant.message);
  return timelineOf(formulaOf(text), { anchor: { kind: anchor, epochMs: instant.epochMs }, zone });
}

/** The timeline of a text that can be placed. */
export function placed(text: string, anchor: 'start' | 'ready', time: string, zone = 'Europe/Lisbon'): Placed {
  const result = timeline(text, anchor, time, zone);
  if (result.kind !== 'placed') throw new Error(`${result.kind}: ${JSON.stringify(result)}`);
  return result;
}

/** The conflict of a text that cannot be placed. */
export function conflict(text: string): Conflict {
  const result = timeline(text, 'ready', '2026-03-14 08:00');
  if (result.kind !== 'conflict') throw new Error(`${result.kind}, not a conflict`);
  return result;
}

/** `Fri 21:30-23:30  levain/ripen`, a step a line; with a `?` when its time was assumed and a `*` when it needs hands. */
export function plan({ steps, zone }: Placed): readonly string[] {
  return steps.map((step) => {
    const [start, end] = [formatInstant(step.startMs, zone), formatInstant(step.endMs, zone)];
    return `${start.weekday} ${start.time}-${end.time} ${step.id}${step.handsOn ? ' *' : ''}${step.assumed ? ' ?' : ''}`;
  });
}

export function stepOf({ steps }: Placed, id: string): TimelineStep {
  const found = steps.find((step) => step.id === id);
  if (!found) throw new Error(`no ${id} among ${steps.map((step) => step.id).join(', ')}`);
  return found;
}

/** The clock time at which a step begins: `21:30`. */
export function startOf(result: Placed, id: string): string {
  return formatInstant(stepOf(result, id).startMs, result.zone).time;
}

export function endOf(result: Placed, id: string): string {
  return formatInstant(stepOf(result, id).endMs, result.zone).time;
}
