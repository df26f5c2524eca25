/** Weight lost between the bowl and the shelf. Shares are 0 to 1. */

/** The share lost. */
export function lossOf(doughGrams: number, breadGrams: number): number {
  return (doughGrams - breadGrams) / doughGrams;
}

/** Losses one after the other, each of what is left: 2 % and 11 % are 12.78 %. */
export function chained(...losses: readonly number[]): number {
  return 1 - losses.reduce((left, loss) => left * (1 - loss), 1);
}

/** Losses added up, all of the dough at the start: 2 % and 11 % are 13 %. Some texts reckon so; say which. */
export function summed(...losses: readonly number[]): number {
  return losses.reduce((sum, loss) => sum + loss, 0);
}

/** What is left of a dough. */
export function breadFrom(doughGrams: number, loss: number): number {
  return doughGrams * (1 - loss);
}

/** The dough for a baked weight; null when nothing would be left. */
export function doughFor(breadGrams: number, loss: number): number | null {
  return loss < 1 ? breadGrams / (1 - loss) : null;
}

/** Bread from 100 parts of flour. */
export function breadYieldPct(breadGrams: number, flourGrams: number): number {
  return (100 * breadGrams) / flourGrams;
}
