/**
 * Every number that the arithmetic of fermentation leans on, with where it comes from. Much of it is habit: flour, culture,
 * salt and water move ripening by 30 % or more, so no answer is given without a range.
 */
import type { Constant } from '../estimate';

const FAQ = 'M. Gänzle in the sourdough FAQ, “What factors affect microbial growth in sourdough?”';

/** Between which temperatures an organism grows, and where it grows best, C. */
export interface CardinalTemperatures {
  readonly least: number;
  readonly best: number;
  readonly most: number;
  readonly source: string;
  readonly basis: Constant['basis'];
}

export const SOURDOUGH_YEAST: CardinalTemperatures = {
  least: 8, best: 28, most: 35, basis: 'read', source: `${FAQ} (Kazachstania humilis); optimum also Brandt, Hammes, Gänzle 2004`,
};

export const SOURDOUGH_BACTERIA: CardinalTemperatures = {
  least: 4, best: 32.5, most: 41, basis: 'read', source: `${FAQ} (Fructilactobacillus sanfranciscensis, optimum 32 to 33); optimum also Brandt, Hammes, Gänzle 2004`,
};

/**
 * Where the growth model agrees with the published anchors to about 0.1 of the best rate. Above it sources differ by up to
 * 0.3; below it the model falls to nothing while slow growth is reported.
 */
export const MODEL_VALID = { yeast: { from: 14, to: 28 }, bacteria: { from: 15, to: 33 } } as const;

/** Growth in a fridge, where the model says none, as a share of the best rate. */
export const FRIDGE_FLOOR: Constant = {
  value: 0.03, low: 0.02, high: 0.05, unit: 'of the best rate', basis: 'common practice, no source', source: 'slow growth is seen at 4 C; 0.02 of the best rate recalled for yeast',
};

/** Retarding rooms are kept above this: below it dough stands still. */
export const STANDSTILL_CELSIUS: Constant = { value: -4, unit: 'C', basis: 'read', source: "a manufacturer's baking compendium, retarded fermentation" };

/** Doubling time of sourdough yeast at 27 C, in its growing phase. */
export const YEAST_DOUBLING: Constant = { value: 1.65, unit: 'h at 27 C', basis: 'from memory', source: 'about 0.42 a hour at 27 C' };
export const YEAST_DOUBLING_CELSIUS = 27;

/** Before a fed culture grows. Longer from the fridge. */
export const LAG: Constant = { value: 1, low: 0, high: 2, unit: 'h', basis: 'common practice, no source', source: 'a habit of the trade' };

/** What one degree does to baker's yeast. */
export const BAKERS_YEAST_BY_DEGREE: Constant = {
  value: 1.1, unit: 'times for each C', basis: 'read', source: 'trade article “The science of fermentation”: about 10 % for 1 C; good from 20 to 32 C',
};

/** Baker's yeast is at its best from here, up to 40 C. */
export const BAKERS_YEAST_BEST: Constant = { value: 36, low: 32, high: 40, unit: 'C', basis: 'read', source: 'trade article “The science of fermentation”: best at 32 to 40 C' };
export const BAKERS_YEAST_FALLS: Constant = { value: 40, unit: 'C', basis: 'read', source: 'the same' };
export const BAKERS_YEAST_ENDS: Constant = { value: 45, low: 43, high: 50, unit: 'C', basis: 'from memory', source: 'no more gas above this; cells die from about 50 C' };

/** Where the ten per cent a degree may be leaned on for a plan. */
export const BAKERS_YEAST_VALID = { from: 10, to: 32 } as const;

/** Below this the ten per cent are too generous: fermentation nearly stands still. */
export const COOL_CELSIUS: Constant = { value: 10, unit: 'C', basis: 'read', source: 'bread dictionary, “retarding” (50 F)' };
export const FRIDGE_CELSIUS: Constant = { value: 4, low: 2, high: 6, unit: 'C', basis: 'common practice, no source', source: 'a household fridge' };

/** How sure a time is, as a share of itself. */
export const UNCERTAINTY = {
  inside: { value: 0.2, unit: 'of the time', basis: 'common practice, no source', source: 'from 20 to 28 C; flour, culture, salt and hydration move ripening by 30 % or more' },
  outside: { value: 0.4, unit: 'of the time', basis: 'common practice, no source', source: 'below 20 C and above 28 C' },
} as const satisfies Readonly<Record<string, Constant>>;
export const CERTAIN_CELSIUS = { from: 20, to: 28 } as const;

