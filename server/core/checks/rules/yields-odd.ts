import { defineCheck, type Found } from '../define';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { linesOfBlock, placeOf } from '../walk';
import { grams, named } from '../words';

/** Steps from which pieces come out heavier than they went in: what they drink is in no line. */
const WET: ReadonlySet<string> = new Set(['boil', 'steam', 'soak']);
const ready = { before: block('scald', ['100 g     rye flour', '200 g     water at 95 C', 'yields    285 g', 'rest      1 h']), more: ['all       scald'] };

export const yieldsOdd = defineCheck({
  code: 'yields-odd',
  severity: 'warning',
  title: 'More after cooking than went in',
  why:
    'Cooking drives water off. A part that weighs more after it has drunk water that no line names, and that water is counted ' +
    'as if it were in the list; mostly a digit is wrong, or a line is missing.',
  source: sourcesOf('yields-odd'),
  limits: THRESHOLDS['yields-odd'],
  trips: loaf({ ...ready, before: ready.before.replace('yields    285 g', '«yields    385 g»') }),
  passes: loaf(ready),
  find: ({ section, formula, limits }) => {
    const most = limits.get('yields-odd', 'mostShare');
    return (formula?.parts ?? []).flatMap(({ name, block: index, grams: into, yieldGrams, steps }): readonly Found[] => {
      const tree = section.blocks[index];
      const line = tree && linesOfBlock(tree, index).find(({ line: { node } }) => node.kind === 'property' && node.key === 'yields');
      const drinks = steps.some(({ node }) => WET.has(node.step));
      if (line === undefined || into === null || yieldGrams === null || drinks || yieldGrams <= into * most) {
        return [];
      }
      return [
        {
          place: placeOf(index, line.line.node),
          message:
            `${grams(into)} goes into ${named(name)} and ${grams(yieldGrams)} is to come out: the ${grams(yieldGrams - into)} more ` +
            'would be water that no line names. Correct the weight, write the water as a line, or add the `boil` it drinks in.',
        },
      ];
    });
  },
});
