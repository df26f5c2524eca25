/**
 * Rows of a text and where its blocks begin. Plain character loops, so that any text is cut in one pass, however long.
 */
import type { Span } from './tree';

/** One physical line. `end` leaves out the line end, `first` is the first character that is not a space. */
export interface Row extends Span {
  readonly first: number;
  /** Width of the indent in columns; a tab goes to the next multiple of four. */
  readonly indent: number;
  /** Where the next row starts. */
  readonly next: number;
}

const TAB_COLUMNS = 4;
const BOM = 0xfeff;
const HASH = 35;

/** Spaces of any kind, as they come in with text pasted from a page. Line ends are not spaces. */
export function isSpace(code: number): boolean {
  if (code < 0x80) return code === 32 || code === 9 || code === 11 || code === 12;
  return (
    code === 0xa0 || code === 0x1680 || (code >= 0x2000 && code <= 0x200b) || code === 0x2028 || code === 0x2029 ||
    code === 0x202f || code === 0x205f || code === 0x3000 || code === BOM
  );
}

/** The row that starts at `start`. LF, CRLF and a lone CR all end a row. */
export function rowAt(text: string, start: number): Row {
  const length = text.length;
  // A byte-order mark at the very start has no width: the text after it stands in the first column.
  let first = start === 0 && text.charCodeAt(0) === BOM ? 1 : start;
  let indent = 0;
  while (first < length) {
    const code = text.charCodeAt(first);
    if (!isSpace(code)) break;
    indent = code === 9 ? indent + TAB_COLUMNS - (indent % TAB_COLUMNS) : indent + 1;
    first += 1;
  }
  let end = first;
  while (end < length) {
    const code = text.charCodeAt(end);
    if (code === 10 || code === 13) break;
    end += 1;
  }
  const next = end >= length ? length : text.charCodeAt(end) === 13 && text.charCodeAt(end + 1) === 10 ? end + 2 : end + 1;
  return { start, first, end, indent, next };
}

export function isBlank(row: Row): boolean {
  return row.first >= row.end;
}

export function isCommentRow(text: string, row: Row): boolean {
  return row.first < row.end && text.charCodeAt(row.first) === HASH;
}

/** A first-column line that is neither blank nor a comment opens a block. */
export function isHead(text: string, row: Row): boolean {
  return row.indent === 0 && row.first < row.end && text.charCodeAt(row.first) !== HASH;
}

/** All rows of a text, in order. */
export function rowsOf(text: string): readonly Row[] {
  const rows: Row[] = [];
  for (let at = 0; at < text.length; ) {
    const row = rowAt(text, at);
    rows.push(row);
    at = row.next;
  }
  return rows;
}

/** The text of one block and where it stands in its file. */
export interface BlockText {
  readonly offset: number;
  readonly text: string;
}

/**
 * Cuts a file into the texts of its blocks, which put together again are the file. A block begins at a head, or at the
 * blank lines and first-column comments just above it. Lines before the first head are a block of their own.
 */
export function splitBlocks(text: string): readonly BlockText[] {
  return splitBlocksFrom(text, 0, () => false).blocks;
}

/**
 * The same from a place where a block is known to begin, up to the first place that `meets` knows as the beginning of one: from
 * there on all is as it was before an edit. `end` is that place, or the end of the text.
 */
export function splitBlocksFrom(text: string, from: number, meets: (offset: number) => boolean): { readonly blocks: readonly BlockText[]; readonly end: number } {
  const cuts: number[] = [];
  let end = text.length;
  // Start of the run of blank rows and first-column comments that ends just above the row in hand.
  let trivia: number | undefined = from;
  for (let at = from; at < text.length; ) {
    // Rows that belong to the block below would move its beginning up.
    if (trivia === undefined && meets(at)) {
      end = at;
      break;
    }
    const row = rowAt(text, at);
    if (isHead(text, row)) {
      cuts.push(trivia ?? row.start);
      trivia = undefined;
    } else if (isBlank(row) || (row.indent === 0 && isCommentRow(text, row))) {
      trivia ??= row.start;
    } else {
      trivia = undefined;
    }
    at = row.next;
  }
  if (end > from && cuts[0] !== from) cuts.unshift(from);
  return { blocks: cuts.map((offset, index) => ({ offset, text: text.slice(offset, cuts[index + 1] ?? end) })), end };
}
