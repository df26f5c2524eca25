import { shareOf } from '../contents';
import { defineCheck, soundTotals } from '../define';
import { doughPlace, isPastry } from '../dough';
import { loaf } from '../examples';
import { forStyle, sourcesOf, THRESHOLDS } from '../limits';
import { allSteps } from '../method';
import { against, percent } from '../words';

export const fatHigh = defineCheck({
  code: 'fat-high',
  severity: 'info',
  title: 'Much fat for this kind of dough',
  why:
    'Fat shortens gluten: past a point that depends on the dough it stays slack, and crust and crumb are those of a cake. ' +
    'Rich doughs have styles of their own.',
  source: sourcesOf('fat-high'),
  limits: THRESHOLDS['fat-high'],
  trips: loaf({ head: ['style     hearth'], more: ['«150 g»     olive oil'] }),
  passes: loaf({ head: ['style     hearth'], more: ['40 g      olive oil'] }),
  find: (context) => {
    const fat = soundTotals(context)?.fat_pct ?? null;
    const limit = context.limits.get('fat-high', 'mostPct');
    const place = shareOf(context, ({ line }) => line.role === 'fat')?.place ?? doughPlace(context);
    // Butter folded in as sheets is not in the dough, and shortens nothing.
    const laminated = allSteps(context.formula).some(({ step }) => step.node.step === 'laminate');
    return fat === null || fat <= limit || place === undefined || laminated || context.formula?.kind !== 'formula' || isPastry(context)
      ? []
      : [
          {
            place,
            message:
              `Fat is ${against(fat, limit)} % of the flour, over ${percent(limit)} ${forStyle(context.formula)}: the crumb will be ` +
              `crumbly and the dough slack. ` +
              'Take less, or give the formula the `style` it is meant to have.',
          },
        ];
  },
});
