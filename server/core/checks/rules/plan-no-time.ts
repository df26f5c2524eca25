import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';

export const planNoTime = defineCheck({
  code: 'plan-no-time',
  severity: 'warning',
  title: 'A plan that says no time',
  why:
    'A bake day is planned back from when the bread must be ready, or on from when work begins. Without either, nothing on it can ' +
    'be put on the clock.',
  source: 'definition of the language',
  trips: planText({ name: '«plan "Saturday"»', ready: '' }),
  passes: planText(),
  find: (context) =>
    troublesOfPlan(context, 'no-time').map(({ place }) => ({
      place,
      message: 'This plan says no time, so it cannot be scheduled. Write when all must be ready, for example `ready 2026-03-14 08:00`, or when work begins with `start`.',
    })),
});
