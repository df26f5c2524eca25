import { defineCheck, soundTotals } from '../define';
import { doughPlace } from '../dough';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const prefermentedHigh = defineCheck({
  code: 'prefermented-high',
  severity: 'info',
  title: 'Much of the flour is fermented beforehand',
  why:
    'Acid and enzymes of a ripe preferment weaken gluten. Up to about half of the flour a dough bears it; above that it ' +
    'turns slack and sticky, and sour with a levain.',
  source: sourcesOf('prefermented-high'),
  limits: THRESHOLDS['prefermented-high'],
  trips: loaf({
    before: block('levain', ['560 g     bread flour', '560 g     water', '80 g      starter']),
    doughHead: '«dough»',
    dough: ['400 g     bread flour', '100 g     water', 'all       levain', '20 g      salt'],
  }),
  passes: loaf({
    before: block('levain', ['180 g     bread flour', '180 g     water', '40 g      starter']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  find: (context) => {
    const share = soundTotals(context)?.prefermented_flour_pct ?? null;
    const place = doughPlace(context);
    const limit = context.limits.get('prefermented-high', 'mostPct');
    return share === null || place === undefined || share <= limit
      ? []
      : [
          {
            place,
            message:
              `${against(share, limit)} % of the flour is in preferments, over ${percent(limit)}: the dough will be ` +
              `slack and sticky. ` +
              'Move flour into the dough, or keep the preferments young.',
          },
        ];
  },
});
