/** The step a weight is printed in: 0.1 g under 10 g and 1 g above, as scales for yeast and for flour read. */
export function printStep(grams: number): number {
  return Math.abs(grams) < 9.95 ? 0.1 : 1;
}

/**
 * Rounds the weights of a list so that what is printed sums to the printed total.
 *
 * Each weight goes to its step (0.1 g under 10 g, 1 g above, or `stepGrams` for all), and so does their sum. Rounding one by
 * one can leave the list a gram or two away from its total; the weights that lie furthest from what they were rounded to
 * take that difference (the largest-remainder method; of equals the heaviest, and of those the last, for the trade lists flour before water), never those printed to 0.1 g.
 *
 * @param isShownElsewhere of each weight, whether the reader sees it in another place too, as that of a part: it gives way only
 *   where no other weight can, so that both places say the same
 * @returns `values` in the order given, and the `total`. Where all are printed to one step they sum to it exactly; with
 *   weights of 0.1 g among them their sum rounds to it.
 */
export function roundWeights(grams: readonly number[], stepGrams?: number, isShownElsewhere: readonly boolean[] = []): { values: number[]; total: number } {
  const steps = grams.map((value) => stepGrams ?? printStep(value));
  const coarse = Math.max(0.1, ...steps);
  const values = grams.map((value, i) => toStep(value, steps[i] ?? 1));
  const movable = grams.map((_, i) => i).filter((i) => steps[i] === coarse);
  const finest = Math.min(coarse, ...steps);
  const fine = sum(values.filter((_, i) => steps[i] !== coarse));
  const total = toStep(sum(grams), coarse);
  const short = (total - fine - sum(movable.map((i) => values[i] ?? 0))) / coarse;
  // Half a step is within what the total was rounded by: no weight that was written in whole grams gives way for it.
  let missing = Math.sign(short) * Math.ceil(Math.abs(short) - 0.5 - 1e-9);
  const direction = Math.sign(missing);
  // How far each weight was rounded against the direction that is missing: those give way first.
  const byRemainder = movable
    .map((i) => ({ i, last: isShownElsewhere[i] === true ? 1 : 0, remainder: Number((direction * ((grams[i] ?? 0) - (values[i] ?? 0))).toFixed(9)) }))
    .sort((a, b) => a.last - b.last || b.remainder - a.remainder || (grams[b.i] ?? 0) - (grams[a.i] ?? 0) || b.i - a.i);
  for (const { i } of byRemainder) {
    if (missing === 0) break;
    values[i] = toStep((values[i] ?? 0) + direction * coarse, coarse);
    missing -= direction;
  }
  return { values, total: movable.length === 0 ? toStep(sum(values), finest) : total };
}

/** Rounds to a multiple of `step`, ties away from zero, without the dust of binary fractions (0.30000000000000004). */
export function toStep(value: number, step: number): number {
  const digits = Math.max(0, Math.ceil(-Math.log10(step)));
  const rounded = Math.sign(value) * Math.round(Math.abs(value) / step + 1e-9) * step;
  return Number(rounded.toFixed(digits + 2));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
