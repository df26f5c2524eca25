import { quantityMiddle } from '../../../../grammar';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { grams, plain } from '../words';

export const piecesOdd = defineCheck({
  code: 'pieces-odd',
  severity: 'warning',
  title: 'A number of pieces that cannot be meant',
  why:
    'How many pieces a dough makes decides what each weighs, and with it its time in the oven, its price and its label. ' +
    'No pieces at all, or loaves of a few grams, are slips of the pen.',
  source: sourcesOf('pieces-odd'),
  limits: THRESHOLDS['pieces-odd'],
  trips: loaf({ head: ['«makes     860 loaves»'] }),
  passes: loaf({ head: ['makes     2 loaves'] }),
  find: ({ formula, limits }) => {
    const makes = formula?.makes;
    if (formula === undefined || makes === undefined) {
      return [];
    }
    const { node, place } = makes;
    const pieces = node.pieces === undefined ? undefined : quantityMiddle(node.pieces);
    const { pieceGrams } = formula.yield;
    const [least, most] = [limits.get('pieces-odd', 'leastGrams'), limits.get('pieces-odd', 'mostGrams')];
    // A weight of nothing is told by the check that compares it with the amounts.
    if (pieces === 0) {
      return formula.troubles.some(({ kind }) => kind === 'makes-disagrees')
        ? []
        : [
            {
              place,
              message: 'The formula makes no pieces at all, so nothing can be said of a piece. Write how many it makes.',
            },
          ];
    }
    if (pieceGrams === null || pieces === undefined || (pieceGrams >= least && pieceGrams <= most)) {
      return [];
    }
    return pieceGrams < least
      ? [
          {
            place,
            message: `${plain(pieces)} pieces of this dough are ${grams(pieceGrams)} each, under ${grams(least)}: crumbs. Is a digit too many, or \`g\` written for \`kg\`?`,
          },
        ]
      : [
          {
            place,
            message:
              `A piece of ${grams(pieceGrams)} is over ${grams(most)}, and no oven door is that wide. Is the number of ` +
              `pieces missing a digit?`,
          },
        ];
  },
});
