import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { trimmed } from '../words';

export const frictionOdd = defineCheck({
  code: 'friction-odd',
  severity: 'warning',
  title: 'A friction that no mixer makes',
  why:
    'The friction factor says how much mixing warms a dough, times the number of temperatures in the sum. Every degree of ' +
    'it goes into the water; 25 C is mostly 25 F.',
  source: sourcesOf('friction-odd'),
  limits: THRESHOLDS['friction-odd'],
  trips: loaf({ head: ['friction  «40 C»'] }),
  passes: loaf({ head: ['friction  12 C'] }),
  find: ({ section, formula, limits }) => {
    const most = limits.get('friction-odd', 'mostCelsius');
    return (formula === undefined ? [] : linesOf(section)).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (
        node.kind !== 'property' ||
        node.value.kind !== 'difference' ||
        (node.value.celsius >= 0 && node.value.celsius <= most)
      ) {
        return [];
      }
      const text = section.blocks[block]?.text ?? '';
      const gap = /^\s*/.exec(text.slice(node.keyword.end, node.end))?.[0].length ?? 0;
      return [
        {
          place: placeOf(block, { start: node.keyword.end + gap, end: node.end }),
          message:
            node.value.celsius < 0
              ? 'Mixing warms a dough and never cools it, so the friction cannot be under nothing. Measure it: dough ' +
                'times the number of temperatures, less all of them.'
              : `A friction of ${trimmed(node.value.celsius, 0)} C, what mixing warms the dough, is more than any mixer makes (${trimmed(most, 0)} C ` +
                `at most; 3 to 19 C are published). Is it meant in Fahrenheit?`,
        },
      ];
    });
  },
});
