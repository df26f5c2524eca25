/** Every number that the arithmetic of dough temperature leans on, with where it comes from. */
import { celsiusDegrees } from '../units/temperature';
import type { Constant } from '../estimate';

/** Specific heats in J per gram and kelvin. */
export const SPECIFIC_HEAT = {
  water: {
    value: 4.18, low: 4.18, high: 4.22, unit: 'J/(g K)', basis: 'read',
    source: 'university physics demonstration on heat of fusion (4.18 near room temperature); handbook appendix on water and ice (4.218 at 0 C)',
  },
  ice: { value: 2.1, unit: 'J/(g K)', basis: 'read', source: 'handbook appendix on water and ice (2.101 at 0 C)' },
  flour: {
    value: 1.8, low: 1.6, high: 2, unit: 'J/(g K)', basis: 'from memory',
    source: 'usual figure for wheat flour; an equation fitted to flour, dough and flat bread gives 1.64 at 13.4 % moisture and 30 C',
  },
  dough: {
    value: 2.7, low: 2.15, high: 3.19, unit: 'J/(g K)', basis: 'from memory',
    source: 'usual working figure; flour and water at 65 % give 2.74; five doughs in a calorimeter between 20 and 90 C: 2.15 to 3.19',
  },
  fat: { value: 1.98, unit: 'J/(g K)', basis: 'from memory', source: 'component equations for foods, Choi and Okos 1986, at 0 C; melting is not counted' },
  alcohol: { value: 2.44, unit: 'J/(g K)', basis: 'from memory', source: 'ethanol near room temperature' },
  /** Protein, carbohydrate and ash together. */
  drySolids: {
    value: 1.6, low: 1.1, high: 2, unit: 'J/(g K)', basis: 'from memory',
    source: 'component equations for foods, Choi and Okos 1986, at 0 C: carbohydrate 1.55, protein 2.01, ash 1.09',
  },
} as const satisfies Readonly<Record<string, Constant>>;

/** Heat that ice takes to melt. */
export const HEAT_OF_FUSION: Constant = {
  value: 334, low: 333, high: 334, unit: 'J/g', basis: 'read',
  source: 'handbook appendix on water and ice (334); university physics pages (334 and 333)',
};

/** The trade's ice formula in Fahrenheit: water x (tap - needed) / (tap + 112). */
export const ICE_TRADE_FAHRENHEIT: Constant = {
  value: 112, unit: 'F', basis: 'read',
  source: 'baking trade article on keeping dough cool: ice takes 144 BTU a pound to melt, and 144 - 32 = 112',
};

/** Ice beyond this share of the water does not melt in time. */
export const MOST_ICE_SHARE: Constant = { value: 0.5, unit: 'of the water', basis: 'common practice, no source', source: 'a habit of the trade' };

/** Water above this should not touch yeast. */
export const YEAST_SAFE_CELSIUS: Constant = { value: 40, unit: 'C', basis: 'common practice, no source', source: 'a habit of the trade' };

/** What the tap gives where nobody says. */
export const TAP_CELSIUS: Constant = {
  value: 15, low: 5, high: 25, unit: 'C', basis: 'common practice, no source', source: 'taps differ by place and season; measure yours',
};

/**
 * Mixer heat where nobody measured it. `rise` is the true rise of the dough; the trade's friction factor is the rise times
 * the number of factors. Published factors run from 5 to 35 F: measure your own mixer.
 */
export const MIXING_RISE = {
  'by hand': {
    value: celsiusDegrees(5 / 4), low: 0, high: celsiusDegrees(8 / 3), unit: 'C', basis: 'derived',
    source: 'a cookery magazine on precise water temperature: friction 5 F by hand, in a sum of four; workshop notes of a baking institute: 8 F in a sum of three',
  },
  'by mixer': {
    value: celsiusDegrees(20 / 4), low: celsiusDegrees(8 / 3), high: celsiusDegrees(35 / 3), unit: 'C', basis: 'derived',
    source: 'a cookery magazine on precise water temperature: friction 20 F in a stand mixer, in a sum of four; a pizza trade magazine: 35 F in a sum of three',
  },
  'by food processor': {
    value: celsiusDegrees(25 / 4), low: celsiusDegrees(20 / 4), high: celsiusDegrees(35 / 4), unit: 'C', basis: 'derived',
    source: 'a cookery magazine on precise water temperature: friction 25 F in a food processor, in a sum of four; its range is a guess',
  },
} as const satisfies Readonly<Record<string, Constant>>;

export type MixingMethod = keyof typeof MIXING_RISE;

/** Rise by the minute in a kneading machine, where the minutes are written; by the speed, where the step says one. */
export const MIXER_RISE_PER_MINUTE = {
  'not said': {
    value: 0.4, low: 0.3, high: 0.5, unit: 'C/min', basis: 'read', source: 'French encyclopedic article on base temperature: 0.3 to 0.5 C a minute',
  },
  slow: {
    value: 0.3, low: 0.2, high: 0.4, unit: 'C/min', basis: 'common practice, no source',
    source: 'the low end of the published 0.3 to 0.5 C a minute; that the low end is the slow speed is a guess',
  },
  fast: {
    value: 0.5, low: 0.4, high: 0.7, unit: 'C/min', basis: 'common practice, no source',
    source: 'the high end of the published 0.3 to 0.5 C a minute; that the high end is the fast speed is a guess',
  },
} as const satisfies Readonly<Record<string, Constant>>;

/**
 * How slowly a dough in a running machine gives the heat of mixing off again. Times the rise by the minute it is the most that
 * mixing can warm a dough: 10 C (6 to 15) where no speed is said.
 */
export const MIXER_HEAT_MINUTES: Constant = {
  value: 25, low: 20, high: 30, unit: 'min', basis: 'common practice, no source',
  source: 'chosen so that long mixing comes near what is published at most, a rise of 6.5 C (35 F in a sum of three, a pizza trade magazine); must be measured',
};

/**
 * How slowly dough takes the temperature around it: the time constant of 1 kg. It grows with mass to the power 2/3, as it
 * does in a body that heat must be conducted out of.
 */
export const TIME_CONSTANT_OF_A_KILOGRAM: Constant = {
  value: 2.2, low: 1.6, high: 3, unit: 'h', basis: 'common practice, no source',
  source: 'fitted to the habit that a loaf of 500 g takes 1 to 1.5 h and a tub of 1 kg takes 2 to 3 h; must be measured',
};
