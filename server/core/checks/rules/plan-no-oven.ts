import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';

export const planNoOven = defineCheck({
  code: 'plan-no-oven',
  severity: 'warning',
  title: 'A plan without an oven',
  why:
    'How many loads there are, and how long the day is, hangs on what the oven takes at once. Without an oven line every order is taken ' +
    'to go in at once, beside all the others.',
  source: 'definition of the language',
  trips: planText({ name: '«plan "Saturday"»', oven: '' }),
  passes: planText(),
  find: (context) =>
    troublesOfPlan(context, 'no-oven').map(({ place }) => ({
      place,
      message: 'This plan has no oven, so everything is taken to go in at the same time. Write what it takes at once, for example `oven holds 4 loaves`.',
    })),
});
