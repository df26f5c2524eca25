import { defineCheck, sizeIsMisread, troublesOf } from '../define';
import { nothingMade } from '../makes';
import { named } from '../words';

export const noSize = defineCheck({
  code: 'no-size',
  severity: 'error',
  title: 'Nothing says how much',
  why:
    'Percentages say how the ingredients relate, not how much to weigh. One weight anywhere in the dough, or a ' +
    '`makes` line with a weight, fixes all the others. Without one there is nothing to put on the scale.',
  source: 'arithmetic: shares without one weight have no single answer',
  trips: `formula "Country loaf"
  room      22 C

«dough»
  100 %     bread flour
  70 %      water
  2 %       salt
`,
  passes: `formula "Country loaf"
  makes     1 loaf of 860 g

dough
  100 %     bread flour
  70 %      water
  2 %       salt
`,
  find: (context) =>
    // Each of these has its own finding, and what it leaves out may be the size.
    sizeIsMisread(context.section) || nothingMade(context.formula) !== undefined
      ? []
      : troublesOf(context, 'no-size').map(({ place, part }) => ({
          place,
          message:
            `Nothing fixes how much ${named(part)} there is: its amounts are all shares. ` +
            'Write one of them in grams, or say what the formula makes, like `makes 2 loaves of 900 g`.',
        })),
});
