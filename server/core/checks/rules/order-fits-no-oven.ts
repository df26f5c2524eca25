import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';
import { grams, named } from '../words';

export const orderFitsNoOven = defineCheck({
  code: 'order-fits-no-oven',
  severity: 'error',
  title: 'A piece that no oven takes',
  why:
    'A piece that is larger than all that an oven of this plan holds cannot be baked there.',
  source: 'definition of the language',
  trips: planText({ oven: 'oven      holds 600 g', order: '«bake      4 loaves of "Country loaf"»' }),
  passes: planText(),
  find: (context) =>
    troublesOfPlan(context, 'fits-no-oven').map(({ place, name, pieceGrams, mostGrams }) => ({
      place,
      message: `One piece of ${named(name)} is ${grams(pieceGrams)} of dough, and no oven of this plan holds more than ${grams(mostGrams)}. Correct the oven, or make smaller pieces.`,
    })),
});
