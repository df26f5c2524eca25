import type { ResolvedFormula, ResolvedLine, ResolvedPart } from './model';

/** One weighed line and how much of it ends in the dough, g. */
export interface Leaf {
  readonly line: ResolvedLine;
  readonly partIndex: number;
  readonly part: ResolvedPart;
  /** In the dough, g; null where unknown. */
  readonly grams: number | null;
  /** Share of the part that the dough gets, 0 to 1. */
  readonly fraction: number | null;
}

/** Every line that is weighed into the dough by way of any part, the lines that take parts in left out. */
export function leavesOf(formula: ResolvedFormula): readonly Leaf[] {
  return formula.parts.flatMap((part, partIndex) =>
    part.usedFraction === 0
      ? []
      : part.lines
          .filter((line) => line.inDough && line.part === undefined)
          .map((line) => {
            const fraction = part.usedFraction;
            return { line, partIndex, part, fraction, grams: times(line.grams, fraction) };
          }),
  );
}

/** Water gone in cooking (`yields`) from what reaches the dough, g. */
export function cookedOffGrams(formula: ResolvedFormula): number {
  return formula.parts.reduce((sum, part, p) => (p === formula.dough ? sum : sum + cookedOffOf(part)), 0);
}

/** Water gone in cooking one part, of what reaches the dough, g; 0 where its weights are not known. */
export function cookedOffOf(part: ResolvedPart): number {
  if (part.grams === null || part.yieldGrams === null || !part.usedFraction) return 0;
  return (part.grams - part.yieldGrams) * part.usedFraction;
}

/** A sum in which one unknown makes the whole unknown. */
export function sumKnown<T>(items: readonly T[], grams: (item: T) => number | null): number | null {
  return items.reduce<number | null>((sum, item) => {
    const value = sum === null ? null : grams(item);
    return sum === null || value === null ? null : sum + value;
  }, 0);
}

export function times(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : a * b;
}
