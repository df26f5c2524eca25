/**
 * The one owner of positions. Inside, everything is a UTF-16 offset into the text; at the edge, a line and a UTF-16
 * column, both from 0, as the protocol has them. LF, CRLF and a lone CR each end a line.
 */

/** A place in a text: line and UTF-16 column, both from 0. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** A half-open range of positions. */
export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface LineIndex {
  readonly lineCount: number;
  /** Line and column of an offset. An offset outside the text is read as its nearest end. */
  positionAt(offset: number): Position;
  /** Offset of a position. A column past the end of its line is read as the end of that line, before the line break. */
  offsetAt(position: Position): number;
  rangeOf(start: number, end: number): Range;
  /** Offsets of a line (from 0): where it starts, where its text ends, and where the next one starts. */
  lineAt(line: number): { readonly start: number; readonly end: number; readonly next: number };
}

/** An index that can be carried over to the text after an edit. */
interface Spliceable extends LineIndex {
  readonly starts: Uint32Array;
}

const LF = 10;
const CR = 13;

/** Finds where each line of `text` starts. Reads the text once. */
export function lineIndexOf(text: string): Spliceable {
  return indexFrom(text, Uint32Array.from([0, ...startsIn(text, 0, text.length)]));
}

/** Starts of the lines whose line break ends in a stretch of the text. */
function startsIn(text: string, from: number, to: number): readonly number[] {
  const starts: number[] = [];
  for (let offset = from; offset < to; offset++) {
    const code = text.charCodeAt(offset);
    if (code === LF || (code === CR && text.charCodeAt(offset + 1) !== LF)) starts.push(offset + 1);
  }
  return starts;
}

/** `starts` of lines in rising order, the first of them 0. */
function indexFrom(text: string, starts: Uint32Array): Spliceable {
  const startOf = (line: number): number => starts[line] ?? text.length;

  const lineOf = (offset: number): number => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (startOf(middle) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  };

  const endOf = (line: number): number => {
    const start = startOf(line);
    let end = startOf(line + 1);
    if (line + 1 >= starts.length) return end;
    while (end > start && (text.charCodeAt(end - 1) === LF || text.charCodeAt(end - 1) === CR)) end--;
    return end;
  };

  const positionAt = (offset: number): Position => {
    const inside = Math.max(0, Math.min(offset, text.length));
    const line = lineOf(inside);
    // An offset between CR and LF is the end of the line: the protocol has no position after it.
    return { line, character: Math.min(inside, endOf(line)) - startOf(line) };
  };

  return {
    starts,
    lineCount: starts.length,
    positionAt,
    offsetAt({ line, character }) {
      if (line < 0) return 0;
      if (line >= starts.length) return text.length;
      return Math.min(startOf(line) + Math.max(0, character), endOf(line));
    },
    rangeOf: (start, end) => ({ start: positionAt(start), end: positionAt(end) }),
    lineAt(line) {
      const inside = Math.max(0, Math.min(line, starts.length - 1));
      return { start: startOf(inside), end: endOf(inside), next: startOf(inside + 1) };
    },
  };
}

/** A change as the protocol sends it: a replaced range, or the whole text when there is no range. */
export interface TextChange {
  readonly range?: Range;
  readonly text: string;
}

/** A text and where its lines are. */
export interface IndexedText {
  readonly text: string;
  readonly lineIndex: Spliceable;
}

export function indexedText(text: string): IndexedText {
  return { text, lineIndex: lineIndexOf(text) };
}

/** The text after changes, each relative to the text that the one before it left. */
export function applyChanges(text: string, changes: readonly TextChange[]): string {
  return changedText(indexedText(text), changes).text;
}

/** The same, with its lines. Lines that no change touches are not looked at again. */
export function changedText(before: IndexedText, changes: readonly TextChange[]): IndexedText {
  let result = before;
  for (const { range, text } of changes) {
    if (range === undefined) {
      result = indexedText(text);
      continue;
    }
    const one = result.lineIndex.offsetAt(range.start);
    const other = result.lineIndex.offsetAt(range.end);
    result = spliced(result, Math.min(one, other), Math.max(one, other), text);
  }
  return result;
}

function spliced({ text: before, lineIndex: { starts } }: IndexedText, start: number, end: number, newText: string): IndexedText {
  const text = before.slice(0, start) + newText + before.slice(end);
  const shift = newText.length - (end - start);
  // A carriage return ends a line by itself or together with what follows it, so one just before the edit is looked at again.
  const kept = countUpTo(starts, start - 1);
  const left = countUpTo(starts, end);
  const made = startsIn(text, Math.max(0, start - 1), start + newText.length);
  const next = new Uint32Array(kept + made.length + starts.length - left);
  next.set(starts.subarray(0, kept));
  next.set(made, kept);
  for (let from = left, to = kept + made.length; from < starts.length; from++, to++) next[to] = (starts[from] ?? 0) + shift;
  return { text, lineIndex: indexFrom(text, next) };
}

/** How many of the sorted numbers are not greater; at least one, since the first line starts with the text. */
function countUpTo(sorted: Uint32Array, most: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) <= most) low = middle + 1;
    else high = middle;
  }
  return Math.max(1, low);
}
