import { defineCheck, soundTotals } from '../define';
import { isBatter, doughPlace } from '../dough';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const flourWeak = defineCheck({
  code: 'flour-weak',
  severity: 'info',
  title: 'Flour too weak for this kind of dough',
  why:
    'A loaf that stands on its own, long fermentation and much butter ask for gluten. With cake or pastry flour it ' +
    'spreads and tears.',
  source: sourcesOf('flour-weak'),
  limits: THRESHOLDS['flour-weak'],
  trips: loaf({
    head: ['style     hearth'],
    doughHead: '«dough»',
    dough: ['1000 g    cake flour', '650 g     water', '20 g      salt'],
  }),
  passes: loaf({
    head: ['style     hearth'],
    dough: ['800 g     bread flour', '200 g     cake flour', '650 g     water', '20 g      salt'],
  }),
  find: (context) => {
    const protein = soundTotals(context)?.flour_protein_pct ?? null;
    const place = doughPlace(context);
    const limit = context.limits.get('flour-weak', 'leastProteinPct');
    const risen = context.reports.leaves().every(({ line }) => line.key !== 'baking-powder' && line.key !== 'baking-soda');
    return protein === null || place === undefined || protein >= limit || isBatter(context) || !risen
      ? []
      : [
          {
            place,
            message:
              `The flours together have ${against(protein, limit)} % protein, under ${percent(limit)}: the dough will ` +
              `spread and tear. ` +
              'Take a stronger flour for some of it, or bake it in a tin.',
          },
        ];
  },
});
