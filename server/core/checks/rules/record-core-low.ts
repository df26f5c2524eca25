import { boilingDrop } from '../../baking';
import { recordsOf } from '../../records';
import { defineCheck } from '../define';
import { block, loaf } from '../examples';
import { sourcesOf } from '../limits';
import { coreOf, methodOf } from '../method';
import { against, celsius } from '../words';

export const recordCoreLow = defineCheck({
  code: 'record-core-low',
  severity: 'info',
  title: 'A bake that came out before it was done',
  why:
    'A record with a core under the least for its style tells why the crumb was gummy or sank: the bread came out too early. ' +
    'The next bake needs more minutes or a hotter oven. The least is that of `core-low`. A core that the formula itself asks for is told at the formula.',
  source: sourcesOf('core-low'),
  trips: `${loaf({ head: ['style     hearth'] })}\n${block('record 2026-05-02', ['«core      86 C»'])}`,
  passes: `${loaf({ head: ['style     hearth'] })}\n${block('record 2026-05-02', ['core      97 C'])}`,
  find: ({ formula, limits }) => {
    if (formula?.kind !== 'formula') return [];
    const height = formula.altitudeMetres ?? 0;
    const drop = height > 0 && height <= limits.get('altitude-odd', 'mostMetres') ? boilingDrop(height) : 0;
    const usual = limits.get('core-low', 'leastCelsius') - drop;
    const least = Math.min(usual, coreOf(methodOf(formula))?.celsius ?? usual);
    return recordsOf(formula).flatMap(({ date, coreCelsius: core }) =>
      core === undefined || core.value >= least - 0.05 || core.value < limits.get('record-odd', 'leastCoreCelsius')
        ? []
        : [{
            place: core.place,
            message:
              `The core was ${against(core.value, least)} C${date === '' ? '' : ` on ${date}`}, under ${celsius(least)}, the least for this ` +
              `style${drop > 0.5 ? ' at this height' : ''}: the crumb is moist and sinks. Bake the next one on.`,
          }],
    );
  },
});
