import { namesOf, shareOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, listed, named, percent } from '../words';

export const inclusionsWet = defineCheck({
  code: 'inclusions-wet',
  severity: 'info',
  title: 'Wet pieces in a dough',
  why:
    'Fresh fruit, cooked vegetables and fresh cheese let go of their water in the dough and again in the oven: slack ' +
    'dough, ' +
    'gummy spots around each piece. Their water is not counted in the hydration.',
  source: sourcesOf('inclusions-wet'),
  limits: THRESHOLDS['inclusions-wet'],
  trips: loaf({ more: ['«300 g»     blueberries'] }),
  passes: loaf({ more: ['150 g     dried blueberries'] }),
  find: (context) => {
    const water = context.limits.get('inclusions-wet', 'mostWaterPct');
    const share = shareOf(context, ({ line }) => line.role === 'inclusion' && (line.ingredient?.composition.water ?? 0) > water);
    const limit = context.limits.get('inclusions-wet', 'mostPct');
    return share === undefined || share.pct <= limit
      ? []
      : [
          {
            place: share.place,
            message:
              `${listed(namesOf(share.leaves).map(named))} is ${against(share.pct, limit)} % of the flour, over ` +
              `${percent(limit)}, and mostly water, which leaks into the dough. ` +
              'Roast or drain it, hold back some water, or take it dried.',
          },
        ];
  },
});
