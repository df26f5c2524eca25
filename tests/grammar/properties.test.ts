/** What holds for any text whatever. Each failure prints its seed; a text that once failed becomes an example above. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createBlockCache, format, formatBlocks, meaningOf, parse, parseBlock, printBlock, splitBlocks, type Block, type Span } from '../../grammar';
import { bakeText, garbled } from './arbitrary';
import { bare, meaningOfFile, problemsIn } from './helpers';

/** A few seconds in every run; `RUNS=5000` for a night. */
const RUNS = { numRuns: Number(process.env['RUNS'] ?? 150) };
const MINUTES = { timeout: 60_000 * Math.max(1, RUNS.numRuns / 500) };

const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }), fc.string({ unit: 'grapheme', maxLength: 200 }), garbled, bakeText,
  fc.array(fc.constantFrom('"', '“', '”', '#', ',', '\n', '\r', ' ', '\t', '(', ')', '12', '1/2', 'g', ' to ', 'at', 'dough', 'steps', 'mix', '\ufeff', '½', '-', '%', 'until', 'add', 'of'), { maxLength: 60 }).map((parts) => parts.join('')),
);

/** Every place in a tree, with that of the node around it. */
function badSpans(block: Block): readonly string[] {
  const bad: string[] = [];
  const visit = (value: unknown, around: Span, path: string): void => {
    if (Array.isArray(value)) return value.forEach((item, index) => visit(item, around, `${path}[${index}]`));
    if (typeof value !== 'object' || value === null) return;
    const { start, end } = value as Partial<Span>;
    const own = start === undefined || end === undefined ? around : { start, end };
    if (!(own.start >= around.start && own.end <= around.end && own.start <= own.end)) bad.push(`${path} ${own.start}-${own.end} outside ${around.start}-${around.end}`);
    for (const [key, inner] of Object.entries(value)) {
      // Deeper lines stand below their line, and a bracket may stand behind the name of what it weighs.
      const free = key === 'children' || key === 'bracket';
      visit(inner, free ? { start: 0, end: block.text.length } : own, `${path}.${key}`);
    }
  };
  const { text, ...rest } = block;
  visit(rest, { start: 0, end: text.length }, 'block');
  return bad;
}

describe('for any text', MINUTES, () => {
  it('parsing gives a tree, and the blocks put together are the file', () => {
    fc.assert(fc.property(anyText, (text) => {
      expect(parse(text).blocks.map(({ block }) => block.text).join('')).toBe(text);
      expect(splitBlocks(text).map((block) => block.text).join('')).toBe(text);
    }), RUNS);
  });

  it('each block starts where it says, and is one block when it stands alone', () => {
    fc.assert(fc.property(anyText, (text) => {
      for (const { offset, text: own } of splitBlocks(text)) {
        expect(text.startsWith(own, offset)).toBe(true);
        expect(splitBlocks(own)).toEqual([{ offset: 0, text: own }]);
      }
    }), RUNS);
  });

  it('every place lies inside the block and inside the place around it', () => {
    fc.assert(fc.property(anyText, (text) => {
      for (const { block } of parse(text).blocks) expect(badSpans(block)).toEqual([]);
    }), RUNS);
  });

  it('a line that is not understood comes with a problem', () => {
    fc.assert(fc.property(anyText, (text) => {
      for (const { block } of parse(text).blocks) {
        const bad = JSON.stringify(block.lines).includes('"kind":"bad"') || block.head.node.kind === 'unknown';
        if (bad) expect(block.problems.length).toBeGreaterThan(0);
      }
    }), RUNS);
  });

  it('messages are sentences and fixes can be applied', () => {
    fc.assert(fc.property(anyText, (text) => {
      for (const { problem, fixed } of problemsIn(text)) {
        expect(problem.message).toMatch(/[.?]$/);
        expect(problem.message).not.toMatch(/undefined|NaN|Token|null/);
        if (fixed !== undefined) {
          expect(fixed).not.toBe(text);
          parse(fixed);
        }
      }
    }), RUNS);
  });

  it('a fix takes its problem away and leaves no more to say than before', () => {
    const sameCode = (problems: ReturnType<typeof problemsIn>, code: string): number => problems.filter(({ problem }) => problem.code === code).length;
    const check = (text: string): void => {
      const before = problemsIn(text);
      for (const { problem, fixed } of before) {
        // What stands under a block that gets its name back is read only then.
        if (fixed === undefined || problem.code === 'unknown-block') continue;
        const after = problemsIn(fixed);
        expect(sameCode(after, problem.code), problem.message).toBeLessThan(sameCode(before, problem.code));
        expect(after.length, problem.message).toBeLessThanOrEqual(before.length);
      }
    };
    check('“  uses 12 slices of „Roggen“'); // with its quote closed, still no block
    fc.assert(fc.property(garbled, check), RUNS);
  });

  it('formatting keeps what the file says, and twice is the same as once', () => {
    fc.assert(fc.property(anyText, (text) => {
      const formatted = format(text);
      expect(meaningOfFile(formatted)).toEqual(meaningOfFile(text));
      expect(format(formatted)).toBe(formatted);
    }), RUNS);
  });

  it('LF and CRLF say the same', () => {
    fc.assert(fc.property(anyText, (text) => {
      const lf = text.replace(/\r\n?/g, '\n');
      expect(meaningOfFile(lf.replaceAll('\n', '\r\n'))).toEqual(meaningOfFile(lf));
      expect(format(lf.replaceAll('\n', '\r\n')).replaceAll('\r\n', '\n')).toBe(format(lf));
    }), RUNS);
  });

  it('the cache gives what parsing afresh gives, after any edits', () => {
    fc.assert(fc.property(fc.array(anyText, { minLength: 2, maxLength: 4 }), fc.nat(), (texts, at) => {
      const cached = createBlockCache();
      for (const text of texts) {
        const cut = at % (text.length + 1);
        for (const edited of [text, text.slice(0, cut) + texts[0] + text.slice(cut), text.slice(0, cut)]) expect(cached(edited)).toEqual(parse(edited));
      }
    }), RUNS);
  });
});

describe('for a good file', MINUTES, () => {
  it('there is no problem', () => {
    fc.assert(fc.property(bakeText, (text) => {
      expect(problemsIn(text).map(({ marked, problem }) => `${marked}: ${problem.message}`)).toEqual([]);
    }), RUNS);
  });

  it('printing a tree and reading it again gives the same tree', () => {
    fc.assert(fc.property(bakeText, (text) => {
      for (const { block } of parse(text).blocks) {
        const again = parseBlock(printBlock(block));
        expect(meaningOf(again)).toBe(meaningOf(block));
        expect(bare(again.head)).toEqual(bare(block.head));
      }
    }), RUNS);
  });

  it('no block is left as it was for want of a way to print it', () => {
    fc.assert(fc.property(bakeText, (text) => {
      for (const { newText } of formatBlocks(text)) expect(newText.trim()).toBe(printBlock(parseBlock(newText)).trim().replaceAll('\n', newText.includes('\r\n') ? '\r\n' : '\n'));
    }), RUNS);
  });
});
