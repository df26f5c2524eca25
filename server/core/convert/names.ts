/** The words of an ingredient: which of them are its name, and which only say more about it. */
import type { Catalogue } from '../ingredients/model';
import { foldName } from '../ingredients/names';
import { STARTER_NAMES } from '../formula/gather';
import { temperatureAt } from './amounts';
import { isDash, isSign, isWord, sliceOf, type Token } from './tokens';

export interface ReadName {
  readonly name: string;
  readonly known: boolean;
  /** Known names like it. */
  readonly nearest: readonly string[];
  /** `30 C` */
  readonly at: string | undefined;
  /** Of a starter, a percentage. */
  readonly hydration: string | undefined;
  /** `dusting`, `the top`: it is not part of the dough. */
  readonly purpose: string | undefined;
  readonly notes: readonly string[];
  /** There is another choice behind `or`. */
  readonly hasChoice: boolean;
}

/** What an ingredient is for if it does not go into the dough. */
const PURPOSES = /^(?:(?:the |your )?(?:dusting|rolling|greasing|brushing|sprinkling|coating|shaping|serving|garnish|top|topping|pan|pans|tin|tins|bowl|peel|basket|surface|work surface|bench)\b)/i;
/** Praise and sizes: the ingredient is the same without them. */
const PRAISE = new Set(['good', 'quality', 'good-quality', 'high-quality', 'best', 'organic', 'local', 'favourite', 'favorite', 'filtered', 'bottled', 'spring', 'your', 'some',
  'ripe', 'juicy', 'plump', 'large', 'medium', 'small', 'big', 'extra-large', 'medium-sized', 'the', 'very', 'of', 'just', 'lightly', 'firmly', 'loosely', 'packed', 'heaped', 'heaping', 'level', 'rounded', 'scant', 'generous', 'homemade']);
/** Words behind a name that go on about it. */
const GOES_ON = ['plus', 'to', 'from', 'at', 'for', 'if', 'as', 'with', 'cut', 'in', 'per', 'until', 'that', 'which', 'not', 'preferably', 'such', 'divided', 'optional', 'beaten', 'softened', 'melted', 'sifted', 'chopped'];

export function isKnown(name: string, catalogue: Catalogue): boolean {
  return catalogue.find(name) !== undefined || STARTER_NAMES.has(name.toLowerCase());
}

/** Reads the words of a name: `of`, a temperature, a purpose, and asides behind it. */
export function readName(text: string, words: readonly Token[], catalogue: Catalogue): ReadName {
  let tokens = isWord(words[0], 'of') && words.length > 1 ? words.slice(1) : words;
  tokens = withoutSigns(tokens);
  const notes: string[] = [];
  let [at, hydration, purpose]: (string | undefined)[] = [];
  let hasChoice = false;
  const whole = sliceOf(text, tokens);
  if (!isKnown(whole, catalogue)) {
    const end = tokens.findIndex((token, index) => index > 0 && (isWord(token, 'or', ...GOES_ON) || isSign(token, '/', '+')));
    const behind = end < 0 ? [] : tokens.slice(end);
    const before = end < 0 ? tokens : tokens.slice(0, end);
    // A word of preparation belongs to the name where the name is known with it.
    const isPart = isKnown(sliceOf(text, before), catalogue) || !isWord(behind[0], 'with', 'in', 'not', 'or', 'as');
    if (behind.length > 0 && isPart) {
      const read = readBehind(text, behind);
      at = read.at;
      hydration = read.hydration;
      purpose = read.purpose;
      if (read.note !== '') notes.push(read.note.replace(/^\/ ?/, 'or '));
      hasChoice = isWord(behind[0], 'or') || isSign(behind[0], '/');
      tokens = before;
    }
  }
  const { name, praise } = withoutPraise(text, tokens, catalogue);
  const known = isKnown(name, catalogue);
  return { name, known, nearest: known ? [] : catalogue.nearest(name, 3), at, hydration, purpose, notes: [...(praise === '' ? [] : [praise]), ...notes], hasChoice };
}

