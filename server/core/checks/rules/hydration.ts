/** Too wet, too dry. */
import type { Place } from '../../formula/model';
import type { CheckContext } from '../check';
import { defineCheck, soundTotals } from '../define';
import { THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const hydrationHigh = defineCheck({
  code: 'hydration-high',
  severity: 'warning',
  title: 'Much water for this kind of dough',
  why:
    'Past a point that depends on the flour, gluten cannot hold the water: the dough pours instead of standing and the loaf comes out flat. ' +
    'Counted here is all moisture that reaches the dough, that of eggs and milk too, less what cocoa, seeds and the like soak up.',
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
    return moisture - drunk <= limit
      ? []
      : [
          {
            place,
            message:
              `The dough holds ${against(moisture, limit)} % moisture on its flour, over ${percent(limit)}${madeUpOf(context)}. ` +
              'It will spread instead of standing: take less, or name the `style` if it is meant to be so wet.',
          },
        ];
  },
});

export const hydrationLow = defineCheck({
  code: 'hydration-low',
  severity: 'warning',
  title: 'Little water for this kind of dough',
  why:
    'A dough with too little water will not come together, tears when shaped and bakes dense. It is often a line that was forgotten, or a ' +
    'soaker that will drink the water. Counted here is all moisture that reaches the dough, that of eggs and milk too, less what cocoa, seeds ' +
    'and the like soak up.',
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
    if (moisture === null || place === undefined || isBatter(context)) {
      return [];
    }
    const limit = context.limits.get('hydration-low', 'leastPct');
    return moisture >= limit
      ? []
      : [
          {
            place,
            message:
              `The dough holds ${against(moisture, limit)} % moisture on its flour, under ${percent(limit)}${madeUpOf(context)}. ` +
              'It will be too stiff to come together: is a line missing? Otherwise add water, or name the `style` if it is meant to be stiff.',
          },
        ];
  },
});

/** ` (water 40 %, the rest from eggs, milk and the like)` where it is not all water: the two numbers have different names. */
function madeUpOf({ totals }: CheckContext): string {
  const effective = totals?.effective_hydration_pct ?? null;
  const water = totals?.hydration_pct ?? null;
  return effective === null || water === null || Math.abs(effective - water) < 1 ? '' : ` (the water alone is ${percent(water)})`;
}

function isBatter({ formula }: CheckContext): boolean {
  return formula?.dough !== undefined && formula.parts[formula.dough]?.kind === 'batter';
}

function doughPlace({ formula }: CheckContext): Place | undefined {
  return formula?.kind !== 'formula' || formula.dough === undefined ? undefined : formula.parts[formula.dough]?.place;
}
