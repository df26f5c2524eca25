import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { isKind, methodOf, temperaturePlace, writtenCelsius } from '../method';
import { celsius } from '../words';

export const preheatCooler = defineCheck({
  code: 'preheat-cooler',
  severity: 'info',
  title: 'An oven heated to less than the bake asks for',
  why:
    'An oven loses heat when it is opened and loaded. One that was heated to less than the first bake asks for is ' +
    'never there when it counts.',
  source: sourcesOf('preheat-cooler'),
  limits: THRESHOLDS['preheat-cooler'],
  trips: loaf({ steps: ['preheat     45 min at «200 C»', 'bake        40 min at 235 C'] }),
  passes: loaf({ steps: ['preheat     45 min at 250 C', 'bake        40 min at 235 C'] }),
  find: ({ formula, limits }) => {
    const steps = formula === undefined ? [] : methodOf(formula);
    const at = steps.findIndex(isKind('bake'));
    const heated = [...steps.slice(0, Math.max(0, at))].reverse().find(isKind('preheat'));
    const bake = steps[at];
    const [from, to] = [heated && writtenCelsius(heated)?.high, bake && writtenCelsius(bake)?.low];
    if (
      heated === undefined ||
      from === undefined ||
      to === undefined ||
      from >= to * limits.get('preheat-cooler', 'leastShare') ||
      to > limits.get('oven-temperature-odd', 'mostCelsius')
    ) {
      return [];
    }
    return from < limits.get('oven-temperature-odd', 'leastCelsius')
      ? []
      : [
          {
            place: temperaturePlace(heated),
            message:
              `The oven is heated to ${celsius(from)} and the first bake asks for ${celsius(to)}: it will be too cool ` +
              `when the loaves go in. Heat it to ${celsius(to)} or more.`,
          },
        ];
  },
});
