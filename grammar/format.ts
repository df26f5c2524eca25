/**
 * The formatter. It must never change what a file says: each block is read again after printing, and where the second
 * reading differs from the first in anything but places, the block stays as it was typed.
 */
import { parse, parseBlock } from './parse';
import { contentOf, Marks, printBlock } from './printer';
import { splitBlocks } from './scan';
import type { Block, Line, PlacedBlock } from './tree';

/** What to put in the place of a block's text. The two are equal when the block is fine as it stands. */
export interface BlockFormat {
  readonly offset: number;
  readonly oldText: string;
  readonly newText: string;
}

/** The whole file in canonical layout. CRLF or LF stays, by majority; a byte-order mark goes. */
export function format(text: string): string {
  return formatBlocks(text).map(({ newText }) => newText).join('');
}

/** One block in canonical layout, as it stands at the start of a file. Text that is not exactly one block comes back as it is. */
export function formatBlock(text: string): string {
  const formats = formatBlocks(text);
  return formats.length === 1 ? (formats[0]?.newText ?? text) : text;
}

/**
 * Block by block what `format` would make of the file, so that an editor changes only what differs.
 *
 * @param blocks those of the text, where they have been read already
 */
export function formatBlocks(text: string, blocks: readonly PlacedBlock[] = parse(text).blocks): readonly BlockFormat[] {
  const lineEnd = majorityLineEnd(text);
  let previous: Block | undefined;
  return blocks.map(({ offset, block }) => {
    const { text: oldText } = block;
    const printed = printedOf(block);
    const apart = separator(previous, block);
    previous = block;
    if (printed === undefined) return { offset, oldText, newText: kept(oldText, apart.replace('\n', lineEnd), lineEnd) };
    return { offset, oldText, newText: (apart + printed).replaceAll('\n', lineEnd) };
  });
}

/** What stands between a block and the one above it: one blank line, which may be missing between two `use`. */
function separator(above: Block | undefined, block: Block): string {
  if (above === undefined) return '';
  const together = above.head.node.kind === 'use' && block.head.node.kind === 'use';
  return together && block.leading[0]?.node.kind !== 'blank' ? '' : '\n';
}

/** A block that is not touched, except that it stands apart from the one above it and ends its last line. */
function kept(text: string, apart: string, lineEnd: string): string {
  const blankAbove = /^[\s\ufeff]*[\r\n]/.test(text);
  return (blankAbove ? '' : apart) + text + (/[\r\n]$/.test(text) ? '' : lineEnd);
}

function majorityLineEnd(text: string): '\n' | '\r\n' {
  let crlf = 0;
  let lf = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) {
    if (text.charCodeAt(at - 1) === 13) crlf += 1;
    else lf += 1;
  }
  return crlf > lf ? '\r\n' : '\n';
}

const known = new WeakMap<Block, { readonly printed: string | undefined }>();

/** The printed block, if it says the same as the block; remembered, for of most blocks an editor asks again and again. */
function printedOf(block: Block): string | undefined {
  let found = known.get(block);
  if (found === undefined) known.set(block, (found = { printed: checked(block) }));
  return found.printed;
}

function checked(block: Block): string | undefined {
  const printed = printBlock(block);
  if (printed === '') return block.text.trim() === '' ? '' : undefined;
  // What is printed as it was typed says the same.
  if (block.text === printed || block.text === `\n${printed}`) return printed;
  const again = splitBlocks(printed);
  const only = again[0];
  if (again.length !== 1 || only === undefined) return undefined;
  return meaningOf(parseBlock(only.text)) === meaningOf(block) ? printed : undefined;
}

/**
 * Everything that a block says, without the places where it says it and without blank lines. Two blocks with the same
 * meaning differ in layout only. Words that are not in the tree count as they are written.
 */
export function meaningOf(block: Block): string {
  const marks = new Marks(block.problems);
  const lineMeaning = (line: Line<unknown>): unknown[] => [
    line.node,
    line.comment,
    marks.has(line) ? contentOf(block.text, line).replace(/\s+/g, ' ') : '',
    line.children.filter(isNotBlank).map(lineMeaning),
  ];
  const codes = block.problems.map(({ code }) => code);
  const leading = block.leading.filter(isNotBlank).map(lineMeaning);
  const lines = block.lines.filter(isNotBlank).map(lineMeaning);
  const meaning = [leading, lineMeaning(block.head), lines, codes];
  return JSON.stringify(meaning, (key, value: unknown) => (key === 'start' || key === 'end' || key === 'keyword' ? undefined : value));
}

function isNotBlank({ node }: Line): boolean {
  return node.kind !== 'blank';
}
