import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { scaledBlock } from '../edits';
import { grams, named } from '../words';

export const partShort = defineCheck({
  code: 'part-short',
  severity: 'error',
  title: 'More is called for than the part makes',
  why:
    'A preferment written in grams makes what it makes. If the dough calls for more, you find out with the bowl ' +
    'empty and the dough half mixed.',
  source: 'arithmetic',
  trips: `formula "Country loaf"

levain
  60 g      bread flour
  60 g      water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  «200 g»     levain
  20 g      salt
`,
  passes: `formula "Country loaf"

levain
  60 g      bread flour
  60 g      water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  140 g     levain
  20 g      salt
`,
  fixed: `formula "Country loaf"

levain
  86 g      bread flour
  86 g      water
  29 g      starter

dough
  900 g     bread flour
  600 g     water
  200 g     levain
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-short').map(({ place, name, madeGrams, calledForGrams }) => ({
      place,
      message:
        `${grams(calledForGrams)} of ${named(name)} is called for, but it makes ${grams(madeGrams)}: ` +
        `${grams(calledForGrams - madeGrams)} is missing. Make more of it, or ask for less.`,
      fixes: makeMore(context, name, madeGrams, calledForGrams),
    })),
});

function makeMore({ section, formula }: CheckContext, name: string, madeGrams: number, calledForGrams: number): readonly Fix[] {
  const part = formula?.parts.find((candidate) => candidate.name === name);
  if (part === undefined || madeGrams <= 0) {
    return [];
  }
  const edits = scaledBlock(section, part.block, calledForGrams / madeGrams);
  return edits.length === 0 ? [] : [{ title: `Make ${grams(calledForGrams)} of ${named(name)}`, certain: false, edits }];
}
