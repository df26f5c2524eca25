/** Why a number of a formula cannot be known: one sentence that names what is missing. */
import { unknownCompositions } from '../../core/formula/composition';
import { leavesOf } from '../../core/formula/contents';
import type { Totals } from '../../core/formula/model';
import { sourceText, type FormulaEntry } from '../entry';
import { named } from './words';

/** `Not known: 3 tsp grains of paradise has no weight.` Undefined when every line has its weight. */
export function whyUnknown({ formula, section }: Pick<FormulaEntry, 'formula' | 'section'>): string | undefined {
  if (formula.deltas.length > 0) return 'Not known: variants are not computed in this version yet.';
  const lines = formula.parts.flatMap((part) => part.lines).filter((line) => line.grams === null && line.inDough);
  if (lines.length === 0) return undefined;
  const sized = formula.troubles.find((trouble) => trouble.kind === 'no-size');
  if (sized) return `Not known: nothing fixes how much ${sized.part} is made.`;
  // A part without a weight, or a share of a flour that has none, follows from the line that really lacks it.
  const cause = formula.troubles.flatMap((trouble) => (trouble.kind === 'needs-a-weight' || trouble.kind === 'part-missing' ? [trouble.place] : []));
  const atFault = lines.filter(({ place, amountPlace }) => cause.some((at) => at.block === place.block && (at.start === amountPlace.start || (at.start >= place.start && at.end <= place.end))));
  const shown = (atFault.length > 0 ? atFault : lines.filter(({ part }) => part === undefined)).map((line) => (sourceText(section, line) ?? line.name).replace(/\s+/g, ' '));
  if (shown.length === 0) return 'Not known: the weight of a part is missing.';
  const distinct = [...new Set(shown)];
  return `Not known: ${named(distinct, 3)} ${distinct.length === 1 ? 'has' : 'have'} no weight.`;
}

const MISSING = { water: 'water', salt: 'salt', sugars: 'sugar', fat: 'fat', protein: 'protein' } as const;

/** `Not known of moon cheese: its water, salt, sugar and fat.` One for each ingredient that keeps a total from being known. */
export function compositionsUnknown({ formula, totals }: { readonly formula: FormulaEntry['formula']; readonly totals: Totals }): readonly string[] {
  if (formula.kind === 'dish') return [];
  return unknownCompositions(leavesOf(formula), totals.flour_g).map(({ name, missing }) => `Not known of ${name}: its ${named(missing.map((each) => MISSING[each]))}.`);
}
