/** Every number that reading other people's recipes leans on, with where it comes from. */
import type { Constant } from '../estimate';

const HABIT = 'common practice, no source';
const HANDBOOK = 'NIST Handbook 44, appendix C, from memory';

/** A stick of butter. */
export const STICK_OUNCES: Constant = { value: 4, unit: 'oz', basis: 'read', source: 'a quarter of a pound; USDA National Nutrient Database NDB 01145 weighs it as 113 g' };

/** Dry yeast in a packet. */
export const PACKET_GRAMS: Constant = { value: 7, low: 7, high: 7.2, unit: 'g', basis: HABIT, source: 'printed on packets as 7 g or 1/4 oz; USDA National Nutrient Database NDB 18375 weighs a US packet as 7.2 g' };

export const OUNCES_PER_POUND: Constant = { value: 16, unit: 'oz', basis: 'derived', source: 'avoirdupois, by definition' };

export const CUPS_PER_PINT: Constant = { value: 2, unit: 'cups', basis: 'derived', source: HANDBOOK };
export const CUPS_PER_QUART: Constant = { value: 4, unit: 'cups', basis: 'derived', source: HANDBOOK };
export const CUPS_PER_GALLON: Constant = { value: 16, unit: 'cups', basis: 'derived', source: HANDBOOK };

/** What one piece is said to weigh is its dough if so many of them make up what the lines weigh, give or take this share of it. */
export const SAME_WEIGHT: Constant = { value: 0.03, unit: 'of the dough', basis: HABIT, source: 'what is rounded in a list and left in the bowl; a loaf loses three times as much in the oven' };

/** A number without a unit counts pieces up to here; more of them are grams that nobody wrote. */
export const MOST_PIECES: Constant = { value: 50, unit: 'pieces', basis: HABIT, source: 'nobody counts more eggs into one dough' };
