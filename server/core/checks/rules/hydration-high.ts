import { defineCheck, soundTotals } from '../define';
import { doughPlace, isBatter, isImpossible, madeUpOf } from '../dough';
import { THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const hydrationHigh = defineCheck({
  code: 'hydration-high',
  severity: 'warning',
  title: 'Much water for this kind of dough',
  why:
    'Past a point that depends on the flour, gluten cannot hold the water: the dough pours instead of standing and ' +
    'the loaf comes out flat. Counted here is all moisture that reaches the dough, that of eggs and milk too, less ' +
    'what cocoa, seeds and the like soak up.',
  source: THRESHOLDS['hydration-high'].mostPct.source,
  limits: THRESHOLDS['hydration-high'],
  trips: `formula "Country loaf"

«dough»
  1000 g    bread flour
  1100 g    water
  20 g      salt
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  780 g     water
  20 g      salt
`,
  find: (context) => {
    const totals = soundTotals(context);
    const place = doughPlace(context);
    const moisture = totals?.effective_hydration_pct ?? totals?.hydration_pct ?? null;
    if (place === undefined || moisture === null) {
      return [];
    }
    // The water of a soaker is moisture, but the fruit has drunk it: it does not make a dough spread by itself.
    const drunk = Math.max(0, (totals?.water_pct ?? 0) - (totals?.hydration_pct ?? 0));
    const limit = context.limits.get('hydration-high', isBatter(context) ? 'mostInBatterPct' : 'mostPct');
    // Soup is no dough at all, and has its own finding.
    return moisture - drunk <= limit || isImpossible(context, moisture)
      ? []
      : [
          {
            place,
            message:
              `The dough holds ${against(moisture, limit)} % moisture on its flour, over ` +
              `${percent(limit)}${madeUpOf(context)}. ` +
              'It will spread instead of standing: take less, or give the formula the `style` it is meant to have.',
          },
        ];
  },
});
