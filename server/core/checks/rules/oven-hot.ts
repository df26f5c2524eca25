import { defineCheck } from '../define';
import { loaf } from '../examples';
import { forStyle, sourcesOf, THRESHOLDS } from '../limits';
import { isKind, methodOf, temperaturePlace, writtenCelsius } from '../method';
import { celsius } from '../words';

const dough = [
  '1000 g    bread flour', '600 g     milk', '18 g      salt', '120 g     sugar', '100 g     butter',
  '20 g      instant yeast',
];

export const ovenHot = defineCheck({
  code: 'oven-hot',
  severity: 'info',
  title: 'A hot oven for this kind of bread',
  why: 'Sugar, milk and eggs brown early. In an oven for lean loaves a rich one is black outside before it is done inside.',
  source: sourcesOf('oven-hot'),
  limits: THRESHOLDS['oven-hot'],
  trips: loaf({
    head: ['style     enriched'],
    dough,
    steps: ['preheat     30 min at 245 C', 'bake        35 min at «245 C»'],
  }),
  passes: loaf({
    head: ['style     enriched'],
    dough,
    steps: ['preheat     30 min at 185 C', 'bake        35 min at 185 C'],
  }),
  find: ({ formula, limits }) => {
    const bakes = formula?.kind === 'formula' ? methodOf(formula).filter(isKind('bake')) : [];
    const [first] = bakes;
    const coolest = Math.min(...bakes.map((step) => writtenCelsius(step)?.low ?? 0));
    const most = limits.get('oven-hot', 'mostCelsius');
    return first === undefined || coolest <= most || coolest > limits.get('oven-temperature-odd', 'mostCelsius')
      ? []
      : [
          {
            place: temperaturePlace(first),
            message:
              `${celsius(coolest)} is hot for an oven (${celsius(most)} at most ${forStyle(formula)}): the crust will be black before ` +
              `the crumb is done. Bake it cooler, or let the oven fall.`,
          },
        ];
  },
});
