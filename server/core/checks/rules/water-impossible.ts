import { defineCheck, soundTotals } from '../define';
import { block, loaf } from '../examples';
import { celsius } from '../words';

const BIG_LEVAIN = block('levain', ['450 g     bread flour', '450 g     water', '100 g     starter', 'ripen     8 h at 22 C']);

export const waterImpossible = defineCheck({
  code: 'water-impossible',
  severity: 'warning',
  title: 'No water makes a dough of this temperature',
  why:
    'The flour, the room and the preferment leave the water only so much to do. Where it would have to boil, or be all ice ' +
    'and more, the temperature wanted cannot be had this way.',
  source: 'heat balance with specific heats, and the trade’s rule where the friction was measured',
  trips: loaf({ head: ['room      16 C'], before: BIG_LEVAIN, doughHead: '«dough» at 28 C', dough: ['500 g     bread flour', '60 g      water', 'all       levain', '20 g      salt'] }),
  passes: loaf({ head: ['room      22 C'], before: BIG_LEVAIN, doughHead: 'dough at 24 C', dough: ['500 g     bread flour', '200 g     water', 'all       levain', '20 g      salt'] }),
  find: (context) => {
    const { formula, reports, limits } = context;
    const temperature = soundTotals(context) === undefined ? null : reports.temperature();
    const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
    if (dough === undefined || temperature?.verdict !== 'cannot be' || temperature.desiredCelsius === null) {
      return [];
    }
    const needed = temperature.method === 'factors' ? temperature.waterCelsius : temperature.waterHeatBalanceCelsius;
    if (needed === null || temperature.desiredCelsius > limits.get('temperature-odd', 'mostWaterCelsius')) {
      return [];
    }
    return [
      {
        place: dough.place,
        message:
          `For a dough of ${celsius(temperature.desiredCelsius)} the ${temperature.liquid ?? 'water'} would have to be at ${celsius(needed)}, which cannot be. ` +
          `${needed > 50 ? 'Warm the flour, or want a cooler dough.' : 'Chill the flour, mix shorter, or want a warmer dough.'}`,
      },
    ];
  },
});
