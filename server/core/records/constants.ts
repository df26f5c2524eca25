/** Every number that the comparison of records leans on, with where it comes from. */
import type { Constant } from '../estimate';

const HABIT = 'common practice, no source';

/** Differences that a baker does not act on. */
export const CLOSE = {
  celsius: { value: 1, unit: 'C', basis: HABIT, source: 'about what a probe thermometer and its place in the dough are good for' },
  volumePoints: { value: 5, unit: 'points of the rise', basis: HABIT, source: 'what can be read off a marked tub' },
  coreCelsius: { value: 1, unit: 'C', basis: HABIT, source: 'about what a probe thermometer is good for' },
  lossPoints: { value: 1, unit: 'points of the loss', basis: HABIT, source: '10 g of a loaf of 1 kg' },
  time: { value: 0.1, unit: 'of the time', basis: HABIT, source: 'half of what the model of fermentation itself is unsure by' },
} as const satisfies Readonly<Record<string, Constant>>;

/** A dough or crumb that is called sour. */
export const SOUR_PH: Constant = { value: 4.3, unit: 'pH', basis: 'from memory', source: 'French decree 93-1074: sourdough bread has a pH of at most 4.3' };

/** Bakes whose temperatures lie within this of one another are at one temperature. */
export const ONE_TEMPERATURE: Constant = { value: 2, unit: 'C', basis: HABIT, source: 'a slope over less is lost in the scatter of bakes' };

/** Fewer bakes than this say nothing of a pace: chance is as large as what they show. */
export const LEAST_BAKES: Constant = { value: 3, unit: 'bakes', basis: HABIT, source: 'two bakes have no spread to speak of' };

/** Rises between which a bake may be carried to the volume that the formula asks for, in proportion, as a share of that volume. */
export const LIKE_RISE = { from: 0.5, to: 2, unit: 'of the rise', basis: HABIT, source: 'gas is made about evenly near the end of a bulk; farther off it is not' } as const;

/** Student's t for a range that holds the mean in 19 of 20 cases, by degrees of freedom (bakes less one). */
export const STUDENT_T = {
  points: [
    [2, 4.303], [3, 3.182], [4, 2.776], [5, 2.571], [6, 2.447], [7, 2.365], [8, 2.306], [9, 2.262], [10, 2.228], [15, 2.131], [20, 2.086], [30, 2.042], [120, 1.98],
  ] as const,
  basis: 'from memory' as const,
  source: 'any table of the t distribution, 0.95 on two sides',
};
