import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { lineEnd } from '../edits';
import { remembering } from '../walk';
import { didYouMean, named, quotedName, writtenName } from '../words';

export const unknownIngredient = defineCheck({
  code: 'unknown-ingredient',
  severity: 'warning',
  title: 'An ingredient that the table does not know',
  why:
    'The weight of an unknown ingredient counts, but what is in it does not: its water, sugar, fat and salt stay out ' +
    'of the totals, and its allergens out of the label. Often it is only a slip of spelling.',
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

/** An `ingredient` block behind the section, for the baker to fill in. What counts as flour by its name still does. */
function addIngredient(context: CheckContext, name: string): readonly Fix[] {
  const { section } = context;
  const block = section.blocks.length - 1;
  const text = section.blocks[block]?.text;
  if (text === undefined || name.trim() === '') {
    return [];
  }
  const end = lineEnd(section, block);
  const written = text.trimEnd();
  const gap = written === '' || text.slice(written.length).includes('\n') ? '' : end;
  const place = { block, start: text.length, end: text.length };
  const newText = `${gap}${end}ingredient ${quotedName(name)}${end}  role      ${flourNames(context).has(name) ? 'flour' : 'other'}${end}`;
  return [{ title: `Add a block for ${named(name)}`, certain: false, edits: [{ place, newText }] }];
}

const flourNames = remembering(({ formula }: CheckContext): ReadonlySet<string> => (
  new Set(formula?.parts.flatMap(({ lines }) => lines.flatMap(({ name, role }) => (role === 'flour' ? [name] : []))))
));
