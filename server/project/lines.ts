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

const LF = 10;
const CR = 13;

/** Finds where each line of `text` starts. Reads the text once. */
export function lineIndexOf(text: string): LineIndex {
  const starts: number[] = [0];
  for (let offset = 0; offset < text.length; offset++) {
    const code = text.charCodeAt(offset);
    if (code === LF || (code === CR && text.charCodeAt(offset + 1) !== LF)) starts.push(offset + 1);
  }
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

/** The text after changes, each relative to the text that the one before it left. */
export function applyChanges(text: string, changes: readonly TextChange[]): string {
  let result = text;
  for (const change of changes) {
    if (change.range === undefined) {
      result = change.text;
      continue;
    }
    const index = lineIndexOf(result);
    const start = index.offsetAt(change.range.start);
    const end = index.offsetAt(change.range.end);
    result = result.slice(0, Math.min(start, end)) + change.text + result.slice(Math.max(start, end));
  }
  return result;
}
