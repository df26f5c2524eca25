/** Amounts and temperatures at a place in a list of tokens. */
import { celsius } from '../units/temperature';
import { OUNCES_PER_POUND } from './constants';
import { isDash, isSign, isWord, type Token } from './tokens';
import { measureOf, type Measure } from './units';

/** One number, or the two ends of a range, as the language writes them. */
export interface Numbers {
  readonly low: string;
  readonly high: string | undefined;
  readonly lowValue: number;
  readonly highValue: number;
}

export interface ReadAmount extends Numbers {
  readonly kind: 'amount';
  /** Undefined for a number alone: so many pieces. */
  readonly measure: Measure | undefined;
  /** As the source has it. */
  readonly from: number;
  readonly to: number;
  /** Words around the number that make it less certain: `about`, `heaped`. */
  readonly vague: readonly string[];
  /** A number that may be a thousand times what it was read as, or the thousandth. */
  readonly grouped: boolean;
  /** Worked out from two numbers: `2 x 400 g`, `1 lb 2 oz`. */
  readonly isComputed: boolean;
}

export interface ReadTemperature {
  readonly kind: 'temperature';
  /** `30 C`, `105 to 115 F` */
  readonly bake: string;
  readonly unit: 'C' | 'F';
  readonly lowCelsius: number;
  readonly highCelsius: number;
  readonly from: number;
  readonly to: number;
}

export interface At<T> {
  readonly value: T;
  /** Index of the token behind it. */
  readonly next: number;
}

const COUNT_WORDS = new Map<string, readonly [string, number]>([
  ['a', ['1', 1]], ['an', ['1', 1]], ['one', ['1', 1]], ['two', ['2', 2]], ['three', ['3', 3]], ['four', ['4', 4]], ['five', ['5', 5]],
  ['six', ['6', 6]], ['seven', ['7', 7]], ['eight', ['8', 8]], ['nine', ['9', 9]], ['ten', ['10', 10]], ['eleven', ['11', 11]],
  ['twelve', ['12', 12]], ['half', ['1/2', 0.5]],
]);
const ABOUT = new Set(['about', 'approx', 'approximately', 'around', 'roughly', 'circa', 'ca', 'c', 'scant', 'generous', 'heaped', 'heaping', 'level',
  'rounded', 'packed', 'lightly', 'firmly', 'nearly', 'almost', 'slightly', 'good', 'big', 'large', 'small', 'medium', 'full', 'total']);

/** A number or a range of two, words for small numbers included. */
export function numbersAt(tokens: readonly Token[], index: number): At<Numbers & { readonly grouped: boolean; readonly isWords: boolean }> | undefined {
  const low = oneAt(tokens, index);
  if (low === undefined) return undefined;
  const sign = tokens[low.next];
  if (isDash(sign) || isWord(sign, 'to', 'or')) {
    const high = oneAt(tokens, low.next + 1);
    if (high !== undefined && high.value.value > low.value.value) {
      return {
        value: {
          low: low.value.text, high: high.value.text, lowValue: low.value.value, highValue: high.value.value,
          grouped: low.value.grouped || high.value.grouped, isWords: low.value.isWords,
        },
        next: high.next,
      };
    }
  }
  const { text, value, grouped, isWords } = low.value;
  return { value: { low: text, high: undefined, lowValue: value, highValue: value, grouped, isWords }, next: low.next };
}

interface One {
  readonly text: string;
  readonly value: number;
  readonly grouped: boolean;
  readonly isWords: boolean;
}

function oneAt(tokens: readonly Token[], index: number): At<One> | undefined {
  const token = tokens[index];
  if (token?.kind === 'number') return { value: { ...token, grouped: token.grouped !== undefined, isWords: false }, next: index + 1 };
  const word = token?.kind === 'word' ? COUNT_WORDS.get(token.text.toLowerCase()) : undefined;
  if (word === undefined) return undefined;
  const [text, value] = word;
  const one = (next: number, as = text, of = value): At<One> => ({ value: { text: as, value: of, grouped: false, isWords: true }, next });
  // `half a teaspoon`, `one and a half cups`
  if (isWord(token, 'half')) return one(isWord(tokens[index + 1], 'a', 'an') ? index + 2 : index + 1);
  if (isWord(tokens[index + 1], 'and') && isWord(tokens[index + 2], 'a') && isWord(tokens[index + 3], 'half')) return one(index + 4, `${text} 1/2`, value + 0.5);
  return one(index + 1);
}

