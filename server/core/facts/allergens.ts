/** The allergens of a formula by both lists: what is weighed, dusting included, for what is on the loaf is eaten with it. */
import type { ResolvedFormula, ResolvedLine } from '../formula/model';

export interface Allergens {
  /** Classes of Annex II of Regulation (EU) 1169/2011, in the order of the alphabet; a cereal or nut after a colon. */
  readonly eu: readonly string[];
  /** The nine of US law, in the order of the alphabet. */
  readonly us: readonly string[];
  /** Classes that some of the ingredients may hold: the label of the packet says. */
  readonly checkLabel: readonly string[];
  /** Ingredients that nobody knows, by the name they are written with: what they hold is not in the lists. */
  readonly unknown: readonly string[];
}

/** Every ingredient of every part. Bread that a dish takes from another formula brings that one's. */
export function allergensOf(formula: ResolvedFormula): Allergens {
  const lines = weighedOf(formula);
  const eu = new Set(lines.flatMap(({ ingredient }) => ingredient?.allergens.eu ?? []));
  const us = new Set(lines.flatMap(({ ingredient }) => ingredient?.allergens.us ?? []));
  const check = new Set(lines.flatMap(({ ingredient }) => ingredient?.allergens.checkLabel ?? []));
  // A culture is flour and water; which flour, nobody has written. Where no flour of the formula has gluten, say that it might.
  const hasCulture = lines.some((line) => line.starterHydrationPct !== undefined);
  if (hasCulture && ![...eu].some((id) => id === 'gluten' || id.startsWith('gluten:'))) check.add('gluten');
  const known = (id: string) => eu.has(id) || us.has(id);
  return {
    eu: sorted(eu),
    us: sorted(us),
    checkLabel: sorted(new Set([...check].filter((id) => !known(id)))),
    unknown: [...new Set(lines.filter((line) => line.ingredient === undefined && line.starterHydrationPct === undefined).map(({ name }) => name))],
  };
}

/** Every line of an ingredient, that of formulas taken in too; lines that take a part or a known formula in stand for those. */
export function weighedOf(formula: ResolvedFormula): readonly ResolvedLine[] {
  return formula.parts.flatMap((part) =>
    part.lines.flatMap((line) => (line.part !== undefined ? [] : line.uses ? weighedOf(line.uses) : [line])),
  );
}

function sorted(ids: ReadonlySet<string>): readonly string[] {
  return [...ids].sort();
}
