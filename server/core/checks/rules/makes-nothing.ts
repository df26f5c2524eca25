import { quantityMiddle } from '../../../../grammar';
import { defineCheck } from '../define';

export const makesNothing = defineCheck({
  code: 'makes-nothing',
  severity: 'error',
  title: 'A formula that makes nothing',
  why:
    '`makes` says how large the dough is. No pieces, pieces of 0 g or tins of 0 l are no size: the shares have nothing to be ' +
    'shares of, and a piece has no weight, no price and no label.',
  source: 'arithmetic: nothing can be shared out over nothing',
  trips: `formula "Country loaf"
  makes     «0 loaves» of 900 g

dough
  100 %     bread flour
  70 %      water
  2 %       salt
`,
  passes: `formula "Country loaf"
  makes     2 loaves of 900 g

dough
  100 %     bread flour
  70 %      water
  2 %       salt
`,
  find: ({ formula }) => {
    const makes = formula?.makes;
    if (makes === undefined) {
      return [];
    }
    const { node: { pieces, noun, each }, place: { block } } = makes;
    if (pieces !== undefined && quantityMiddle(pieces) <= 0) {
      const end = noun?.end ?? pieces.end;
      const message =
        'This makes no pieces at all, so what one of them weighs, costs and needs in the oven is not known. Write how many: 1 or more.';
      return [{ place: { block, start: pieces.start, end }, message }];
    }
    if (each === undefined || quantityMiddle(each.quantity) > 0) {
      return [];
    }
    const message =
      each.kind === 'volume'
        ? 'A tin of no room holds no dough, so its size says nothing. Write how much water fills one, like `1.8 l`.'
        : 'A piece of no weight leaves the dough without a size. Write what one weighs before the oven, like `900 g`.';
    return [{ place: { block, start: each.start, end: each.end }, message }];
  },
});
