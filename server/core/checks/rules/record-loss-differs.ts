import { lossPctOf, recordsOf } from '../../records';
import { defineCheck, type Found } from '../define';
import { replaceNumber, written } from '../edits';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOf, placeOf } from '../walk';
import { percent, plain } from '../words';

const weighed = (date: string, grams: number): string => block(`record ${date}`, [`weighed   ${grams} g, 2 loaves`]);
const bakes = (first: number, second: number, third: number): string =>
  [weighed('2026-05-02', first), weighed('2026-05-09', second), weighed('2026-05-16', third)].join('\n');
const sized = (loses: string): string => loaf({ head: ['makes     2 loaves of 860 g', `loses     ${loses} in the oven`] });

export const recordLossDiffers = defineCheck({
  code: 'record-loss-differs',
  severity: 'info',
  title: 'Bakes that lose more or less than the formula says',
  why:
    'What is sold by weight hangs on the loss: where the loaves of several bakes are lighter than the formula says, somebody is sold ' +
    'short; where they are heavier, dough is given away. One bake is chance, several are the oven.',
  source: sourcesOf('record-loss-differs'),
  limits: THRESHOLDS['record-loss-differs'],
  // 1720 g of dough: 17, 18 and 19 % lost.
  trips: `${sized('«12 %»').replace('» in the oven', ' in the oven»')}\n${bakes(1428, 1410, 1393)}`,
  passes: `${sized('17 %')}\n${bakes(1428, 1410, 1393)}`,
  fixed: `${sized('18 %')}\n${bakes(1428, 1410, 1393)}`,
  find: ({ section, formula, limits }) => {
    if (formula?.kind !== 'formula' || !formula.ovenLossSaid) return [];
    const mostOdd = limits.get('loss-odd', 'mostPct');
    // Heavier than its dough, or half gone: the weighing is a slip, and says nothing of the oven.
    const losses = recordsOf(formula).flatMap((record) => lossPctOf(formula, record) ?? []).filter((pct) => pct > 0 && pct <= mostOdd);
    const mean = losses.reduce((sum, pct) => sum + pct, 0) / losses.length;
    const said = 100 * formula.ovenLoss;
    if (losses.length < limits.get('record-loss-differs', 'leastBakes') || Math.abs(mean - said) <= limits.get('record-loss-differs', 'mostPoints')) {
      return [];
    }
    return linesOf(section).flatMap(({ block: at, line: { node } }): readonly Found[] => {
      if (node.kind !== 'property' || node.value.kind !== 'loss' || node.value.where !== 'oven') return [];
      const newText = written(mean, '%');
      return [{
        place: placeOf(at, { start: node.value.percent.start, end: node.end }),
        message:
          `The formula says that ${percent(said)} is lost in the oven; ${losses.length} bakes lost ${percent(mean)} on average ` +
          `(${plain(Math.min(...losses))} to ${percent(Math.max(...losses))}). The weights of baked loaves on the sheet are that far off. ` +
          `Write ${newText} % if these bakes are how you bake.`,
        fixes: [{ title: `Write ${newText} %`, certain: false, edits: [replaceNumber(at, node.value.percent, newText)] }],
      }];
    });
  },
});
