/** Sizes of hen eggs, as two markets grade them. Not the same rows: a European M is nearest to a US large. */

/**
 * US sizes: the edible part, and the least weight of a dozen in the shell.
 *
 * Sources: USDA National Nutrient Database for Standard Reference, NDB 01123 (edible grams); US standards for shell eggs,
 * 7 Pa. Code 87.42 and AMS 56 (ounces a dozen).
 */
export const US_EGG_SIZES = [
  { size: 'small', edibleGrams: 38, dozenOunces: 18 },
  { size: 'medium', edibleGrams: 44, dozenOunces: 21 },
  { size: 'large', edibleGrams: 50, dozenOunces: 24 },
  { size: 'extra large', edibleGrams: 56, dozenOunces: 27 },
  { size: 'jumbo', edibleGrams: 63, dozenOunces: 30 },
] as const;

/**
 * European weight grades, grams in the shell, from the least upwards: M is 53 g and more, but under 63.
 *
 * Source: EU marketing standards for eggs (Regulation (EC) No 589/2008).
 */
export const EU_EGG_GRADES = [
  { grade: 'S', fromGrams: 0 },
  { grade: 'M', fromGrams: 53 },
  { grade: 'L', fromGrams: 63 },
  { grade: 'XL', fromGrams: 73 },
] as const;

export type EuEggGrade = (typeof EU_EGG_GRADES)[number]['grade'];

/** Shell, of the weight of an egg. Source: refuse of NDB 01123, 12 %. */
const SHELL_SHARE = 0.12;

/** The European grade of an egg that weighs this much in its shell. */
export function euEggGrade(gramsInShell: number): EuEggGrade {
  return EU_EGG_GRADES.findLast(({ fromGrams }) => gramsInShell >= fromGrams)?.grade ?? 'S';
}

/** Edible grams of a middling egg of a grade; undefined for S and XL, which have no lower and no upper bound. */
export function euEggEdibleGrams(grade: EuEggGrade): number | undefined {
  const index = EU_EGG_GRADES.findIndex((one) => one.grade === grade);
  const from = EU_EGG_GRADES[index]?.fromGrams;
  const below = EU_EGG_GRADES[index + 1]?.fromGrams;
  if (from === undefined || from === 0 || below === undefined) return undefined;
  return ((from + below) / 2) * (1 - SHELL_SHARE);
}
