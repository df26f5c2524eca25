/** A spoon taken for a smaller one: a tablespoon of salt for a teaspoon. */
import type { VolumeUnit } from '../../../grammar';
import { volumeToMl } from '../units/volume';
import type { CheckContext } from './check';
import { textAt } from './walk';

const SMALLER: Partial<Record<VolumeUnit, VolumeUnit>> = { cup: 'tbsp', tbsp: 'tsp' };

/**
 * `is it tsp, not tbsp?` where the dough's salt is measured in spoons and the next smaller one would do.
 *
 * @param most what the amount may be at most, as a share of what it is
 */
export function spoonMeant({ section, formula }: CheckContext, most: number): string | undefined {
  for (const line of formula?.parts.flatMap((part) => part.lines) ?? []) {
    const amount = line.source?.kind === 'ingredient' ? line.source.amount : undefined;
    const unit = amount?.kind === 'volume' && amount.bracket === undefined ? amount.unit : undefined;
    const smaller = unit === undefined ? undefined : SMALLER[unit];
    if (line.role === 'salt' && unit !== undefined && smaller !== undefined && volumeToMl(smaller, 'us') / volumeToMl(unit, 'us') <= most) {
      return `is ${smaller} meant where ${textAt(section, line.amountPlace)} is written?`;
    }
  }
  return undefined;
}
