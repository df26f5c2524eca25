/** How long a fed culture or a preferment takes. */
import { exactly, interpolate, rangeOf, type Range } from '../estimate';
import { BEST_PH, BEST_PH_CELSIUS, LAG, PREFERMENT_YEAST, RYE_SOUR, YEAST_DOUBLING, YEAST_DOUBLING_CELSIUS } from './constants';
import { equalHours, relativeRate, uncertaintyAt } from './growth';

/** A feeding by weight: one of seed, five of flour, five of water. */
export interface Feeding {
  readonly seed: number;
  readonly flour: number;
  readonly water: number;
}

/** How far a feeding thins the culture: 1:5:5 is 11. */
export function dilutionOf({ seed, flour, water }: Feeding): number {
  return (seed + flour + water) / seed;
}

/** Doublings that make up for a feeding, while growth is unhindered: 11 takes 3.46. */
export function doublingsFor(dilution: number): number {
  return Math.log2(dilution);
}

/** Doubling time of sourdough yeast, h; Infinity where it does not grow. */
export function doublingHours(celsius: number): number {
  return (YEAST_DOUBLING.value * relativeRate('sourdough yeast', YEAST_DOUBLING_CELSIUS)) / relativeRate('sourdough yeast', celsius);
}

/**
 * Hours from feeding to the peak at a steady temperature: lag and doublings. Null where the culture does not get there:
 * nothing fed, no seed, too hot or frozen.
 */
export function ripeningHours(feeding: Feeding, celsius: number): Range | null {
  const dilution = dilutionOf(feeding);
  const each = doublingHours(celsius);
  if (!(dilution > 1) || !Number.isFinite(dilution) || !Number.isFinite(each)) return null;
  const growth = doublingsFor(dilution) * each;
  const unsure = uncertaintyAt(celsius);
  const lag = rangeOf(LAG);
  return { low: lag.low + growth * (1 - unsure), mid: lag.mid + growth, high: lag.high + growth * (1 + unsure) };
}

/**
 * Hours that a preferment with baker's yeast takes at a temperature, from its fresh yeast in % of its flour. By the logarithm
 * of the yeast between the points of the table; null beyond them, where the table says nothing.
 */
export function prefermentHours(freshYeastPct: number, celsius: number): Range | null {
  const byYeast = PREFERMENT_YEAST.points.map(([hours, pct]) => [Math.log(pct), hours] as const).reverse();
  const [first] = byYeast;
  const last = byYeast.at(-1);
  const log = Math.log(freshYeastPct);
  if (!first || !last || !(log >= first[0] - 1e-9 && log <= last[0] + 1e-9)) return null;
  return equalHours("baker's yeast", interpolate(byYeast, log), PREFERMENT_YEAST.celsius, celsius);
}

/** Fresh yeast in % of a preferment's flour for so many hours at 20 to 24 C; null beyond 3 to 13.5 h. */
export function prefermentYeastPct(hours: number): number | null {
  const { points } = PREFERMENT_YEAST;
  const [first] = points;
  const last = points[points.length - 1];
  if (last === undefined || hours < first[0] || hours > last[0]) return null;
  return Math.exp(interpolate(points.map(([at, pct]) => [at, Math.log(pct)] as const), hours));
}

/** By how much a stage of a rye sour multiplies: its hours up to six, 1.5 to 2 times as much beyond. */
export function ryeSourFactor(hours: number): Range {
  if (hours <= RYE_SOUR.linearUpTo.value) return exactly(hours);
  const { low, mid, high } = rangeOf(RYE_SOUR.beyond);
  return { low: hours * low, mid: hours * mid, high: hours * high };
}

/** Flour in the stage before one of a rye sour, g. */
export function flourOfStageBefore(stageFlourGrams: number, hours: number): number {
  return stageFlourGrams / ryeSourFactor(hours).mid;
}

/**
 * Hours until a wheat sourdough has its best pH: the published 9 h at 35 C, carried to other temperatures by the growth of
 * its bacteria. One study, one culture. Null where they do not grow.
 */
export function hoursToBestPh(celsius: number): Range | null {
  return equalHours('sourdough bacteria', BEST_PH.value, BEST_PH_CELSIUS, celsius);
}
