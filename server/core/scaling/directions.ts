import type { ResolvedFormula, ResolvedPart } from '../formula/model';
import type { Direction } from './numbers';
import { keyOf, stepFor, type ScaleStep } from './scene';

/**
 * Lines that a scale step must not round to the nearest. Where a dough calls for just what a preferment of weighed lines
 * makes, both rounded to the nearest may leave it a gram short; so what goes into the preferment is rounded up and what is
 * called for down, and a gram is left over.
 */
export function directionsOf(formula: ResolvedFormula, factor: number, step: ScaleStep): ReadonlyMap<string, Direction> {
  const directions = new Map<string, Direction>();
  if (step.grams === undefined && step.smallGrams === undefined) return directions;
  formula.parts.forEach((part, p) => {
    const callers = formula.parts.flatMap((other) => other.lines.filter((line) => line.part === p).map((line) => ({ line, isDough: other === formula.parts[formula.dough ?? -1] })));
    const weighed = callers.filter(({ line }) => line.source?.kind === 'ingredient' && line.source.amount.kind === 'mass');
    if (weighed.length === 0 || isAmple(part, factor, step)) return;
    for (const line of part.lines) directions.set(keyOf(line.place), 'up');
    for (const { line, isDough } of weighed) if (isDough) directions.set(keyOf(line.place), 'down');
    // A total lists at least what its preferments use.
    const dough = formula.isTotalFormula && formula.dough !== undefined ? formula.parts[formula.dough] : undefined;
    for (const listed of dough?.lines ?? []) {
      if (listed.part === undefined && part.lines.some(({ key }) => key === listed.key)) directions.set(keyOf(listed.place), 'up');
    }
  });
  return directions;
}

/** So much is left over that rounding cannot use it up. */
function isAmple(part: ResolvedPart, factor: number, step: ScaleStep): boolean {
  const most = part.lines.reduce((sum, line) => sum + (stepFor(line, step) ?? 0), step.grams ?? 0);
  return (part.leftOverGrams ?? 0) * factor > most;
}
