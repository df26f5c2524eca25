/** How a scaled number is written: as the author would, and so that scaling back gives the author's number again. */

/**
 * Relative error that a written number may carry. Two numbers of up to six digits differ by more than twice this, so a
 * number scaled by k, written, scaled by 1/k and written again is the number it was.
 */
const WRITTEN_ERROR = 4e-7;

const FRACTIONS: readonly (readonly [number, string])[] = [
  [1 / 8, '1/8'], [1 / 4, '1/4'], [1 / 3, '1/3'], [3 / 8, '3/8'], [1 / 2, '1/2'], [5 / 8, '5/8'], [2 / 3, '2/3'], [3 / 4, '3/4'], [7 / 8, '7/8'],
];

/** The shortest decimal within the written error of a value: 233.3333, 700, 0.35. Never an exponent. */
export function decimalText(value: number): string {
  for (let digits = 0; digits < 12; digits++) {
    const text = value.toFixed(digits);
    if (Math.abs(Number(text) - value) <= WRITTEN_ERROR * Math.abs(value)) return text;
  }
  return String(value);
}

/** `1 1/2`, `3/4`, `2`; undefined when no spoon or cup is marked so. */
export function fractionText(value: number): string | undefined {
  const whole = Math.floor(value + 1e-9);
  const rest = value - whole;
  if (Math.abs(rest) < 1e-6) return String(whole);
  const found = FRACTIONS.find(([fraction]) => Math.abs(fraction - rest) < 1e-6);
  return found && (whole > 0 ? `${whole} ${found[1]}` : found[1]);
}

/** Rounds to a multiple of a step, never to nothing: a third of a gram of yeast is still yeast. */
export function toScaleStep(value: number, step: number): number {
  const rounded = Math.round(value / step) * step;
  return Number((rounded > 0 ? rounded : value).toPrecision(12));
}
