/**
 * How much dough a tin takes. The one table of it, to be seen and argued with: published figures span 1.8 to 4.4 ml of tin
 * for each gram of dough, so a formula's own pair of tin and weight always goes before a figure from here.
 */
import { COMMON_PRACTICE, styleOf, type Style } from '../checks/limits';

/** Millilitres of tin, filled to the brim, for each gram of dough after bench loss. */
export interface TinFactor {
  /** What the row is about, in words. */
  readonly what: string;
  readonly usualMlPerGram: number;
  /** Below it a tin runs over. */
  readonly leastMlPerGram: number;
  /** Above it a loaf stays low in its tin. */
  readonly mostMlPerGram: number;
  readonly source: string;
}

/**
 * Published pairs, for comparison: a trade text on open pans has wholesale loaves rarely below 7.6 cubic inches an ounce,
 * 4.39 ml a gram; US Armed Forces recipe D01000 (pan bread) puts 27 oz into 11 × 5 × 3½ in, 4.12, and 21½ oz into
 * 9⅞ × 4¼ × 2¾ in, 3.10. Those are light loaves; home bakers fill a tin more.
 */
export const TIN_FACTORS = {
  tin: { what: 'tin loaf, lean or lightly rich', usualMlPerGram: 2.8, leastMlPerGram: 2.6, mostMlPerGram: 3.2, source: COMMON_PRACTICE },
  lidded: { what: 'white loaf under a lid', usualMlPerGram: 3.7, leastMlPerGram: 3.3, mostMlPerGram: 4.2, source: COMMON_PRACTICE },
  dense: { what: 'whole grain or rye', usualMlPerGram: 2.2, leastMlPerGram: 1.8, mostMlPerGram: 2.6, source: COMMON_PRACTICE },
  brioche: { what: 'brioche', usualMlPerGram: 2.8, leastMlPerGram: 2.5, mostMlPerGram: 3.2, source: COMMON_PRACTICE },
  'paper case': { what: 'sweet sourdough in its case', usualMlPerGram: 3.3, leastMlPerGram: 3, mostMlPerGram: 3.6, source: COMMON_PRACTICE },
  batter: { what: 'batter, a tin filled to about two thirds', usualMlPerGram: 1.7, leastMlPerGram: 1.4, mostMlPerGram: 2.4, source: COMMON_PRACTICE },
} as const satisfies Readonly<Record<string, TinFactor>>;

const BY_STYLE: Readonly<Partial<Record<Style, TinFactor>>> = {
  rye: TIN_FACTORS.dense,
  'whole grain': TIN_FACTORS.dense,
  brioche: TIN_FACTORS.brioche,
  'sweet sourdough': TIN_FACTORS['paper case'],
};

export interface TinUse {
  /** Words of the `style` line. */
  readonly styles: readonly string[];
  /** `tins`, as the `makes` line has it. */
  readonly noun: string;
  readonly isBatter: boolean;
}

/**
 * The row of the table that a formula falls under: a batter; a lidded tin, by its noun or style (`pullman`, `lidded tins`);
 * the first style that has a row; else the plain tin loaf.
 */
export function tinFactorFor({ styles, noun, isBatter }: TinUse): TinFactor {
  if (isBatter) return TIN_FACTORS.batter;
  if ([noun, ...styles].some((word) => /\b(?:pullman|lid(?:ded)?)\b/i.test(word))) return TIN_FACTORS.lidded;
  for (const word of styles) {
    const style = styleOf(word);
    const found = style === undefined ? undefined : BY_STYLE[style];
    if (found !== undefined) return found;
  }
  return TIN_FACTORS.tin;
}
