import type { Place } from '../formula/model';
import type { NumberEdit } from './scene';

/** The text after edits that are in its order and apart from one another. `offsetsOf` says where in the text a place is. */
export function applyNumberEdits(
  text: string, edits: readonly NumberEdit[], offsetsOf: (place: Place) => { readonly start: number; readonly end: number },
): string {
  let result = '';
  let done = 0;
  for (const { place, newText } of edits) {
    const { start, end } = offsetsOf(place);
    result += text.slice(done, start) + newText;
    done = end;
  }
  return result + text.slice(done);
}
