/** What holds of variants of any formula, whatever they change. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseText, type TextAnalysis } from '../bake';
import { preferments } from '../refactor/arbitrary';
import { everythingOffered } from '../refactor/refactored';

const variantOf = (base: string, lines: readonly string[], name = 'Variant'): string => `\nformula "${name}"\n  based on  "${base}"\n${lines.map((line) => `  ${line}\n`).join('')}`;
const named = (text: string, name: string): TextAnalysis => analyseText(text).find(({ section }) => section.name === name)!;

/** Grams of each row of the sheet, by part, with the totals. */
function sheetOf(text: string, name: string): Readonly<Record<string, number>> {
  const { formula, sheet, totals } = named(text, name);
  const grams: Record<string, number> = {};
  for (const { key, columns } of sheet?.rows ?? []) {
    columns.forEach((column, at) => {
      if (column !== 0) grams[`${key} in ${formula?.parts[at]?.key ?? ''}`] = column ?? Number.NaN;
    });
  }
  return { ...grams, flour: totals?.flour_g ?? Number.NaN, dough: totals?.dough_g ?? Number.NaN, hydration: totals?.hydration_pct ?? Number.NaN, prefermented: totals?.prefermented_flour_pct ?? Number.NaN };
}

function expectSame(is: Readonly<Record<string, number>>, was: Readonly<Record<string, number>>, relative: number, text: string): void {
  expect(Object.keys(is).sort(), text).toEqual(Object.keys(was).sort());
  for (const [key, grams] of Object.entries(was)) {
    if (Number.isNaN(grams)) expect(is[key], `${key}\n${text}`).toBeNaN();
    else expect(Math.abs(is[key]! - grams), `${key}: ${String(is[key])}, not ${String(grams)}\n${text}`).toBeLessThanOrEqual(relative * Math.abs(grams) + 1e-9);
  }
}

/** Changes that a baker might make of any of these formulas. */
const changes = fc.uniqueArray(fc.constantFrom(
  'swap sugar for honey', 'swap bread flour for spelt flour', 'set salt to 2.2 %', 'set salt to 21 g  # as at home', 'set water to 71 %',
  'add 30 g orange zest as spice', 'add 4 % sunflower seeds, toasted', 'drop sugar', 'swap salt for sea salt',
), { maxLength: 4, selector: (line) => line.split(' ')[1] });

