/** Refactorings of a text, by where the cursor stands, and what becomes of what is baked. */
import { expect } from 'vitest';
import { refactoringsAt, type Refactoring } from '../../../server/core/refactor';
import { analyseText, applyEdits, type TextAnalysis, type TextOptions } from '../bake';

export interface Offered extends Refactoring {
  /** The text after it. */
  readonly after: () => string;
}

/** What is offered at the cursor, `┆` in the text. */
export function offeredAt(source: string, options: TextOptions = {}): readonly Offered[] {
  const at = source.indexOf('┆');
  expect(at, 'a cursor').toBeGreaterThanOrEqual(0);
  return offeredIn(source.replace('┆', ''), options).filter(({ cursor }) => cursor.start <= at && cursor.end >= at).map(({ offered }) => offered(at)).find((found) => found !== undefined) ?? [];
}

interface Where {
  /** Offsets of the block. */
  readonly cursor: { readonly start: number; readonly end: number };
  readonly analysis: TextAnalysis;
  /** What is offered at an offset of it. */
  readonly offered: (at: number) => readonly Offered[];
}

/** Every block of a formula, where something may be offered. */
export function offeredIn(text: string, options: TextOptions = {}): readonly Where[] {
  return analyseText(text, options).flatMap((analysis) => {
    const { section, formula, rangeOf, environment } = analysis;
    if (formula === undefined) return [];
    // What a variant has from its base is in no text.
    return section.blocks.slice(0, section.variant?.ownBlocks).map((block, index): Where => {
      const cursor = rangeOf({ block: index, start: 0, end: block.text.length });
      return {
        cursor, analysis,
        offered: (at) => refactoringsAt({ section, formula, env: environment, at: { block: index, start: at - cursor.start, end: at - cursor.start } }).map((one) => ({
          ...one,
          after: () => applyEdits(text, one.edits().map(({ place, newText }) => ({ ...rangeOf(place), newText }))),
        })),
      };
    });
  });
}

/** Everything offered at the start of any line of a text: one of each kind and title. */
export function everythingOffered(text: string, options: TextOptions = {}): readonly Offered[] {
  const found = new Map<string, Offered>();
  for (const { cursor, offered } of offeredIn(text, options)) {
    const lines = text.slice(cursor.start, cursor.end).matchAll(/^[ \t]*\S/gm);
    for (const match of lines) {
      const at = cursor.start + match.index + match[0].length - 1;
      for (const one of offered(at)) found.set(`${cursor.start} ${one.id} ${one.title}`, one);
    }
  }
  return [...found.values()];
}

/** Grams of each ingredient over all parts of each formula, and the pieces. */
export function baked(text: string, options: TextOptions = {}): readonly Readonly<Record<string, number>>[] {
  return bakedFrom(text, options).map(({ rows }) => rows);
}

function bakedFrom(text: string, options: TextOptions): readonly { readonly rows: Readonly<Record<string, number>>; readonly isVariant: boolean }[] {
  return analyseText(text, options).flatMap(({ section, formula, sheet, totals }) => {
    if (formula === undefined || sheet === undefined) return [];
    const rows: Record<string, number> = {};
      for (const { key, grams } of sheet.rows) rows[key] = (rows[key] ?? 0) + (grams ?? Number.NaN);
    return [{ isVariant: section.variant !== undefined, rows: { ...rows, 'all the flour': totals?.flour_g ?? Number.NaN, 'the dough': totals?.dough_g ?? Number.NaN, 'hydration %': totals?.hydration_pct ?? Number.NaN, 'salt %': totals?.salt_pct ?? Number.NaN } }];
  });
}

/** @param withVariants whether those of formulas that are based on others are the same, too: an amount that is written otherwise may come to something else where a variant changes what it is a share of */
export function expectSameBread(before: string, after: string, relative: number, options: TextOptions = {}, withVariants = true): void {
  const [was, is] = [bakedFrom(before, options), baked(after, options)];
  expect(is.length).toBe(was.length);
  was.forEach(({ rows, isVariant }, i) => {
    if (isVariant && !withVariants) return;
    expect(Object.keys(is[i] ?? {}).sort(), after).toEqual(Object.keys(rows).sort());
    for (const [name, grams] of Object.entries(rows)) {
      const now = is[i]?.[name] ?? Number.NaN;
      if (Number.isNaN(grams)) expect(now, name).toBeNaN();
      else expect(Math.abs(now - grams), `${name}: ${grams} became ${now} in\n${after}`).toBeLessThanOrEqual(relative * Math.abs(grams) + 1e-9);
    }
  });
}
