/** Volume: everything is computed in millilitres. What a cup holds depends on whose cup it is. */
import type { VolumeUnit } from '../../../grammar';

/** Which household measures a `cup` or `tbsp` means. */
export type MeasureSystem = 'us' | 'metric' | 'imperial';

/** US gallon in ml: 231 cubic inches of 2.54 cm, exact by definition. All US measures below are fractions of it. */
const US_GALLON_ML = 231 * 2.54 ** 3;

/** Imperial pint in ml: an eighth of the imperial gallon, 4.54609 l by definition. */
export const IMPERIAL_PINT_ML = 4546.09 / 8;

/** The imperial fluid ounce: a twentieth of the pint. */
const IMPERIAL_FLUID_OUNCE_ML = IMPERIAL_PINT_ML / 20;

/** The Australian tablespoon, four teaspoons where other metric countries take three. Offered by no system here: write ml. */
export const AUSTRALIAN_TABLESPOON_ML = 20;

/** The rounded measures of US nutrition labels, 21 CFR 101.9(b)(5)(viii). For labels only: a recipe's cup is the customary one. */
export const US_LABEL_ML = { tsp: 5, tbsp: 15, cup: 240, 'fl oz': 30 } as const;

type HouseholdUnit = Exclude<VolumeUnit, 'ml' | 'l'>;

const HOUSEHOLD_ML: Readonly<Record<MeasureSystem, Readonly<Record<HouseholdUnit, number>>>> = {
  // US customary, exact: gallon = 16 cups = 128 fl oz = 256 tbsp = 768 tsp.
  us: {
    tsp: US_GALLON_ML / 768,
    tbsp: US_GALLON_ML / 256,
    cup: US_GALLON_ML / 16,
    'fl oz': US_GALLON_ML / 128,
  },
  // The metric cup and spoons of Canada and New Zealand. There is no metric fluid ounce; those countries'
  // older books mean the imperial one.
  metric: { tsp: 5, tbsp: 15, cup: 250, 'fl oz': IMPERIAL_FLUID_OUNCE_ML },
  // The half-pint cup. British measuring spoons have been 5 and 15 ml for decades (common practice, no source).
  imperial: { tsp: 5, tbsp: 15, cup: IMPERIAL_PINT_ML / 2, 'fl oz': IMPERIAL_FLUID_OUNCE_ML },
};

/**
 * Millilitres in one `unit`: `volumeToMl('cup', 'us')` is 236.588….
 *
 * Sources: the definitions of the inch and of the US and imperial gallons; a published comparison of cooking measures for
 * the metric cup (250, 15, 5).
 */
export function volumeToMl(unit: VolumeUnit, system: MeasureSystem): number {
  switch (unit) {
    case 'ml':
      return 1;
    case 'l':
      return 1000;
    case 'tsp':
    case 'tbsp':
    case 'cup':
    case 'fl oz':
      return HOUSEHOLD_ML[system][unit];
  }
}
