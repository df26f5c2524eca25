import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { waterNeeded } from '../water';
import { celsius, grams } from '../words';

export const waterNeedsIce = defineCheck({
  code: 'water-needs-ice',
  severity: 'info',
  title: 'The dough wants ice in its water',
  why:
    'In a warm room, or with long mixing, the water would have to be colder than the tap gives. Ice in place of some ' +
    'of it ' +
    'does that, flaked so that it melts in time; cooled flour does it, too.',
  source: `heat balance with specific heats, and the trade’s rule where the friction was measured; ${sourcesOf('water-needs-ice')}`,
  limits: THRESHOLDS['water-needs-ice'],
  trips: loaf({
    head: ['room      30 C', 'friction  12 C'],
    doughHead: '«dough» at 23 C',
    more: ['5 g       instant yeast'],
    steps: ['mix         10 min, by mixer'],
  }),
  passes: loaf({
    head: ['room      22 C'],
    doughHead: 'dough at 25 C',
    more: ['5 g       instant yeast'],
    steps: ['mix         10 min, by mixer'],
  }),
  find: (context) => {
    const water = waterNeeded(context);
    const least = context.limits.get('water-needs-ice', 'leastCelsius');
    if (
      water?.temperature.verdict !== 'needs ice' ||
      water.temperature.iceGrams === null ||
      water.celsius + water.leewayCelsius >= least
    ) {
      return [];
    }
    const { dough, temperature, desiredCelsius } = water;
    // Water whose temperature is written is the baker's answer; whether it is the right one is another check's.
    return dough.lines.some((line) => line.ingredient?.isWater === true && line.celsius !== null)
      ? []
      : [
          {
            place: dough.place,
            message:
              `With water from the tap the dough comes out warmer than ${celsius(desiredCelsius)}: about ` +
              `${grams(temperature.iceGrams ?? 0)} of the water would have to be ice. ` +
              'Take ice, chill the flour, or mix shorter.',
          },
        ];
  },
});
