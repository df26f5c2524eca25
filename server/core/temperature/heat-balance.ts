/**
 * Dough temperature from first principles: heat is kept, so what meets in the bowl settles where the heat it brings says,
 * and mixing adds to that. Heat to the bowl and the air, and that of wetting flour, is neglected.
 *
 * The trade's averaging rule gives water a weight of one third; physics gives it about 0.6. The rule holds near the
 * conditions in which its friction factor was measured, this anywhere that masses and temperatures are known.
 */
import type { Composition } from '../ingredients/model';
import { HEAT_OF_FUSION, SPECIFIC_HEAT } from './constants';

/** Something in the bowl. */
export interface Body {
  readonly grams: number;
  /** J per gram and kelvin. */
  readonly specificHeat: number;
  readonly celsius: number;
}

/** Where the bodies settle, C, mixing heat added. NaN when there is nothing to settle. */
export function mixedCelsius(bodies: readonly Body[], riseCelsius = 0): number {
  return heatOf(bodies) / capacityOf(bodies) + riseCelsius;
}

/**
 * How warm one more body must be for the dough to come out as desired, C.
 *
 * @param rest what else is in the bowl
 * @param body the mass and specific heat of what is to be set: the water
 */
export function celsiusNeeded(desiredCelsius: number, rest: readonly Body[], body: Omit<Body, 'celsius'>, riseCelsius = 0): number {
  const own = body.grams * body.specificHeat;
  return ((desiredCelsius - riseCelsius) * (capacityOf(rest) + own) - heatOf(rest)) / own;
}

/**
 * The surplus that the water has to take up on its way to the desired temperature, J: what the rest brings above it, and the
 * heat of mixing all of it. Negative where the water has to bring heat.
 *
 * @param rest what else is in the bowl
 * @param body the water
 */
export function surplusHeatJoules(desiredCelsius: number, rest: readonly Body[], body: Omit<Body, 'celsius'>, riseCelsius = 0): number {
  const own = body.grams * body.specificHeat;
  return heatOf(rest) - desiredCelsius * capacityOf(rest) + riseCelsius * (capacityOf(rest) + own);
}

/** The temperature rise of mixing work. */
export function riseFromWork(joulesPerGram: number, doughSpecificHeat: number = SPECIFIC_HEAT.dough.value): number {
  return joulesPerGram / doughSpecificHeat;
}

/** Flour and water together, J/(g K). `hydration` is a ratio: 1 for a levain of 100 %. */
export function specificHeatOfFerment(hydration: number, flour: number = SPECIFIC_HEAT.flour.value): number {
  return (flour + hydration * SPECIFIC_HEAT.water.value) / (1 + hydration);
}

/** Of a food by what it is made of, J/(g K): water, fat and alcohol by their own, all else as dry solids. Components not known count as dry solids. */
export function specificHeatOf({ water, fat, alcohol }: Pick<Composition, 'water' | 'fat' | 'alcohol'>): number {
  const parts = [
    [water ?? 0, SPECIFIC_HEAT.water.value],
    [fat ?? 0, SPECIFIC_HEAT.fat.value],
    [alcohol ?? 0, SPECIFIC_HEAT.alcohol.value],
  ] as const;
  const named = parts.reduce((sum, [share]) => sum + share, 0);
  const rest = Math.max(0, 100 - named);
  return parts.reduce((sum, [share, heat]) => sum + share * heat, rest * SPECIFIC_HEAT.drySolids.value) / (named + rest);
}

/**
 * Ice as water of an equivalent temperature, far below zero: the same heat content, so that ice takes its place in any sum
 * of heats or temperatures. Ice at 0 C is water at -79.9 C.
 */
export function iceAsWaterCelsius(iceCelsius = 0): number {
  return (Math.min(0, iceCelsius) * SPECIFIC_HEAT.ice.value - HEAT_OF_FUSION.value) / SPECIFIC_HEAT.water.value;
}

function capacityOf(bodies: readonly Body[]): number {
  return bodies.reduce((sum, { grams, specificHeat }) => sum + grams * specificHeat, 0);
}

function heatOf(bodies: readonly Body[]): number {
  return bodies.reduce((sum, { grams, specificHeat, celsius }) => sum + grams * specificHeat * celsius, 0);
}
