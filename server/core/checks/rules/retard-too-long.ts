import { defineCheck, type Found } from '../define';
import { LEVAIN, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, methodOf, minutesOf } from '../method';
import { minutes } from '../words';

const dough = ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'];

export const retardTooLong = defineCheck({
  code: 'retard-too-long',
  severity: 'warning',
  title: 'A retard of days',
  why:
    'Cold slows a dough and does not stop it: acid and enzymes go on. After about two days the skin is dry, the gluten ' +
    'weak and the loaf flat.',
  source: sourcesOf('retard-too-long'),
  limits: THRESHOLDS['retard-too-long'],
  trips: loaf({ before: LEVAIN, dough, steps: ['mix         8 min', 'retard      «3 d» at 4 C'] }),
  passes: loaf({ before: LEVAIN, dough, steps: ['mix         8 min', 'retard      16 h at 4 C'] }),
  find: ({ formula, limits }) => {
    const most = limits.get('retard-too-long', 'mostHours') * 60;
    const slip = limits.get('duration-odd', 'mostDays') * 24 * 60;
    return (formula?.kind === 'formula' ? methodOf(formula) : []).filter(isKind('retard')).flatMap((step): readonly Found[] => {
      const time = minutesOf([step]);
      return time === undefined || time.low <= most || time.high > slip
        ? []
        : [
            {
              place: durationPlace(step),
              message:
                `${minutes(time.low)} in the cold is over ${minutes(most)}: the dough goes on souring and weakens, and ` +
                `the loaf comes out flat. ` +
                'Retard it shorter, or freeze it.',
            },
          ];
    });
  },
});
