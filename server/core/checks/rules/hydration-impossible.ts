import { defineCheck, soundTotals } from '../define';
import { doughPlace, isImpossible } from '../dough';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { plain } from '../words';

export const hydrationImpossible = defineCheck({
  code: 'hydration-impossible',
  severity: 'error',
  title: 'A hydration that no dough has',
  why:
    'Under a fifth of its weight in water, flour stays powder; over twice its weight, it is soup. A digit too many or too ' +
    'few, or grams for kilograms.',
  source: sourcesOf('hydration-impossible'),
  limits: THRESHOLDS['hydration-impossible'],
  trips: loaf({ doughHead: '«dough»', dough: ['1000 g    bread flour', '7000 g    water', '20 g      salt'] }),
  passes: loaf(),
  find: (context) => {
    const totals = soundTotals(context);
    const place = doughPlace(context);
    const moisture = totals?.effective_hydration_pct ?? totals?.hydration_pct ?? null;
    if (place === undefined || moisture === null || (totals?.flour_g ?? 0) <= 0 || !isImpossible(context, moisture)) {
      return [];
    }
    const most = context.limits.get('hydration-impossible', 'mostPct');
    const least = context.limits.get('hydration-impossible', 'leastPct');
    return [
      {
        place,
        message:
          `The dough holds ${plain(moisture)} % moisture on its flour: that ` +
          (moisture > most
            ? `is soup (${plain(most)} % at most). Is there a digit too many, or is it a \`batter\`?`
            : `stays powder (${plain(least)} % at least). Is a digit or a line missing?`),
      },
    ];
  },
});
