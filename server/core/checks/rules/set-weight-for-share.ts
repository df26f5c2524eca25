import { inBase } from '../changes';
import { defineCheck, type Found } from '../define';
import { placeOf, textAt } from '../walk';
import { grams, named, trimmed } from '../words';

export const setWeightForShare = defineCheck({
  code: 'set-weight-for-share',
  severity: 'info',
  title: 'A weight in the place of a share',
  why:
    'A share follows the flour, whatever the size of the dough. A weight in its place stays what it is: where the base is made for ' +
    'more or fewer pieces, the variant has another balance, and a weight of flour is the size of the dough, whatever `makes` says.',
  source: 'definition of the language',
  trips: `formula "Country loaf"
  makes     2 loaves of 860 g

dough
  100 %     bread flour
  70 %      water
  2 %       salt

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to «750 g»
`,
  passes: `formula "Country loaf"
  makes     2 loaves of 860 g

dough
  100 %     bread flour
  70 %      water
  2 %       salt

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to 78.9 %
`,
  fixed: `formula "Country loaf"
  makes     2 loaves of 860 g

dough
  100 %     bread flour
  70 %      water
  2 %       salt

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to 78.87 %
`,
  find: ({ section, formula }) => (section.variant?.changes ?? []).flatMap(({ node, place, lines }): readonly Found[] => {
    const [line] = lines;
    if (node.kind !== 'set' || line === undefined || node.amount.kind === 'share' || node.amount.kind === 'all') return [];
    const base = section.variant?.base;
    const was = base?.blocks[line.block]?.lines.find(({ start }) => start === line.start)?.node;
    if (base === undefined || was?.kind !== 'ingredient' || was.amount.kind !== 'share') return [];
    const amount = placeOf(place.block, node.amount);
    const now = formula?.parts.flatMap((part) => part.lines).find(({ source, amountPlace }) => (
      source?.kind === 'ingredient' && textAt(section, amountPlace) === textAt(section, amount) && source.name.text === was.name.text
    ));
    const pct = (now?.listed ?? now)?.pct ?? null;
    const share = pct === null ? undefined : `${trimmed(pct, 2)} %`;
    const weighs = now?.grams ?? null;
    return [{
      place: amount,
      message:
        `${named(was.name.text)} is a share in ${named(base.name)}, ${textAt(base, placeOf(line.block, was.amount))}. ${weighs === null ? 'A weight' : grams(weighs)} stays the same when that is made larger or smaller, so the dough ` +
        `changes with its size.${share === undefined ? ' Write a share.' : ` As a share it is ${share} now.`}`,
      fixes: share === undefined ? [] : [{ title: `Write ${share}`, certain: false, edits: [{ place: amount, newText: share }] }],
      related: inBase(section, lines, 'A share in the base.'),
    }];
  }),
});
