/** A `makes` line of nothing: no pieces, pieces of 0 g, tins of 0 l. */
import { quantityMiddle } from '../../../grammar';
import type { Place, ResolvedFormula } from '../formula/model';

export interface NothingMade {
  readonly what: 'pieces' | 'weight' | 'tin';
  readonly place: Place;
}

/** Which of its numbers is nothing, and where; undefined for a formula that makes something, or does not say. */
export function nothingMade(formula: ResolvedFormula | undefined): NothingMade | undefined {
  if (formula?.makes === undefined) {
    return undefined;
  }
  const { node: { pieces, noun, each }, place: { block } } = formula.makes;
  if (pieces !== undefined && quantityMiddle(pieces) <= 0) {
    return { what: 'pieces', place: { block, start: pieces.start, end: noun?.end ?? pieces.end } };
  }
  return each === undefined || quantityMiddle(each.quantity) > 0
    ? undefined
    : { what: each.kind === 'volume' ? 'tin' : 'weight', place: { block, start: each.start, end: each.end } };
}
