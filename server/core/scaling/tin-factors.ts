/**
 * How much dough a tin takes: the one table of it, for sizing a dough, for another tin and for the checks on tins. Published
 * figures span 1.8 to 4.4 ml of tin for each gram of dough, so a formula's own pair of tin and weight always goes before a
 * figure from here.
 */

/** Millilitres of tin, filled to the brim, for each gram of dough after bench loss. */
export interface TinFactor {
  /** What the row is about, in words. */
  readonly what: string;
  readonly usualMlPerGram: number;
  /** Between these two bakers fill such a tin. */
  readonly leastMlPerGram: number;
  readonly mostMlPerGram: number;
  /** Below this it runs over, or presses hard against its lid. */
  readonly runsOverMlPerGram: number;
  /** Above this it stays low in its tin. */
  readonly staysLowMlPerGram: number;
  readonly source: string;
}

const HABIT = 'common practice, no source';
/** Light loaves; home bakers fill a tin more. */
const PUBLISHED =
  'common practice, no source; published pairs are lighter loaves: a trade text on wholesale open tins has 4.39 at the least (7.6 cubic inches an ounce), '
  + 'US Armed Forces recipe D01000 (pan bread) 4.12 (27 oz in 11 × 5 × 3½ in) and 3.10 (21½ oz in 9⅞ × 4¼ × 2¾ in)';

export const TIN_FACTORS = {
  tin: {
    what: 'tin loaf, lean or lightly rich', usualMlPerGram: 2.8, leastMlPerGram: 2.6, mostMlPerGram: 3.2, runsOverMlPerGram: 2.2, staysLowMlPerGram: 4.6, source: PUBLISHED,
  },
  lidded: {
    what: 'white loaf under a lid', usualMlPerGram: 3.7, leastMlPerGram: 3.3, mostMlPerGram: 4.2, runsOverMlPerGram: 2.8, staysLowMlPerGram: 5, source: HABIT,
  },
  'whole grain': { what: 'whole grain', usualMlPerGram: 2.2, leastMlPerGram: 1.8, mostMlPerGram: 2.6, runsOverMlPerGram: 1.6, staysLowMlPerGram: 4.2, source: HABIT },
  rye: { what: 'rye', usualMlPerGram: 2.2, leastMlPerGram: 1.8, mostMlPerGram: 2.6, runsOverMlPerGram: 1.3, staysLowMlPerGram: 3.6, source: HABIT },
  brioche: { what: 'brioche', usualMlPerGram: 2.8, leastMlPerGram: 2.5, mostMlPerGram: 3.2, runsOverMlPerGram: 2.2, staysLowMlPerGram: 4.6, source: HABIT },
  'paper case': {
    what: 'sweet sourdough in its case', usualMlPerGram: 3.3, leastMlPerGram: 3, mostMlPerGram: 3.6, runsOverMlPerGram: 2.4, staysLowMlPerGram: 4.6, source: HABIT,
  },
  batter: {
    what: 'batter, a tin filled to about two thirds', usualMlPerGram: 1.7, leastMlPerGram: 1.4, mostMlPerGram: 2.4, runsOverMlPerGram: 1.2, staysLowMlPerGram: 3.4, source: HABIT,
  },
} as const satisfies Readonly<Record<string, TinFactor>>;

export type TinKind = keyof typeof TIN_FACTORS;
