import { hasKey, shareOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const cocoaLoad = defineCheck({
  code: 'cocoa-load',
  severity: 'info',
  title: 'Much cocoa in a dough',
  why:
    'Cocoa has no gluten, is part fat, and drinks about its own weight of water. Up to 8 % of the flour is usual; past ' +
    '10 % the dough turns short and the crumb dry.',
  source: sourcesOf('cocoa-load'),
  limits: THRESHOLDS['cocoa-load'],
  trips: loaf({ more: ['«150 g»     cocoa powder'] }),
  passes: loaf({ more: ['60 g      cocoa powder'] }),
  find: (context) => {
    const share = shareOf(context, hasKey('cocoa-powder-unsweetened', 'cocoa-powder-dutch', 'carob-flour'));
    const limit = context.limits.get('cocoa-load', 'mostPct');
    return share === undefined || share.pct <= limit
      ? []
      : [
          {
            place: share.place,
            message:
              `Cocoa is ${against(share.pct, limit)} % of the flour, over ${percent(limit)}: the dough will tear ` +
              `and the crumb be dry. Take less, ` +
              'or give it its own weight of water more.',
          },
        ];
  },
});
