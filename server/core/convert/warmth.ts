/** Temperatures in a sentence: of the oven, of the dough, of the middle of a loaf. */
import { temperatureAt, type ReadTemperature } from './amounts';
import { isSign, isWord, type Token } from './tokens';

export interface Warmth extends ReadTemperature {
  readonly index: number;
  readonly next: number;
  /** Of the middle of the loaf. */
  readonly isCore: boolean;
  /** Of an oven with its fan on. */
  readonly isFan: boolean;
}

/** In order; `230 C (450 F)` is one. */
export function temperaturesIn(tokens: readonly Token[]): readonly Warmth[] {
  const found: Warmth[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const one = temperatureAt(tokens, index);
    if (one === undefined) continue;
    const warmth: Warmth = { ...one.value, index, next: one.next, isCore: isOfCore(tokens, index) || isWord(tokens[one.next], 'internal', 'inside'), isFan: isWord(tokens[one.next], 'fan', 'convection') || isWord(tokens[index - 1], 'fan', 'convection') };
    const before = found.at(-1);
    const between = before === undefined ? [] : tokens.slice(before.next, index);
    const isSame = before !== undefined && before.unit !== warmth.unit && between.length <= 2 && between.every((token) => isSign(token, '(', '/', '[', ',') || isWord(token, 'or'));
    // `180 C/160 C fan`: the language speaks of an oven without it.
    const isOtherOven = before !== undefined && before.isFan !== warmth.isFan && between.every((token) => isSign(token, '(', '/', '[', ',') || isWord(token, 'or', 'fan', 'convection'));
    if (isOtherOven) found[found.length - 1] = { ...(before.isFan ? warmth : before), index: before.index, next: one.next };
    else if (!isSame) found.push(warmth);
    else found[found.length - 1] = { ...(before.unit === 'C' ? before : warmth), index: before.index, next: one.next, isCore: before.isCore, isFan: before.isFan || warmth.isFan };
    index = one.next - 1;
  }
  return found;
}

/** `until the inside reaches 96 C` */
function isOfCore(tokens: readonly Token[], index: number): boolean {
  return tokens.slice(Math.max(0, index - 9), index).some((token) => isWord(token, 'internal', 'inside', 'centre', 'center', 'core', 'middle', 'thermometer', 'crumb'));
}

/** `until core 96 C`, or nothing. */
export function coreIn(tokens: readonly Token[]): string | undefined {
  const core = temperaturesIn(tokens).find(({ isCore, lowCelsius, highCelsius }) => isCore && lowCelsius >= 50 && highCelsius <= 105);
  return core && `until core ${inCelsius(core)}`;
}

/** As the language writes it; from Fahrenheit to the nearest degree. */
export function inCelsius({ unit, bake, lowCelsius, highCelsius }: ReadTemperature): string {
  if (unit === 'C') return bake;
  const [low, high] = [Math.round(lowCelsius), Math.round(highCelsius)];
  return low === high ? `${low} C` : `${low} to ${high} C`;
}
