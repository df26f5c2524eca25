/** What ends up in the bread: the dough, what is filled into it and put on it. */
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { leavesOf, sumKnown } from '../formula/contents';
import { BESIDE_KINDS } from '../formula/gather';

export interface Eaten {
  readonly line: ResolvedLine;
  /** g; null where it is not known. */
  readonly grams: number | null;
  /** The part that it is weighed into. */
  readonly part: ResolvedPart | undefined;
}

/** Lines kept out of the dough that are eaten all the same. What dusts a basket or greases a tin mostly is not. */
const EATEN_PURPOSE = /\b(top|tops|topping|crust|glaze|glazing|filling|wash|brushing|sprinkling|coating|rolling)\b/i;

/**
 * By lines, those that take parts in left out. Fillings, glazes and the like that no line takes in are on the bread all the
 * same; the rest of a levain that is held back is not.
 */
export function eatenOf(formula: ResolvedFormula): readonly Eaten[] {
  const inside = leavesOf(formula).map(({ line, grams, part }): Eaten => ({ line, grams, part }));
  const beside = formula.parts.filter((part) => isOnIt(part)).flatMap((part) =>
    part.lines.filter((line) => line.inDough && line.part === undefined).map((line): Eaten => ({ line, grams: line.grams, part })),
  );
  const onTop = formula.parts.flatMap((part) =>
    part.lines.filter((line) => !line.inDough && EATEN_PURPOSE.test(line.purpose ?? '')).map((line): Eaten => ({ line, grams: line.grams, part })),
  );
  return [...inside, ...beside, ...onTop];
}

function isOnIt(part: ResolvedPart): boolean {
  return part.usedFraction === 0 && BESIDE_KINDS.has(part.kind);
}

/** All of it before the oven, g, water gone in cooking taken off. Null where a weight is not known. */
export function rawGrams(formula: ResolvedFormula): number | null {
  const sum = sumKnown(eatenOf(formula), ({ grams }) => grams);
  if (sum === null) return null;
  const gone = formula.parts.reduce((total, part, index) => {
    if (index === formula.dough || part.grams === null || part.yieldGrams === null) return total;
    return total + (part.grams - part.yieldGrams) * (isOnIt(part) ? 1 : (part.usedFraction ?? 0));
  }, 0);
  return sum - gone;
}
