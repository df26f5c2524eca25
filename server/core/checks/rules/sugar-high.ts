import { shareOf } from '../contents';
import { defineCheck, soundTotals } from '../define';
import { doughPlace, isPastry } from '../dough';
import { loaf } from '../examples';
import { forStyle, sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const sugarHigh = defineCheck({
  code: 'sugar-high',
  severity: 'info',
  title: 'Much sugar for this kind of dough',
  why:
    'Sugar softens gluten, slows yeast and browns early: a loaf baked at the heat of its style is dark before it is done. ' +
    'Sweet doughs have styles of their own, with cooler ovens.',
  source: sourcesOf('sugar-high'),
  limits: THRESHOLDS['sugar-high'],
  trips: loaf({ head: ['style     hearth'], more: ['«120 g»     sugar'] }),
  passes: loaf({
    head: ['style     enriched'],
    dough: ['1000 g    bread flour', '600 g     water', '18 g      salt', '120 g     sugar'],
  }),
  find: (context) => {
    const sugar = soundTotals(context)?.sugar_pct ?? null;
    const limit = context.limits.get('sugar-high', 'mostPct');
    const place = shareOf(context, ({ line }) => line.role === 'sweetener')?.place ?? doughPlace(context);
    return sugar === null || sugar <= limit || place === undefined || context.formula?.kind !== 'formula' || isPastry(context)
      ? []
      : [
          {
            place,
            message:
              `Sugar is ${against(sugar, limit)} % of the flour, over ${percent(limit)} ${forStyle(context.formula)}: the crust will ` +
              `be dark before the crumb is done. ` +
              'Take less, or give the formula the `style` it is meant to have.',
          },
        ];
  },
});