/** An amount: `2 to 3 tbsp`, `about 120 g`, `2 x 400 g`, `1 lb 2 oz`, `70 %`, `3`. A word for a number needs a unit behind it. */
export function amountAt(tokens: readonly Token[], index: number): At<ReadAmount> | undefined {
  const start = tokens[index];
  if (start === undefined) return undefined;
  const vague: string[] = [];
  let at = skipAbout(tokens, index, vague);
  const first = numbersAt(tokens, at);
  if (first === undefined) return bareMeasure(tokens, index);
  at = first.next;
  let numbers: Numbers = first.value;
  let grouped = first.value.grouped;
  const times = isSign(tokens[at], '×', '*') || isWord(tokens[at], 'x') ? numbersAt(tokens, at + 1) : undefined;
  if (times !== undefined) {
    const product = numbers.lowValue * times.value.lowValue;
    numbers = { low: short(product), high: undefined, lowValue: product, highValue: product };
    grouped = false;
    at = times.next;
  }
  const unit = unitAtIndex(tokens, behindAbout(tokens, at, vague));
  const measured = unit?.value;
  if (measured === undefined && (first.value.isWords || times !== undefined)) return undefined;
  const next = unit?.next ?? at;
  const value = (end: number, more: Partial<ReadAmount> = {}): At<ReadAmount> => ({
    value: {
      kind: 'amount', ...numbers, measure: measured, from: start.start, to: tokens[end - 1]?.end ?? start.end,
      vague, grouped, isComputed: times !== undefined, ...more,
    },
    next: end,
  });
  return poundsAndOunces(tokens, next, measured, numbers, value) ?? value(next);
}

/** `1 lb 2 oz` is 18 oz. */
function poundsAndOunces(
  tokens: readonly Token[], at: number, measure: Measure | undefined, numbers: Numbers, value: (end: number, more: Partial<ReadAmount>) => At<ReadAmount>,
): At<ReadAmount> | undefined {
  if (measure?.kind !== 'mass' || measure.unit !== 'lb' || numbers.high !== undefined) return undefined;
  const from = isWord(tokens[at], 'and') || isSign(tokens[at], '+') ? at + 1 : at;
  const ounces = numbersAt(tokens, from);
  const unit = ounces && unitAtIndex(tokens, ounces.next);
  if (ounces === undefined || ounces.value.high !== undefined || unit?.value.kind !== 'mass' || unit.value.unit !== 'oz') return undefined;
  const sum = numbers.lowValue * OUNCES_PER_POUND.value + ounces.value.lowValue;
  return value(unit.next, { low: short(sum), lowValue: sum, highValue: sum, measure: { kind: 'mass', unit: 'oz' }, isComputed: true });
}

/** `pinch of salt`: a measure with no number. */
function bareMeasure(tokens: readonly Token[], index: number): At<ReadAmount> | undefined {
  const token = tokens[index];
  const measure = token?.kind === 'word' && isWord(token, 'pinch', 'handful', 'splash', 'knob', 'drizzle', 'dollop') ? measureOf(token.text) : undefined;
  if (token === undefined || measure === undefined) return undefined;
  return {
    value: { kind: 'amount', low: '1', high: undefined, lowValue: 1, highValue: 1, measure, from: token.start, to: token.end, vague: [], grouped: false, isComputed: false },
    next: index + 1,
  };
}

function skipAbout(tokens: readonly Token[], index: number, words: string[]): number {
  let at = index;
  for (; at < index + 3; at += 1) {
    const token = tokens[at];
    if (isSign(token, '~', '≈', '.') && (at > index || !isSign(token, '.'))) continue;
    if (token?.kind !== 'word' || !ABOUT.has(token.text.toLowerCase())) break;
    words.push(token.text);
  }
  return at;
}

