import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';
import { named } from '../words';

export const orderNoSize = defineCheck({
  code: 'order-no-size',
  severity: 'error',
  title: 'An order of no known size',
  why:
    'What is ordered in pieces needs a formula that says how many it makes, and what is ordered by weight one whose dough has a weight.',
  source: 'definition of the language',
  trips: `formula "Flatbread"

dough
  500 g     bread flour
  300 g     water
  10 g      salt
  5 g       instant yeast

steps
  mix       10 min
  bulk      1 h at 26 C
  preheat   30 min at 250 C
  bake      6 min at 250 C

plan "Saturday"
  ready     2026-03-14 08:00 Europe/Lisbon
  oven      holds 4 flatbreads
  «bake      8 of "Flatbread"»
`,
  passes: planText(),
  find: (context) =>
    troublesOfPlan(context, 'no-size').map(({ place, name, message }) => ({ place, message: `How much of ${named(name)} this is cannot be known. ${message}` })),
});
