import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';

export const planTwoTimes = defineCheck({
  code: 'plan-two-times',
  severity: 'warning',
  title: 'A plan with two times',
  why:
    'One day has one time: all is ready by then, or work begins then. An order that is wanted at another time says so at the end of its own line.',
  source: 'definition of the language',
  trips: planText({ more: ['«start     2026-03-13 18:00»'] }),
  passes: planText({ order: 'bake      4 loaves of "Country loaf", ready 07:00' }),
  find: (context) =>
    troublesOfPlan(context, 'second-time').map(({ place, first }) => ({
      place,
      message: 'This plan has a time already, and only the first one counts. Take one of the two out; one order of its own time ends with, for example, `, ready 07:00`.',
      related: [{ place: first, message: 'This time counts.' }],
    })),
});
