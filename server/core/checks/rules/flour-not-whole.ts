import type { ResolvedLine, ResolvedPart } from '../../formula/model';
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { replaceNumber, written } from '../edits';
import { against, named, percent } from '../words';

/** More ways out than this are a question, not an answer. */
const MOST_FIXES = 3;

export const flourNotWhole = defineCheck({
  code: 'flour-not-whole',
  severity: 'error',
  title: 'The flours do not come to 100 %',
  why:
    'All the flour is 100 %, and every other share is measured against it. If the flours add up to something else, ' +
    'every weight worked out from a share is off by the same amount, the salt and the water first of all.',
  source: 'definition of baker’s percentages: the flours together are 100 %',
  trips: `formula "Rye loaf"
  makes     1 loaf of 860 g

dough
  «80 %»      bread flour
  15 %      dark rye flour
  70 %      water
  2 %       salt
`,
  passes: `formula "Rye loaf"
  makes     1 loaf of 860 g

dough
  80 %      bread flour
  20 %      dark rye flour
  70 %      water
  2 %       salt
`,
  fixed: `formula "Rye loaf"
  makes     1 loaf of 860 g

dough
  85 %      bread flour
  15 %      dark rye flour
  70 %      water
  2 %       salt
`,
  find: (context) =>
    troublesOf(context, 'flour-not-whole').map(({ place, part, pct, gramsToo }) => ({
      place,
      message: gramsToo
        ? `The flours written as shares in ${named(part)} already come to ${percent(pct)}, which leaves nothing for ` +
          'the flour in grams. ' +
          'Lower a share, so that the flour in grams is the rest of the 100 %.'
        : `The flours of ${named(part)} come to ${against(pct, 100)} %, not to 100 %, so ${
            pct > 100 ? 'everything else is weighed too small for the flour that goes in' : 'part of the flour is missing'
          }. ${Math.abs(pct - 1) < 0.02 ? 'Shares are per cent and no fractions: write `100 %` for all of it.' : 'Change one flour until they do.'}`,
      fixes: gramsToo ? [] : fixes(context, place.block, pct),
    })),
});

/** One fix for each flour written as a share that can take up the whole difference. */
function fixes({ formula }: CheckContext, block: number, pct: number): readonly Fix[] {
  const part = formula?.parts.find((candidate) => candidate.block === block);
  if (part === undefined) {
    return [];
  }
  return flourShares(part)
    .flatMap(({ line, num }) => {
      const share = num.value + 100 - pct;
      if (share <= 0) {
        return [];
      }
      const newText = written(share, '%');
      const title = `Make ${named(line.name)} ${percent(share)}`;
      return [{ title, certain: false, edits: [replaceNumber(line.place.block, num, newText)] }];
    })
    .slice(0, MOST_FIXES);
}

function flourShares(part: ResolvedPart) {
  return part.lines.flatMap((line: ResolvedLine) => {
    const amount = line.source?.kind === 'ingredient' ? line.source.amount : undefined;
    return line.role === 'flour' && line.inDough && amount?.kind === 'share' && amount.quantity.high === undefined
      ? [{ line, num: amount.quantity.low }]
      : [];
  });
}
