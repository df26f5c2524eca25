import type { Place } from '../../formula/model';
import { scaleEdit } from '../../scaling/edit';
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { linesOfBlock, placeOf } from '../walk';
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
  28.6 g    starter

dough
  900 g     bread flour
  600 g     water
  200 g     levain
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-short').map(({ place, name, madeGrams, calledForGrams, kept }) => ({
      place: kept === true ? keepPlace(context, place) : place,
      message: kept === true
        ? `${named(name)} makes ${grams(madeGrams)}, and \`keep\` holds back ${grams(calledForGrams)} of it: nothing is left for the dough. ` +
          'Make more of it, or keep less.'
        :
        `${grams(calledForGrams)} of ${named(name)} is called for, but it makes ${grams(madeGrams)}: ` +
        `${grams(calledForGrams - madeGrams)} is missing. Make more of it, or ask for less.`,
      // All the amounts larger would keep more back as well.
      fixes: kept === true ? [] : makeMore(context, name, madeGrams, calledForGrams),
    })),
});

function keepPlace({ section }: CheckContext, part: Place): Place {
  const tree = section.blocks[part.block];
  const keep = tree && linesOfBlock(tree, part.block).find(({ line: { node } }) => node.kind === 'property' && node.key === 'keep');
  return keep === undefined ? part : placeOf(part.block, keep.line.node);
}

function makeMore({ section, formula }: CheckContext, name: string, madeGrams: number, calledForGrams: number): readonly Fix[] {
  const part = formula?.parts.find((candidate) => candidate.name === name);
  if (formula === undefined || part === undefined || madeGrams <= 0) {
    return [];
  }
  const factor = calledForGrams / madeGrams;
  const { edits } = scaleEdit({ section, formula, factor, request: { by: 'factor', factor }, step: { grams: 1, smallGrams: 0.1 }, blocks: new Set([part.block]) });
  return edits.length === 0 ? [] : [{ title: `Make ${grams(calledForGrams)} of ${named(name)}`, certain: false, edits }];
}
