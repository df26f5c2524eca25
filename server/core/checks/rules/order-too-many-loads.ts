import { MOST_LOADS } from '../../plan/constants';
import { defineCheck } from '../define';
import { planText, troublesOfPlan } from '../plan';
import { named } from '../words';

export const orderTooManyLoads = defineCheck({
  code: 'order-too-many-loads',
  severity: 'warning',
  title: 'More loads than a day has',
  why:
    'An order that fills the oven hundreds of times is a slip of the keys, and no schedule is made for it.',
  source: 'common practice, no source',
  trips: planText({ order: '«bake      4000 loaves of "Country loaf"»' }),
  passes: planText(),
  find: (context) =>
    troublesOfPlan(context, 'too-many-loads').map(({ place, name, loads }) => ({
      place,
      message: `With ${named(name)} the oven would be filled ${loads} times, and a plan has at most ${MOST_LOADS.value} loads. Order less, or look at the number again.`,
    })),
});
