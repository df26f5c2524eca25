import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { percent, plain } from '../words';

export const starterHydrationOdd = defineCheck({
  code: 'starter-hydration-odd',
  severity: 'warning',
  title: 'A starter that is powder or soup',
  why:
    'The hydration of a starter is its water over its flour: 100 % where both weigh the same, about 50 % for a stiff one. ' +
    'A number far from that gives the dough the wrong flour and water.',
  source: sourcesOf('starter-hydration-odd'),
  limits: THRESHOLDS['starter-hydration-odd'],
  trips: loaf({ more: ['100 g     starter at «500 %» hydration'] }),
  passes: loaf({ more: ['100 g     starter at 50 % hydration'] }),
  find: ({ section, formula, limits }) => {
    const most = limits.get('starter-hydration-odd', 'mostPct');
    const least = limits.get('starter-hydration-odd', 'leastPct');
    return (formula === undefined ? [] : linesOf(section)).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind !== 'ingredient' || node.hydrationPct === undefined) {
        return [];
      }
      const { value, start, end } = node.hydrationPct;
      if (value >= least && value <= most) {
        return [];
      }
      const text = section.blocks[block]?.text ?? '';
      const sign = /^\s*%/.exec(text.slice(end))?.[0].length ?? 0;
      return [
        {
          place: placeOf(block, { start, end: end + sign }),
          message:
            `A starter at ${percent(value)} hydration is ${value > most ? 'soup' : 'powder'} (${plain(least)} to ` +
            `${percent(most)} is possible). ` +
            'Write its water over its flour: 100 % where both weigh the same.',
        },
      ];
    });
  },
});