describe('variants of random formulas', () => {
  test('without changes, the same sheet', () => {
    fc.assert(fc.property(preferments, (base) => {
      const text = base.replaceAll('\r\n', '\n') + variantOf('Random', []);
      expectSame(sheetOf(text, 'Variant'), sheetOf(text, 'Random'), 0, text);
    }), { numRuns: 40 });
  });

  test('written out in full, the same sheet to a hundredth of a per cent', () => {
    let tried = 0;
    fc.assert(fc.property(preferments, changes, (base, lines) => {
      const text = base + variantOf('Random', lines);
      for (const { id, after } of everythingOffered(text)) {
        if (id !== 'variant-in-full') continue;
        tried += 1;
        const now = after();
        expect(named(now, 'Variant').section.variant, now).toBeUndefined();
        expectSame(sheetOf(now, 'Variant'), sheetOf(text, 'Variant'), 1e-4, now);
        for (const line of lines) if (line.includes('#')) expect(now).toContain(line.slice(line.indexOf('#')));
      }
    }), { numRuns: 40 });
    expect(tried).toBeGreaterThan(20);
  });

  test('written out, made a variant again, and written out again: the same sheet', () => {
    let tried = 0;
    fc.assert(fc.property(preferments, changes, (base, lines) => {
      const text = base + variantOf('Random', lines);
      const full = everythingOffered(text).find(({ id }) => id === 'variant-in-full')?.after();
      if (full === undefined) return;
      for (const { id, after } of everythingOffered(full)) {
        if (id !== 'variant-of random') continue;
        tried += 1;
        const again = after();
        expect(named(again, 'Variant').section.variant, again).toBeDefined();
        expect(again.length).toBeLessThan(full.length);
        expectSame(sheetOf(again, 'Variant'), sheetOf(text, 'Variant'), 1e-9, again);
        const last = everythingOffered(again).find((one) => one.id === 'variant-in-full')!.after();
        expectSame(sheetOf(last, 'Variant'), sheetOf(text, 'Variant'), 1e-4, last);
      }
    }), { numRuns: 30 });
    expect(tried).toBeGreaterThan(10);
  });

  test('every finding, and every edit of a fix, is in the text of the variant itself', () => {
    const scraps = fc.array(fc.constantFrom(
      'swap sugar for water', 'set salt to 9 %', 'set water to 2,5 kg', 'set water to 1 g', 'add 900 g honey', 'add 5 wibbles', 'drop bread flour', 'drop levain', 'swap flour for rye flour', 'set seeds to 1 g',
      'drop flax seeds in seeds', 'set water to 70 % in poolish', 'set water to 70 % in pool', 'makes 2 loaves of 10 g', 'loses 140 % in the oven', 'based on "Third"', 'style rye', 'wibble', 'drop', 'set to', 'based on', '# accept salt-high: a trial',
      'swap salt for salt', 'drop salt  # accept salt-low, salt-missing: none is left', 'add all seeds', 'add 10 % of flour in levain', '\tset water to 60 %',
    ), { maxLength: 6 });
    fc.assert(fc.property(preferments, scraps, scraps, (base, lines, more) => {
      const text = base + variantOf('Random', lines) + variantOf('Variant', more, 'Third');
      for (const { section, findings } of analyseText(text)) {
        const own = section.variant?.ownBlocks ?? section.blocks.length;
        for (const { code, place, fixes, related } of findings) {
          const places = [place, ...fixes.flatMap(({ edits }) => edits.map((edit) => edit.place)), ...related.flatMap((one) => ('place' in one ? [one.place] : []))];
          for (const { block, start, end } of places) {
            expect(block, `${code}\n${text}`).toBeLessThan(own);
            expect(start).toBeLessThanOrEqual(end);
            expect(end, `${code}\n${text}`).toBeLessThanOrEqual(section.blocks[block]!.text.length);
          }
          for (const one of related) if ('elsewhere' in one) expect(text).toContain(one.elsewhere.text.slice(one.start, one.end));
        }
      }
    }), { numRuns: 150 });
  });

  test('a change and its opposite are nothing', () => {
    const pairs = fc.constantFrom<readonly [string, string]>(
      ['swap sugar for honey', 'swap honey for sugar'], ['add 12 g orange zest', 'drop orange zest'], ['swap salt for sea salt', 'swap sea salt for salt'],
    );
    fc.assert(fc.property(preferments, pairs, (base, [there, back]) => {
      const text = base.replaceAll('\r\n', '\n') + variantOf('Random', [there], 'There') + variantOf('There', [back], 'Back');
      expectSame(sheetOf(text, 'Back'), sheetOf(text, 'Random'), 1e-12, text);
    }), { numRuns: 30 });
    fc.assert(fc.property(preferments, fc.integer({ min: 1, max: 90 }), (base, grams) => {
      const { formula, section } = named(base, 'Random');
      const line = formula!.parts[formula!.dough!]!.lines.find(({ key }) => key === 'salt-fine' || key.includes('salt'))!;
      const was = section.blocks[line.amountPlace.block]!.text.slice(line.amountPlace.start, line.amountPlace.end);
      const text = base.replaceAll('\r\n', '\n') + variantOf('Random', [`set salt to ${String(grams)} g`], 'There') + variantOf('There', [`set salt to ${was}`], 'Back');
      expectSame(sheetOf(text, 'Back'), sheetOf(text, 'Random'), 1e-12, text);
    }), { numRuns: 20 });
  });
});
