/** The allergens of a formula in the words of a label. */
import { allergensOf } from '../../core/facts';
import type { ResolvedFormula } from '../../core/formula/model';
import { allergenLabels } from '../../core/ingredients/allergens';
import { named, type Fact, type FactBlock } from './words';

/** Which lists are shown. */
export type AllergenLists = 'eu' | 'us' | 'both';

/** Always something, where anything is weighed: that no class was found is said too. */
export function allergenFacts(formula: ResolvedFormula, lists: AllergenLists = 'both'): FactBlock | undefined {
  if (!formula.parts.some(({ lines }) => lines.length > 0)) return undefined;
  const { eu, us, checkLabel, unknown } = allergensOf(formula);
  const words = (ids: readonly string[], list: 'eu' | 'us'): string => allergenLabels(ids, list).join(', ') || 'none of the list';
  const facts: Fact[] = [];
  if (lists !== 'us') facts.push({ label: 'EU', value: words(eu, 'eu') });
  if (lists !== 'eu') facts.push({ label: 'US', value: words(us, 'us') });
  if (checkLabel.length > 0) facts.push({ label: 'check the label', value: named(checkLabel.map(checkWords), checkLabel.length) });
  if (unknown.length > 0) facts.push({ label: 'not known', value: `what is in ${named(unknown, unknown.length)}` });
  return { title: 'Allergens', about: undefined, facts, notes: [] };
}

/** A class in words; a word of the baker's own that no list knows stays as it is. */
function checkWords(id: string): string {
  return allergenLabels([id], 'eu')[0] ?? allergenLabels([id], 'us')[0] ?? id;
}