/** Rate by salt in % of flour: as it is up to 1.5 %, a tenth less for each further half per cent. A guess. */
export const SALT_FACTOR = {
  points: [[0, 1], [1.5, 1], [2, 0.9], [2.5, 0.8], [3, 0.7], [4, 0.5]] as const,
  basis: 'common practice, no source' as const,
  source: 'no published figure was found',
};

/** Rate by sugar in % of flour. A published strain is far harsher: 0.24 at 10 % and 0.01 at 26 %. */
export const SUGAR_FACTOR = {
  ordinary: { points: [[0, 1], [5, 1], [10, 0.6], [15, 0.4], [20, 0.25], [30, 0.1]] as const, basis: 'common practice, no source' as const, source: 'the rate falls from 5 % upward (chapter text on sugar and fermentation rate); the figures are a habit' },
  osmotolerant: { points: [[0, 1], [10, 1], [20, 0.7], [30, 0.5]] as const, basis: 'common practice, no source' as const, source: 'serves 20 to 50 % of sugar (the same text); the figures are a habit' },
};

/** Grams that do the work of one gram of fresh yeast. */
export const YEAST_FOR_FRESH = {
  fresh: { value: 1, unit: 'g', basis: 'derived', source: 'itself' },
  'active dry': { value: 0.5, low: 0.33, high: 0.5, unit: 'g', basis: 'common practice, no source', source: 'on equal dry matter it would be 0.33; the rest allows for cells lost in drying' },
  instant: { value: 0.4, low: 0.33, high: 0.4, unit: 'g', basis: 'common practice, no source', source: 'a habit of the trade' },
} as const satisfies Readonly<Record<string, Constant>>;

/** Fresh yeast in % of a preferment's flour against hours, in a room of 20 to 24 C. */
export const PREFERMENT_YEAST = {
  points: [[3, 1.5], [7.5, 0.7], [13.5, 0.1]] as const,
  celsius: 22,
  basis: 'from memory' as const,
  source: "a baking consultant's guide to preferments: 3 h 1.5 %, 7 to 8 h 0.7 %, 12 to 15 h 0.1 %",
};

/** Hours count as the factor of multiplication up to here; then the factor is larger. */
export const RYE_SOUR = {
  linearUpTo: { value: 6, unit: 'h', basis: 'read', source: 'German lexicon, “Dreistufige Sauerteigführung”' },
  beyond: { value: 1.75, low: 1.5, high: 2, unit: 'times the hours', basis: 'read', source: 'the same: 1.5 to 2 times' },
} as const satisfies Readonly<Record<string, Constant>>;

/** Wheat sourdough at its best pH: one study, one culture. */
export const BEST_PH: Constant = { value: 9, unit: 'h at 35 C', basis: 'read', source: 'Czech Journal of Food Sciences, article 68/2017: 9 h at 35 C, 11 h at 25 C' };
export const BEST_PH_CELSIUS = 35;

/** Fresh yeast in % of all flour from which yeast, and not the levain, sets the pace of a dough with both. */
export const YEAST_LEADS: Constant = { value: 0.3, low: 0.1, high: 0.5, unit: '% fresh yeast', basis: 'common practice, no source', source: 'a guess' };

/** A step written so much warmer or colder than the formula's room stands in a box or a cellar, and another room does not touch it. */
export const HELD_APART: Constant = { value: 4, unit: 'C', basis: 'common practice, no source', source: 'a corner of the room is a few degrees off; more takes a proofing box or a cellar' };

/** Rooms that people bake in; what a formula without a room writes beyond it is a box or a cellar. */
export const USUAL_ROOM = { from: 16, to: 28, unit: 'C', basis: 'common practice, no source', source: 'a habit of the trade' } as const;

/** So far beyond the temperatures that a pace is known for, a plan still reckons with the pace at their edge, and says so. */
export const BEYOND_THE_EDGE: Constant = { value: 4, unit: 'C', basis: 'common practice, no source', source: 'a guess: farther off, no length is better than a wrong one' };
