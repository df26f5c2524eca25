/** Which row of the table of tins a formula falls under. */
import { styleOf, type Style } from '../checks/limits';
import { TIN_FACTORS, type TinFactor, type TinKind } from './tin-factors';

export type { TinFactor };

const BY_STYLE: Readonly<Partial<Record<Style, TinKind>>> = {
  rye: 'rye', 'whole grain': 'whole grain', brioche: 'brioche', 'sweet sourdough': 'paper case',
};

export interface TinUse {
  /** Words of the `style` line. */
  readonly styles: readonly string[];
  /** `tins`, as the `makes` line has it. */
  readonly noun: string;
  readonly isBatter: boolean;
}

/**
 * A batter; a lidded tin, by its noun or style (`pullman`, `lidded tins`); the first style that has a row; else the plain
 * tin loaf.
 */
export function tinKindOf({ styles, noun, isBatter }: TinUse): TinKind {
  if (isBatter) return 'batter';
  if ([noun, ...styles].some((word) => /\b(?:pullman|lid(?:ded)?)\b/i.test(word))) return 'lidded';
  for (const word of styles) {
    const style = styleOf(word);
    const found = style === undefined ? undefined : BY_STYLE[style];
    if (found !== undefined) return found;
  }
  return 'tin';
}

/** Its row. */
export function tinFactorFor(use: TinUse): TinFactor {
  return TIN_FACTORS[tinKindOf(use)];
}
