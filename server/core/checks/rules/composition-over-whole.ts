import { quantityMiddle } from '../../../../grammar';
import { defineCheck, type Found } from '../define';
import { headPlace, linesOf } from '../walk';
import { percent } from '../words';

const PARTS = new Set<string>(['water', 'protein', 'fat', 'sugar', 'salt', 'fibre']);

export const compositionOverWhole = defineCheck({
  code: 'composition-over-whole',
  severity: 'error',
  title: 'An ingredient that is more than the whole of itself',
  why:
    'Water, protein, fat, sugar, salt and fibre of an ingredient are shares of its weight, and cannot come to more ' +
    'than all of it.',
  source: 'arithmetic; a label rounds each figure, so two per cent more is let pass',
  trips: `«ingredient "quince paste"»
  water     60 %
  sugar     55 %
`,
  passes: `ingredient "quince paste"
  water     30 %
  sugar     62 %
`,
  find: ({ section }) =>
    section.blocks.flatMap(({ head }, index): readonly Found[] => {
      if (head.node.kind !== 'ingredient') {
        return [];
      }
      const sum = linesOf(section).reduce((total, { block, line: { node } }) => {
        const share = block === index && node.kind === 'property' && PARTS.has(node.key) && node.value.kind === 'amount' ? node.value.amount : undefined;
        return share?.kind === 'share' ? total + quantityMiddle(share.quantity) : total;
      }, 0);
      return sum <= 102
        ? []
        : [
            {
              place: headPlace(section, index),
              message:
                `The shares of this ingredient come to ${percent(sum)} of its weight, more than all of it (100 %), so the water, fat and ` +
                'energy worked out with it are wrong. Correct the share that is too large.',
            },
          ];
    }),
});
