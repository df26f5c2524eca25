/** What a batch costs, in words. */
import { costReport } from '../../core/facts';
import type { ResolvedFormula } from '../../core/formula/model';
import { singular } from '../../core/scaling/nouns';
import { named, type FactBlock } from './words';

/** Nothing for a formula of which nothing has a price: nobody asked what it costs. */
export function costFacts(formula: ResolvedFormula): FactBlock | undefined {
  if (!hasPrices(formula)) return undefined;
  const { amount, currency, perPiece, unpriced } = costReport(formula);
  const title = 'Cost';
  if (amount === null || currency === null) {
    const why = unpriced.length > 0 ? `no price or weight of ${named(unpriced)}` : 'the prices are in more than one currency, or a weight is not known';
    return { title, about: undefined, facts: [{ label: 'not known', value: why }], notes: [] };
  }
  const money = (value: number): string => `${value.toFixed(2)} ${currency}`;
  const each = perPiece === null ? [] : [{ label: `one ${singular(formula.yield.noun)}`, value: money(perPiece) }];
  return { title, about: undefined, facts: [{ label: 'all of it', value: money(amount) }, ...each], notes: ['Ingredients only, at the prices of their `costs` lines.'] };
}

function hasPrices({ parts }: ResolvedFormula): boolean {
  return parts.some(({ lines }) => lines.some(({ ingredient, uses }) => (ingredient?.cost ?? null) !== null || (uses !== undefined && hasPrices(uses))));
}
