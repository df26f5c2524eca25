import { degreesOf } from '../dough';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { inFahrenheit } from '../edits';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { celsius } from '../words';

export const roomOdd = defineCheck({
  code: 'room-odd',
  severity: 'error',
  title: 'A room or a fridge that nobody works in',
  why:
    'Water temperatures and all times of fermentation follow from how warm the room, the fridge and the flour are. A room ' +
    'at 72 C is mostly one at 72 F.',
  source: sourcesOf('room-odd'),
  limits: THRESHOLDS['room-odd'],
  trips: loaf({ head: ['room      «72 C»'] }),
  passes: loaf({ head: ['room      72 F'] }),
  fixed: loaf({ head: ['room      72 F'] }),
  find: (context) => {
    const { section, limits, formula } = context;
    const get = (name: string) => limits.get('room-odd', name);
    return (formula === undefined ? [] : linesOf(section)).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (
        node.kind !== 'property' ||
        node.value.kind !== 'temperature' ||
        section.blocks[block]?.head.node.kind === 'record'
      ) {
        return [];
      }
      const heat = degreesOf(node.value.temperature);
      if (heat === undefined || (node.key !== 'room' && node.key !== 'fridge' && node.key !== 'flour')) {
        return [];
      }
      const cold = node.key === 'fridge';
      const [least, most] = [get(cold ? 'leastFridgeCelsius' : node.key === 'flour' ? 'leastFlourCelsius' : 'leastCelsius'), get(cold ? 'mostFridgeCelsius' : 'mostCelsius')];
      if (heat.celsius >= least && heat.celsius <= most) {
        return [];
      }
      const place = placeOf(block, heat.span);
      const asF = (heat.celsius - 32) / 1.8;
      const fits = heat.unit === 'C' && asF >= least && asF <= most;
      return [
        {
          place,
          message:
            `${node.key === 'flour' ? 'Flour' : `A ${node.key}`} of ${celsius(heat.celsius)} cannot be meant ` +
            `(${celsius(least)} to ${celsius(most)} is possible).` +
            `${fits ? ' Is it meant in Fahrenheit?' : ' Correct it, or every time and water temperature will be wrong.'}`,
          fixes: fits ? inFahrenheit(section, place) : [],
        },
      ];
    });
  },
});
