import { quantityMiddle, type Name, type UsesLine } from '../../../../grammar';
import { SLICE_GRAMS } from '../../facts/constants';
import type { CheckContext } from '../check';
import { defineCheck, type Found } from '../define';
import { missingFormula } from '../names';
import { named, quotedName, trimmed } from '../words';

export const usesNotWeighed = defineCheck({
  code: 'uses-not-weighed',
  severity: 'info',
  title: 'Slices that nobody weighed',
  why:
    'A slice weighs what the knife makes of it. Without a weight, what the dish takes of a loaf counts in no total, ' +
    'cost or nutrition.',
  source: 'common practice, no source: slices differ by more than half',
  trips: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Bread pudding"
  serves    4
  uses      «8 slices of "Milk loaf"»

custard
  300 g     milk
`,
  passes: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Bread pudding"
  serves    4
  uses      8 slices (400 g) of "Milk loaf"

custard
  300 g     milk
`,
  find: (context) =>
    (context.formula?.parts ?? []).flatMap((part) =>
      part.lines.flatMap((line): readonly Found[] => {
        const { source } = line;
        // Where the formula itself is missing, that is the finding.
        if (source?.kind !== 'uses' || line.grams !== null || isMissing(context, source.formula)) {
          return [];
        }
        const what = source.noun === undefined ? 'they' : `the ${source.noun.text}`;
        return [
          {
            place: { ...line.place, start: line.amountPlace.start },
            message:
              `Nothing says what ${what} weigh, so ${named(source.formula.text)} counts in no total of this dish. ` +
              `Write a weight, like \`${weighed(source)}\`.`,
          },
        ];
      }),
    ),
});

/** The line with a weight, as an example: slices of so many grams are a guess of ours, and of loaves nobody can say. */
function weighed({ amount, noun, formula }: UsesLine): string {
  const name = quotedName(formula.text);
  if (amount.kind !== 'count' || noun === undefined || !/^slices?$/i.test(noun.text)) {
    return `uses 300 g ${name}`;
  }
  const pieces = quantityMiddle(amount.quantity);
  return `uses ${trimmed(pieces, 1)} ${noun.text} (${trimmed(pieces * SLICE_GRAMS.value, 0)} g) of ${name}`;
}

function isMissing(context: CheckContext, name: Name): boolean {
  return missingFormula(context, 0, name, 'taken in').length > 0;
}
