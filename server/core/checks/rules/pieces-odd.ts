import { quantityMiddle } from '../../../../grammar';
import type { CheckContext } from '../check';
import { defineCheck, soundTotals, type Found } from '../define';
import { doughPlace } from '../dough';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { grams, plain } from '../words';

export const piecesOdd = defineCheck({
  code: 'pieces-odd',
  severity: 'warning',
  title: 'A number of pieces that cannot be meant',
  why:
    'How many pieces a dough makes decides what each weighs, and with it its time in the oven, its price and its label. ' +
    'Loaves of a few grams, or a dough of some tons, are slips of the pen.',
  source: sourcesOf('pieces-odd'),
  limits: THRESHOLDS['pieces-odd'],
  trips: loaf({ head: ['«makes     860 loaves»'] }),
  passes: loaf({ head: ['makes     2 loaves'] }),
  find: (context) => {
    const { formula, limits } = context;
    const makes = formula?.makes;
    const get = (name: string) => limits.get('pieces-odd', name);
    const pieces = makes?.node.pieces === undefined ? undefined : quantityMiddle(makes.node.pieces);
    const pieceGrams = formula?.yield.pieceGrams ?? null;
    if (makes === undefined || pieces === undefined || pieceGrams === null) {
      return wholeDough(context, get('leastGrams'), get('mostDoughGrams'));
    }
    if (pieceGrams < get('leastGrams')) {
      const message =
        `${plain(pieces)} pieces of this dough are ${grams(pieceGrams)} each, under ${grams(get('leastGrams'))}: crumbs. ` +
        'Is a digit too many, or `g` written for `kg`?';
      return [{ place: makes.place, message }];
    }
    if (pieceGrams > get('mostGrams')) {
      const message =
        `A piece of ${grams(pieceGrams)} is over ${grams(get('mostGrams'))}, and no oven door is that wide. Is the number of ` +
        'pieces missing a digit?';
      return [{ place: makes.place, message }];
    }
    return [];
  },
});

/** A dough that nobody divides on paper: less than one small piece, or more than a bakery mixes in a day. */
function wholeDough(context: CheckContext, least: number, most: number): readonly Found[] {
  const doughGrams = soundTotals(context)?.dough_g ?? null;
  const place = doughPlace(context);
  if (place === undefined || doughGrams === null || (doughGrams >= least && doughGrams <= most)) {
    return [];
  }
  const message =
    doughGrams < least
      ? `The whole dough weighs ${doughGrams < 0.01 ? 'next to nothing' : grams(doughGrams)}, under ${grams(least)}: not even one small piece. ` +
        'Is a digit missing, or `g` written for `kg`?'
      : `The whole dough weighs ${grams(doughGrams)}, over ${grams(most)}, more than a bakery mixes. Is a digit too many, or \`kg\` written for \`g\`?`;
  return [{ place, message }];
}
