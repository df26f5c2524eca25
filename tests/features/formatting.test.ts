import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { format } from '../../grammar';
import { formattingOf } from '../../server/features/formatting';
import { lineIndexOf } from '../../server/project/lines';
import { edited, marked, RYE } from './marked';

const formatted = async (text: string, range?: Range) => edited(text, formattingOf((await marked(text)).file, range));

describe('formatting', () => {
  it('gives the canonical layout', async () => {
    const untidy = RYE.replaceAll('  600 g     water', '\t600 g water').replace('makes     2', 'makes 2');
    expect(await formatted(untidy)).toBe(RYE);
  });

  it('edits only what differs', async () => {
    const { file } = await marked(RYE.replace('  600 g     water', '  600 g water'));
    const [edit, ...rest] = formattingOf(file);
    expect(rest).toEqual([]);
    expect(edit?.range.start.line).toBe(20);
    expect(edit?.newText.trim()).toBe('');
  });

  it('has nothing to do on a text that is fine', async () => {
    for (const text of [RYE, '', '# a comment\n']) expect(formattingOf((await marked(text)).file)).toEqual([]);
  });

  it('leaves a block alone in which something could not be read, and lays out the others', async () => {
    const text = 'levain\n   60 g    rye flour\n   wibble wobble\n\ndough\n   700 g bread flour\n';
    const after = await formatted(text);
    expect(after).toContain('levain\n   60 g    rye flour\n   wibble wobble\n');
    expect(after).toContain('dough\n  700 g     bread flour\n');
  });

  it('of a range touches the blocks that the range does', async () => {
    const text = 'levain\n 60 g rye flour\n\ndough\n 700 g bread flour\n';
    const line = (n: number): Range => ({ start: { line: n, character: 0 }, end: { line: n, character: 3 } });
    expect(await formatted(text, line(1))).toBe('levain\n  60 g      rye flour\n\ndough\n 700 g bread flour\n');
    expect(await formatted(text, line(4))).toBe('levain\n 60 g rye flour\n\ndough\n  700 g     bread flour\n');
  });

  it('keeps CRLF, and letters of any script', async () => {
    const text = 'dough\r\n 700 g bread flour, é 漢 👩‍🍳\r\n 3 g 塩\r\n';
    expect(await formatted(text)).toBe('dough\r\n  700 g     bread flour, é 漢 👩‍🍳\r\n  3 g       塩\r\n');
  });

  it('of a block behind one that is left alone, and ends in a lone CR, is done once', async () => {
    const once = await formatted('t\rsteps');
    expect(once).toBe('t\n\nsteps\n');
    expect(await formatted(once)).toBe(once);
  });

  it('keeps every word, number and comment', async () => {
    const pieces = fc.constantFrom(
      '  700 g   bread flour, sifted  twice # the old sack', ' 1½ tsp (4.5g) "pick & mix" as spice', '  bulk 3 h,add half of figs , until "it  rises" #x', '#  a   comment',
      '  2,5 g salt', '  wibble  # kept', '  note   “two  words”', 'dough at 25C # warm', 'steps', '  # accept salt-high:   sea salt', 'formula "A"  # mine',
    );
    await fc.assert(fc.asyncProperty(fc.array(pieces, { maxLength: 10 }), async rows => {
      const text = rows.join('\n');
      const bare = (source: string): string => source.replace(/[“”]/g, '"').replace(/\s+/g, '');
      expect(bare(await formatted(text))).toBe(bare(text));
    }), { numRuns: 200 });
  });

  it('is what the formatter of the language makes, block by block', async () => {
    const lines = fc.constantFrom('dough', 'levain', 'steps', ' 700 g bread flour', '   18 g salt # fine', '\t2 tsp  honey , warm', '# note', '', '  mix 8 min', '    fold at 30 min', 'formula "A"', ' makes 2 loaves', '👩‍🍳');
    await fc.assert(fc.asyncProperty(fc.array(lines, { maxLength: 14 }), fc.constantFrom('\n', '\r\n'), async (rows, end) => {
      const text = rows.join(end);
      const after = await formatted(text);
      expect(await formatted(after)).toBe(after);
      const { file } = await marked(text);
      if (file.tree.blocks.every(({ block }) => block.problems.length === 0)) expect(after).toBe(format(text));
      // The same edits, seen from the line index of the editor, stay inside the text.
      for (const { range } of formattingOf(file)) expect(lineIndexOf(text).offsetAt(range.end)).toBeLessThanOrEqual(text.length);
    }), { numRuns: 200 });
  });
});
