/** Grams of an amount. */
import type { Amount, VolumeUnit } from '../../../grammar';
import { middleOf, toGrams } from '../units/mass';
import { volumeToMl, type MeasureSystem } from '../units/volume';
import type { Ingredient } from './model';

/** What a pinch of a powder weighs, g (common practice, no source): the language calls it vague wherever it stands. */
export const PINCH_GRAMS = 0.3;

type Measured = Pick<Ingredient, 'gramsPerMl' | 'gramsPerMeasure'>;

/**
 * Grams in a millilitre, from the density of the source or, failing that, from its largest measure, which suffers least from
 * rounding. Null when nothing is known.
 */
export function densityOf(ingredient: Measured): number | null {
  if (ingredient.gramsPerMl !== null) return ingredient.gramsPerMl;
  for (const unit of ['cup', 'tbsp', 'tsp', 'fl oz'] as const) {
    const grams = ingredient.gramsPerMeasure[unit];
    if (grams !== undefined) return grams / volumeToMl(unit, 'us');
  }
  return null;
}

/** Grams in one `unit` of an ingredient: as the source weighed it where it is a US measure, else by density. */
export function gramsPerUnit(ingredient: Measured, unit: VolumeUnit, measures: MeasureSystem): number | null {
  if (measures === 'us' && unit !== 'ml' && unit !== 'l') {
    const weighed = ingredient.gramsPerMeasure[unit];
    if (weighed !== undefined) return weighed;
  }
  const density = densityOf(ingredient);
  return density === null ? null : density * volumeToMl(unit, measures);
}

/**
 * Grams of an amount as written; ranges count with their middle, a weight in brackets counts alone. Null when it cannot be
 * known: a volume without density, a count without unit weight, an unknown ingredient in either, a share, `all`.
 */
export function weigh(amount: Amount, ingredient: Ingredient | undefined, measures: MeasureSystem): number | null {
  switch (amount.kind) {
    case 'mass':
      return toGrams(amount);
    case 'volume': {
      if (amount.bracket !== undefined) return toGrams(amount.bracket);
      const grams = ingredient === undefined ? null : gramsPerUnit(ingredient, amount.unit, measures);
      return grams === null ? null : grams * middleOf(amount.quantity);
    }
    case 'count': {
      if (amount.bracket !== undefined) return toGrams(amount.bracket);
      const grams = ingredient?.eachGrams ?? null;
      return grams === null ? null : grams * middleOf(amount.quantity);
    }
    case 'pinch':
      if (amount.bracket !== undefined) return toGrams(amount.bracket);
      return PINCH_GRAMS * (amount.quantity === undefined ? 1 : middleOf(amount.quantity));
    case 'share':
      return amount.bracket === undefined ? null : toGrams(amount.bracket);
    case 'all':
      return null;
  }
}
