/** What salt, sugar and the kind and amount of yeast do to the pace. */
import { interpolate } from '../estimate';
import { SALT_FACTOR, SUGAR_FACTOR, YEAST_FOR_FRESH } from './constants';

/** Rate with so much salt in % of flour, relative to none. A guess: see the table. */
export function saltFactor(saltPct: number): number {
  return interpolate(SALT_FACTOR.points, saltPct);
}

/** Rate with so much sugar in % of flour, relative to none. */
export function sugarFactor(sugarPct: number, yeast: keyof typeof SUGAR_FACTOR = 'ordinary'): number {
  return interpolate(SUGAR_FACTOR[yeast].points, sugarPct);
}

/**
 * Salt in the water of a dough, %: what organisms live in. All three in % of flour, the flour's own moisture counted in.
 */
export function saltInWaterPct(saltPct: number, hydrationPct: number, flourMoisturePct: number): number {
  return (100 * saltPct) / (saltPct + hydrationPct + flourMoisturePct);
}

/** How much gas a gram of yeast makes in one dough, relative to another. */
export function perYeast(dough: { readonly gas: number; readonly yeastPct: number }, lean: { readonly gas: number; readonly yeastPct: number }): number {
  return dough.gas / dough.yeastPct / (lean.gas / lean.yeastPct);
}

export type YeastKind = keyof typeof YEAST_FOR_FRESH;

/** The yeast of one kind that does the work of another, g: 30 g fresh is 12 g instant. */
export function yeastAs(grams: number, from: YeastKind, to: YeastKind): number {
  return (grams / YEAST_FOR_FRESH[from].value) * YEAST_FOR_FRESH[to].value;
}

/** Grams of one yeast with the dry matter of a gram of another. Moistures in %. */
export function onEqualSolids(moisturePct: number, otherMoisturePct: number): number {
  return (100 - moisturePct) / (100 - otherMoisturePct);
}
