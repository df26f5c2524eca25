import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedText, indexedText, lineIndexOf } from '../../server/project/lines';

describe('lines and columns', () => {
  it('counts LF, CRLF and a lone CR as line ends', () => {
    const index = lineIndexOf('a\nbb\r\nccc\rd');
    expect(index.lineCount).toBe(4);
    expect([0, 2, 6, 10].map(offset => index.positionAt(offset))).toEqual([0, 1, 2, 3].map(line => ({ line, character: 0 })));
    expect(index.lineAt(1)).toEqual({ start: 2, end: 4, next: 6 });
    expect(index.lineAt(3)).toEqual({ start: 10, end: 11, next: 11 });
  });

  it('counts columns in UTF-16 units: é is one, 漢 one, a cook with a skillet five', () => {
    const text = 'é 漢 👩‍🍳 x';
    expect(lineIndexOf(text).positionAt(text.indexOf('x'))).toEqual({ line: 0, character: 10 });
    expect(lineIndexOf(text).offsetAt({ line: 0, character: 10 })).toBe(text.indexOf('x'));
  });

  it('reads a column past the end of its line as the end of the line', () => {
    expect(lineIndexOf('ab\r\ncd').offsetAt({ line: 0, character: 99 })).toBe(2);
    expect(lineIndexOf('ab\r\ncd').offsetAt({ line: 9, character: 0 })).toBe(6);
    expect(lineIndexOf('ab\r\ncd').positionAt(3)).toEqual({ line: 0, character: 2 });
    expect(lineIndexOf('').positionAt(5)).toEqual({ line: 0, character: 0 });
  });

  const texts = fc.array(fc.constantFrom('a', 'é', '漢', '👩‍🍳', '\n', '\r\n', '\r', ' '), { maxLength: 30 }).map(parts => parts.join(''));

  it('comes back to where it set out, except inside a line break', () => {
    fc.assert(fc.property(texts, fc.nat(60), (text, at) => {
      const index = lineIndexOf(text);
      const offset = Math.min(at, text.length);
      const inBreak = text[offset] === '\n' && text[offset - 1] === '\r';
      expect(index.offsetAt(index.positionAt(offset))).toBe(inBreak ? offset - 1 : offset);
    }));
  });

  it('applies changes one after the other, as an editor sends them', () => {
    const changes = [
      { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 5 } }, text: '漢' },
      { range: { start: { line: 1, character: 0 }, end: { line: 1, character: 1 } }, text: '' },
      { range: { start: { line: 0, character: 1 }, end: { line: 1, character: 0 } }, text: ' ' },
    ];
    expect(changedText(indexedText('bread\r\nxok'), changes).text).toBe('漢 ok');
    expect(changedText(indexedText('bread'), [{ text: 'all of it' }]).text).toBe('all of it');
  });

  it('puts a replaced range where slicing would', () => {
    fc.assert(fc.property(texts, fc.nat(30), fc.nat(30), texts, (text, a, b, inserted) => {
      const index = lineIndexOf(text);
      const start = index.offsetAt(index.positionAt(Math.min(a, b)));
      const end = index.offsetAt(index.positionAt(Math.max(a, b)));
      const range = index.rangeOf(start, end);
      expect(changedText(indexedText(text), [{ range, text: inserted }]).text).toBe(text.slice(0, start) + inserted + text.slice(end));
    }));
  });

  it('finds the lines after any edits where a fresh look does, breaks put together and torn apart too', () => {
    fc.assert(fc.property(texts, fc.array(fc.tuple(fc.nat(30), fc.nat(30), texts), { maxLength: 5 }), (text, edits) => {
      let known = indexedText(text);
      for (const [a, b, inserted] of edits) {
        known = changedText(known, [{ range: known.lineIndex.rangeOf(Math.min(a, b), Math.max(a, b)), text: inserted }]);
        const fresh = lineIndexOf(known.text);
        expect(known.lineIndex.lineCount).toBe(fresh.lineCount);
        for (let line = 0; line < fresh.lineCount; line++) expect(known.lineIndex.lineAt(line)).toEqual(fresh.lineAt(line));
      }
    }));
  });
});
