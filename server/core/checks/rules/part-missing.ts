import { defineCheck, troublesOf } from '../define';
import { listed, named, nearestWords, quotedName, writtenName } from '../words';

export const partMissing = defineCheck({
  code: 'part-missing',
  severity: 'error',
  title: 'A part is taken in that nothing makes',
  why:
    '`all levain` takes in everything that the part of that name makes. If no part has the name, its flour, water ' +
    'and weight are missing from the dough, and no total can be trusted.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  all       «levian»
  20 g      salt
`,
  passes: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  all       levain
  20 g      salt
`,
  fixed: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  all       levain
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-missing').map(({ place, name, nearest }) => {
      const near = nearestWords(name, nearest);
      const there =
        nearest.length === 0
          ? 'This formula makes no other part yet'
          : `The ${nearest.length === 1 ? 'only part here is' : 'parts here are'} ${listed(nearest.map(named))}`;
      return {
        place,
        message:
          `No part is called ${named(name)}, so nothing is taken in. ${there}: correct the name, or open a part ` +
          `\`part ${quotedName(name)}\`.`,
        fixes: near.map((candidate) => ({
          title: `Take in ${named(candidate)}`,
          certain: false,
          edits: [{ place, newText: writtenName(candidate) }],
        })),
      };
    }),
});
