/** What happens in the oven, out of one sentence: how long, how hot, with the lid on or off, one step after the other. */
import { numbersAt } from './amounts';
import { durationAt, durationWords, type ReadDuration } from './durations';
import { isSign, isWord, type Token } from './tokens';
import { inCelsius, temperaturesIn } from './warmth';

/** The oven is set for what comes next. */
const TURNS = ['lower', 'reduce', 'drop', 'turn', 'down', 'raise', 'then'];

interface Stretch {
  readonly duration: ReadDuration;
  temperature: string | undefined;
  cover: string | undefined;
  /** The temperature is its own and not that of the stretch before. */
  isOwn: boolean;
}

/** Lines of the language, such as `bake 20 min at 232 C, lid on`. Empty where no length of time is said. */
export function bakesIn(tokens: readonly Token[], oven: string | undefined, core: string | undefined): readonly string[] {
  const warmths = temperaturesIn(tokens);
  const stretches: Stretch[] = [];
  let heat: string | undefined;
  // It stands in front of a time that has not come yet: `at 240 C for 15 min, then 25 min at 210 C`.
  let isAhead = false;
  let cover: string | undefined;
  let lastEnd = -1;
  for (let index = 0; index < tokens.length; index += 1) {
    const last = stretches.at(-1);
    const warmth = warmths.find((one) => one.index === index);
    if (warmth !== undefined) {
      if (!warmth.isCore && warmth.lowCelsius >= 60) {
        const words = inCelsius(warmth);
        const isBehind = last !== undefined && !last.isOwn && !tokens.slice(lastEnd, index).some((token) => isWord(token, ...TURNS));
        if (isBehind) Object.assign(last, { temperature: words, isOwn: true });
        heat = words;
        isAhead = !isBehind;
      }
      index = warmth.next - 1;
      continue;
    }
    const time = timeAt(tokens, index, last !== undefined);
    if (time !== undefined) {
      if (!isWord(tokens[index - 1], 'every', 'after', 'each') && !isWord(tokens[time.next], 'before')) {
        stretches.push({ duration: time.value, temperature: heat, cover, isOwn: isAhead });
        isAhead = false;
        // Steam is for the beginning; a lid stays until it is taken off.
        if (cover === 'with steam') cover = undefined;
      }
      lastEnd = time.next;
      index = time.next - 1;
      continue;
    }
    const covers = coverAt(tokens, index);
    if (covers === undefined) continue;
    // `20 minutes covered`, but `20 minutes, then uncover and bake 25 more`.
    const isBehind = last !== undefined && index - lastEnd <= covers.reach && isWord(tokens[index], 'covered', 'uncovered', 'lid', 'steam', 'without') && last.cover === undefined;
    if (isBehind) last.cover = covers.words;
    else cover = covers.words;
  }
  // `Bake 15 min at 250 C, with steam`: there is nothing else that it could be about.
  const [only] = stretches;
  if (stretches.length === 1 && only !== undefined && !tokens.some((token) => isWord(token, 'uncover', 'remove', 'then'))) only.cover ??= cover;
  return stretches.map(({ duration, temperature, cover: lid }, index) => {
    const earlier = stretches.slice(0, index).findLast((one) => one.temperature !== undefined)?.temperature;
    const later = stretches.slice(index).find((one) => one.temperature !== undefined)?.temperature;
    const hot = temperature ?? earlier ?? oven ?? later;
    const until = index === stretches.length - 1 ? core : undefined;
    return [`bake ${durationWords(duration)}${hot === undefined ? '' : ` at ${hot}`}`, lid, until].filter((piece) => piece !== undefined).join(', ');
  });
}

/** A length of time; behind another one a number alone, as in `20 minutes covered and 25 uncovered`. */
function timeAt(tokens: readonly Token[], index: number, mayBeBare: boolean): { readonly value: ReadDuration; readonly next: number } | undefined {
  const found = durationAt(tokens, index);
  if (found !== undefined || !mayBeBare) return found;
  const numbers = tokens[index]?.kind === 'number' ? numbersAt(tokens, index) : undefined;
  if (numbers === undefined || !isWord(tokens[numbers.next], 'uncovered', 'covered', 'more', 'without', 'with')) return undefined;
  const { lowValue, highValue } = numbers.value;
  return lowValue < 5 ? undefined : { value: { lowMinutes: lowValue, highMinutes: highValue, isNight: false }, next: numbers.next };
}

/** How it is covered from a word on; `reach`: how far behind a time it still speaks of it. */
function coverAt(tokens: readonly Token[], index: number): { readonly words: string; readonly reach: number } | undefined {
  const token = tokens[index];
  if (isWord(token, 'covered')) return { words: 'lid on', reach: 0 };
  if (isWord(token, 'uncovered', 'uncover')) return { words: 'lid off', reach: 0 };
  if (isWord(token, 'lid')) {
    const around = [...tokens.slice(Math.max(0, index - 4), index), ...tokens.slice(index + 1, index + 2)];
    const off = around.some((one) => isWord(one, 'remove', 'without', 'off', 'removed', 'removing'));
    return { words: off ? 'lid off' : 'lid on', reach: 2 };
  }
  // `25 min without`
  const after = tokens[index + 1];
  if (isWord(token, 'without') && (after === undefined || isWord(after, 'at', 'it') || isSign(after, ',', '.'))) return { words: 'lid off', reach: 0 };
  if (isWord(token, 'steam') && (isSign(tokens[index - 1], ',') || tokens.slice(Math.max(0, index - 3), index).some((one) => isWord(one, 'with')))) return { words: 'with steam', reach: 2 };
  return undefined;
}
