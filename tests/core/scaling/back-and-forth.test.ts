/** Scaling by k and then by 1/k: the file is what it was, byte for byte. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format, parse } from '../../../grammar';
import { applyNumberEdits } from '../../../server/core/scaling/apply';
import { scaleEdit } from '../../../server/core/scaling/edit';
import { sectionsOf } from '../../../server/core/formula/sections';
import { resolve } from '../../../server/core/formula/resolve';
import { builtInCatalogue, extend } from '../../../server/core/ingredients/catalogue';
import * as made from './arbitrary';

const SAMPLES = path.join(import.meta.dirname, '../../../samples');
const samples = readdirSync(SAMPLES).filter((name) => name.endsWith('.bake')).map((name) => [name, readFileSync(path.join(SAMPLES, name), 'utf8')] as const);

/** The text with every formula and dish in it scaled. */
function allScaled(text: string, by: number): string {
  const { blocks } = parse(text);
  const all = blocks.map(({ block }) => block);
  const sections = sectionsOf(all).filter(({ section: { kind } }) => kind === 'formula' || kind === 'dish');
  return sections.reduceRight((result, { first, section }) => {
    const formula = resolve(section, { catalogue: extend(builtInCatalogue, all), measures: 'us' });
    const { edits } = scaleEdit({ section, formula, factor: by, request: { by: 'factor', factor: by } });
    return applyNumberEdits(result, edits, ({ block, start, end }) => {
      const { offset } = blocks[first + block]!;
      return { start: offset + start, end: offset + end };
    });
  }, text);
}

const back = (text: string, by: number): string => allScaled(allScaled(text, by), 1 / by);

/** Laid out as the formatter does. */
const formulaText = made.formulaText.map(format);
const formulaTextWithEggs = made.formulaTextWithEggs.map(format);

/** What is rounded to whole ones comes back only by a k that keeps them whole. */
const isCounted = (text: string): boolean => /"kind":"(?:count|pinch)"|"key":"serves"/.test(JSON.stringify(parse(text)));
/** One weight over another, as a size is asked for. */
const anyFactor = fc.tuple(fc.integer({ min: 100, max: 4000 }), fc.integer({ min: 100, max: 4000 })).map(([wanted, written]) => wanted / written);
const hasFractions = (text: string): boolean => /\d\/\d|[¼½¾⅓⅔⅛⅜⅝⅞]/.test(text);
const wholeFactor = fc.integer({ min: 2, max: 40 });

describe('every sample comes back', () => {
  // A comma for a point and a `1` before a pinch are mistakes of the one sample that is full of them, and are written right.
  const rightly = samples.map(([name, text]) => [name, text.replace('620,5 g', '620.5 g').replace('1 pinch ', 'pinch   ')] as const);

  it.each(rightly)('%s, after whole times as much', (_, text) => {
    fc.assert(fc.property(wholeFactor, (by) => { expect(back(text, by)).toBe(text); }), { numRuns: 30 });
  });

  it.each(rightly.filter(([, text]) => !isCounted(text) && !hasFractions(text)))('%s, after any times as much', (_, text) => {
    fc.assert(fc.property(anyFactor, (by) => { expect(back(text, by)).toBe(text); }), { numRuns: 200 });
  });

  it('and many of them hold nothing that is counted', () => {
    expect(rightly.filter(([, text]) => !isCounted(text) && !hasFractions(text)).length).toBeGreaterThanOrEqual(3);
  });
});

describe('any formula comes back', () => {
  it('after any times as much', () => {
    // Spoons in fractions and halves are for a whole k.
    const plain = formulaText.filter((text) => /^ {2}1 tsp \(6 g\) honey/m.test(text));
    fc.assert(fc.property(plain, anyFactor, (text, by) => { expect(back(text, by)).toBe(text); }), { numRuns: 150 });
  });

  it('after whole times as much, eggs and spoons in fractions too', () => {
    const spoons = formulaTextWithEggs.filter((text) => /^ {2}(?:1|1\/2) tsp/m.test(text));
    fc.assert(fc.property(spoons, wholeFactor, (text, by) => { expect(back(text, by)).toBe(text); }), { numRuns: 100 });
  });

  /** Numbers as bakers write them: 500, 0.35, 12.5, 2.35. */
  const number = fc.oneof(fc.integer({ min: 1, max: 9999 }).map(String), fc.integer({ min: 1, max: 99_999 }).map((n) => String(n / 100)));
  const range = fc.tuple(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 1, max: 500 })).map(([low, more]) => `${low} to ${low + more}`);
  const line = fc.oneof(
    number.map((n) => `  ${n} g      salt`),
    number.map((n) => `  ${n} kg bread flour  # sifted`),
    number.map((n) => `  ${n} oz rye flour, fine`),
    number.map((n) => `  ${n} ml whole milk at 30 C`),
    number.map((n) => `  ${n} l water`),
    range.map((r) => `  ${r} g instant yeast`),
    range.map((r) => `  ${r} ml cream`),
    fc.tuple(fc.integer({ min: 1, max: 30 }), number).map(([spoons, n]) => `  ${spoons} tsp (${n} g) honey`),
    fc.tuple(fc.integer({ min: 1, max: 9 }), number).map(([pct, n]) => `  ${pct} % (${n} g) malt`),
    number.map((n) => `  ${n} g raisins for the top`),
  );
  const mixed = fc.tuple(fc.array(line, { minLength: 2, maxLength: 9 }), number, fc.constantFrom('\n', '\r\n')).map(([lines, portion, end]) => [
    'formula "Mixed"', '  makes     12 buns of 80 g', '', 'levain', '  100 g     bread flour', '  100 g water', '  keep      12.5 g', '', 'dough', ...lines, '  all  levain', '',
    'steps', '  mix       8 min at 24 C', `    fold    at 30 min, add ${portion} g of raisins`, '',
  ].join(end)).map(format);

  it('with volumes, ranges, brackets, shares and portions, after any times as much', () => {
    fc.assert(fc.property(mixed, anyFactor, (text, by) => { expect(back(text, by)).toBe(text); }), { numRuns: 300 });
  });

  /** Halves, quarters and thirds, as words of spoons and cups and as signs. */
  const fraction = fc.constantFrom('1/2', '1 1/2', '1/4', '3/4', '2 2/3', '½', '1½', '¾');
  it('with fractions, after as many times as much as leave them fractions', () => {
    const spoons = fc.array(fc.tuple(fraction, fc.constantFrom('tsp', 'tbsp', 'cup'), number).map(([f, unit, n]) => `  ${f} ${unit} (${n} g) honey`), { minLength: 1, maxLength: 4 });
    fc.assert(fc.property(spoons, fc.constantFrom(1 / 2, 5, 7, 11), (lines, by) => {
      const text = `formula "Spoons"\ndough\n  500 g bread flour\n${lines.join('\n')}\n`;
      const there = allScaled(text, by);
      // Whole ones, and what no spoon has, do not remember how they were written.
      fc.pre([...there.matchAll(/^ {2}(.*?) (?:tsp|tbsp|cup) /gm)].every(([, written = '']) => /[/¼½¾⅓⅔⅛⅜⅝⅞]/.test(written)));
      expect(allScaled(there, 1 / by)).toBe(text);
    }));
  });
});
