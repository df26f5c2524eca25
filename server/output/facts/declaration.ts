/** The ingredients in the order of a label, as a draft for one. */
import { allergensOf, declarationOf, type Declared, type LawList } from '../../core/facts';
import type { ResolvedFormula } from '../../core/formula/model';
import { named, type Fact, type FactBlock } from './words';

/** Stands beside every list. */
export const DRAFT = 'a draft: local food law comes first';

/** Nothing where nothing is weighed. */
export function declarationFacts(formula: ResolvedFormula, list: LawList = 'both'): FactBlock | undefined {
  const declared = declarationOf(formula, list);
  if (declared.length === 0) return undefined;
  const unweighed = declared.filter(({ grams }) => grams === null).map(({ name }) => name);
  const { unknown, checkLabel } = allergensOf(formula);
  const facts: Fact[] = [{ label: 'ingredients', value: listWords(declared) }];
  if (unweighed.length > 0) facts.push({ label: 'place not known', value: `of ${named(unweighed)}, for want of a weight` });
  return {
    title: 'Ingredients list', about: DRAFT, facts,
    notes: [
      'Heaviest first, as weighed into the bowl; allergens in capitals. Names are those of the formula: write the ones that your law and the packets give.',
      ...(list === 'us' ? [] : ['Water has the place of what is left of it after the oven, as EU law has it.']),
      ...(unknown.length > 0 || checkLabel.length > 0 ? ['More allergens may be in what is bought ready made: see the list above, and the packets.'] : []),
    ],
  };
}

/** `bread flour (WHEAT), water, salt` */
export function listWords(declared: readonly Declared[]): string {
  return declared.map(({ text }) => text).join(', ');
}
