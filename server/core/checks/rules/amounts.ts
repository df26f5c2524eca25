/** Checks on single lines whose amount or name cannot be turned into grams. */
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { lineEnd } from '../edits';
import { textAt } from '../walk';
import { didYouMean, named, quotedName, writtenName } from '../words';

export const unknownIngredient = defineCheck({
  code: 'unknown-ingredient',
  severity: 'warning',
  title: 'An ingredient that the table does not know',
  why:
    'The weight of an unknown ingredient counts, but what is in it does not: its water, sugar, fat and salt stay out of the totals, and its ' +
    'allergens out of the label. Often it is only a slip of spelling.',
  source: 'the ingredient table that ships',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  10 g      «sallt»
  10 g      salt
`,
  passes: `ingredient "village bran"
  like      wheat bran

formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      village bran
  20 g      salt
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  10 g      salt
  10 g      salt
`,
  find: (context) =>
    troublesOf(context, 'unknown-ingredient').map(({ place, name, nearest }) => ({
      place,
      message:
        `${named(name)} is not in the ingredient table. Its weight counts; its water, sugar, salt and allergens do not.` +
        (nearest.length > 0 ? didYouMean(nearest) : ` To make it known, add a block \`ingredient ${quotedName(name)}\`.`),
      fixes: [
        ...nearest.map((candidate) => ({
          title: `Write ${named(candidate)}`,
          certain: false,
          edits: [{ place, newText: writtenName(candidate) }],
        })),
        ...addIngredient(context, name),
      ],
    })),
});

/** An `ingredient` block behind the section, for the baker to fill in. */
function addIngredient({ section }: CheckContext, name: string): readonly Fix[] {
  const block = section.blocks.length - 1;
  const text = section.blocks[block]?.text;
  if (text === undefined || name.trim() === '') {
    return [];
  }
  const end = lineEnd(section, block);
  const gap = /(?:^|\n)\s*$/.test(text) ? '' : end;
  const place = { block, start: text.length, end: text.length };
  const newText = `${gap}${end}ingredient ${quotedName(name)}${end}  role      other${end}`;
  return [{ title: `Add a block for ${named(name)}`, certain: false, edits: [{ place, newText }] }];
}

export const needsAWeight = defineCheck({
  code: 'needs-a-weight',
  severity: 'error',
  title: 'A measure that cannot be weighed',
  why:
    'A cup of one thing weighs three times a cup of another, and nobody knows what “1” of something weighs unless it is written down. Until it is, ' +
    'the weight of the dough and every share are unknown.',
  source: 'the ingredient table that ships; household weights from the USDA National Nutrient Database for Standard Reference',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  «2 cups»    flaked almonds
  20 g      salt
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  2 cups (160 g) flaked almonds
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'needs-a-weight').map(({ place, name, unit }) => {
      const amount = textAt(context.section, place);
      const example = `\`${amount} (120 g) ${writtenName(name)}\``;
      return {
        place,
        message:
          unit === 'each'
            ? `Nothing says what one ${named(name)} weighs, so ${amount} of it cannot be weighed. Write the weight in brackets, ` +
              `like ${example}, or give it an \`each 50 g\` line in an \`ingredient\` block.`
            : `Nothing says what one ${unit} of ${named(name)} weighs. Write the weight in brackets, like ${example}, ` +
              'or give it a `density 0.5 g per ml` line in an `ingredient` block.',
      };
    }),
});

export const shareOfNothing = defineCheck({
  code: 'share-of-nothing',
  severity: 'error',
  title: 'A share with nothing to take it of',
  why: 'A share is a part of something: of the flour in a dough, of the weighed lines where there is no flour. Where everything is a share, nothing can be weighed.',
  source: 'definition of the language',
  trips: `dish "Bread pudding"
  serves    4

«custard»
  70 %      milk
  30 %      eggs
`,
  passes: `dish "Bread pudding"
  serves    4

custard
  350 g     milk
  150 g     eggs
`,
  find: (context) =>
    troublesOf(context, 'share-of-nothing').map(({ place, part }) => ({
      place,
      message: `${named(part)} is written in shares alone, and there is nothing that fixes how much it is. Write a weight for one line at least.`,
    })),
});

export const contradiction = defineCheck({
  code: 'contradiction',
  severity: 'error',
  title: 'Facts that cannot all be true',
  why: 'When two lines fix the same weight in different ways, there is no dough that satisfies both, and no number shown for it would be right.',
  source: 'arithmetic',
  trips: `formula "Raisin loaf"
  «makes     1 loaf of 400 g»

dough
  100 %     bread flour
  300 g     water
  2 %       salt
  150 g     raisins
`,
  passes: `formula "Raisin loaf"
  makes     1 loaf of 880 g
  style     hearth, with inclusions

dough
  100 %     bread flour
  300 g     water
  2 %       salt
  150 g     raisins
`,
  find: (context) => troublesOf(context, 'contradiction').map(({ place, message }) => ({ place, message })),
});
