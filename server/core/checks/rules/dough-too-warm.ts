import { defineCheck } from '../define';
import { loaf } from '../examples';
import { forStyle, sourcesOf, THRESHOLDS } from '../limits';
import { headTemperature } from '../dough';
import { celsius } from '../words';

export const doughTooWarm = defineCheck({
  code: 'dough-too-warm',
  severity: 'info',
  title: 'A warm dough',
  why:
    'A dough above 28 C ferments fast, sticks and tastes of little; one with much butter goes oily from 26 C. Rye ' +
    'likes it ' +
    'warmer.',
  source: sourcesOf('dough-too-warm'),
  limits: THRESHOLDS['dough-too-warm'],
  trips: loaf({ doughHead: 'dough at «31 C»', more: ['5 g       instant yeast'] }),
  passes: loaf({ doughHead: 'dough at 25 C', more: ['5 g       instant yeast'] }),
  find: (context) => {
    const head = headTemperature(context);
    const most = context.limits.get('dough-too-warm', 'mostCelsius');
    const odd = context.limits.get('temperature-odd', 'mostRisingCelsius');
    return head === undefined || head.celsius <= most || head.celsius > odd
      ? []
      : [
          {
            place: head.place,
            message:
              `A dough of ${celsius(head.celsius)} is warmer than ${celsius(most)}, the most ${forStyle(context.formula)}: it will ` +
              `be fast, sticky and bland. ` +
              'Take cooler water, or shorten the bulk.',
          },
        ];
  },
});
