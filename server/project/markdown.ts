/**
 * A Markdown page as formulas see it: what its fences hold, one after another, as if it were one file; and the one place
 * that knows where any of it stands on the page. Offsets are offsets into that text, positions are positions on the page.
 *
 * Between two fences the text has an empty line, for the line that closes the first. So a line can be added at the end of a
 * fence, and what is written under a fence is not taken for its next line. No range reaches out of the fence it begins in.
 */
import type { LineIndex, Position, Range } from './lines';
import { lineIndexOf } from './lines';
import { fencesIn } from './markdown-fences';

export interface MarkdownPage {
  /** The page as it is written. */
  readonly source: string;
  /** What its fences hold; empty when it has none. */
  readonly text: string;
  /** Of that text, with positions on the page. */
  readonly lineIndex: LineIndex;
  /** Offsets of what each fence holds, its last line break included. `ragged` when a line in it has less indent than the fence has. */
  readonly fences: readonly { readonly start: number; readonly end: number; readonly ragged: boolean }[];
  /** Whether the position is in a fence, on neither of the lines that open and close it. */
  holds(position: Position): boolean;
  /** The range from the first place in a fence that it holds to the last; undefined when it touches none. */
  within(range: Range): Range | undefined;
  /** The edit of the page that puts `newText` in the place of offsets of the text, with the indent of the fence. */
  edit(start: number, end: number, newText: string): { readonly range: Range; readonly newText: string };
}

/** A name that is Markdown's on every system. */
export function isMarkdownName(name: string): boolean {
  return /\.(?:md|markdown)$/i.test(name);
}

/** A line of the text. */
interface TextLine {
  /** Offsets in the text: where it starts, ends before its line break, and where the next one starts. */
  readonly start: number;
  readonly end: number;
  readonly next: number;
  /** On the page, from 0. */
  readonly line: number;
  /** Characters of indent that are left out. */
  readonly indent: number;
  readonly fence: TextFence;
  /** It is not in the fence: the line that closes it. */
  readonly closes: boolean;
}

interface TextFence {
  readonly indent: string;
  readonly start: number;
  /** Where its last line ends, before its line break and after it. */
  lastEnd: number;
  end: number;
  ragged: boolean;
}

export function markdownPageOf(source: string): MarkdownPage {
  const lines: TextLine[] = [];
  const fences: TextFence[] = [];
  let text = '';
  for (const { indent, lines: own, endLine } of fencesIn(source)) {
    const fence: TextFence = { indent, start: text.length, lastEnd: text.length, end: text.length, ragged: false };
    fences.push(fence);
    for (const { line, start, end, next, indent: left } of own) {
      const at = text.length;
      text += source.slice(start, next);
      lines.push({ start: at, end: at + end - start, next: text.length, line, indent: left, fence, closes: false });
      fence.lastEnd = at + end - start;
      fence.end = text.length;
      if (left < indent.length && end > start) fence.ragged = true;
    }
    if (endLine === undefined) continue;
    lines.push({ start: text.length, end: text.length, next: text.length + 1, line: endLine, indent: 0, fence, closes: true });
    text += '\n';
  }
  return { source, text, fences, ...positionsIn(lines) };
}

type Positions = Pick<MarkdownPage, 'lineIndex' | 'holds' | 'within' | 'edit'>;

