import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { trimmed } from '../words';

export const altitudeOdd = defineCheck({
  code: 'altitude-odd',
  severity: 'warning',
  title: 'A height at which nobody bakes',
  why:
    'The height of a bakery lowers the boiling point of water, and with it every core temperature. Above 5500 m it is ' +
    'mostly feet.',
  source: sourcesOf('altitude-odd'),
  limits: THRESHOLDS['altitude-odd'],
  trips: loaf({ head: ['altitude  «7200 m»'] }),
  passes: loaf({ head: ['altitude  1600 m'] }),
  find: ({ section, formula, limits }) => {
    const most = limits.get('altitude-odd', 'mostMetres');
    return (formula === undefined ? [] : linesOf(section)).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (
        node.kind !== 'property' ||
        node.value.kind !== 'altitude' ||
        (node.value.metres <= most && node.value.metres > -500)
      ) {
        return [];
      }
      const text = section.blocks[block]?.text ?? '';
      const gap = /^\s*/.exec(text.slice(node.keyword.end, node.end))?.[0].length ?? 0;
      return [
        {
          place: placeOf(block, { start: node.keyword.end + gap, end: node.end }),
          message:
            `No bakery stands at ${trimmed(node.value.metres, 0)} m (${trimmed(most, 0)} m at most). Is it meant in feet?`,
        },
      ];
    });
  },
});
