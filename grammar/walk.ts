/** Going through a tree. */
import type { Block, Line, Quantity } from './tree';

export interface WalkedLine {
  readonly line: Line;
  /** The line that this one refines, if any. */
  readonly parent: Line | undefined;
  /** 0 for a line right under the head. */
  readonly depth: number;
}

/** All lines of a block's body in the order of the text, each with the line that it refines. Blank lines are among them. */
export function* walkLines(block: Block): IterableIterator<WalkedLine> {
  yield* walk(block.lines, undefined, 0);
}

function* walk(lines: readonly Line[], parent: Line | undefined, depth: number): IterableIterator<WalkedLine> {
  for (const line of lines) {
    yield { line, parent, depth };
    yield* walk(line.children, line, depth + 1);
  }
}

/** The number that arithmetic uses: the middle of a range, or the number itself. */
export function quantityMiddle(quantity: Quantity): number {
  return quantity.high === undefined ? quantity.low.value : (quantity.low.value + quantity.high.value) / 2;
}
