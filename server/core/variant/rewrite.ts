/** Texts made from others, with where each piece comes from. */
import type { Block } from '../../../grammar';
import type { Place } from '../formula/model';
import type { Origin, Piece } from './model';

/** A range of a block's text that another text takes the place of. */
export interface Cut {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
  /** Where the variant writes `newText`, letter by letter; undefined for indents and line ends. */
  readonly own?: Place;
  /** The change that asked for it. */
  readonly change?: number;
}

export interface Rewritten {
  readonly text: string;
  readonly pieces: readonly Piece[];
}

/** Cuts at one place stay in their order; where two overlap, the later one is left out. */
export function rewritten(text: string, cuts: readonly Cut[]): Rewritten {
  const pieces: Piece[] = [];
  let made = '';
  let at = 0;
  const put = (piece: string, source: Pick<Piece, 'from' | 'own'>): void => {
    if (piece === '') return;
    pieces.push({ start: made.length, end: made.length + piece.length, ...source });
    made += piece;
  };
  for (const { start, end, newText, own } of [...cuts].sort((a, b) => a.start - b.start)) {
    if (start < at) continue;
    put(text.slice(at, start), { from: at });
    put(newText, own === undefined ? {} : { own });
    at = end;
  }
  put(text.slice(at), { from: at });
  return { text: made, pieces };
}

/** Where an offset of the base's text lies in the new one; undefined when it was cut away. */
export function offsetIn(pieces: readonly Piece[], offset: number): number | undefined {
  for (const { start, end, from } of pieces) {
    if (from !== undefined && offset >= from && offset <= from + end - start) return start + offset - from;
  }
  return undefined;
}

/** A block that is what it was. */
export function untouched(block: number, { text }: Block): Origin {
  return { block, pieces: text === '' ? [] : [{ start: 0, end: text.length, from: 0 }], changed: [] };
}

/** The line end of a text. */
export function lineEndOf(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

/** From the first character of a line that runs from `start` to `end`, its indent included, to behind its line end. */
export function wholeLine(text: string, { start, end }: { readonly start: number; readonly end: number }): { readonly start: number; readonly end: number } {
  const before = text.lastIndexOf('\n', start - 1) + 1;
  const after = text.indexOf('\n', end);
  return { start: before, end: after < 0 ? text.length : after + 1 };
}
