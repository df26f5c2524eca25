/** Large and hostile files: they must be read without a fault and without work that grows faster than the file. */
import { describe, expect, it } from 'vitest';
import { createBlockCache, format, parse, splitBlocks, VOCABULARY, walkLines } from '../../grammar';
import { BakeParser } from '../../grammar/parser';
import { createLexer } from '../../grammar/tokens';

const MEGABYTES = 1_000_000;

describe('size', { timeout: 60_000 }, () => {
  it('ten megabytes in one line', () => {
    for (const line of ['x'.repeat(10 * MEGABYTES), 'dough\n  ' + '12 g , " ('.repeat(MEGABYTES), '#' + '"'.repeat(10 * MEGABYTES), ' '.repeat(10 * MEGABYTES)]) {
      const tree = parse(line);
      expect(tree.blocks.length).toBe(1);
      expect(tree.blocks[0]?.block.problems.length).toBeLessThanOrEqual(1);
    }
  });

  it('ten megabytes of binary lines', () => {
    const line = '\u0000\u0001\ud800"\u00ff\udfff(%\u2028';
    const text = `dough\n${`  ${line.repeat(50)}\n`.repeat(200)}${`${line.repeat(1000)}\n`.repeat(1100)}`;
    expect(parse(text).blocks.length).toBe(1101);
  });

  it('5,000 blocks, and an edit in one of them reads one again', () => {
    const blocks = Array.from({ length: 5000 }, (_, index) => `part "p${index}"\n  700 g     flour\n  500 g     water\n`);
    const cached = createBlockCache();
    const before = cached(blocks.join('\n'));
    blocks[2500] = 'part "p2500"\n  700 g     flour\n  510 g     water\n';
    const after = cached(blocks.join('\n'));
    const kept = new Set(before.blocks.map(({ block }) => block));
    expect(after.blocks.length).toBe(5000);
    expect(after.blocks.filter(({ block }) => !kept.has(block)).length).toBe(1);
  });

  it('a line with many mistakes costs no more than its length', () => {
    const line = `steps\n  mix ${'lid on x, until core y, at at, '.repeat(300)}\n`;
    expect(parse(line).blocks[0]?.block.problems.length).toBeGreaterThan(300);
  });

  it('deep indents do not pile up', () => {
    const text = `steps\n${Array.from({ length: 2000 }, (_, depth) => `${' '.repeat(depth + 1)}fold 1 min\n`).join('')}`;
    const block = parse(text).blocks[0]?.block;
    const depths = block === undefined ? [] : [...walkLines(block)].map(({ depth }) => depth);
    expect(depths.length).toBe(2000);
    expect(Math.max(...depths)).toBeLessThanOrEqual(16);
    expect(format(format(text))).toBe(format(text));
  });

  it('blocks are cut without looking into them', () => {
    expect(splitBlocks(`${'a\n'.repeat(500_000)}`).length).toBe(500_000);
  });
});

describe('the rules themselves', () => {
  it('have no fault that the library knows to find', () => {
    new BakeParser(true);
    createLexer(true);
  });
});

describe('the vocabulary', () => {
  it('says something about every word', () => {
    for (const { label, doc, example } of VOCABULARY) {
      expect(doc, label).toMatch(/^[A-Z`].*\.$/);
      expect(example, label).not.toBe('');
    }
  });

  it('has examples that are read without a problem', () => {
    for (const { label, kind, example, allowedIn } of VOCABULARY) {
      const heads = { formula: 'formula "x"', dish: 'dish "x"', part: 'levain', steps: 'steps', ingredient: 'ingredient "x"', record: 'record 2026-03-14', plan: 'plan "x"' };
      const texts = kind === 'block' ? [`${example}\n`] : allowedIn.map((block) => `${heads[block]}\n  ${example}\n`);
      for (const text of texts) expect(parse(text).blocks.flatMap(({ block }) => block.problems), `${label}: ${text}`).toEqual([]);
    }
  });
});
