/** How a scaled number is written: as the author would, and so that scaling back gives the author's number again. */
import type { MassUnit, Num } from '../../../grammar';
import { GRAMS_PER } from '../units/mass';

/**
 * Relative error that a written number may carry, of the larger of the two: the same share whether a number is scaled up or
 * back. Two numbers of up to six digits differ by more than twice this, so a number scaled by k, written, scaled by 1/k and
 * written again is the number it was. It is no round number, so that no number a baker writes lies just at its edge.
 */
const WRITTEN_ERROR = 4.013_7e-7;

const FRACTIONS: readonly (readonly [value: number, written: string, sign: string])[] = [
  [1 / 8, '1/8', '⅛'], [1 / 4, '1/4', '¼'], [1 / 3, '1/3', '⅓'], [3 / 8, '3/8', '⅜'], [1 / 2, '1/2', '½'],
  [5 / 8, '5/8', '⅝'], [2 / 3, '2/3', '⅔'], [3 / 4, '3/4', '¾'], [7 / 8, '7/8', '⅞'],
];

/** The shortest decimal within the written error of a value: 233.3333, 700, 0.35. Never an exponent. */
export function decimalText(value: number): string {
  for (let digits = 0; digits < 20; digits++) {
    const text = value.toFixed(digits);
    if (isWritten(Number(text), value)) return text;
  }
  return '0';
}

/** Whether a number, as written, is another within the written error. */
export function isWritten(written: number, value: number): boolean {
  return Math.abs(written - value) <= WRITTEN_ERROR * Math.max(Math.abs(written), Math.abs(value));
}

/** `1 1/2`, `3/4`, `2`, or with signs `1½`; undefined when no spoon or cup is marked so. */
export function fractionText(value: number, signs = false): string | undefined {
  const whole = Math.floor(value + 1e-9);
  const rest = value - whole;
  if (Math.abs(rest) < 1e-6) return String(whole);
  const found = FRACTIONS.find(([fraction]) => Math.abs(fraction - rest) < 1e-6);
  if (found === undefined) return undefined;
  const [, written, sign] = found;
  if (whole === 0) return signs ? sign : written;
  return signs ? `${whole}${sign}` : `${whole} ${written}`;
}

/**
 * A new value in the way an author wrote the old one: a fraction stays a fraction where there is one. Whole numbers become
 * fractions only where the unit is one of spoons and cups (`spoons`), or of things that are cut in two.
 */
export function inTheWayOf(old: Pick<Num, 'text'>, value: number, spoons = false): string {
  const slashed = /[/⁄]/.test(old.text);
  const signs = /[\u00bc-\u00be\u2150-\u215e]/.test(old.text);
  const fractions = slashed || signs || (spoons && /^\d+$/.test(old.text));
  return (fractions ? fractionText(value, signs) : undefined) ?? decimalText(value);
}

export type Direction = 'nearest' | 'up' | 'down';

/** Rounds to a multiple of a step, never to nothing: a third of a gram of yeast is still yeast, to two figures. */
export function toScaleStep(value: number, step: number, direction: Direction = 'nearest'): number {
  const steps = value / step;
  // What is a whole number of steps but for the dust of binary fractions stays.
  const whole = Math.round(steps + 1e-9);
  const even = Math.abs(steps - whole) < 1e-6 ? whole : direction === 'up' ? Math.ceil(steps) : direction === 'down' ? Math.floor(steps) : whole;
  return Number(even > 0 ? (even * step).toPrecision(12) : value.toPrecision(2));
}

/** Figures that a step may have in a unit before it is a step of another unit's scale. */
const FIGURES = 3;

/**
 * What a scale that reads to `stepGrams` reads to in a unit: the same where that is a short number (1 g is 0.001 kg), else
 * the nearest of 1, 2 and 5 and their tens (1 g is 0.05 oz).
 */
export function stepInUnit(stepGrams: number, unit: MassUnit): number {
  const exact = stepGrams / GRAMS_PER[unit];
  const short = Number(exact.toPrecision(FIGURES));
  if (Math.abs(short / exact - 1) < 1e-9) return short;
  const ten = 10 ** Math.floor(Math.log10(exact));
  const apart = (step: number): number => Math.abs(Math.log(step / exact));
  return Number([1, 2, 5, 10].map((n) => n * ten).reduce((best, step) => (apart(step) < apart(best) ? step : best)).toPrecision(1));
}
