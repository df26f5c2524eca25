import type { PropertyLine } from '../../../../grammar';
import type { Limits } from '../check';
import { defineCheck, type Found } from '../define';
import { sourcesOf, THRESHOLDS } from '../limits';
import { gramsFrom, middleOf, toGrams } from '../../units/mass';
import { volumeToMl } from '../../units/volume';
import { linesOf, placeOf } from '../walk';
import { grams, trimmed } from '../words';

export const ingredientOdd = defineCheck({
  code: 'ingredient-odd',
  severity: 'error',
  title: 'A measure of an ingredient that cannot be meant',
  why:
    'The density turns cups and spoons into grams, `each` does so for pieces, and `absorbs` says how much water an ingredient ' +
    'drinks. With a value that nothing has, every line that is measured that way is weighed wrong.',
  source: sourcesOf('ingredient-odd'),
  limits: THRESHOLDS['ingredient-odd'],
  trips: `ingredient "malt syrup"
  «density   0 g per ml»
`,
  passes: `ingredient "malt syrup"
  density   1.4 g per ml
`,
  find: ({ section, limits }) =>
    section.kind !== 'ingredient'
      ? []
      : linesOf(section).flatMap(({ block, line: { node } }): readonly Found[] => {
          const message = node.kind === 'property' ? oddMeasure(node, limits) : undefined;
          return message === undefined ? [] : [{ place: placeOf(block, node), message }];
        }),
});

function oddMeasure({ key, value }: PropertyLine, limits: Limits): string | undefined {
  const get = (name: string) => limits.get('ingredient-odd', name);
  if (value.kind === 'density') {
    const density = toGrams(value.mass) / volumeToMl(value.volume, 'us');
    const [least, most] = [get('leastGramsPerMl'), get('mostGramsPerMl')];
    return density >= least && density <= most
      ? undefined
      : `${Number.isFinite(density) ? `${trimmed(density, density < 0.1 ? 3 : 1)} g per ml` : 'This'} is no density of anything that is baked ` +
          `(${trimmed(least, 2)} to ${trimmed(most, 1)} g per ml is possible), and cups and spoons of it would be weighed wrong. ` +
          'Weigh a cup, and write it like `density 120 g per cup`.';
  }
  if (key === 'each' && value.kind === 'amount' && value.amount.kind === 'mass') {
    const each = gramsFrom(middleOf(value.amount.quantity), value.amount.unit);
    return each > 0 && each <= get('mostEachGrams')
      ? undefined
      : `One piece of ${grams(each)} cannot be meant (more than 0 g, and ${grams(get('mostEachGrams'))} at most), and a line that ` +
          'counts them would be weighed wrong. Weigh one, and write it like `each 55 g`.';
  }
  if (key === 'absorbs' && value.kind === 'number') {
    const most = get('mostAbsorbs');
    return value.number.value <= most
      ? undefined
      : `Nothing drinks ${trimmed(value.number.value, 1)} times its weight (${trimmed(most, 1)} at most), and the dough would seem dry. ` +
          'Is a decimal point missing?';
  }
  return undefined;
}
