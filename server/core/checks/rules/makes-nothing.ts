import { defineCheck } from '../define';
import { nothingMade, type NothingMade } from '../makes';

const MESSAGES: Readonly<Record<NothingMade['what'], string>> = {
  pieces: 'This makes no pieces at all, so what one of them weighs, costs and needs in the oven is not known. Write how many: 1 or more.',
  weight: 'A piece of no weight leaves the dough without a size. Write what one weighs before the oven, like `900 g`.',
  tin: 'A tin of no room holds no dough, so its size says nothing. Write how much water fills one, like `1.8 l`.',
};

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
    const nothing = nothingMade(formula);
    return nothing === undefined ? [] : [{ place: nothing.place, message: MESSAGES[nothing.what] }];
  },
});
