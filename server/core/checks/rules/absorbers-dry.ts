import { ABSORBERS } from '../../formula/absorbers';
import type { Leaf } from '../../formula/contents';
import { namesOf, shareOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, grams, listed, named, percent } from '../words';

/** Things that are soaked. Cocoa, milk powder, malt and starch are weighed dry and allowed for in the water. */
const SOAKED = new Set([
  'wheat-bran', 'oat-bran', 'oat-flakes', 'bread-crumbs', 'potato-flakes', 'coconut-desiccated', 'sunflower-seeds', 'pumpkin-seeds', 'sesame-seeds',
  'poppy-seeds', 'hemp-seeds', 'flax-seeds', 'chia-seeds',
]);

export const absorbersDry = defineCheck({
  code: 'absorbers-dry',
  severity: 'info',
  title: 'Seeds, flakes or bran go in dry',
  why:
    'Dry seeds, flakes and bran drink for hours, out of the dough: it stiffens in the bulk and the crumb is dry. Soaked ' +
    'beforehand they bring their own water.',
  source: sourcesOf('absorbers-dry'),
  limits: THRESHOLDS['absorbers-dry'],
  trips: loaf({ dough: ['1000 g    bread flour', '850 g     water', '20 g      salt', '«200 g»     rolled oats'] }),
  passes: loaf({
    before: 'soaker "oats"\n  200 g     rolled oats\n  220 g     water\n  rest      1 h\n',
    more: ['all       oats'],
  }),
  find: (context) => {
    const { formula } = context;
    const share = shareOf(context, ({ line, partIndex }) => partIndex === formula?.dough && SOAKED.has(keyOf(line)));
    const flour = context.totals?.flour_g ?? null;
    const limit = context.limits.get('absorbers-dry', 'mostPct');
    if (share === undefined || flour === null) {
      return [];
    }
    const drunk = share.leaves.reduce((sum, leaf) => sum + (leaf.grams ?? 0) * perGram(leaf), 0);
    const pct = (100 * drunk) / flour;
    return pct <= limit
      ? []
      : [
          {
            place: share.place,
            message:
              `${listed(namesOf(share.leaves).map(named))} will drink about ${grams(drunk)} of the dough's water, ` +
              `${against(pct, limit)} % of the flour (over ${percent(limit)}): the dough stiffens ` +
              'as it rises. Soak them in a `soaker` with that much water.',
          },
        ];
  },
});

function keyOf({ key, ingredient }: Leaf['line']): string {
  return ingredient?.absorbsAs ?? key;
}

function perGram({ line }: Leaf): number {
  return line.ingredient?.absorbs ?? ABSORBERS[keyOf(line)]?.value ?? 0;
}
