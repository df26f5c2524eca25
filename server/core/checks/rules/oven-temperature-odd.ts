import { defineCheck, type Found } from '../define';
import { inFahrenheit } from '../edits';
import { forStyle, THRESHOLDS } from '../limits';
import { ABSOLUTE_ZERO_CELSIUS } from '../../units/temperature';
import { placeOf } from '../walk';
import { celsius, degrees } from '../words';

export const ovenTemperatureOdd = defineCheck({
  code: 'oven-temperature-odd',
  severity: 'warning',
  title: 'An oven temperature that no bread is baked at',
  why:
    'Below 90 C nothing bakes, and few ovens go above 320 C. Such a number is mostly Fahrenheit written as Celsius, ' +
    'or a dough temperature in the wrong line.',
  source: THRESHOLDS['oven-temperature-odd'].mostCelsius.source,
  limits: THRESHOLDS['oven-temperature-odd'],
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

steps
  preheat     45 min at 230 C
  bake        40 min at «450 C»
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

steps
  preheat     45 min at 450 F
  bake        40 min at 450 F
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

steps
  preheat     45 min at 230 C
  bake        40 min at 450 F
`,
  find: (context) => {
    const { formula, limits } = context;
    const least = limits.get('oven-temperature-odd', 'leastCelsius');
    const most = limits.get('oven-temperature-odd', 'mostCelsius');
    const steps = [...(formula?.method ?? []), ...(formula?.parts.flatMap((part) => part.steps) ?? [])];
    return steps.flatMap(({ node, place }): readonly Found[] => {
      const heat = node.temperature;
      if ((node.step !== 'bake' && node.step !== 'preheat') || heat?.kind !== 'degrees') {
        return [];
      }
      const where = placeOf(place.block, heat);
      // Colder than anything is: that is said of every temperature alike.
      if (heat.lowCelsius < ABSOLUTE_ZERO_CELSIUS) {
        return [];
      }
      if (heat.highCelsius < least) {
        const way = heat.unit === 'F' && heat.highCelsius * 1.8 + 32 >= least ? 'Is it meant in Celsius?' : 'Is a digit missing?';
        const message = `${degrees(heat.highCelsius, heat.unit)} is no oven heat: nothing bakes under ${celsius(least)}. ${way}`;
        return [{ place: where, message }];
      }
      if (heat.lowCelsius <= most) {
        return [];
      }
      return [
        {
          place: where,
          message:
            `${degrees(heat.lowCelsius, heat.unit)} is hotter than ovens go (${celsius(most)} at most ${forStyle(formula)}). ` +
            ((heat.lowCelsius - 32) / 1.8 <= most ? 'Is it meant in Fahrenheit?' : 'Is there a digit too many?'),
          fixes: heat.unit === 'C' && (heat.lowCelsius - 32) / 1.8 <= most ? inFahrenheit(context.section, where) : [],
        },
      ];
    });
  },
});
