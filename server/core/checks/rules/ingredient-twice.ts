import { defineCheck, type Found } from '../define';
import { headNamePlace, namesakesRelated } from '../twice';
import { named } from '../words';

export const ingredientTwice = defineCheck({
  code: 'ingredient-twice',
  severity: 'warning',
  title: 'Two ingredients of one name',
  why:
    'Of two `ingredient` blocks with one name in a file only the later one counts. What the earlier one says of water, price ' +
    'or allergens is lost without a word.',
  source: 'definition of the language',
  trips: `ingredient «"River barley"»
  like      barley flour
  costs     1.90 EUR per kg

ingredient "river barley"
  like      barley flour
  absorbs   1.2 times its weight
`,
  tripsTimes: 2,
  passes: `ingredient "River barley"
  like      barley flour
  costs     1.90 EUR per kg
  absorbs   1.2 times its weight
`,
  find: ({ section, namesakes }) =>
    section.blocks.flatMap((block, index): readonly Found[] => {
      const { node } = block.head;
      const others = node.kind === 'ingredient' ? (namesakes?.of(block) ?? []) : [];
      const name = 'name' in node ? node.name : undefined;
      return others.length === 0 || name === undefined
        ? []
        : [
            {
              place: headNamePlace(block, index),
              message:
                `${named(name.text)} has ${others.length === 1 ? 'another block' : `${String(others.length)} other blocks`} in this file, and only the last of them ` +
                'counts. Put what all of them say into one.',
              related: namesakesRelated(others),
            },
          ];
    }),
});
