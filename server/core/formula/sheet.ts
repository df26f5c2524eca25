import type { Role } from '../../../grammar';
import { cookedOffGrams, leavesOf, type Leaf } from './contents';
import type { ResolvedFormula, Sheet, SheetRow } from './model';

/** The trade lists flour, water, salt and leaven first and the rest as the formula names it. */
const LEADING: readonly Role[] = ['flour', 'liquid', 'salt', 'leaven'];

/**
 * The sheet: a row per ingredient over all parts, with what each part brings of it to the dough. The columns of a row add
 * up to its grams to the last digit, for they are its sum. A part of which something is kept or left over counts with what
 * the dough gets of it.
 */
export function sheetOf(formula: ResolvedFormula): Sheet {
  const leaves = leavesOf(formula);
  const flour = totalFlour(leaves);
  const inDoughFirst = [...leaves].sort((a, b) => order(a, formula) - order(b, formula));
  const byKey = new Map<string, Leaf[]>();
  for (const leaf of inDoughFirst) byKey.set(leaf.line.key, [...(byKey.get(leaf.line.key) ?? []), leaf]);
  const rows = [...byKey.entries()].map(([key, group]): SheetRow => {
    const columns = formula.parts.map((_, p) => add(group.filter((leaf) => leaf.partIndex === p).map((leaf) => leaf.grams)));
    const grams = add(columns);
    const first = group[0];
    return {
      key,
      name: first?.line.name ?? key,
      role: first?.line.role ?? 'other',
      grams,
      pct: grams === null || flour === null || flour <= 0 ? null : (grams / flour) * 100,
      columns,
    };
  });
  return {
    rows,
    besides: formula.parts.flatMap((part) => part.lines.filter((line) => !line.inDough)),
    cookedOffGrams: cookedOffGrams(formula),
  };
}

function order(leaf: Leaf, formula: ResolvedFormula): number {
  const rank = LEADING.indexOf(leaf.line.role);
  const own = leaf.partIndex === formula.dough ? 0 : 1;
  return (rank < 0 ? LEADING.length : rank) * 2 + own;
}

function totalFlour(leaves: readonly Leaf[]): number | null {
  return add(
    leaves
      .filter(({ line }) => line.role === 'flour' || line.starterHydrationPct !== undefined)
      .map(({ line, fraction }) => (line.grams === null || fraction === null ? null : line.flourGrams * fraction)),
  );
}

function add(values: readonly (number | null)[]): number | null {
  return values.reduce<number | null>((sum, value) => (sum === null || value === null ? null : sum + value), 0);
}
