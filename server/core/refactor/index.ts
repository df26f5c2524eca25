/**
 * Other ways to write a formula that bakes the same bread. Each is offered only where it can be done, keeps comments and
 * columns, and moves no total of the sheet: where weights are rounded to what a scale shows, its title says what that does.
 */
import { prefermentsToTakeOut } from './extract';
import { asVariantOf } from './extract-variant';
import { halvesOverFolds } from './folds';
import { variantInFull } from './inline-variant';
import type { Refactoring, Scene } from './refactoring';
import { sharesOrGrams } from './shares';
import { totalOrDough } from './total';
import { otherUnits } from './units';

export type { Refactoring, Scene } from './refactoring';

/** What can be done at the cursor, no two with one `id`. */
export function refactoringsAt(scene: Scene): readonly Refactoring[] {
  return [...otherUnits(scene), ...halvesOverFolds(scene), ...sharesOrGrams(scene), ...totalOrDough(scene), ...prefermentsToTakeOut(scene), ...variantInFull(scene), ...asVariantOf(scene)];
}
