/** Small helpers that keep the examples in these tests short. */
import { meaningOf, parse, parseBlock, walkLines, type Block, type BodyNode, type Problem } from '../../grammar';

/** A tree without the places in the text, so that an expectation says only what matters. */
export function bare(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (key, inner: unknown) => (key === 'start' || key === 'end' || key === 'keyword' ? undefined : inner))) as unknown;
}

/** The nodes under a head, blank lines left out. */
export function nodesUnder(head: string, ...lines: readonly string[]): readonly BodyNode[] {
  const block = blockOf(head, ...lines);
  return [...walkLines(block)].map(({ line }) => line.node).filter(({ kind }) => kind !== 'blank');
}

export function blockOf(head: string, ...lines: readonly string[]): Block {
  return parseBlock([head, ...lines.map((line) => `  ${line}`), ''].join('\n'));
}

/** What one line in a block says, with no problem allowed. */
export function read(head: string, line: string): unknown {
  const block = blockOf(head, line);
  if (block.problems.length > 0) throw new Error(`${line}: ${block.problems.map(({ message }) => message).join(' ')}`);
  return bare(block.lines[0]?.node);
}

export interface FoundProblem {
  readonly problem: Problem;
  /** The words that it marks. */
  readonly marked: string;
  /** The whole file after its fix, if it has one. */
  readonly fixed: string | undefined;
}

/** The problems of a file in the order of the text. */
export function problemsIn(text: string): readonly FoundProblem[] {
  return parse(text).blocks.flatMap(({ block, offset }) =>
    [...block.problems].sort((a, b) => a.start - b.start || a.end - b.end).map((problem) => ({
      problem,
      marked: block.text.slice(problem.start, problem.end),
      fixed: problem.fix && text.slice(0, offset) + applyEdits(block.text, problem.fix.edits) + text.slice(offset + block.text.length),
    })));
}

function applyEdits(text: string, edits: NonNullable<Problem['fix']>['edits']): string {
  return [...edits].sort((a, b) => b.start - a.start).reduce((result, { start, end, newText }) => result.slice(0, start) + newText + result.slice(end), text);
}

/** What a file says, apart from layout. */
export function meaningOfFile(text: string): readonly string[] {
  return parse(text).blocks.map(({ block }) => meaningOf(block)).filter((meaning) => meaning !== EMPTY);
}

const EMPTY = meaningOf(parseBlock('\n'));
