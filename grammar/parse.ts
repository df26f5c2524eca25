/**
 * A file, a block and their lines. Each line is read on its own, so that a mistake costs that line only, and each block
 * on its own, so that an edit costs that block only.
 */
import { readComment } from './comments';
import { readHead } from './heads';
import { readLine, type Surroundings } from './lines';
import { isBlank, isCommentRow, isHead, rowsOf, splitBlocks, type Row } from './scan';
import { tokenizeLine } from './tokens';
import type { Block, Head, Line, PlacedBlock, Problem, Span, Tree, TriviaLine } from './tree';

/** Longer lines are no baker's; not reading them bounds the work that any one line can cause. */
const LONGEST_LINE = 10_000;
/** Folds stand one level below their bulk; far deeper lines are read as if they stood at this depth. */
const DEEPEST = 16;

/** Reads a whole file. Never throws; the blocks' texts put together are `text`. An empty file has no blocks. */
export function parse(text: string): Tree {
  return { blocks: splitBlocks(text).map(({ offset, text: blockText }): PlacedBlock => ({ offset, block: parseBlock(blockText) })) };
}

/**
 * A `parse` that reads only the blocks whose text it has not seen in the call before, and gives the very same `Block` for
 * the same text. It holds no more blocks than the last text had. Make one for each document.
 */
export function createBlockCache(): (text: string) => Tree {
  let known = new Map<string, Block>();
  return (text) => {
    const used = new Map<string, Block>();
    const blocks = splitBlocks(text).map(({ offset, text: blockText }): PlacedBlock => {
      const block = used.get(blockText) ?? known.get(blockText) ?? parseBlock(blockText);
      used.set(blockText, block);
      return { offset, block };
    });
    known = used;
    return { blocks };
  };
}

/** Reads the text of one block, as `splitBlocks` cuts it. Never throws, for any text. */
export function parseBlock(text: string): Block {
  const rows = rowsOf(text);
  const problems: Problem[] = [];
  const found = rows.findIndex((row) => !isBlank(row) && !(row.indent === 0 && isCommentRow(text, row)));
  const headRow = found < 0 ? undefined : rows[found];
  if (headRow === undefined || !isHead(text, headRow)) {
    return { text, leading: [], head: NO_HEAD, lines: looseLines(text, rows, problems), problems };
  }
  const leading = rows.slice(0, found).map((row) => triviaLine(text, row, problems));
  const head = readHeadRow(text, headRow, problems);
  const body = rows.slice(found + 1);
  const around = surroundingsOf(head.node);
  const lines = around === undefined ? bareLines(text, head.node, body, problems) : readBody(text, body, around, problems);
  return { text, leading, head, lines, problems };
}

const NO_HEAD: Line<Head> = { start: 0, end: 0, node: { kind: 'none', start: 0, end: 0 }, children: [] };

function readHeadRow(text: string, row: Row, problems: Problem[]): Line<Head> {
  const span = { start: row.first, end: row.end };
  if (row.end - row.first > LONGEST_LINE) {
    problems.push(tooLong(row));
    return { ...span, node: { kind: 'unknown', ...span }, children: [] };
  }
  const { tokens, comment: commentSpan, problems: lexed } = tokenizeLine(text, row.first, row.end);
  const { head, problems: wrong } = readHead(text, tokens);
  problems.push(...lexed, ...wrong);
  return { ...span, node: head, ...commentOf(text, commentSpan, problems), children: [] };
}

function commentOf(text: string, span: Span | undefined, problems: Problem[]): Pick<Line, 'comment'> {
  if (span === undefined) return {};
  const { comment, problem } = readComment(text, span);
  if (problem !== undefined) problems.push(problem);
  return { comment };
}

function tooLong(row: Row): Problem {
  return { code: 'not-understood', start: row.first, end: row.end, message: 'This line is far too long to be read: break it up.' };
}

function triviaLine(text: string, row: Row, problems: Problem[]): Line<TriviaLine> {
  const span = { start: row.first, end: row.end };
  if (isBlank(row)) return { ...span, node: { kind: 'blank', ...span }, children: [] };
  return { ...span, node: { kind: 'comment', ...span }, ...commentOf(text, span, problems), children: [] };
}

