import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { percent } from '../words';

export const lossOdd = defineCheck({
  code: 'loss-odd',
  severity: 'error',
  title: 'A loss that leaves no bread',
  why:
    'What is lost at the bench and in the oven is made up for in the dough. A loss of nearly everything asks for a ' +
    'dough without end.',
  source: sourcesOf('loss-odd'),
  limits: THRESHOLDS['loss-odd'],
  trips: loaf({ head: ['loses     «100 % in the oven»'] }),
  passes: loaf({ head: ['loses     12 % in the oven'] }),
  find: ({ section, formula, limits }) =>
    (formula === undefined ? [] : linesOf(section)).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind !== 'property' || node.value.kind !== 'loss') {
        return [];
      }
      const { percent: loss, where } = node.value;
      const most = limits.get('loss-odd', where === 'oven' ? 'mostPct' : 'mostBenchPct');
      return loss.value <= most
        ? []
        : [
            {
              place: placeOf(block, { start: loss.start, end: node.end }),
              message:
                `Nobody loses ${percent(loss.value)} ${where === 'oven' ? 'in the oven' : 'at the bench'} ` +
                `(${percent(most)} at most): ${loss.value >= 100 ? 'no bread would be left, so the loss is not counted' : 'most of the dough would be gone'}. ` +
                `Is it what is left, or a digit too many?`,
            },
          ];
    }),
});
