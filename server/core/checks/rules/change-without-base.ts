import { changeLinesIn } from '../../variant/changes';
import { basedOnOf } from '../../variant/write-out';
import { defineCheck } from '../define';
import { placeOf } from '../walk';

export const changeWithoutBase = defineCheck({
  code: 'change-without-base',
  severity: 'error',
  title: 'A change, and nothing that it changes',
  why: 'A `swap`, `set`, `add` or `drop` line in a formula changes what that one is based on. Without a `based on` line there is nothing to change.',
  source: 'definition of the language',
  trips: `formula "Wetter loaf"
  «set»       water to 750 g

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  passes: `formula "Wetter loaf"

dough
  1000 g    bread flour
  750 g     water
  20 g      salt
`,
  find: ({ section }) => {
    const [first] = basedOnOf(section) === undefined ? changeLinesIn(section) : [];
    return first === undefined ? [] : [{
      place: placeOf(first.place.block, first.node.keyword),
      message: 'This formula is based on no other, so there is nothing for this line to change. Name the formula that it starts from, ' +
        'as in `based on "Country loaf"`, or write the change into the dough itself.',
    }];
  },
});
