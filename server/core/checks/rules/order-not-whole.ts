import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';
import { grams, named, trimmed } from '../words';

export const orderNotWhole = defineCheck({
  code: 'order-not-whole',
  severity: 'warning',
  title: 'Pieces that are not whole',
  why:
    'Nobody bakes half a loaf. The schedule takes the nearest whole number, and the dough stays as it was ordered.',
  source: 'definition of the language',
  trips: planText({ order: '«bake      2 kg of "Country loaf"»' }),
  passes: planText({ order: 'bake      1.8 kg of "Country loaf"' }),
  find: (context) =>
    troublesOfPlan(context, 'pieces-not-whole').map(({ place, name, pieces, pieceGrams, unit }) => {
      const [fewer, more] = [Math.max(1, Math.floor(pieces)), Math.ceil(pieces)];
      const weighs = (count: number) => (unit === 'kg' && pieceGrams !== null ? `${count} (${grams(count * pieceGrams)})` : String(count));
      const either = fewer === more ? weighs(more) : `${weighs(fewer)} or ${weighs(more)}`;
      return { place, message: `That is ${trimmed(pieces, 2)} pieces of ${named(name)}, and pieces are whole. Order ${either}.` };
    }),
});
