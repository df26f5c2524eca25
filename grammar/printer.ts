/**
 * The canonical layout of a block: two spaces for each level, the second column of all its lines at one place, comments
 * and single blank lines kept. What was not understood is kept as it was typed.
 */
import { keyEnd, printHead, printNode, type Pieces } from './print-line';
import type { Block, BodyNode, Head, Line, Problem } from './tree';

const INDENT = 2;
/** The second column of a block never stands further left than this, so that most blocks of a file line up. */
const LEAST_COLUMN = 12;
/** A first piece that reaches beyond this does not push the column of the others to the right. */
const WIDEST_KEY = 26;

/** One line to print. */
interface Entry {
  readonly indent: number;
  readonly pieces: Pieces | undefined;
  /** The whole line where it has no pieces. */
  readonly raw: string;
  readonly comment: string;
}

/**
 * The canonical text of a block, with LF at the end of each line. It starts with the first comment or the head: blank
 * lines above it and below it are the file's affair. Empty for a block that holds nothing.
 */
export function printBlock(block: Block): string {
  const { text, head } = block;
  const out: string[] = block.leading.map((line) => (line.node.kind === 'blank' ? '' : text.slice(line.start, line.end).trimEnd()));
  const marks = new Marks(block.problems);
  if (head.node.kind !== 'none') out.push(headLine(text, head, marks));
  if (head.node.kind === 'none' || head.node.kind === 'unknown' || head.node.kind === 'use') {
    for (const line of block.lines) out.push(line.node.kind === 'blank' ? '' : wholeRow(text, line));
  } else {
    const entries: Entry[] = [];
    collect(block, block.lines, 1, marks, entries);
    const column = columnOf(entries);
    for (const entry of entries) out.push(layOut(entry, column));
  }
  return tidy(out);
}

/** The lines in which something was not understood: they are kept as they were typed. */
export class Marks {
  private readonly starts: readonly number[];

  constructor(problems: readonly Problem[]) {
    this.starts = problems.filter(isAboutWords).map(({ start }) => start).sort((a, b) => a - b);
  }

  has({ start, end }: Line<unknown>): boolean {
    let low = 0;
    let high = this.starts.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.starts[middle] ?? 0) < start) low = middle + 1;
      else high = middle;
    }
    const next = this.starts[low];
    return next !== undefined && next <= end;
  }
}

/** Whether a problem means that some words of its line are not in the tree. */
function isAboutWords({ code }: Problem): boolean {
  switch (code) {
    case 'not-understood': case 'unknown-block': case 'quote-open': case 'incomplete': return true;
    case 'comma-decimal': case 'out-of-place': case 'accept-without-reason': return false;
  }
}

/** A line without its comment, as typed. */
export function contentOf(text: string, line: Line<unknown>): string {
  return text.slice(line.start, line.comment?.start ?? line.end).trimEnd();
}

function commentTextOf(text: string, line: Line<unknown>): string {
  return line.comment === undefined ? '' : text.slice(line.comment.start, line.comment.end).trimEnd();
}

function headLine(text: string, head: Line<Head>, marks: Marks): string {
  const words = marks.has(head) ? contentOf(text, head) : printHead(text, head.node);
  return withComment(words, commentTextOf(text, head));
}

function withComment(words: string, comment: string): string {
  return comment === '' ? words : `${words}  ${comment}`;
}

/** A line with the indent that it was typed with. */
function wholeRow(text: string, line: Line): string {
  return text.slice(rowStart(text, line.start), line.end).trimEnd().replace(/^\ufeff+/, '');
}

function rowStart(text: string, at: number): number {
  let start = at;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start -= 1;
  // A byte-order mark has no width.
  return start === 0 && text.startsWith('\ufeff') ? 1 : start;
}

function collect(block: Block, lines: readonly Line[], depth: number, marks: Marks, into: Entry[]): void {
  // Comments in the first column at the very end stay there: they are about what follows, not about this block.
  const trailingFrom = depth === 1 ? lines.findLastIndex(({ node }) => node.kind !== 'blank' && node.kind !== 'comment') + 1 : lines.length;
  lines.forEach((line, index) => {
    const first = index >= trailingFrom && rowStart(block.text, line.start) === line.start;
    into.push(entryOf(block.text, line, first ? 0 : depth * INDENT, marks));
    collect(block, line.children, depth + 1, marks, into);
  });
}

function entryOf(text: string, line: Line, indent: number, marks: Marks): Entry {
  const { node } = line;
  if (node.kind === 'blank') return { indent: 0, pieces: undefined, raw: '', comment: '' };
  if (node.kind === 'comment') return { indent, pieces: undefined, raw: commentTextOf(text, line), comment: '' };
  const comment = commentTextOf(text, line);
  const pieces = marks.has(line) ? typedPieces(text, line) : printNode(text, node);
  return { indent, pieces, raw: contentOf(text, line), comment };
}

/** The pieces of a line as typed. Only the room between them is ours. */
function typedPieces(text: string, line: Line<BodyNode>): Pieces | undefined {
  if (line.node.kind === 'bad') return undefined;
  const end = keyEnd(line.node);
  const content = contentOf(text, line);
  return { key: text.slice(line.start, end).trimEnd(), rest: content.slice(end - line.start).trim() };
}

function columnOf(entries: readonly Entry[]): number {
  let column = LEAST_COLUMN;
  for (const { indent, pieces } of entries) {
    if (pieces === undefined || pieces.rest === '') continue;
    const width = indent + pieces.key.length + 1;
    if (width <= WIDEST_KEY) column = Math.max(column, width);
  }
  return column;
}

function layOut({ indent, pieces, raw, comment }: Entry, column: number): string {
  const margin = ' '.repeat(indent);
  if (pieces === undefined) return raw === '' ? '' : withComment(margin + raw, comment);
  if (pieces.rest === '') return withComment(margin + pieces.key, comment);
  if (pieces.rest.startsWith(',')) return withComment(`${margin}${pieces.key}${pieces.rest}`, comment);
  return withComment(`${(margin + pieces.key).padEnd(column - 1)} ${pieces.rest}`, comment);
}

/** Joins lines: no blank ones at the start or the end, and never two together. */
function tidy(lines: readonly string[]): string {
  const kept = lines.filter((line, index) => line !== '' || (index > 0 && lines[index - 1] !== ''));
  const first = kept[0] === '' ? 1 : 0;
  const last = kept[kept.length - 1] === '' ? kept.length - 1 : kept.length;
  return first >= last ? '' : `${kept.slice(first, last).join('\n')}\n`;
}
