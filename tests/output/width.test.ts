import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { padEnd, padStart, printable, widthOf, wrap, wrapList } from '../../server/output/width';

describe('the width of a text on a terminal', () => {
  test.each([
    ['flour', 5],
    ['', 0],
    ['é', 1],
    ['e\u0301', 1], // the same letter, its accent apart
    ['漢字', 4],
    ['ライ麦粉', 8],
    ['ﾗｲ', 2], // half-width forms
    ['（麦）', 6],
    ['호밀', 4],
    ['🥖', 2],
    ['👩‍🍳', 2], // three code points, one picture
    ['🇵🇹', 2],
    ['❤️', 2],
    ['½ °C – …', 8],
    ['\u200b', 0],
  ])('%s takes %i', (text, width) => {
    expect(widthOf(text)).toBe(width);
  });

  test('padding fills up to a width and never cuts', () => {
    expect(padEnd('漢', 4)).toBe('漢  ');
    expect(padStart('é', 3)).toBe('  é');
    expect(padEnd('levain', 3)).toBe('levain');
  });
});

describe('wrapping', () => {
  test('breaks at spaces', () => {
    expect(wrap('whole wheat flour, stone milled', 12)).toEqual(['whole wheat', 'flour, stone', 'milled']);
  });

  test('a word that is too long is broken, never lost', () => {
    expect(wrap('Vollkornsauerteig 漢字漢字', 6)).toEqual(['Vollko', 'rnsaue', 'rteig', '漢字漢', '字']);
  });

  test('no line is too wide and no letter is lost', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 4, max: 40 }), (text, width) => {
        const lines = wrap(text, width);
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(width);
        expect(lines.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''));
      }),
    );
  });
});

test('what a file could do to the screen is taken out', () => {
  expect(printable('rye\u001b[31m red\u0007')).toBe('rye\uFFFD[31m red\uFFFD');
  expect(printable('a\tb\r\nc')).toBe('a b  c');
  expect(printable('abc\u202egnp.exe')).toBe('abc\uFFFDgnp.exe');
  expect(printable('Crème brûlée 漢 👩‍🍳')).toBe('Crème brûlée 漢 👩‍🍳');
});

test('a list breaks between its items, and an item only where it must', () => {
  expect(wrapList(['880 g bread flour', '600 g water', '18 g salt'], 30)).toEqual(['880 g bread flour,', '600 g water, 18 g salt']);
  expect(wrapList(['880 g bread flour', '600 g water'], 31)).toEqual(['880 g bread flour, 600 g water']);
  expect(wrapList(['880 g stone-ground flour of the mill', '6 g salt'], 20)).toEqual(['880 g stone-ground', 'flour of the mill,', '6 g salt']);
  expect(wrapList([], 20)).toEqual([]);
});
