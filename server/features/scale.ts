/** A formula of a file at another size: what sizes it has, and the edit that brings it to one. */
import { titleOf } from '../output/entry';
import { decimals } from '../output/numbers';
import { rangeOfPlace, sectionAt, textEditIn } from '../project/file';
import type { ProjectFile } from '../project/file';
import type { ScaleAnswer, ScaleParams } from '../requests';
import { rescaledTo, sizesOf } from './shared/sizes';

/**
 * The answer for the formula or dish at the offset; null where there is none. Without a request: the sizes that can be asked
 * for. With one: the edit, or a sentence that says why not.
 */
export function scaleAt(file: ProjectFile, offset: number, { request, step, smallStep }: Omit<ScaleParams, 'uri' | 'position'>): ScaleAnswer | null {
  const placed = sectionAt(file, offset);
  const formula = placed?.analysis.formula;
  if (placed === undefined || formula === undefined) return null;
  const title = titleOf(formula);
  if (request === undefined) return { kind: 'sizes', title, sizes: sizesOf(placed) };
  const rescaled = rescaledTo(file, placed, { ...request, step, smallStep });
  if (rescaled.kind === 'cannot') return rescaled;
  return {
    kind: 'edit',
    title: `Scale ${title} to ${decimals(rescaled.factor, 3)} times its size`,
    edits: rescaled.edits.map(({ place, newText }) => {
      const { start, end } = placed.offsetsOf(place);
      return textEditIn(file, start, end, newText);
    }),
    notes: rescaled.notes.map(({ place, message }) => ({ line: rangeOfPlace(file, placed, place).start.line, message })),
  };
}
