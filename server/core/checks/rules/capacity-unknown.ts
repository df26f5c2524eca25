import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';
import { capital, named } from '../words';

export const capacityUnknown = defineCheck({
  code: 'capacity-unknown',
  severity: 'warning',
  title: 'Room that nobody can reckon with',
  why:
    'An oven or a fridge is counted in pieces that the plan bakes, or in weight of dough, and a mixer in weight. A number of something ' +
    'else says nothing of how many loaves go in.',
  source: 'definition of the language',
  trips: planText({ more: ['«mixer     holds 20 l»'] }),
  passes: planText({ more: ['mixer     holds 3 kg'] }),
  find: (context) => [
    ...troublesOfPlan(context, 'needs-a-weight').map(({ place, name }) => ({
      place,
      message: `${capital(name)}: how much dough it takes is not said, so it limits nothing. Write a weight, for example \`mixer holds 3 kg\`.`,
    })),
    ...troublesOfPlan(context, 'room-unknown').map(({ place, noun }) => ({
      place,
      message: `Nothing on this plan is counted in ${named(noun)}, so how much goes in is not known, and it limits nothing. Count pieces that you bake, or write a weight of dough.`,
    })),
  ],
});
