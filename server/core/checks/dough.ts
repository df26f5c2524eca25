/** What the checks on the moisture and the salt of a dough share. */
import type { Place } from '../formula/model';
import type { CheckContext } from './check';
import { percent } from './words';

/** ` (the water alone is 40 %)` where milk, eggs and the like bring the rest, so that nobody takes one number for the other. */
export function madeUpOf({ totals }: CheckContext): string {
  const effective = totals?.effective_hydration_pct ?? null;
  const water = totals?.hydration_pct ?? null;
  const same = effective === null || water === null || Math.abs(effective - water) < 1;
  return same ? '' : ` (the water alone is ${percent(water)})`;
}

/** A dough that is poured. */
export function isBatter({ formula }: CheckContext): boolean {
  return formula?.dough !== undefined && formula.parts[formula.dough]?.kind === 'batter';
}

/** The head of what ends in the oven; undefined in a dish, which has no flour base. */
export function doughPlace({ formula }: CheckContext): Place | undefined {
  return formula?.kind !== 'formula' || formula.dough === undefined ? undefined : formula.parts[formula.dough]?.place;
}

/** The amount of the dough's largest salt line; the head of the dough where it has none. */
export function saltPlace({ formula }: CheckContext): Place | undefined {
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  if (formula === undefined || dough === undefined) {
    return undefined;
  }
  const [largest] = formula.parts
    .flatMap((part) => part.lines)
    .filter((line) => line.role === 'salt' && line.inDough && line.grams !== null)
    .sort((a, b) => (b.grams ?? 0) - (a.grams ?? 0));
  return largest?.amountPlace ?? dough.place;
}
