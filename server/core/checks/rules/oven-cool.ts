import { defineCheck } from '../define';
import { loaf } from '../examples';
import { forStyle, sourcesOf, THRESHOLDS } from '../limits';
import { isKind, methodOf, temperaturePlace, writtenCelsius } from '../method';
import { celsius, degrees } from '../words';

export const ovenCool = defineCheck({
  code: 'oven-cool',
  severity: 'info',
  title: 'A cool oven for this kind of bread',
  why: 'A loaf springs in the first minutes, and only in a hot oven. Baked too cool it stays small, pale and dry.',
  source: sourcesOf('oven-cool'),
  limits: THRESHOLDS['oven-cool'],
  trips: loaf({ head: ['style     hearth'], steps: ['preheat     45 min at 170 C', 'bake        50 min at «170 C»'] }),
  passes: loaf({ head: ['style     hearth'], steps: ['preheat     45 min at 235 C', 'bake        40 min at 235 C'] }),
  find: ({ formula, limits }) => {
    const bakes = formula?.kind === 'formula' ? methodOf(formula).filter(isKind('bake')) : [];
    const [first] = bakes;
    const heats = bakes.map((step) => writtenCelsius(step)?.high ?? Infinity);
    const hottest = Math.max(...heats);
    const unit = first === undefined ? undefined : writtenCelsius(first)?.unit;
    const least = limits.get('oven-cool', 'leastCelsius');
    // Under what any oven bakes at, it is a slip, and has its own finding. A falling oven is as hot as it was heated.
    const preheated = Math.max(0, ...(formula?.method ?? []).filter(isKind('preheat')).map((step) => writtenCelsius(step)?.high ?? 0));
    const asC = hottest * 1.8 + 32;
    const meansC = unit === 'F' && asC >= least && asC <= limits.get('oven-hot', 'mostCelsius');
    return first === undefined ||
      Math.max(hottest, preheated) >= least ||
      hottest < limits.get('oven-temperature-odd', 'leastCelsius')
      ? []
      : [
          {
            place: temperaturePlace(first),
            message:
              `${degrees(hottest, unit)} is cool for an oven (${celsius(least)} at least ${forStyle(formula)}): the loaf will be small, ` +
              `pale and dry. ${meansC ? 'Is it meant in Celsius?' : 'Bake it hotter, at least at first.'}`,
          },
        ];
  },
});