/** Over the words between a number and its unit; nowhere if no unit follows. */
function behindAbout(tokens: readonly Token[], at: number, words: string[]): number {
  const before = words.length;
  const next = skipAbout(tokens, at, words);
  if (unitAtIndex(tokens, next) !== undefined) return next;
  words.length = before;
  return at;
}

/** A unit: a word, `fl oz`, `%`, with a hyphen in front (`8-ounce`) or a full stop behind. */
function unitAtIndex(tokens: readonly Token[], index: number): At<Measure> | undefined {
  const at = isDash(tokens[index]) && tokens[index]?.spaced === false ? index + 1 : index;
  const token = tokens[at];
  if (isSign(token, '%')) return { value: { kind: 'share' }, next: at + 1 };
  if (token?.kind !== 'word') return undefined;
  const next = isSign(tokens[at + 1], '.') && tokens[at + 1]?.spaced === false ? at + 2 : at + 1;
  if (isWord(token, 'fl', 'fluid') && isWord(tokens[next], 'oz', 'ounce', 'ounces')) {
    return { value: { kind: 'volume', unit: 'fl oz', times: 1 }, next: isSign(tokens[next + 1], '.') ? next + 2 : next + 1 };
  }
  const measure = measureOf(token.text);
  return measure === undefined ? undefined : { value: measure, next };
}

/** A temperature: `30 C`, `450°F`, `105-115 degrees Fahrenheit`, `-18 °C`. */
export function temperatureAt(tokens: readonly Token[], index: number): At<ReadTemperature> | undefined {
  const start = tokens[index];
  if (start === undefined) return undefined;
  const vague: string[] = [];
  let at = skipAbout(tokens, index, vague);
  const minus = isDash(tokens[at]) && tokens[at + 1]?.kind === 'number' && tokens[at + 1]?.spaced === false;
  if (minus) at += 1;
  const low = tokens[at];
  if (low?.kind !== 'number') return undefined;
  let end = degreesBehind(tokens, at + 1);
  const range = isDash(tokens[end.next]) || isWord(tokens[end.next], 'to') ? tokens[end.next + 1] : undefined;
  const high = range?.kind === 'number' && range.value > low.value ? range : undefined;
  if (high !== undefined) {
    const behind = degreesBehind(tokens, end.next + 2);
    if (behind.value !== undefined || end.value === undefined) end = behind;
  }
  if (end.value === undefined) return undefined;
  const unit = end.value;
  const lowDegrees = minus ? -low.value : low.value;
  const inCelsius = (degrees: number): number => (unit === 'C' ? degrees : celsius(degrees));
  return {
    value: {
      kind: 'temperature', unit, bake: `${minus ? '-' : ''}${low.text}${high === undefined ? '' : ` to ${high.text}`} ${unit}`,
      lowCelsius: inCelsius(lowDegrees), highCelsius: inCelsius(high?.value ?? lowDegrees), from: start.start, to: tokens[end.next - 1]?.end ?? start.end,
    },
    next: end.next,
  };
}

/** The unit of a temperature behind its number; without one where there is none. */
function degreesBehind(tokens: readonly Token[], index: number): At<'C' | 'F' | undefined> {
  let at = index;
  if (isSign(tokens[at], '°', 'º', '˚') || isWord(tokens[at], 'degrees', 'degree', 'deg')) at += 1;
  if (isSign(tokens[at], '.')) at += 1;
  const token = tokens[at];
  if (isSign(token, '℃')) return { value: 'C', next: at + 1 };
  if (isSign(token, '℉')) return { value: 'F', next: at + 1 };
  if (isWord(token, 'celsius', 'centigrade') || (token?.kind === 'word' && token.text === 'C')) return { value: 'C', next: at + 1 };
  if (isWord(token, 'fahrenheit') || (token?.kind === 'word' && token.text === 'F')) return { value: 'F', next: at + 1 };
  if (at > index && isWord(token, 'c')) return { value: 'C', next: at + 1 };
  if (at > index && isWord(token, 'f')) return { value: 'F', next: at + 1 };
  return { value: undefined, next: index };
}

/** A number that was worked out, as short as it is exact to a thousandth. */
export function short(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
