/** What “expand selection” takes in, step by step: a word, an amount or a name, the line, its block, the formula, the file. */
import type { Position, SelectionRange } from 'vscode-languageserver';
import type { Line, Span } from '../../grammar';
import { blockAt, endOfBlock, endWithChildren, linesAt, offsetsOfSection, sectionOfBlock } from '../project/file';
import type { ProjectFile } from '../project/file';

/** One chain for each position, each range wider than the one before. */
export function selectionRangesAt(file: ProjectFile, positions: readonly Position[]): SelectionRange[] {
  return positions.map(position => {
    const offset = file.lineIndex.offsetAt(position);
    // On a Markdown page nothing is wider than its fence: a formula that goes on in the next one is not all of a piece.
    const fence = file.page?.fences.findLast(({ start }) => start <= offset);
    const whole = fence ?? { start: 0, end: file.text.length };
    let range: SelectionRange = { range: file.lineIndex.rangeOf(whole.start, whole.end) };
    for (const { start, end } of spansAround(file, offset).reverse()) {
      if (start >= whole.start && end <= whole.end) range = { range: file.lineIndex.rangeOf(start, end), parent: range };
    }
    return range;
  });
}

/** From the narrowest to the widest, the file left out. */
function spansAround(file: ProjectFile, offset: number): Span[] {
  const spans: Span[] = [];
  const add = (span: Span | undefined): void => {
    const last = spans.at(-1) ?? { start: offset, end: offset };
    if (span === undefined || span.start > last.start || span.end < last.end || span.end - span.start <= last.end - last.start) return;
    if (span.start > 0 || span.end < file.text.length) spans.push({ start: span.start, end: span.end });
  };
  add(wordAt(file.text, offset));
  const placed = blockAt(file, offset);
  if (placed === undefined) return spans;
  const { block, offset: base, index } = placed;
  const at = offset - base;
  const inFile = ({ start, end }: Span): Span => ({ start: base + start, end: base + end });
  const isInHead = at >= block.head.start && at <= block.head.end;
  const lines: readonly Line<unknown>[] = isInHead ? [block.head] : [...linesAt(block, at)].reverse();
  const [line] = lines;
  if (line !== undefined) for (const span of nodesAt(line, at)) add(inFile(span));
  for (const one of lines) {
    add(inFile(one));
    add(inFile({ start: one.start, end: isInHead ? one.end : endWithChildren(one as Line) }));
  }
  add(inFile({ start: block.head.start, end: endOfBlock(block) }));
  const section = sectionOfBlock(file, index);
  if (section !== undefined) add(offsetsOfSection(file, section));
  return spans;
}

/** Everything with a place in the tree of a line that holds the offset, the narrowest first; the lines under it left out. */
function nodesAt({ node, comment }: Line<unknown>, at: number): readonly Span[] {
  const found: Span[] = [];
  const waiting: object[] = [{ node, comment }];
  for (let value = waiting.pop(); value !== undefined; value = waiting.pop()) {
    if (isSpan(value)) {
      if (at < value.start || at > value.end) continue;
      found.push(value);
    }
    waiting.push(...Object.values(value).filter((child: unknown) => typeof child === 'object' && child !== null));
  }
  return found.sort((a, b) => (a.end - a.start) - (b.end - b.start));
}

function isSpan(value: object): value is Span {
  return 'start' in value && typeof value.start === 'number' && 'end' in value && typeof value.end === 'number';
}

/** Letters, marks and digits with the hyphens and apostrophes between them; undefined where none stand. */
function wordAt(text: string, offset: number): Span | undefined {
  const before = /[\p{L}\p{M}\p{N}'’-]*$/u.exec(text.slice(Math.max(0, offset - 200), offset))?.[0] ?? '';
  const after = /^[\p{L}\p{M}\p{N}'’-]*/u.exec(text.slice(offset, offset + 200))?.[0] ?? '';
  return before + after === '' ? undefined : { start: offset - before.length, end: offset + after.length };
}
