/** How fast dough ferments at a temperature, relative to its best. */
import {
  BAKERS_YEAST_BEST, BAKERS_YEAST_BY_DEGREE, BAKERS_YEAST_ENDS, BAKERS_YEAST_FALLS, CERTAIN_CELSIUS, COOL_CELSIUS, FRIDGE_CELSIUS, FRIDGE_FLOOR,
  SOURDOUGH_BACTERIA, SOURDOUGH_YEAST, STANDSTILL_CELSIUS, UNCERTAINTY, type CardinalTemperatures,
} from './constants';
import { interpolate, widen, type Range } from '../estimate';

export type Organism = 'sourdough yeast' | 'sourdough bacteria' | "baker's yeast";

/** A rate at a temperature. Only ratios of one rate to another mean something. */
export type Rate = (celsius: number) => number;

/**
 * The cardinal temperature model with inflection: growth relative to its best, 0 to 1, and 0 at and beyond the limits.
 *
 * Rosso, Lobry and Flandrois 1993, used for bacteria in Rosso et al., Appl. Environ. Microbiol. 61 (1995) 610-616.
 */
export function cardinalRate(celsius: number, { least, best, most }: Pick<CardinalTemperatures, 'least' | 'best' | 'most'>): number {
  if (celsius <= least || celsius >= most) return 0;
  const above = (celsius - most) * (celsius - least) ** 2;
  const below = (best - least) * ((best - least) * (celsius - best) - (best - most) * (best + least - 2 * celsius));
  return above / below;
}

/**
 * The rate of an organism relative to its best, 0 to 1, for any temperature.
 *
 * Sourdough: the cardinal model, with a floor in the cold where it says nothing grows and bakers see that it does. Baker's
 * yeast: 10 % a degree between 10 and 36 C, falling to the floor in the fridge and to nothing at 45 C.
 *
 * @param floor the floor, a share of the best rate
 */
export function relativeRate(organism: Organism, celsius: number, floor: number = FRIDGE_FLOOR.value): number {
  const cold = celsius >= 0 ? floor : floor * interpolate([[STANDSTILL_CELSIUS.value, 0], [0, 1]], celsius);
  switch (organism) {
    case 'sourdough yeast':
      return celsius < SOURDOUGH_YEAST.best ? Math.max(cold, cardinalRate(celsius, SOURDOUGH_YEAST)) : cardinalRate(celsius, SOURDOUGH_YEAST);
    case 'sourdough bacteria':
      return celsius < SOURDOUGH_BACTERIA.best ? Math.max(cold, cardinalRate(celsius, SOURDOUGH_BACTERIA)) : cardinalRate(celsius, SOURDOUGH_BACTERIA);
    case "baker's yeast":
      return bakersYeast(celsius, cold);
  }
}

export function rateOf(organism: Organism, floor?: number): Rate {
  return (celsius) => relativeRate(organism, celsius, floor);
}

function bakersYeast(celsius: number, cold: number): number {
  const best = BAKERS_YEAST_BEST.value;
  if (celsius <= FRIDGE_CELSIUS.value) return cold;
  if (celsius < COOL_CELSIUS.value) {
    return interpolate([[FRIDGE_CELSIUS.value, cold], [COOL_CELSIUS.value, tenPerCentADegree(COOL_CELSIUS.value - best)]], celsius);
  }
  if (celsius <= best) return tenPerCentADegree(celsius - best);
  return interpolate([[BAKERS_YEAST_FALLS.value, 1], [BAKERS_YEAST_ENDS.value, 0]], celsius);
}

/** The trade's rule for baker's yeast by itself, without limits: 1.1 to the power of the degrees. */
export function tenPerCentADegree(degrees: number): number {
  return BAKERS_YEAST_BY_DEGREE.value ** degrees;
}

/** What ten degrees do, from what one does: 1.1 is 2.59. */
export function q10(byDegree: number): number {
  return byDegree ** 10;
}

/** What ten degrees do when the rate doubles with every so many, Celsius degrees. */
export function q10FromDoubling(degrees: number): number {
  return 2 ** (10 / degrees);
}

/** How sure a time at these temperatures is, as a share of itself: ±20 % from 20 to 28 C, ±40 % beyond. */
export function uncertaintyAt(...celsius: readonly number[]): number {
  const inside = celsius.every((one) => one >= CERTAIN_CELSIUS.from && one <= CERTAIN_CELSIUS.to);
  return (inside ? UNCERTAINTY.inside : UNCERTAINTY.outside).value;
}

/**
 * Hours at `toCelsius` that ferment a dough as far as `hours` at `fromCelsius` do. Null where there is no rate to compare
 * with: too warm for the organism, or below freezing.
 */
export function equalHours(organism: Organism, hours: number, fromCelsius: number, toCelsius: number): Range | null {
  const to = relativeRate(organism, toCelsius);
  const from = relativeRate(organism, fromCelsius);
  if (to <= 0 || from <= 0) return null;
  const mid = (hours * from) / to;
  return widen({ low: mid, mid, high: mid }, uncertaintyAt(fromCelsius, toCelsius));
}