function surroundingsOf(head: Head): Surroundings | undefined {
  switch (head.kind) {
    case 'formula': case 'dish': case 'steps': case 'ingredient': case 'record': case 'plan':
      return { block: head.kind, part: undefined };
    case 'part':
      return { block: 'part', part: head.part };
    case 'use': case 'unknown': case 'none':
      return undefined;
  }
}

/** Lines under a head that has none, or an unknown one. The head's problem is enough; under `use` the first line says it. */
function bareLines(text: string, head: Head, rows: readonly Row[], problems: Problem[]): readonly Line[] {
  const explain = head.kind === 'use' ? 'Nothing stands under use: put each path on a line of its own in the first column.' : undefined;
  return keptLines(text, rows, problems, explain);
}

/** Lines before the first block of a file. */
function looseLines(text: string, rows: readonly Row[], problems: Problem[]): readonly Line[] {
  return keptLines(text, rows, problems, 'This line stands in no block: open one above it in the first column, for example dough.');
}

function keptLines(text: string, rows: readonly Row[], problems: Problem[], explain: string | undefined): readonly Line[] {
  let explained = explain === undefined;
  return rows.map((row): Line => {
    if (isBlank(row) || isCommentRow(text, row)) return triviaLine(text, row, problems);
    const span = { start: row.first, end: row.end };
    if (!explained && explain !== undefined) problems.push({ code: 'out-of-place', ...span, message: explain });
    explained = true;
    return { ...span, node: { kind: 'bad', ...span }, children: [] };
  });
}

// --- nesting --------------------------------------------------------------------------------------------------------

/** A line that deeper lines may still refine. */
interface Open {
  readonly indent: number;
  readonly children: Line[];
}

function readBody(text: string, rows: readonly Row[], around: Surroundings, problems: Problem[]): readonly Line[] {
  const lines: Line[] = [];
  const open: Open[] = [];
  // Comments and blank lines wait for the line below, because they must not come between a bulk and its next fold.
  let waiting: { readonly line: Line; readonly depth: number }[] = [];
  const place = (depth: number): Line[] => open[depth - 1]?.children ?? lines;
  const settle = (depth: number): void => {
    let least = depth;
    const depths = waiting.map((trivia) => trivia.depth);
    for (let at = depths.length - 1; at >= 0; at -= 1) depths[at] = least = Math.max(least, depths[at] ?? 0);
    waiting.forEach(({ line }, index) => place(depths[index] ?? 0).push(line));
    waiting = [];
  };
  for (const row of rows) {
    if (isBlank(row) || isCommentRow(text, row)) {
      const depth = isBlank(row) ? 0 : open.filter((above) => above.indent < row.indent).length;
      waiting.push({ line: triviaLine(text, row, problems), depth });
      continue;
    }
    const line = readRow(text, row, around, problems);
    const nests = line.node.kind === 'step' || line.node.kind === 'bad';
    // Only a step is refined by what stands under it, and a line that is not understood may well be one. Anything else
    // that is deeper has merely slipped to the right.
    const depth = nests ? open.filter((above) => above.indent < row.indent).length : 0;
    settle(depth);
    open.length = depth;
    place(depth).push(line);
    if (nests && depth < DEEPEST) open.push({ indent: row.indent, children: line.children });
  }
  settle(0);
  return lines;
}

function readRow(text: string, row: Row, around: Surroundings, problems: Problem[]): Line & { readonly children: Line[] } {
  const span = { start: row.first, end: row.end };
  const children: Line[] = [];
  if (row.end - row.first > LONGEST_LINE) {
    problems.push(tooLong(row));
    return { ...span, node: { kind: 'bad', ...span }, children };
  }
  const { tokens, comment: commentSpan, problems: lexed } = tokenizeLine(text, row.first, row.end);
  const { node, problems: wrong } = readLine(text, tokens, around);
  problems.push(...lexed, ...wrong);
  return { ...span, node, ...commentOf(text, commentSpan, problems), children };
}
