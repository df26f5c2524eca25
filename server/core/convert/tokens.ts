/** Numbers, words and signs of a line from elsewhere. Looks at each character a bounded number of times, whatever the line. */
import { DASH } from './characters';

export interface Token {
  readonly kind: 'number' | 'word' | 'sign';
  /** As the source has it; of a number, as the language writes it: `1 1/2`, `2.5`. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** Of a number. */
  readonly value: number;
  /** A space stands in front of it. */
  readonly spaced: boolean;
  /** Written `1,250` or `1.250`: a thousand and more, or one and a bit. */
  readonly grouped?: ',' | '.';
}

const VULGAR = new Map([
  ['¼', 1 / 4], ['½', 1 / 2], ['¾', 3 / 4], ['⅐', 1 / 7], ['⅑', 1 / 9], ['⅒', 1 / 10], ['⅓', 1 / 3], ['⅔', 2 / 3], ['⅕', 1 / 5],
  ['⅖', 2 / 5], ['⅗', 3 / 5], ['⅘', 4 / 5], ['⅙', 1 / 6], ['⅚', 5 / 6], ['⅛', 1 / 8], ['⅜', 3 / 8], ['⅝', 5 / 8], ['⅞', 7 / 8],
]);

const WORD = /\p{L}[\p{L}\p{M}\p{N}'’ʼ]*(?:[-‐‑]\p{L}[\p{L}\p{M}\p{N}'’ʼ]*)*/uy;
const DIGITS = /\d+/y;
const DECIMALS = /\d{1,12}(?:[.,]\d{1,12}){0,4}/y;
const FRACTION = /(\d{1,4})\/(\d{1,4})(?![\d/])/y;

function at(pattern: RegExp, text: string, index: number): RegExpExecArray | null {
  pattern.lastIndex = index;
  return pattern.exec(text);
}

/** The tokens of a tidied line. Spaces are in none of them; a tab is a sign. */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  let index = 0;
  let spaced = false;
  while (index < text.length) {
    if (text[index] === ' ') {
      spaced = true;
      index += 1;
      continue;
    }
    const token = tokenAt(text, index, spaced);
    tokens.push(token);
    index = token.end;
    spaced = false;
  }
  return tokens;
}

function tokenAt(text: string, start: number, spaced: boolean): Token {
  const number = numberAt(text, start);
  if (number !== undefined) return { kind: 'number', start, spaced, ...number };
  const word = at(WORD, text, start)?.[0];
  if (word !== undefined) {
    // `2x400 g`
    if (/^x\d/i.test(word)) return { kind: 'sign', text: '×', value: 0, start, end: start + 1, spaced };
    return { kind: 'word', text: word, value: 0, start, end: start + word.length, spaced };
  }
  const digits = at(DIGITS, text, start)?.[0];
  if (digits !== undefined) return { kind: 'word', text: digits, value: 0, start, end: start + digits.length, spaced };
  const sign = String.fromCodePoint(text.codePointAt(start) ?? 0);
  return { kind: 'sign', text: sign, value: 0, start, end: start + sign.length, spaced };
}

type ReadNumber = Pick<Token, 'text' | 'value' | 'end' | 'grouped'>;

/** A number at a place: `12`, `0.5`, `2,5`, `.5`, `1/2`, `1 1/2`, `1-1/2`, `½`, `1½`. `00` is the name of a flour. */
function numberAt(text: string, start: number): ReadNumber | undefined {
  const fraction = fractionAt(text, start);
  if (fraction !== undefined) return fraction;
  if (text[start] === '.' && /\d/.test(text[start + 1] ?? '')) {
    const behind = at(DIGITS, text, start + 1)?.[0] ?? '';
    return behind.length > 12 ? undefined : { text: `0.${behind}`, value: Number(`0.${behind}`), end: start + 1 + behind.length };
  }
  const image = at(DECIMALS, text, start)?.[0];
  if (image === undefined || /^0\d/.test(image) || /\d/.test(text[start + image.length] ?? '')) return undefined;
  const end = start + image.length;
  if (!/^\d+$/.test(image)) return decimal(image, end);
  return mixedAt(text, image, end) ?? { text: image, value: Number(image), end };
}

/** `1/2` or `½` */
function fractionAt(text: string, start: number): ReadNumber | undefined {
  const sign = text[start] ?? '';
  const vulgar = VULGAR.get(sign);
  if (vulgar !== undefined) return { text: sign, value: vulgar, end: start + 1 };
  const [image, top = '', bottom = ''] = at(FRACTION, text, start) ?? [];
  if (image === undefined || Number(bottom) === 0) return undefined;
  return { text: image, value: Number(top) / Number(bottom), end: start + image.length };
}

/** A whole number with a fraction behind it. */
function mixedAt(text: string, whole: string, end: number): ReadNumber | undefined {
  const between = /^(?: ?| {1,3}|[-‐-―])$/;
  for (let from = end; from <= end + 3; from += 1) {
    const fraction = between.test(text.slice(end, from)) ? fractionAt(text, from) : undefined;
    if (fraction === undefined || fraction.value >= 1) continue;
    const isVulgar = VULGAR.has(fraction.text);
    // `1 ½`, but `11/2` is a fraction of its own.
    if (!isVulgar && from === end) continue;
    return { text: `${whole}${isVulgar ? '' : ' '}${fraction.text}`, value: Number(whole) + fraction.value, end: fraction.end };
  }
  return undefined;
}

function decimal(image: string, end: number): ReadNumber | undefined {
  const grouped = /^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/.test(image) ? ',' : /^[1-9]\d{0,2}(?:\.\d{3})+$/.test(image) ? '.' : undefined;
  const plain = grouped === ',' ? image.replaceAll(',', '') : image.replace(',', '.');
  const value = Number(plain);
  if (Number.isNaN(value)) return grouped === '.' ? { text: image.replaceAll('.', ''), value: Number(image.replaceAll('.', '')), end } : undefined;
  return { text: plain, value, end, ...(grouped !== undefined && { grouped }) };
}

export const isWord = (token: Token | undefined, ...words: readonly string[]): boolean =>
  token?.kind === 'word' && words.includes(token.text.toLowerCase());

export const isSign = (token: Token | undefined, ...signs: readonly string[]): boolean => token?.kind === 'sign' && signs.includes(token.text);

export const isDash = (token: Token | undefined): boolean => token?.kind === 'sign' && DASH.test(token.text);

/** The words of the source from one token to another. */
export function sliceOf(text: string, tokens: readonly Token[]): string {
  const [first] = tokens;
  const last = tokens.at(-1);
  return first === undefined || last === undefined ? '' : text.slice(first.start, last.end).replace(/\s+/g, ' ').trim();
}
