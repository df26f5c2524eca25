import { defineCheck, type Found } from '../define';
import { LEVAIN, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { isKind, methodOf, minutesOf, temperaturePlace } from '../method';
import { ambientOf } from '../../timeline/ambient';
import { celsius, minutes } from '../words';

const dough = ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'];

export const retardTooWarm = defineCheck({
  code: 'retard-too-warm',
  severity: 'warning',
  title: 'A retard that is not cold',
  why:
    'Above about 10 C a dough goes on rising through the night, and overproofs. The middle of a household fridge is at ' +
    '3 to 6 C; its door is warmer.',
  source: sourcesOf('retard-too-warm'),
  limits: THRESHOLDS['retard-too-warm'],
  trips: loaf({ before: LEVAIN, dough, steps: ['mix         8 min', 'retard      14 h at «14 C»'] }),
  passes: loaf({ before: LEVAIN, dough, steps: ['mix         8 min', 'retard      14 h at 5 C'] }),
  find: ({ formula, limits }) => {
    const most = limits.get('retard-too-warm', 'mostCelsius');
    const slip = limits.get('temperature-odd', 'mostColdCelsius');
    const hours = limits.get('retard-too-warm', 'mostHours');
    return (formula?.kind === 'formula' ? methodOf(formula) : []).filter(isKind('retard')).flatMap((step): readonly Found[] => {
      const time = minutesOf([step]);
      const warm = formula === undefined ? null : ambientOf(step, undefined, formula, undefined);
      return time === undefined || warm === null || warm <= most || warm > slip || time.low <= hours * 60
        ? []
        : [
            {
              place: temperaturePlace(step),
              message:
                `${celsius(warm)} is over ${celsius(most)}: in ${minutes(time.low)} the dough will rise as on the ` +
                `bench, and collapse. Retard it at 3 to 6 C, ` +
                'or call it a proof and shorten it.',
            },
          ];
    });
  },
});
