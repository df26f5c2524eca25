import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { forStyle, sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { against, percent } from '../words';

export const lossUnusual = defineCheck({
  code: 'loss-unusual',
  severity: 'info',
  title: 'An unusual loss in the oven',
  why:
    'A loaf leaves a tenth to a fifth of its weight in the oven, more the smaller it is. Everything that is sold by ' +
    'weight hangs on the figure: weigh a batch.',
  source: sourcesOf('loss-unusual'),
  limits: THRESHOLDS['loss-unusual'],
  trips: loaf({ head: ['style     hearth', 'loses     «30 % in the oven»'] }),
  passes: loaf({ head: ['style     hearth', 'loses     15 % in the oven'] }),
  find: ({ section, formula, limits }) => {
    const most = limits.get('loss-unusual', 'mostPct');
    const least = limits.get('loss-unusual', 'leastPct');
    const odd = limits.get('loss-odd', 'mostPct');
    return (formula?.kind === 'formula' ? linesOf(section) : []).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind !== 'property' || node.value.kind !== 'loss' || node.value.where !== 'oven') {
        return [];
      }
      const { value } = node.value.percent;
      const place = placeOf(block, { start: node.value.percent.start, end: node.end });
      if (value > most && value <= odd) {
        return [
          {
            place,
            message:
              `A loss of ${against(value, most)} % in the oven is over ${percent(most)}, the most that is usual ` +
              `${forStyle(formula)}: the dough would be made too large. Weigh a batch before and after, or correct it.`,
          },
        ];
      }
      return value < least && value > 0
        ? [
            {
              place,
              message:
                `A loss of ${against(value, least)} % in the oven is under ${percent(least)}: bread loses more, so the baked weight would be too high. ` +
                `Weigh a batch before and after, or correct it.`,
            },
          ]
        : [];
    });
  },
});
