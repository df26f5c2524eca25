import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';

export const planNoOrders = defineCheck({
  code: 'plan-no-orders',
  severity: 'warning',
  title: 'A plan that bakes nothing',
  why:
    'A plan lists what is baked that day and how much of it, one line for each formula.',
  source: 'definition of the language',
  trips: planText({ name: '«plan "Saturday"»', order: '' }),
  passes: planText(),
  find: (context) =>
    troublesOfPlan(context, 'no-orders').map(({ place }) => ({
      place,
      message: 'This plan bakes nothing yet. Write what and how much, for example `bake 6 loaves of "Country loaf"`.',
    })),
});
