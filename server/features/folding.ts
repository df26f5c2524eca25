/** What can be folded away: formulas with all their parts, each part and block, bulks with their folds, runs of comments. */
import type { FoldingRange } from 'vscode-languageserver';
import type { Line } from '../../grammar';
import { endOfBlock, endWithChildren, everyLine, offsetsOfSection } from '../project/file';
import type { ProjectFile } from '../project/file';
import { FoldingRangeKind } from './shared/protocol';

export function foldingRangesOf(file: ProjectFile, most = Number.POSITIVE_INFINITY): FoldingRange[] {
  if (file.page !== undefined) return []; // a Markdown page is folded by its headings and fences, as its editor does
  const ranges: FoldingRange[] = [];
  const lineOf = (offset: number): number => file.lineIndex.positionAt(offset).line;
  const add = (start: number, end: number, kind?: FoldingRangeKind): void => {
    const startLine = lineOf(start);
    const endLine = lineOf(end);
    if (endLine > startLine) ranges.push({ startLine, endLine, ...(kind !== undefined && { kind }) });
  };

  const heads = new Set<number>();
  for (const section of file.sections) {
    const { blocks } = section.section;
    if (blocks.length > 1 && isOpening(blocks[0]?.head.node.kind)) {
      heads.add(section.firstBlock);
      const { start, end } = offsetsOfSection(file, section);
      add(start, end);
    }
  }
  for (const [index, { block, offset }] of file.tree.blocks.entries()) {
    // The head of a formula already folds all of it; two folds on one line would be one too many.
    if (!heads.has(index)) add(offset + block.head.start, offset + endOfBlock(block));
    for (const line of everyLine(block)) {
      if (line.children.length > 0) add(offset + line.start, offset + endWithChildren(line));
    }
    for (const run of commentRuns([...block.leading, ...block.lines])) add(offset + run.start, offset + run.end, FoldingRangeKind.Comment);
  }
  // Outer ones first, so that a client that takes only so many gets those.
  return ranges.length <= most ? ranges : ranges.sort((a, b) => (b.endLine - b.startLine) - (a.endLine - a.startLine)).slice(0, most);
}

function isOpening(kind: string | undefined): boolean {
  return kind === 'formula' || kind === 'dish' || kind === 'plan';
}

/** Runs of lines with nothing but a comment. */
function commentRuns(lines: readonly Line[]): readonly { readonly start: number; readonly end: number }[] {
  const runs: { start: number; end: number }[] = [];
  let run: { start: number; end: number } | undefined;
  for (const line of lines) {
    if (line.node.kind !== 'comment') run = undefined;
    else if (run !== undefined) run.end = line.end;
    else runs.push((run = { start: line.start, end: line.end }));
  }
  return runs;
}
