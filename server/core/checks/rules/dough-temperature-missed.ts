import { defineCheck, soundTotals } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { celsius, trimmed } from '../words';

export const doughTemperatureMissed = defineCheck({
  code: 'dough-temperature-missed',
  severity: 'warning',
  title: 'The dough will not have the temperature it should',
  why:
    'Two degrees make a fifth of the fermentation. The dough head says what is wanted, the lines say how warm everything ' +
    'is: mixed together, they give another temperature.',
  source: sourcesOf('dough-temperature-missed'),
  limits: THRESHOLDS['dough-temperature-missed'],
  trips: loaf({
    head: ['room      21 C'],
    doughHead: '«dough» at 26 C',
    dough: ['1000 g    bread flour', '700 g     water at 12 C', '20 g      salt', '5 g       instant yeast'],
    steps: ['mix         10 min, by hand'],
  }),
  passes: loaf({
    head: ['room      21 C'],
    doughHead: 'dough at 25 C',
    dough: ['1000 g    bread flour', '700 g     water at 28 C', '20 g      salt', '5 g       instant yeast'],
    steps: ['mix         10 min, by hand'],
  }),
  find: (context) => {
    const { formula, reports, limits } = context;
    const temperature = soundTotals(context) === undefined ? null : reports.temperature();
    const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
    if (temperature === null || dough === undefined || temperature.desiredCelsius === null) {
      return [];
    }
    const { expectedCelsius, method, desiredCelsius } = temperature;
    const expected = method === 'factors' ? (expectedCelsius.factors ?? expectedCelsius.heatBalance) : expectedCelsius.heatBalance;
    const most = limits.get('dough-temperature-missed', 'mostCelsius');
    const odd = limits.get('temperature-odd', 'mostWaterCelsius');
    if (
      expected === null ||
      Math.abs(expected - desiredCelsius) <= most ||
      dough.lines.some((line) => (line.celsius ?? 0) > odd)
    ) {
      return [];
    }
    const water = method === 'factors' ? temperature.waterCelsius : temperature.waterHeatBalanceCelsius;
    const advice = water === null || water < 0 || water > 40 ? 'Change the temperatures, or the one wanted.' : `Water at about ${celsius(water)} would do it.`;
    return [
      {
        place: dough.place,
        message:
          `With these temperatures the dough comes out at about ${celsius(expected)}, ` +
          `${trimmed(Math.abs(expected - desiredCelsius), 0)} C ${expected > desiredCelsius ? 'warmer' : 'cooler'} ` +
          `than the ` +
          `${celsius(desiredCelsius)} wanted. ${advice}`,
      },
    ];
  },
});