function positionsIn(lines: readonly TextLine[]): Positions {
  /** The line of the text that holds an offset; the last one when it is at the very end. */
  const lineOf = (offset: number): TextLine | undefined => lastOf(lines, line => line.start <= offset);

  /** The line in a fence that stands at that line of the page. */
  const lineOnPage = (line: number): TextLine | undefined => {
    const found = lastOf(lines, other => other.line <= line);
    return found?.line === line && !found.closes ? found : undefined;
  };

  const placeIn = ({ line, indent, start, end }: TextLine, offset: number): Position => (
    { line, character: indent + Math.max(0, Math.min(offset, end) - start) }
  );

  const positionAt = (offset: number): Position => {
    const line = lineOf(offset);
    if (line === undefined) return { line: 0, character: 0 };
    // The line that closes a fence is not in it: the end of the last line that is, unless the fence is empty.
    const last = line.closes ? lineOf(line.fence.lastEnd) : undefined;
    return last === undefined ? placeIn(line, offset) : placeIn(last, line.fence.lastEnd);
  };

  const rangeOf = (start: number, end: number): Range => {
    const lastEnd = lineOf(start)?.fence.lastEnd ?? end;
    return { start: positionAt(start), end: positionAt(Math.min(end, Math.max(start, lastEnd))) };
  };

  return {
    lineIndex: {
      lineCount: lines.length,
      positionAt,
      rangeOf,
      // A position outside the fences is read as the end of the fence above, or the start of the first.
      offsetAt({ line, character }) {
        const own = lastOf(lines, other => other.line <= line);
        if (own === undefined || own.line > line) return 0;
        if (own.line < line || own.closes) return own.fence.lastEnd;
        return Math.min(own.start + Math.max(0, character - own.indent), own.end);
      },
      lineAt(line) {
        const { start, end, next } = lineOnPage(line) ?? { start: 0, end: 0, next: 0 };
        return { start, end, next };
      },
    },
    holds: ({ line }) => lineOnPage(line) !== undefined,
    within({ start, end }) {
      const inside = lines.filter(({ closes, line }) => !closes && line >= start.line && line <= end.line);
      const first = inside[0];
      const last = inside.at(-1);
      if (first === undefined || last === undefined) return undefined;
      return {
        start: first.line === start.line ? start : placeIn(first, first.start),
        end: last.line === end.line ? end : placeIn(last, last.end),
      };
    },
    edit(from, to, newText) {
      const first = lineOf(from);
      const last = lineOf(to);
      if (first === undefined || last === undefined) return { range: rangeOf(from, to), newText };
      // Behind the line that closes a fence there is nothing of it any more.
      const start = Math.min(from, first.end);
      const end = Math.min(to, last.end);
      const { indent } = first.fence;
      const pieces = newText.split(/(?<=\r\n|\n|\r(?!\n))/);
      const endsLine = /[\r\n]$/.test(newText);
      if (start === first.start && end === last.start && (newText === '' || endsLine)) {
        // Whole lines go and come with the indent in front of them.
        return {
          range: { start: { line: first.line, character: 0 }, end: { line: last.line, character: 0 } },
          newText: pieces.map(piece => (piece.trim() === '' ? piece : indent + piece)).join(''),
        };
      }
      const inFront = (piece: string, index: number): string => {
        if (index === 0) return start === first.start && piece.trim() !== '' ? indent.slice(first.indent) : '';
        return piece.trim() === '' && /[\r\n]/.test(piece) ? '' : indent;
      };
      const written = pieces.map((piece, index) => inFront(piece, index) + piece).join('');
      // What follows on the line of the edit's end has lost the indent in front of it. The line that closes the fence has its own.
      const followed = endsLine && !last.closes && end < last.next;
      return { range: { start: placeIn(first, start), end: placeIn(last, end) }, newText: followed ? written + indent : written };
    },
  };
}

/** The last of a sorted list that `holds` is true of, true of all before it; the first when it is true of none. */
function lastOf<T>(sorted: readonly T[], holds: (one: T) => boolean): T | undefined {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    const one = sorted[middle];
    if (one !== undefined && holds(one)) low = middle;
    else high = middle - 1;
  }
  return sorted[low];
}

/** The page after edits of it, which do not overlap. */
export function edited(source: string, edits: readonly { readonly range: Range; readonly newText: string }[]): string {
  const index = lineIndexOf(source);
  let text = source;
  const placed = edits.map(({ range, newText }) => ({ start: index.offsetAt(range.start), end: index.offsetAt(range.end), newText }));
  for (const { start, end, newText } of placed.sort((a, b) => b.start - a.start)) text = text.slice(0, start) + newText + text.slice(end);
  return text;
}
