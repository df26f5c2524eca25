import { hasKey, isYeast, namesOf, shareOf } from '../contents';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, listed, named, percent } from '../words';

export const spiceSlowsYeast = defineCheck({
  code: 'spice-slows-yeast',
  severity: 'info',
  title: 'Spice that slows yeast',
  why:
    'Cinnamon, cloves, allspice and raw garlic hold yeast back. A little in the dough is a matter of time; much of it ' +
    'belongs in the filling or on top.',
  source: sourcesOf('spice-slows-yeast'),
  limits: THRESHOLDS['spice-slows-yeast'],
  trips: loaf({ more: ['10 g      instant yeast', '«25 g»      ground cinnamon'] }),
  passes: loaf({ more: ['10 g      instant yeast', '8 g       ground cinnamon'] }),
  find: (context) => {
    if (shareOf(context, isYeast) === undefined) {
      return [];
    }
    const one = (wanted: ReturnType<typeof hasKey>, limitName: string): readonly Found[] => {
      const share = shareOf(context, wanted);
      const limit = context.limits.get('spice-slows-yeast', limitName);
      if (share === undefined || share.pct <= limit) {
        return [];
      }
      return [
        {
          place: share.place,
          message:
            `${listed(namesOf(share.leaves).map(named))} in the dough: ${against(share.pct, limit)} % of the flour, ` +
            `over ${percent(limit)}, slows ` +
            'the yeast. Put most of it into a filling, or give the dough more time.',
        },
      ];
    };
    return [...one(hasKey('cinnamon', 'cloves', 'allspice'), 'mostPct'), ...one(hasKey('garlic'), 'mostGarlicPct')];
  },
});
