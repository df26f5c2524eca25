/** Folds in a sentence, as lines under a bulk. */
import { numbersAt } from './amounts';
import { durationAt, durationWords } from './durations';
import { isDash, isSign, isWord, type Token } from './tokens';

/** `fold every 30 min, 4 times`, or one `fold at 30 min` for each. Empty where no time of a fold is said. */
export function foldsIn(tokens: readonly Token[]): readonly string[] {
  const at = tokens.findIndex((token) => isWord(token, 'fold', 'folds', 'folding', 'folded'));
  const hyphened = tokens.findIndex((token) => isWord(token, 'stretch-and-fold', 'stretch-and-folds'));
  if (at < 0 && hyphened < 0) return [];
  const before = tokens[at - 1];
  const kind = isWord(before, 'coil') || isDash(before) && isWord(tokens[at - 2], 'coil') ? 'coil fold'
    : hyphened >= 0 || tokens.slice(Math.max(0, at - 3), at).some((token) => isWord(token, 'stretch', 'stretches')) ? 'stretch and fold' : 'fold';
  return every(tokens, kind) ?? single(tokens, kind);
}

/** `every 30 minutes, 4 times`; `every 30 minutes for the first 2 hours`. */
function every(tokens: readonly Token[], kind: string): readonly string[] | undefined {
  const index = tokens.findIndex((token) => isWord(token, 'every'));
  const interval = index < 0 ? undefined : durationAt(tokens, index + 1);
  if (interval === undefined || interval.value.isNight) return undefined;
  const times = timesIn(tokens) ?? within(tokens, interval.value.highMinutes);
  return [`${kind} every ${durationWords(interval.value)}${times === undefined ? '' : `, ${times} times`}`];
}

/** `4 times`, `three sets of folds`, `4 folds` */
function timesIn(tokens: readonly Token[]): number | undefined {
  for (let index = 0; index < tokens.length; index += 1) {
    const numbers = numbersAt(tokens, index);
    if (numbers === undefined || numbers.value.high !== undefined || !Number.isInteger(numbers.value.lowValue)) continue;
    if (isSign(tokens[index - 1], '×') || isWord(tokens[index - 1], 'x')) return numbers.value.lowValue;
    if (isWord(tokens[numbers.next], 'times', 'sets', 'rounds', 'folds', 'stretch-and-folds') || isWord(tokens[numbers.next + 1], 'folds')) return numbers.value.lowValue;
  }
  return undefined;
}

function within(tokens: readonly Token[], intervalMinutes: number): number | undefined {
  const index = tokens.findIndex((token) => isWord(token, 'first'));
  const length = index < 0 ? undefined : durationAt(tokens, index + 1);
  const times = length === undefined ? 0 : length.value.lowMinutes / intervalMinutes;
  return Number.isInteger(times) && times >= 1 && times <= 12 ? times : undefined;
}

/** `fold at 30, 60 and 90 minutes`, `fold after 45 minutes` */
function single(tokens: readonly Token[], kind: string): readonly string[] {
  return tokens.flatMap((token, index) => (isWord(token, 'at', 'after') ? minutesFrom(tokens, index + 1) : [])).map((minute) => `${kind} at ${minute} min`);
}

/** `40' and 80'` */
const PRIMES = ["'", '′', '’'];

/** `30, 60 and 90 minutes`; none where it is something else. */
function minutesFrom(tokens: readonly Token[], start: number): readonly number[] {
  const minutes: number[] = [];
  let at = start;
  for (; tokens[at] !== undefined; at += 1) {
    const token = tokens[at];
    if (token?.kind === 'number') minutes.push(token.value);
    else if (!isSign(token, ',', ...PRIMES) && !isWord(token, 'and')) break;
  }
  return isWord(tokens[at], 'min', 'mins', 'minutes', 'minute') || isSign(tokens[at - 1], ...PRIMES) ? minutes : [];
}
