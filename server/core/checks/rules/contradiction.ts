import { defineCheck, troublesOf } from '../define';

export const contradiction = defineCheck({
  code: 'contradiction',
  severity: 'error',
  title: 'Facts that cannot all be true',
  why:
    'When two lines fix the same weight in different ways, there is no dough that satisfies both, and no number ' +
    'shown for it would be right.',
  source: 'arithmetic',
  trips: `formula "Raisin loaf"
  «makes     1 loaf of 400 g»

dough
  100 %     bread flour
  300 g     water
  2 %       salt
  150 g     raisins
`,
  passes: `formula "Raisin loaf"
  makes     1 loaf of 880 g
  style     hearth, with inclusions

dough
  100 %     bread flour
  300 g     water
  2 %       salt
  150 g     raisins
`,
  find: (context) => troublesOf(context, 'contradiction').map(({ place, message }) => ({ place, message })),
});
