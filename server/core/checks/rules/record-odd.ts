import { boilingCelsius } from '../../baking';
import { defineCheck, type Found } from '../define';
import { degreesOf } from '../dough';
import { inFahrenheit } from '../edits';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { celsius, trimmed } from '../words';

const noted = (line: string): string => `${loaf()}\n${block('record 2026-05-02', [line, 'core      97 C', 'ph        4.1'])}`;

export const recordOdd = defineCheck({
  code: 'record-odd',
  severity: 'warning',
  title: 'A figure of a bake that cannot be',
  why:
    'A dough at 76 C or a pH of 41 is a slip: Fahrenheit written as Celsius, or a point left out. What is compared with it, and ' +
    'the pace of your kitchen, would go astray.',
  source: sourcesOf('record-odd'),
  limits: THRESHOLDS['record-odd'],
  trips: noted('dough     «76 C»'),
  passes: noted('dough     76 F'),
  fixed: noted('dough     76 F'),
  find: ({ section, formula, limits }) => {
    if (formula === undefined) return [];
    const get = (name: string): number => limits.get('record-odd', name);
    const boiling = boilingCelsius(Math.min(formula.altitudeMetres ?? 0, limits.get('altitude-odd', 'mostMetres')));
    const bounds: Readonly<Record<string, readonly [least: number, most: number]>> = {
      room: [get('leastCelsius'), get('mostCelsius')],
      dough: [get('leastCelsius'), get('mostCelsius')],
      core: [get('leastCoreCelsius'), boiling],
    };
    return linesOf(section).flatMap(({ block: at, line: { node } }): readonly Found[] => {
      if (node.kind !== 'property' || section.blocks[at]?.head.node.kind !== 'record') return [];
      if (node.key === 'ph' && node.value.kind === 'number') {
        const { value } = node.value.number;
        if (value >= get('leastPh') && value <= get('mostPh')) return [];
        return [{
          place: placeOf(at, node.value.number),
          message: `A pH of ${trimmed(value, 1)} is none that dough has (${trimmed(get('leastPh'), 1)} to ${trimmed(get('mostPh'), 1)}). Correct it.`,
        }];
      }
      const heat = node.value.kind === 'temperature' ? degreesOf(node.value.temperature) : undefined;
      const bound = Object.hasOwn(bounds, node.key) ? bounds[node.key] : undefined;
      if (heat === undefined || bound === undefined || (heat.celsius >= bound[0] && heat.celsius <= bound[1])) return [];
      const place = placeOf(at, heat.span);
      const asF = (heat.celsius - 32) / 1.8;
      const fits = heat.unit === 'C' && asF >= bound[0] && asF <= bound[1];
      return [{
        place,
        message:
          `A ${node.key} of ${celsius(heat.celsius)} cannot be (${celsius(bound[0])} to ${celsius(bound[1])} is possible).` +
          (fits ? ' Is it meant in Fahrenheit?' : ' Correct it, or this bake is compared with something that never was.'),
        fixes: fits ? inFahrenheit(section, place) : [],
      }];
    });
  },
});
