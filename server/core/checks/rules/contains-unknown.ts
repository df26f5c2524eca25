import { unknownAllergens } from '../../ingredients/allergens';
import { defineCheck, type Found } from '../define';
import { placeOf } from '../walk';
import { named } from '../words';

export const containsUnknown = defineCheck({
  code: 'contains-unknown',
  severity: 'warning',
  title: 'An allergen that no list knows',
  why:
    'What an ingredient `contains` goes into the allergens of every formula that uses it, by the classes that food law ' +
    'names. A word that is none of them would be left out of every label.',
  source: 'Regulation (EU) 1169/2011, Annex II, and US law (nine classes)',
  trips: `ingredient "our spread"
  like      jam
  contains  milk, «nutz»
`,
  passes: `ingredient "our spread"
  like      jam
  contains  milk, hazelnuts
`,
  find: ({ section }) =>
    section.blocks.flatMap((block, index): readonly Found[] =>
      block.head.node.kind !== 'ingredient'
        ? []
        : unknownAllergens(block).map((item) => ({
            place: placeOf(index, item),
            message:
              `${named(item.text)} is no allergen that food law lists, so no list of allergens names it. Write one of ` +
              `its classes, ` +
              'like `nuts`, `milk` or `sesame`.',
          })),
    ),
});
