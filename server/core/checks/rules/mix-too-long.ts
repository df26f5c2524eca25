import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, methodOf, minutesOf } from '../method';
import { minutes } from '../words';

export const mixTooLong = defineCheck({
  code: 'mix-too-long',
  severity: 'info',
  title: 'Very long mixing',
  why:
    'A machine warms a dough by about 0.4 C a minute and bleaches it. After half an hour it is warm and its gluten ' +
    'worn out.',
  source: sourcesOf('mix-too-long'),
  limits: THRESHOLDS['mix-too-long'],
  trips: loaf({ steps: ['mix         «45 min», by mixer'] }),
  passes: loaf({ steps: ['mix         12 min, by mixer'] }),
  find: ({ formula, limits }) => {
    const most = limits.get('mix-too-long', 'mostMinutes');
    const slip = limits.get('duration-odd', 'mostHandMinutes');
    return (formula?.kind === 'formula' ? methodOf(formula) : []).filter(isKind('mix', 'knead')).flatMap((step): readonly Found[] => {
      const time = minutesOf([step]);
      const byMixer = step.node.details.some((detail) => detail.kind === 'by' && detail.how === 'mixer');
      return time === undefined || !byMixer || time.low <= most || time.low > slip
        ? []
        : [
            {
              place: durationPlace(step),
              message:
                `${minutes(time.low)} of mixing by machine is over ${minutes(most)}: the dough will be warm and slack. ` +
                `Mix shorter, with rests in between.`,
            },
          ];
    });
  },
});
