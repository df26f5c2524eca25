/** After an edit only what lies around it is cut into blocks and sections again, and the outcome is that of a fresh look. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differenceOf } from '../../server/project/difference';
import { parsed } from '../../server/project/parsed';
import type { Parsed } from '../../server/project/parsed';

const URI = 'file:///stall/a.bake';

/** Line starts, line ends and heads of every kind, so that blocks are torn apart and put together. */
const PIECES = [
  '\n', '\r\n', '\r', '\uFEFF', ' ', '  ', '#', '# a comment\n', '  # deeper\n', '\n\n', 'x', '"', 'use "b.bake"\n', 'ingredient "mill flour"\n  like bread flour\n',
  'formula "Loaf"\n', 'formula "Knots"\n  makes 9 knots of 90 g\n', 'dish "Pudding"\n', 'plan "Saturday"\n', 'dough\n  500 g bread flour\n', 'levain\n', 'steps\n  mix 8 min\n', 'record 2026-03-14\n', 'wibble\n', '  20 g salt\n',
];
const text = fc.array(fc.constantFrom(...PIECES), { maxLength: 14 }).map(pieces => pieces.join(''));
const edit = fc.record({ from: fc.nat(200), length: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(60)), text: fc.oneof(fc.constant(''), fc.constantFrom(...PIECES), text) });

function seen({ tree, sections, usePaths, ingredientBlocks, lineIndex, text: own }: Parsed): unknown {
  return {
    tree, usePaths, ingredientBlocks, lines: lineIndex.lineCount, end: lineIndex.positionAt(own.length),
    sections: sections.map(s => ({ section: s.section, firstBlock: s.firstBlock, at: s.offsetsOf({ block: 0, start: 1, end: 2 }) })),
  };
}

describe('parsing after an edit', () => {
  it('gives what a fresh look gives, whatever was edited before', () => {
    fc.assert(fc.property(text, fc.array(edit, { maxLength: 8 }), fc.boolean(), (first, edits, isMarkdown) => {
      let known = parsed(URI, first, isMarkdown, undefined);
      for (const { from, length, text: inserted } of edits) {
        const at = Math.min(from, known.source.length);
        known = parsed(URI, known.source.slice(0, at) + inserted + known.source.slice(at + length), isMarkdown, known);
        expect(seen(known)).toEqual(seen(parsed(URI, known.source, isMarkdown, undefined)));
        // Where a text stands twice it is one block, as after a fresh look.
        expect(new Set(known.tree.blocks.map(({ block }) => block)).size).toBe(new Set(known.tree.blocks.map(({ block }) => block.text)).size);
      }
    }), { numRuns: 300 });
  });

  it('keeps the blocks and sections that an edit does not touch', () => {
    const loaf = (name: string, water: number) => `formula "${name}"\n\ndough\n  500 g bread flour\n  ${water} g water\n\n`;
    const before = parsed(URI, loaf('A', 350) + loaf('B', 350) + loaf('C', 350), false, undefined);
    const after = parsed(URI, loaf('A', 350) + loaf('B', 9350) + loaf('C', 350), false, before);
    expect(after.sections.map(({ section }, i) => section === before.sections[i]?.section)).toEqual([true, false, true]);
    expect(after.tree.blocks.map(({ block }, i) => block === before.tree.blocks[i]?.block)).toEqual([true, true, true, false, true, true]);
    const head = after.sections[2]?.section.blocks[0]?.head;
    expect(head && after.sections[2]?.offsetsOf({ block: 0, start: head.start, end: head.end }).start).toBe(after.text.indexOf('formula "C"'));
  });
});

describe('where two texts differ', () => {
  it('is between what they begin and end with alike', () => {
    expect(differenceOf('aXXb', 'aYb')).toEqual({ start: 1, oldEnd: 3, newEnd: 2 });
    expect(differenceOf('aa', 'aaa')).toEqual({ start: 2, oldEnd: 2, newEnd: 3 });
    expect(differenceOf('same', 'same')).toEqual({ start: 4, oldEnd: 4, newEnd: 4 });
  });

  it('is found in texts longer than the pieces that are compared', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 200_000 }), fc.nat(100_000), fc.integer({ min: 1, max: 9 }), (front, back, middle) => {
      const start = 'o'.repeat(front);
      const end = 'u'.repeat(back);
      expect(differenceOf(`${start}<>${end}`, `${start}<${'x'.repeat(middle)}>${end}`)).toEqual({ start: front + 1, oldEnd: front + 1, newEnd: front + 1 + middle });
    }), { numRuns: 50 });
  });
});
