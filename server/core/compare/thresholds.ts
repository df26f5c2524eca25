/** What is worth telling, and how alike two things must be to be told as one. Common practice, no source, unless it says otherwise. */
import { printStep } from '../formula/rounding';

/** Two numbers that differ by no more than this share are one number: what is left over from arithmetic in binary fractions. */
export const SAME_SHARE = 1e-6;

/** A share that nobody touched weighs what it did while the size of its dough moves by no more than this: what four decimals of another share do. */
export const SAME_SHARE_OF_SIZE = 1e-3;

/** A factor nearer to 1 than this is no other size. Nobody scales by half a per cent. */
export const LEAST_SCALE = 0.005;

/** At least so many weights must follow a factor for it to be one: any two numbers have a ratio. */
export const LEAST_SCALED_WEIGHTS = 2;

/** How far a weight may be off the common factor until it is told, as a share: the same 1 % from which scaling tells what a scale's step did. */
export const ROUNDING_WORTH_TELLING = 0.01;

/** A total in per cent is told from a change that shows: half of the last printed digit, which is 0.1, and 0.01 under 1 %. */
export function worthTellingPct(before: number, after: number): boolean {
  return Math.abs(after - before) >= (Math.max(Math.abs(before), Math.abs(after)) < 1 ? 0.005 : 0.05);
}

/** A weight in the totals is told from half of what a scale shows. */
export function worthTellingGrams(before: number, after: number): boolean {
  return Math.abs(after - before) >= printStep(Math.max(before, after)) / 2;
}

/** A cent. */
export const LEAST_MONEY = 0.005;

/** A tenth of a degree, the last digit of a dough thermometer. */
export const LEAST_CELSIUS = 0.05;

/** Of two ingredients, one for the other: the heavier is no more than twice the lighter. Beyond that one was dropped and another added. */
export const MOST_SWAP_RATIO = 2;

/** Two formulas of different names are one that was renamed when they are at least so much alike, 0 to 1. Two plain breads have 0.6 in common. */
export const LEAST_LIKENESS = 0.75;

/** Two parts of different names are one from here on. Parts hold few things, and so have less in common by chance. */
export const LEAST_PART_LIKENESS = 0.6;

/** More pairs than this are not all looked at: what is equal is paired, and the rest came or went. Some 500 by 500. */
export const MOST_PAIRS = 250_000;

/** Of the ratios between weights, so many of the commonest are tried as the factor. */
export const MOST_FACTORS = 24;

/**
 * What a scale cannot show of a weight that is another's times a factor, g: half a step of each, the step being that of a sheet
 * (0.1 g under 10 g, 1 g above), since both may have been rounded.
 */
export function scaleTolerance(before: number, after: number, factor: number): number {
  return printStep(after) / 2 + (factor * printStep(before)) / 2;
}
