import { quantityMiddle } from '../../../../grammar';
import { defineCheck, isMisread, type Found } from '../define';
import { loaf } from '../examples';
import { linesOf, placeOf } from '../walk';
import { named } from '../words';

export const amountZero = defineCheck({
  code: 'amount-zero',
  severity: 'warning',
  title: 'Nothing of an ingredient',
  why:
    'A line with an amount of nothing weighs nothing in and clutters the sheet. It is a number to be filled in, or a ' +
    'line to be taken out.',
  source: 'definition of the language',
  trips: loaf({ more: ['«0 g»       malt flour'] }),
  passes: loaf({ more: ['5 g       malt flour'] }),
  find: ({ section, formula }) =>
    formula === undefined
      ? []
      : linesOf(section).flatMap(({ block, line: { node } }): readonly Found[] => {
          if (node.kind !== 'ingredient' || node.amount.kind === 'all') {
            return [];
          }
          const { amount } = node;
          const mass = 'bracket' in amount && amount.bracket !== undefined ? amount.bracket : amount;
          return mass.quantity === undefined || quantityMiddle(mass.quantity) > 0 || isMisread(section, placeOf(block, node.amount))
            ? []
            : [
                {
                  place: placeOf(block, node.amount),
                  message:
                    `This line weighs in nothing of ${named(node.name.text)}. Write how much it is, or take the line out.`,
                },
              ];
        }),
});
