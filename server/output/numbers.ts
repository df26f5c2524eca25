/**
 * The one place that writes numbers for a reader: grams, per cents, temperatures, lengths of time. What cannot be known
 * is a dash, never a nought. Plain English figures whatever the machine's language, as in the files themselves.
 */
export { formatDurations as minutesRange } from '../core/timeline/clock';

/** Stands for a number that cannot be known. */
export const UNKNOWN = '–';

/** A number with at most `digits` decimals and no trailing noughts. */
export function decimals(value: number, digits: number): string {
  const text = value.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/**
 * Grams as a scale shows them: 0.1 g under 10 g, 1 g above. A weight that is there but too small for that is written to
 * its first figure (`0.03`), since 0 would say that there is none of it.
 */
export function grams(value: number | null): string {
  if (value === null) return UNKNOWN;
  const size = Math.abs(value);
  if (size >= 9.95) return decimals(value, 0);
  if (size >= 0.05 || size === 0) return decimals(value, 1);
  return firstFigure(value);
}

/** Grams that are rounded already, as `roundWeights` gives them: nothing more is taken off. */
export function roundedGrams(value: number): string {
  return decimals(value, Math.abs(value) < 0.05 ? 6 : 3);
}

/** Grams with their unit: `853 g`; from 10 kg on in kilograms. */
export function weight(value: number | null): string {
  if (value !== null && Math.abs(value) >= 10_000) return `${decimals(value / 1000, 2)} kg`;
  return value === null ? UNKNOWN : `${grams(value)} g`;
}

/** A per cent without its sign, to one decimal; under 1 to two, so that yeast keeps a figure that counts. */
export function percent(value: number | null): string {
  if (value === null) return UNKNOWN;
  const size = Math.abs(value);
  if (size !== 0 && size < 0.005) return firstFigure(value);
  const text = value.toFixed(size >= 0.995 ? 1 : 2);
  return text.replace(/(\.\d)0$/, '$1').replace(/^-(0\.0+)$/, '$1');
}

function firstFigure(value: number): string {
  return decimals(value, Math.min(6, Math.ceil(-Math.log10(Math.abs(value)))));
}

/** A dough's or a room's temperature: `24 °C`. */
export function celsius(value: number | null): string {
  return value === null ? UNKNOWN : `${decimals(value, 1)} °C`;
}

/** An oven's temperature in both scales, Fahrenheit to the 5 degrees of an oven's dial: `240 °C (465 °F)`. */
export function ovenCelsius(value: number): string {
  return `${decimals(value, 0)} °C (${String(Math.round((value * 1.8 + 32) / 5) * 5)} °F)`;
}

/** `1 error`, `2 errors`. */
export function counted(count: number, noun: string): string {
  return `${String(count)} ${noun}${count === 1 ? '' : 's'}`;
}
