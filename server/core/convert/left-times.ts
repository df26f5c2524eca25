/** Long times of a sentence that no step of it has taken: a rise that is lost among words makes a bake day that looks right and is not. */
import { durationAt, durationWords } from './durations';
import { isWord, type Token } from './tokens';

/** Shorter ones are of the bench, and those of more than some days are how long the bread keeps. */
const LONG_MINUTES = 60;
const MOST_MINUTES = 4 * 24 * 60;
/** `after 2 hours`, `up to 2 days`: when or how long at most, not how long something is left. */
const WHEN = ['every', 'each', 'after', 'first', 'last', 'within', 'another', 'until', 'before', 'up'];
const KEEPS = ['keep', 'keeps', 'stays', 'store', 'stored', 'stale', 'fresh', 'slice', 'slices', 'leftover', 'leftovers'];

/** @param steps what the sentence gave, as lines of the language */
export function timeLeft(tokens: readonly Token[], steps: readonly string[]): string | undefined {
  if (tokens.some((token) => isWord(token, ...KEEPS))) return undefined;
  let taken = steps.join('\n');
  const left: string[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const found = durationAt(tokens, index);
    if (found === undefined) continue;
    const words = durationWords(found.value);
    const isWhen = tokens.slice(Math.max(0, index - 2), index).some((token) => isWord(token, ...WHEN)) || isWord(tokens[found.next], 'before', 'after', 'old', 'later', 'in', 'ahead', 'apart');
    const isLong = found.value.highMinutes >= LONG_MINUTES && found.value.highMinutes <= MOST_MINUTES;
    const isFold = taken.includes(` at ${String(found.value.lowMinutes)} min`);
    if (taken.includes(words)) taken = taken.replace(words, '');
    else if (isLong && !isFold && !isWhen && !isRepeated(words, steps)) left.push(words);
    index = found.next - 1;
  }
  const [first] = left;
  return first === undefined ? undefined : `what is done ${first === 'overnight' ? first : `for ${first}`}? No step has that time.`;
}

/** `overnight, about 12 hours` says one time twice. */
function isRepeated(words: string, steps: readonly string[]): boolean {
  return words === 'overnight' && steps.some((step) => /^(?:retard|ripen|bulk|rest|soak|chill)\b/.test(step) && /\b(?:[6-9]|1\d)(?: to \d+)? h\b/.test(step));
}
