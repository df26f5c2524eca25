import { hasKey, shareOf } from '../contents';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const chemicalLeavenHigh = defineCheck({
  code: 'chemical-leaven-high',
  severity: 'warning',
  title: 'Very much baking powder or soda',
  why: 'Too much of it tastes of soap and metal, and the crumb rises fast and falls. It is often powder and soda mixed up.',
  source: sourcesOf('chemical-leaven-high'),
  limits: THRESHOLDS['chemical-leaven-high'],
  trips: loaf({
    head: ['style     flatbread'],
    dough: ['1000 g    bread flour', '650 g     water', '20 g      salt', '«40 g»      baking soda'],
  }),
  passes: loaf({
    head: ['style     flatbread'],
    dough: ['1000 g    bread flour', '650 g     water', '20 g      salt', '40 g      baking powder'],
  }),
  find: (context) => {
    const one = (key: string, name: string, limitName: string): readonly Found[] => {
      const share = shareOf(context, hasKey(key));
      const limit = context.limits.get('chemical-leaven-high', limitName);
      return share === undefined || share.pct <= limit
        ? []
        : [
            {
              place: share.place,
              message:
                `${name} is ${against(share.pct, limit)} % of the flour, over ${percent(limit)}: it will taste of ` +
                `soap. Take less, or check which of the two is meant.`,
            },
          ];
    };
    return [...one('baking-powder', 'Baking powder', 'mostPowderPct'), ...one('baking-soda', 'Baking soda', 'mostSodaPct')];
  },
});
