/** Numbers and names the way a baker says them, for messages. Always a decimal point; a space before the unit. */

import { editDistance } from '../../../grammar';

/** Rounds to whole from 10 up and to one decimal below: 71.8 -> `72`, 2.43 -> `2.4`, 2 -> `2`. */
export function plain(value: number): string {
  const decimals = Math.abs(value) >= 9.95 ? 0 : 1;
  return trimmed(value, decimals);
}

/** A percentage: `72 %`, `2.4 %`. */
export function percent(value: number): string {
  return `${plain(value)} %`;
}

/** A weight: `940 g`, `4.5 g`, `0.25 g`. Always grams: a baker compares it with the scale. */
export function grams(value: number): string {
  return `${Math.abs(value) >= 0.95 ? plain(value) : trimmed(value, 2)} g`;
}

/** A temperature: `24 C`. */
export function celsius(value: number): string {
  return `${trimmed(value, 0)} C`;
}

/** The same, as it is written: `240 F (116 C)`. */
export function degrees(value: number, unit: 'C' | 'F' | undefined): string {
  return unit === 'F' ? `${trimmed(value * 1.8 + 32, 0)} F (${celsius(value)})` : celsius(value);
}

/** Minutes as a baker says them: `40 min`, `3 h`, `1 h 30 min`. */
export function minutes(value: number): string {
  const whole = Math.round(value);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  if (hours === 0) {
    return `${rest} min`;
  }
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/**
 * A value beside the limit it breaks. Rounded like `plain`, with more decimals when rounding would make the two look
 * equal: a baker who reads "2.5 %, over 2.5 %" learns nothing.
 */
export function against(value: number, limit: number): string {
  if (plain(value) !== plain(limit)) {
    return plain(value);
  }
  for (let decimals = 1; decimals <= 4; decimals += 1) {
    if (trimmed(value, decimals) !== trimmed(limit, decimals)) {
      return trimmed(value, decimals);
    }
  }
  return plain(value);
}

/** A number with at most `decimals` decimals and no trailing zeros. */
export function trimmed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[], joint = 'and'): string {
  if (items.length < 2) {
    return items.join('');
  }
  return `${items.slice(0, -1).join(', ')} ${joint} ${items[items.length - 1] ?? ''}`;
}

/** A name inside a sentence. */
export function named(name: string): string {
  return `“${name}”`;
}

/** ` Did you mean “rye” or “rice”?`, or nothing. Starts with a space so that it can follow a sentence. */
export function didYouMean(names: readonly string[]): string {
  return names.length === 0 ? '' : ` Did you mean ${listed(names.slice(0, 3).map(named), 'or')}?`;
}

/** `start` with a capital, for a name that opens a sentence. */
export function capital(text: string): string {
  const [first = ''] = text;
  return first.toUpperCase() + text.slice(first.length);
}

/** A name as the language wants it written: plain words as they are, anything else in quotes. */
export function writtenName(name: string): string {
  return /^[\p{L}\p{M}][\p{L}\p{M}'’-]*(?: [\p{L}\p{M}][\p{L}\p{M}'’-]*)*$/u.test(name) ? name : quotedName(name);
}

/** A name in double quotes. A quote inside the name cannot be written and is left out. */
export function quotedName(name: string): string {
  return `"${name.replaceAll('"', '')}"`;
}

/** The known words nearest to a mistyped one, best first; empty when nothing is close. Case does not matter. */
export function nearestWords(word: string, known: Iterable<string>, limit = 3): readonly string[] {
  const wanted = word.toLowerCase();
  // One slip in a short word, up to three in a long one. More is another word.
  const tolerance = wanted.length <= 4 ? 1 : wanted.length <= 9 ? 2 : 3;
  const scored: { readonly word: string; readonly slips: number }[] = [];
  for (const candidate of known) {
    if (Math.abs(candidate.length - wanted.length) <= tolerance) {
      const slips = editDistance(wanted, candidate.toLowerCase(), tolerance);
      if (slips <= tolerance) {
        scored.push({ word: candidate, slips });
      }
    }
  }
  scored.sort((a, b) => a.slips - b.slips || (a.word < b.word ? -1 : 1));
  return scored.slice(0, limit).map((entry) => entry.word);
}

/** Two lengths of time as a baker says them, to the quarter of an hour and from 4 h up to the hour: `45 min to 1 h 30 min`, `10 to 16 h`. */
export function hours(low: number, high: number): string {
  const rounded = (value: number) => (value >= 4 ? Math.round(value) : Math.max(0.25, Math.round(value * 4) / 4));
  const [from, to] = [rounded(low), rounded(high)];
  if (from === to) {
    return minutes(from * 60);
  }
  return Number.isInteger(from) && Number.isInteger(to) ? `${from} to ${to} h` : `${minutes(from * 60)} to ${minutes(to * 60)}`;
}
