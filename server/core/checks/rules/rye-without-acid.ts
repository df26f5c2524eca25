import { hasKey, isRye, shareOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

const SOUR = hasKey('buttermilk', 'yogurt', 'yogurt-low-fat', 'yogurt-greek', 'kefir', 'sour-cream', 'quark', 'whey-acid', 'vinegar-cider', 'lemon-juice');

export const ryeWithoutAcid = defineCheck({
  code: 'rye-without-acid',
  severity: 'warning',
  title: 'Much rye and nothing sour',
  why:
    'Rye starch swells while its enzymes are still at work, and they cut it to syrup: the crumb is gummy. Acid stops ' +
    'them, which is why rye is baked with sourdough, or at least with something sour.',
  source: sourcesOf('rye-without-acid'),
  limits: THRESHOLDS['rye-without-acid'],
  trips: loaf({
    head: ['style     rye'],
    dough: [
      '«600 g»     dark rye flour', '400 g     bread flour', '700 g     water', '20 g      salt',
      '10 g      instant yeast',
    ],
  }),
  passes: loaf({
    head: ['style     rye'],
    dough: [
      '600 g     dark rye flour', '400 g     bread flour', '500 g     water', '250 g     buttermilk',
      '20 g      salt', '10 g      instant yeast',
    ],
  }),
  find: (context) => {
    const share = shareOf(context, isRye);
    const limit = context.limits.get('rye-without-acid', 'mostRyePct');
    const { formula } = context;
    if (share === undefined || share.pct <= limit || formula === undefined) {
      return [];
    }
    const sour = context.reports.leaves().some((leaf) => SOUR(leaf) || leaf.line.starterHydrationPct !== undefined || /\b(sour|acid|vinegar)/i.test(leaf.line.name));
    const soured = formula.parts.some(({ kind }) => kind === 'levain' || kind === 'old dough');
    return sour || soured
      ? []
      : [
          {
            place: share.place,
            message:
              `Rye is ${against(share.pct, limit)} % of the flour, over ${percent(limit)}, and nothing in the dough is ` +
              `sour: the crumb will ` +
              'be gummy. Sour about a third of the rye, or take buttermilk for some of the water.',
          },
        ];
  },
});