interface Behind {
  readonly at?: string;
  readonly hydration?: string;
  readonly purpose?: string;
  readonly note: string;
}

/** What stands behind a name: `at 30 C / 85 F`, `at 100 % hydration`, `for dusting`, or words. */
function readBehind(text: string, tokens: readonly Token[]): Behind {
  const note = sliceOf(text, tokens);
  if (isWord(tokens[0], 'at')) {
    const read = readAt(text, tokens.slice(1));
    if (read !== undefined) return read;
  }
  const purpose = purposeIn(note);
  return purpose === undefined ? { note } : { purpose, note: '' };
}

/** A temperature, or the hydration of a starter, and what is said beside it. */
export function readAt(text: string, tokens: readonly Token[]): Behind | undefined {
  const hydration = hydrationIn(tokens);
  if (hydration !== undefined) return { hydration, note: '' };
  const first = temperatureAt(tokens, 0);
  if (first === undefined) return undefined;
  const behind = isSign(tokens[first.next], '/') || isWord(tokens[first.next], 'or') ? first.next + 1 : first.next;
  const second = temperatureAt(tokens, behind);
  const isOther = second !== undefined && first.value.unit === 'F' && second.value.unit === 'C';
  const [chosen, said] = isOther ? [second.value, tokens.slice(0, first.next)] : [first.value, tokens.slice(behind)];
  return { at: chosen.bake, note: sliceOf(text, isOther ? [...said, ...tokens.slice(second.next)] : said) };
}

/** `100 % hydration`, alone. */
export function hydrationIn(tokens: readonly Token[]): string | undefined {
  const [number, sign, word] = tokens;
  return tokens.length === 3 && number?.kind === 'number' && isSign(sign, '%') && isWord(word, 'hydration') ? number.text : undefined;
}

/** `dusting` of `for dusting`, where what it is for is not the dough; undefined otherwise. */
export function purposeIn(words: string): string | undefined {
  const what = /^for /i.test(words) ? words.slice(4).trim() : '';
  return PURPOSES.test(what) && /^[\p{L} '’-]+$/u.test(what) ? what : undefined;
}

function withoutSigns(tokens: readonly Token[]): readonly Token[] {
  const isNoise = (token: Token | undefined): boolean => isDash(token) || isSign(token, '*', '.', ':', '•', '_');
  let [from, to] = [0, tokens.length];
  while (from < to && isNoise(tokens[from])) from += 1;
  while (to > from && isNoise(tokens[to - 1])) to -= 1;
  return tokens.slice(from, to);
}

/** An unknown name without the praise in front of it, where it is then known. */
function withoutPraise(text: string, tokens: readonly Token[], catalogue: Catalogue): { readonly name: string; readonly praise: string } {
  const name = sliceOf(text, tokens);
  if (isKnown(name, catalogue)) return { name, praise: '' };
  for (let from = 1; from < Math.min(tokens.length, 6); from += 1) {
    if (!PRAISE.has(tokens[from - 1]?.text.toLowerCase() ?? '')) break;
    const rest = sliceOf(text, tokens.slice(from));
    if (isKnown(rest, catalogue)) return { name: rest, praise: sliceOf(text, tokens.slice(0, from)) };
  }
  return { name, praise: '' };
}

/** Whether two names are one: `the ripe levain` and `levain`. */
export function isSameName(a: string, b: string): boolean {
  return bareName(a) === bareName(b);
}

const BESIDE_A_NAME = new Set(['the', 'all', 'of', 'ripe', 'active', 'prepared', 'your', 'from', 'above', 'it', 'whole', 'entire', 'build', 'mature', 'bubbly', 'night', 'before', 'final', 'a']);

export function bareName(name: string): string {
  const words = foldName(name).split(' ');
  const kept = words.filter((word) => !BESIDE_A_NAME.has(word));
  return (kept.length === 0 ? words : kept).join(' ');
}
