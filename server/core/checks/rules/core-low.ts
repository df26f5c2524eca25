import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { coreOf, methodOf } from '../method';
import { boilingDrop } from '../../baking';
import { celsius } from '../words';

export const coreLow = defineCheck({
  code: 'core-low',
  severity: 'info',
  title: 'A loaf that comes out before it is done',
  why:
    'Crumb sets as its core goes through 85 to 96 C, the leaner the bread the later. Taken out below that it is gummy and ' +
    'sinks as it cools. High up, all these figures are lower.',
  source: sourcesOf('core-low'),
  limits: THRESHOLDS['core-low'],
  trips: loaf({
    head: ['style     hearth'],
    steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C, until core «84 C»'],
  }),
  passes: loaf({
    head: ['style     hearth'],
    steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C, until core 97 C'],
  }),
  find: ({ formula, limits }) => {
    const core = formula?.kind === 'formula' ? coreOf(methodOf(formula)) : undefined;
    const height = formula?.altitudeMetres ?? 0;
    const drop = height > 0 && height <= limits.get('altitude-odd', 'mostMetres') ? boilingDrop(height) : 0;
    const least = limits.get('core-low', 'leastCelsius') - drop;
    return core === undefined || core.celsius >= least - 0.05
      ? []
      : [
          {
            place: core.place,
            message:
              `A core of ${celsius(core.celsius)} is under ${celsius(least)}, the least for this ` +
              `style${drop > 0.5 ? ' at this height' : ''}: the crumb will be gummy and sink. ` +
              'Bake it on.',
          },
        ];
  },
});
