/** Mass: everything is computed in grams. */
import type { MassAmount, MassUnit, Quantity } from '../../../grammar';

/**
 * Grams in one unit.
 *
 * Source: the international avoirdupois pound is 0.45359237 kg by definition, the ounce a sixteenth of it.
 */
export const GRAMS_PER: Readonly<Record<MassUnit, number>> = {
  g: 1,
  kg: 1000,
  mg: 0.001,
  oz: 28.349523125,
  lb: 453.59237,
};

/** Grams of `value` in `unit`. */
export function gramsFrom(value: number, unit: MassUnit): number {
  return value * GRAMS_PER[unit];
}

/** What arithmetic uses of a quantity: the number, or the middle of a range (`4 to 5` is 4.5). */
export function middleOf(quantity: Quantity): number {
  return quantity.high === undefined ? quantity.low.value : (quantity.low.value + quantity.high.value) / 2;
}

/** Grams of a mass as written; a range counts with its middle. */
export function toGrams(mass: MassAmount): number {
  return gramsFrom(middleOf(mass.quantity), mass.unit);
}
