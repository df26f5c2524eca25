/** What a number as written is worth. */
import type { Quantity } from './tree';

const FRACTIONS = new Map<string, number>([
  ['¼', 1 / 4], ['½', 1 / 2], ['¾', 3 / 4], ['⅐', 1 / 7], ['⅑', 1 / 9], ['⅒', 1 / 10], ['⅓', 1 / 3], ['⅔', 2 / 3],
  ['⅕', 1 / 5], ['⅖', 2 / 5], ['⅗', 3 / 5], ['⅘', 4 / 5], ['⅙', 1 / 6], ['⅚', 5 / 6], ['⅛', 1 / 8], ['⅜', 3 / 8],
  ['⅝', 5 / 8], ['⅞', 7 / 8],
]);

// `0,125` cannot be thousands; `1,000` can, and a baker who types it means a kilo, not a gram.
const THOUSANDS = /^[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/;

/** Nothing in a bakery is larger, and sums of such numbers stay exact enough to show. */
const LARGEST = 1e9;

export interface NumberReading {
  /** Finite and not negative. 0 when `readable` is false. */
  readonly value: number;
  /** Written with a comma, which is taken for a decimal comma or for one between thousands. */
  readonly comma: boolean;
  readonly readable: boolean;
}

/** Reads a number token: `12`, `0.5`, `1/2`, `1 1/2`, `½`, `1½`, and with a comma `2,5` (2.5) or `1,000` (1000). */
export function readNumber(image: string): NumberReading {
  const comma = image.includes(',');
  const value = comma ? Number(withoutComma(image)) : readPlain(image);
  return Number.isFinite(value) && value <= LARGEST ? { value, comma, readable: true } : { value: 0, comma, readable: false };
}

function readPlain(image: string): number {
  const plain = Number(image);
  if (!Number.isNaN(plain)) return plain;
  const parts = image.split(/[ \t]+/);
  if (parts.length === 2) return readPlain(parts[0] ?? '') + readPlain(parts[1] ?? '');
  const vulgar = FRACTIONS.get(image.slice(-1));
  if (vulgar !== undefined) return Number(image.slice(0, -1)) + vulgar;
  const [top, bottom] = image.split(/[/⁄]/);
  return bottom === undefined ? Number.NaN : Number(top) / Number(bottom);
}

/** The way to write a number that was written with a comma: `2.5` for `2,5`, `1000` for `1,000`. */
export function withoutComma(image: string): string {
  return THOUSANDS.test(image) ? image.replaceAll(',', '') : image.replace(',', '.');
}

/** Whether a quantity is one that can be weighed or counted. `1/0` and a number of forty digits are not: they are reported, and 0 in the tree. */
export function isReadable({ low, high }: Quantity): boolean {
  return readNumber(low.text).readable && (high === undefined || readNumber(high.text).readable);
}
