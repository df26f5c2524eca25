/** What holds of any comparison: nothing against itself, mirrored either way, scaled told as scaled, layout as layout, each number that is changed as both numbers. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { format } from '../../../grammar';
import type { Change, Fact, SectionChanges } from '../../../server/core/compare';
import { someText, wholeText } from '../arbitrary';
import { everythingOffered } from '../refactor/refactored';
import { preferments } from '../refactor/arbitrary';
import { factor, formulaText } from '../scaling/arbitrary';
import { scaled } from '../scaling/rescaled';
import { compared, told } from './texts';

const SAMPLES = path.join(import.meta.dirname, '..', '..', '..', 'samples');
const samples = readdirSync(SAMPLES).filter((name) => name.endsWith('.bake')).map((name) => readFileSync(path.join(SAMPLES, name), 'utf8'));
const anyText = fc.oneof(formulaText, preferments, wholeText, someText, fc.constantFrom(...samples));

test('a text against itself is no change', () => {
  fc.assert(fc.property(anyText, (text) => {
    expect(compared(text, text)).toEqual([]);
  }), { numRuns: 30 });
});

test('the other way round, the sides are swapped and nothing else', () => {
  const sides = (sections: readonly SectionChanges[], turned: boolean) => sections.flatMap((section) => section.changes.map(({ what, before, after }: Change) => {
    const [was, is]: readonly (Fact | undefined)[] = turned ? [after, before] : [before, after];
    return JSON.stringify([what, was, is]);
  })).sort();
  fc.assert(fc.property(anyText, anyText, (a, b) => {
    expect(sides(compared(b, a), true)).toEqual(sides(compared(a, b), false));
  }), { numRuns: 30 });
});

test('a layout is only a layout', () => {
  fc.assert(fc.property(anyText, (text) => {
    const now = format(text);
    for (const { changes } of compared(text, now)) expect(changes.map(({ what }) => what), now).toEqual(['layout']);
  }), { numRuns: 30 });
});

test('comments are only comments', () => {
  fc.assert(fc.property(formulaText, (text) => {
    const now = text.replace(/(bread flour, sifted).*$/m, '$1  # the last sack');
    if (now !== text) expect(told(compared(text, now))).toEqual(['layout Random']);
  }), { numRuns: 20 });
});

test('a scaled text is told as scaled, by its factor, and what rounding moved is told as that', () => {
  let tried = 0;
  fc.assert(fc.property(formulaText, factor, fc.constantFrom(undefined, { grams: 1, smallGrams: 0.1 }), (text, times, step) => {
    // What is rounded to whole grams at a tenth of the size has no factor any more that anybody could read off.
    fc.pre(Math.abs(times - 1) > 0.05 && (step === undefined || times > 0.5));
    const [section] = compared(text, scaled(text, times, undefined, step).text);
    const whats = new Set(section?.changes.map(({ what }) => what));
    expect(whats, told([section!]).join('\n')).toContain('scaled');
    expect(Math.abs(section!.factor / times - 1)).toBeLessThan(0.02);
    for (const never of ['ingredient', 'ingredient-swapped', 'part', 'step', 'step-detail', 'allergen'] as const) expect(whats, told([section!]).join('\n')).not.toContain(never);
    if (step === undefined) expect(whats, told([section!]).join('\n')).not.toContain('amount');
    tried += 1;
  }), { numRuns: 30 });
  expect(tried).toBeGreaterThan(5);
});

test('the same dough written another way is no other dough', () => {
  let tried = 0;
  fc.assert(fc.property(preferments, (text) => {
    for (const { id, title, after } of everythingOffered(text)) {
      if (!['part-in-shares', 'as-total', 'as-dough', 'line-in-shares'].includes(id)) continue;
      tried += 1;
      const changes = compared(text, after()).flatMap((section) => section.changes);
      for (const { what } of changes) expect(['rewritten', 'finding'], `${title}: ${told(compared(text, after())).join('; ')}\n${text}\n${after()}`).toContain(what);
    }
  }), { numRuns: 15 });
  expect(tried).toBeGreaterThan(5);
});

describe('each number that is changed is told with both numbers', () => {
  test('a weight', () => {
    fc.assert(fc.property(preferments, fc.nat(), fc.integer({ min: 1, max: 900 }), (text, at, more) => {
      const weights = [...text.matchAll(/^ {2}([\d.]+) g +([a-z ]+?)(?= {2}#| at|\r?$)/gm)];
      fc.pre(weights.length > 2);
      const chosen = weights[at % weights.length]!;
      const [whole, amount = ''] = chosen;
      const now = String(Number((Number(amount) + more / 10).toFixed(1)));
      const edited = text.slice(0, chosen.index) + whole.replace(amount, now) + text.slice(chosen.index + whole.length);
      const lines = told(compared(text, edited));
      const isTold = lines.some((line) => line.includes(`${Number(amount)} g`) && line.includes(`-> ${now} g`))
        // The size of a part, or of all, is told where that is what the number sets.
        || lines.some((line) => /^(scaled|part-scaled|amount) .*\d g.*-> .*\d g/.test(line));
      expect(isTold, `${whole} became ${now}\n${lines.join('\n')}\n${text}`).toBe(true);
    }), { numRuns: 40 });
  });

  test.each([
    ['2 %       salt', '2.02 %    salt', 'amount dough/salt: 20 g 2 % -> 20.2 g 2.02 %'],
    ['700 g     water', '701 g     water', 'amount dough/water: 700 g 70 % -> 701 g 70.1 %'],
    ['1000 g    bread flour', '1001 g    bread flour', 'amount dough/bread flour: 1000 g 98.04 % -> 1001 g 98.04 %'],
  ])('%s to %s', (was, is, expected) => {
    const text = 'formula "Loaf"\n\ndough\n  1000 g    bread flour\n  20 g      rye flour\n  700 g     water\n  2 %       salt\n  4 g       instant yeast\n';
    const own = text.replace('  20 g      rye flour\n', was.includes('bread') ? '  20 g      rye flour\n' : '');
    expect(told(compared(own, own.replace(was, is)))).toContain(expected);
  });
});
