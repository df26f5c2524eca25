/** What checks on what is in a dough share. */
import type { Leaf } from '../formula/contents';
import type { Place } from '../formula/model';
import type { CheckContext } from './check';
import { soundTotals } from './define';

export interface Share {
  /** In % of all the flour. */
  readonly pct: number;
  readonly leaves: readonly Leaf[];
  /** The amount of its largest line. */
  readonly place: Place;
}

/** What some lines are together, in % of all the flour; undefined where there are none, or it cannot be known. */
export function shareOf(context: CheckContext, wanted: (leaf: Leaf) => boolean): Share | undefined {
  const flour = soundTotals(context)?.flour_g ?? null;
  if (flour === null || flour <= 0) {
    return undefined;
  }
  const leaves = context.reports.leaves().filter(wanted);
  const [largest] = [...leaves].sort((a, b) => (b.grams ?? 0) - (a.grams ?? 0));
  if (largest === undefined || leaves.some(({ grams }) => grams === null)) {
    return undefined;
  }
  const grams = leaves.reduce((sum, leaf) => sum + (leaf.grams ?? 0), 0);
  // Binary fractions leave a rest: 20 % written is 20 %, whatever the flour weighs.
  return { pct: Number(((100 * grams) / flour).toFixed(9)), leaves, place: largest.line.amountPlace };
}

export function hasKey(...keys: readonly string[]): (leaf: Leaf) => boolean {
  return ({ line }) => keys.includes(line.key);
}

export const YEASTS = ['yeast-fresh', 'yeast-dry-active', 'yeast-instant', 'yeast-osmotolerant'] as const;
export const isYeast = hasKey(...YEASTS);
export const isButter = hasKey('butter-unsalted', 'butter-salted');
export const isRye = ({ line }: Leaf): boolean => line.ingredient?.allergens.eu.includes('gluten:rye') === true && line.role === 'flour';

/** Names of lines, each once: `walnuts and raisins`. */
export function namesOf(leaves: readonly Leaf[]): readonly string[] {
  return [...new Set(leaves.map(({ line }) => line.name))];
}
