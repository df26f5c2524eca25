import { defineCheck } from '../define';
import { loaf } from '../examples';
import { waterNeeded } from '../water';
import { celsius } from '../words';

export const waterImpossible = defineCheck({
  code: 'water-impossible',
  severity: 'warning',
  title: 'No water makes a dough of this temperature',
  why:
    'The flour, the room and the preferment leave the water only so much to do. Where it would have to boil, or be all ' +
    'ice ' +
    'and more, the temperature wanted cannot be had this way.',
  source: 'heat balance with specific heats, and the trade’s rule where the friction was measured',
  trips: loaf({
    head: ['room      16 C', 'flour     -15 C'],
    doughHead: '«dough» at 28 C',
    dough: [
      '1000 g    bread flour', '300 g     water', '300 g     milk at 4 C', '20 g      salt', '5 g       instant yeast',
    ],
    steps: ['mix         10 min, by hand'],
  }),
  passes: loaf({
    head: ['room      22 C'],
    doughHead: 'dough at 25 C',
    dough: ['1000 g    bread flour', '300 g     water', '300 g     milk', '20 g      salt', '5 g       instant yeast'],
    steps: ['mix         10 min, by hand'],
  }),
  find: (context) => {
    const water = waterNeeded(context);
    // A temperature wanted that cannot be meant is another finding.
    if (
      water?.temperature.verdict !== 'cannot be' ||
      water.desiredCelsius > context.limits.get('temperature-odd', 'mostRisingCelsius') ||
      water.desiredCelsius < context.limits.get('temperature-odd', 'leastCelsius')
    ) {
      return [];
    }
    const { dough, temperature, desiredCelsius, celsius: needed } = water;
    return [
      {
        place: dough.place,
        message:
          `For a dough of ${celsius(desiredCelsius)} the ${temperature.liquid ?? 'water'} would have to be at ` +
          `${celsius(needed)}, which cannot be. ` +
          `${needed > 50 ? 'Warm the flour, or want a cooler dough.' : 'Chill the flour, mix shorter, or want a warmer dough.'}`,
      },
    ];
  },
});
