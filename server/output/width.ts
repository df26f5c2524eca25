/**
 * How wide a text is on a terminal, and what of it is safe to print there.
 *
 * Counted by what a reader sees as one character: 漢 and 🥖 take two columns, a combining accent none. Kept to the few
 * rules that terminals agree on, so that no table of the whole of Unicode has to ship.
 */

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

const PLAIN = /^[\x20-\x7e]*$/;
const INVISIBLE = /^[\p{Cc}\p{Cf}\p{M}]+$/u;
const EMOJI = /\p{Emoji_Presentation}|\uFE0F/u;
// Blocks of East Asian wide and full-width characters (Unicode Standard Annex 11).
const WIDE =
  /^[\u1100-\u115f\u2329\u232a\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97c\uac00-\ud7a3\uf900-\ufaff\ufe10-\ufe19\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{16fe0}-\u{18dff}\u{1aff0}-\u{1b2ff}\u{1f200}-\u{1f2ff}\u{20000}-\u{3fffd}]/u;

/** Columns that one visible character takes. */
function graphemeWidth(grapheme: string): number {
  if (INVISIBLE.test(grapheme)) return 0;
  if (EMOJI.test(grapheme)) return 2;
  return WIDE.test(grapheme) ? 2 : 1;
}

/** Columns that a text takes on a terminal. The text holds no line breaks, tabs or colour codes. */
export function widthOf(text: string): number {
  if (PLAIN.test(text)) return text.length;
  let width = 0;
  for (const { segment } of graphemes.segment(text)) width += graphemeWidth(segment);
  return width;
}

/** The visible characters of a text with their UTF-16 offsets and widths in columns. */
export function charactersOf(text: string): { readonly offset: number; readonly text: string; readonly width: number }[] {
  return Array.from(graphemes.segment(text), ({ segment, index }) => ({ offset: index, text: segment, width: graphemeWidth(segment) }));
}

export function padEnd(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - widthOf(text)));
}

export function padStart(text: string, width: number): string {
  return ' '.repeat(Math.max(0, width - widthOf(text))) + text;
}

/** Breaks a text at spaces into lines of at most `width` columns; a word that is longer is broken where it must be. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) <= width) {
      line += ` ${word}`;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const { text: character } of widthOf(word) <= width ? [{ text: word }] : charactersOf(word)) {
      if (line !== '' && widthOf(line) + widthOf(character) > width) {
        lines.push(line);
        line = '';
      }
      line += character;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** A list with commas, broken between its items, so that no weight is torn from its unit; an item that is longer is broken as `wrap` does. */
export function wrapList(items: readonly string[], width: number): string[] {
  const lines: string[] = [];
  items.forEach((item, index) => {
    const text = index < items.length - 1 ? `${item},` : item;
    const line = lines.at(-1);
    if (line !== undefined && widthOf(line) + 1 + widthOf(text) <= width) lines[lines.length - 1] = `${line} ${text}`;
    else lines.push(...wrap(text, width));
  });
  return lines;
}

// Escape and other control characters, and those that turn the direction of the text around: a file from elsewhere must
// not be able to recolour, move about or rewrite what is on the reader's screen.
const UNSAFE = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** One line of a text from a file, safe on a terminal: tabs become a space, other control characters `\uFFFD`. */
export function printable(text: string): string {
  return text.replace(UNSAFE, (character) => (character === '\t' || character === '\n' || character === '\r' ? ' ' : '\uFFFD'));
}
