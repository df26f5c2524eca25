/** Times that the baker chose in the editor, by the file of their formula. */
import type { ChosenTime } from './file';
import { canonicalUri } from './uris';

/** By canonical URI. */
export type ChosenTimes = ReadonlyMap<string, readonly ChosenTime[]>;

export const NO_TIMES: readonly ChosenTime[] = [];

/** All times there are, in the place of `last`; `last` itself when they are the same. A file whose times are the same keeps the same list, and so stays as it is. */
export function chosenTimesOf(times: readonly (ChosenTime & { readonly uri: string })[], last: ChosenTimes): ChosenTimes {
  const next = new Map<string, ChosenTime[]>();
  for (const { uri, formula, zone, anchor } of times) {
    const key = canonicalUri(uri);
    next.set(key, [...next.get(key) ?? [], { formula, zone, anchor }]);
  }
  const merged = new Map([...next].map(([uri, list]) => {
    const before = last.get(uri);
    return [uri, before !== undefined && JSON.stringify(before) === JSON.stringify(list) ? before : list];
  }));
  return merged.size === last.size && [...merged].every(([uri, list]) => last.get(uri) === list) ? last : merged;
}
