import { shareOf, isYeast, namesOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, grams, listed, percent } from '../words';

export const yeastHigh = defineCheck({
  code: 'yeast-high',
  severity: 'warning',
  title: 'Very much yeast',
  why:
    'Above about 5 % fresh yeast (2 % instant) a lean dough is ripe before its flour is: it tastes of yeast and stales ' +
    'fast. So much is often fresh yeast written as instant, or a slip of the decimal point.',
  source: sourcesOf('yeast-high'),
  limits: THRESHOLDS['yeast-high'],
  trips: loaf({ more: ['«30 g»      instant yeast'] }),
  passes: loaf({ more: ['30 g      fresh yeast'] }),
  find: (context) => {
    const share = shareOf(context, isYeast);
    const fresh = context.reports.culture()?.freshYeastPct ?? null;
    const limit = context.limits.get('yeast-high', 'mostFreshPct');
    if (share === undefined || fresh === null || fresh <= limit) {
      return [];
    }
    const asFresh = Math.abs(fresh - share.pct) < 0.05 ? '' : `, which is worth ${against(fresh, limit)} % of fresh yeast`;
    const weight = share.leaves.reduce((sum, leaf) => sum + (leaf.grams ?? 0), 0);
    return [
      {
        place: share.place,
        message:
          `${grams(weight)} ${listed(namesOf(share.leaves))} is ${percent(share.pct)} of the flour${asFresh}; over ` +
          `${percent(limit)} fresh ` +
          'the bread tastes of yeast and stales fast. Take less and give it more time, or check which yeast is meant.',
      },
    ];
  },
});
