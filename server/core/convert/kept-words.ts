/** The last look at a line of the draft: a word of the source that it does not say is kept beside it, so that nothing is lost. */
import { measureOf } from './units';

/** Words that a draft says in other words or by where it stands. */
const SAID_OTHERWISE = new Set(`of at or plus and a an the all to x degree degrees deg celsius centigrade fahrenheit percent fl fluid for one two three four five six seven eight nine
  ten eleven twelve half makes make yields yield serves serve servings serving people persons person portions portion recipe this about approximately approx it c f`.split(/\s+/));

/** The words and the digits of the source that the draft does not have. */
export function wordsLost(source: string, draft: string): readonly string[] {
  const kept = new Set(wordsOf(draft));
  const words = wordsOf(source).filter((word) => !kept.has(word) && !SAID_OTHERWISE.has(word) && measureOf(word) === undefined);
  // `1,000` is written 1000, and `2,5` as 2.5.
  const digits = (source.match(/\d+/g) ?? []).filter((number) => !draft.includes(number));
  return [...words, ...digits];
}

/** In small letters; what stands in one word with digits is cut from them. */
export function wordsOf(text: string): readonly string[] {
  return text.toLowerCase().match(/\p{L}[\p{L}\p{M}]*/gu) ?? [];
}
