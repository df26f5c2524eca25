/** The totals by which a formula and its variants are told apart. */
import type { Totals } from '../core/formula/model';
import { percent, weight } from './numbers';

export interface ComparedTotal {
  readonly key: keyof Totals;
  readonly label: string;
  readonly isWeight: boolean;
}

/** In the order in which a sheet has them. */
export const COMPARED_TOTALS: readonly ComparedTotal[] = [
  { key: 'hydration_pct', label: 'hydration', isWeight: false },
  { key: 'water_pct', label: 'water in all', isWeight: false },
  { key: 'salt_pct', label: 'salt', isWeight: false },
  { key: 'sugar_pct', label: 'sugar', isWeight: false },
  { key: 'fat_pct', label: 'fat', isWeight: false },
  { key: 'prefermented_flour_pct', label: 'flour in preferments', isWeight: false },
  { key: 'inclusions_pct', label: 'nuts, fruit and other pieces', isWeight: false },
  { key: 'flour_g', label: 'flour', isWeight: true },
  { key: 'dough_g', label: 'dough', isWeight: true },
  { key: 'piece_g', label: 'one piece', isWeight: true },
];

export interface ChangedTotal {
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

/** A total as it is printed: `72.5 %`, `970 g`, a dash where it cannot be known. */
export function totalText(value: number | null, { isWeight }: ComparedTotal): string {
  if (value === null) return percent(null);
  // The trace of fat in a zest is none.
  return isWeight ? weight(value) : `${percent(Math.abs(value) < 0.05 ? 0 : value)} %`;
}

/** Those totals that do not read the same before and after. */
export function changedTotals(before: Totals, after: Totals): readonly ChangedTotal[] {
  return COMPARED_TOTALS.flatMap((total) => {
    const was = totalText(before[total.key], total);
    const is = totalText(after[total.key], total);
    const difference = Math.abs((before[total.key] ?? 0) - (after[total.key] ?? 0));
    return was === is || (before[total.key] !== null && after[total.key] !== null && difference < (total.isWeight ? 0.5 : 0.05)) ? [] : [{ label: total.label, before: was, after: is }];
  });
}
