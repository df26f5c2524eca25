import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, methodOf, minutesOf } from '../method';
import { minutes } from '../words';

export const preheatShort = defineCheck({
  code: 'preheat-short',
  severity: 'info',
  title: 'A short preheat',
  why:
    'The thermometer of an oven tells of its air. Walls, stone and pots take half an hour and more, and it is they ' +
    'that make a loaf spring.',
  source: sourcesOf('preheat-short'),
  limits: THRESHOLDS['preheat-short'],
  trips: loaf({ head: ['style     hearth'], steps: ['preheat     «10 min» at 240 C', 'bake        40 min at 235 C'] }),
  passes: loaf({ head: ['style     hearth'], steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C'] }),
  find: ({ formula, limits }) => {
    const least = limits.get('preheat-short', 'leastMinutes');
    const steps = formula === undefined ? [] : methodOf(formula);
    // A second preheat, after a bake, lifts an oven that is hot.
    const [first] = steps.filter(isKind('preheat', 'bake'));
    return (first?.node.step === 'preheat' ? [first] : []).flatMap((step): readonly Found[] => {
      const time = minutesOf([step]);
      return time === undefined || time.high >= least || time.high <= 0
        ? []
        : [
            {
              place: durationPlace(step),
              message:
                `${minutes(time.high)} heats the air of an oven and not its floor (${minutes(least)} at least for this ` +
                `style): the loaves will not spring. Heat it longer.`,
            },
          ];
    });
  },
});
