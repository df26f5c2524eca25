/** What stands around the cursor on its line, read from the text: a line that is being typed is seldom a line yet. */
import type { Block } from '../../../grammar';
import type { BlockInFile, ProjectFile } from '../../project/file';

export interface Cursor {
  /** The line up to the cursor, without its indent. */
  readonly before: string;
  /** The rest of the line. */
  readonly after: string;
  /** The line starts with a space or tab: it belongs to the block above. */
  readonly indented: boolean;
  /** The block that an indented line belongs to. */
  readonly block: BlockInFile | undefined;
  /** File offset. */
  readonly offset: number;
  /** Inside a comment. */
  readonly inComment: boolean;
  /** The text since the quote that is open at the cursor, or undefined when none is. */
  readonly quoted: string | undefined;
}

/** Longer lines are no baker's; not looking at them bounds the work of matching. */
const LONGEST_LINE = 1000;

/** Undefined on a line that is too long to be anything. */
export function cursorAt(file: ProjectFile, offset: number): Cursor | undefined {
  const { line } = file.lineIndex.positionAt(offset);
  const { start, end } = file.lineIndex.lineAt(line);
  if (offset - start > LONGEST_LINE) return undefined;
  const whole = file.text.slice(start, Math.min(offset, end));
  const before = whole.trimStart();
  const open = openedBy(before);
  return {
    before,
    after: file.text.slice(Math.min(offset, end), end),
    indented: before.length < whole.length,
    block: blockAbove(file, start),
    offset,
    inComment: open === '#',
    quoted: open === undefined || open === '#' ? undefined : before.slice(before.lastIndexOf(open) + 1),
  };
}

/** What is still open at the end of a text: a comment, a quote (its sign), or nothing. */
function openedBy(text: string): string | undefined {
  let quote: string | undefined;
  for (const sign of text) {
    if (quote === undefined && sign === '#') return '#';
    if (quote === undefined && /["“„«]/.test(sign)) quote = sign;
    else if (quote !== undefined && /["“”»]/.test(sign)) quote = undefined;
  }
  return quote;
}

/** The last block whose head stands on a line before `lineStart`. Blank lines above a head are the next block's, in the tree. */
function blockAbove(file: ProjectFile, lineStart: number): BlockInFile | undefined {
  const { blocks } = file.tree;
  for (let index = blocks.length - 1; index >= 0; index--) {
    const placed = blocks[index];
    if (placed === undefined) continue;
    if (placed.block.head.node.kind !== 'none' && placed.offset + headStart(placed.block) < lineStart) {
      return { block: placed.block, index, offset: placed.offset };
    }
  }
  return undefined;
}

function headStart({ head }: Block): number {
  return head.start;
}

/** A number, or two with `to` between them, as a line opens with it. */
const NUMBER = String.raw`(?:\d+\s+\d+\/\d+|\d+\/\d+|\d+(?:[.,]\d+)?\s?[¼½¾⅓⅔⅛]?|[¼½¾⅓⅔⅛])`;
const QUANTITY = String.raw`${NUMBER}(?:\s+to\s+${NUMBER})?`;
const UNIT = String.raw`(?:g|kg|mg|oz|lb|ml|l|tsp|tbsp|cups?|fl oz|%)`;
const MASS_OR_SHARE = new RegExp(String.raw`^(?:${QUANTITY}\s*${UNIT}(?:\s*\([^)]*\))?|(?:${QUANTITY}\s+)?pinch(?:es)?)\s+(?:of\s+)?`, 'iu');
const ONLY_NUMBER = new RegExp(String.raw`^${QUANTITY}\s*`, 'u');

/** The rest of a line after its amount with a unit, or undefined when it does not open with one. */
export function afterAmount(before: string): string | undefined {
  const match = MASS_OR_SHARE.exec(before);
  return match === null ? undefined : before.slice(match[0].length);
}

/** The rest of a line after a bare number, or undefined when it does not open with one. */
export function afterNumber(before: string): string | undefined {
  const match = ONLY_NUMBER.exec(before);
  return match === null ? undefined : before.slice(match[0].length);
}
