import { defineCheck, soundTotals } from '../define';
import { doughPlace, isBatter, isImpossible, isPastry, madeUpOf } from '../dough';
import { THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const hydrationLow = defineCheck({
  code: 'hydration-low',
  severity: 'warning',
  title: 'Little water for this kind of dough',
  why:
    'A dough with too little water will not come together, tears when shaped and bakes dense. It is often a line ' +
    'that was forgotten, or a soaker that will drink the water. Counted here is all moisture that reaches the dough, ' +
    'that of eggs and milk too, less what cocoa, seeds and the like soak up.',
  source: THRESHOLDS['hydration-low'].leastPct.source,
  limits: THRESHOLDS['hydration-low'],
  trips: `formula "Country loaf"

«dough»
  1000 g    bread flour
  400 g     water
  20 g      salt
`,
  passes: `formula "Bagels"
  style     bagel

dough
  1000 g    bread flour
  500 g     water
  20 g      salt
`,
  find: (context) => {
    const moisture = soundTotals(context)?.effective_hydration_pct ?? null;
    const place = doughPlace(context);
    // A batter that is too stiff is a dough, and no harm done.
    if (moisture === null || place === undefined || isBatter(context) || isPastry(context)) {
      return [];
    }
    const limit = context.limits.get('hydration-low', 'leastPct');
    // Powder is no dough at all, and has its own finding.
    return moisture >= limit || isImpossible(context, moisture)
      ? []
      : [
          {
            place,
            message:
              `The dough holds ${against(moisture, limit)} % moisture on its flour, under ` +
              `${percent(limit)}${madeUpOf(context)}. ` +
              'It will be too stiff to come together: is a line missing? Otherwise add water, or give the formula ' +
              'the `style` it is meant to have.',
          },
        ];
  },
});
