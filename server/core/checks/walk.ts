/** Reading a section line by line, for checks that look at what is written and not at what is computed. */
import type { Block, Line, Span } from '../../../grammar';
import type { Place, Section } from '../formula/model';

/** What was found for an object, so that some hundred checks that ask the same look once. Forgotten with the object. */
export function remembering<K extends object, V>(work: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    let found = known.get(key);
    if (found === undefined) known.set(key, (found = { value: work(key) }));
    return found.value;
  };
}

export interface PlacedLine {
  /** Index of the block in the section. */
  readonly block: number;
  readonly line: Line;
  /** The line that it refines, if it stands deeper than one. */
  readonly parent: Line | undefined;
}

/**
 * The lines under the heads of a section in the order of the text, refining lines after the line they refine. Blank and
 * comment lines are in it. Not recursive: a garbled file may nest as deep as it is long.
 */
export const linesOf: (section: Section) => readonly PlacedLine[] = remembering(inEachBlock(linesOfBlock));

/**
 * What there is in the blocks of a section, in their order, for work that looks at one block at a time: an edit of one leaves
 * what was found in the others. Found anew where a block has another index in its section, which its places name.
 */
export function inEachBlock<V>(work: (block: Block, index: number) => readonly V[]): (section: Section) => readonly V[] {
  const known = new WeakMap<Block, { readonly index: number; readonly found: readonly V[] }>();
  return ({ blocks }) => {
    const all: V[] = [];
    blocks.forEach((block, index) => {
      let last = known.get(block);
      if (last?.index !== index) {
        known.set(block, (last = { index, found: work(block, index) }));
      }
      for (const one of last.found) {
        all.push(one);
      }
    });
    return all;
  };
}

export function linesOfBlock(block: Block, index: number): readonly PlacedLine[] {
  const found: PlacedLine[] = [];
  const waiting: PlacedLine[] = [];
  const push = (lines: readonly Line[], parent: Line | undefined) => {
    for (let i = lines.length - 1; i >= 0; i -= 1) {
      const line = lines[i];
      if (line !== undefined) {
        waiting.push({ block: index, line, parent });
      }
    }
  };
  push(block.lines, undefined);
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    found.push(next);
    push(next.line.children, next.line);
  }
  return found;
}

/** A span of a block as a place in the section: the bare range, whatever else the node carries. */
export function placeOf(block: number, span: Span): Place {
  return { block, start: span.start, end: span.end };
}

/** The text at a place. */
export function textAt(section: Section, place: Place): string {
  return section.blocks[place.block]?.text.slice(place.start, place.end) ?? '';
}

/**
 * Where a finding about a whole block stands: its head, without what follows it on the line. An empty range at the
 * start for lines that have no head.
 */
export function headPlace(section: Section, block: number): Place {
  const head = section.blocks[block]?.head.node;
  return head === undefined ? { block, start: 0, end: 0 } : placeOf(block, head);
}

/**
 * Every object inside a node, the node itself included, in the order of its fields. For checks that look for one kind of
 * value (a number with a comma, a vague length of time) wherever the language allows it, so that a new kind of line is
 * covered without anybody thinking of it. The lines that refine a line are not entered.
 */
export const valuesIn: (node: object) => readonly object[] = remembering((node: object) => {
  const found: object[] = [];
  const waiting: object[] = [node];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    found.push(next);
    for (const [field, value] of Object.entries(next)) {
      if (typeof value === 'object' && value !== null && field !== 'children') {
        waiting.push(value as object);
      }
    }
  }
  return found;
});
