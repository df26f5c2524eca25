import type { PlanTrouble } from '../../plan/model';
import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';
import { capital, plain } from '../words';

export const capacityOdd = defineCheck({
  code: 'capacity-odd',
  severity: 'error',
  title: 'A number on a plan that comes to nothing',
  why:
    'An oven that holds nothing bakes nothing, half a person shapes nothing, and an order of nothing is no order. Such a line is left ' +
    'out until it says a number.',
  source: 'definition of the language',
  trips: planText({ more: ['«hands     0»'] }),
  passes: planText({ more: ['hands     2'] }),
  find: (context) => troublesOfPlan(context, 'odd-number').map((trouble) => ({ place: trouble.place, message: `${capital(saidOf(trouble))}. Until then this line is left out.` })),
});

function saidOf({ what, value, why }: Extract<PlanTrouble, { kind: 'odd-number' }>): string {
  switch (why) {
    case 'none': return `${what} ${plain(value)} comes to nothing: write a number above 0`;
    case 'not-whole': return `${what} ${plain(value)} is not a whole number: write one, such as ${Math.max(1, Math.round(value))}`;
    case 'too-many': return `${what} ${plain(value)} is more than any plan can have: write the number that there are`;
  }
}
