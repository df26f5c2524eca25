/** The stable JSON form of formula sheets: `{"formulas": […]}`, snake case, grams, Celsius, per cent. Unrounded. */
import { finalFlourGrams, pctOf, sourceText, summedLines, type FormulaEntry } from './entry';
import { factsJson } from './facts/json';
import { json } from './json';
import { recordsJson } from './records-json';
import type { FactsOptions } from './sheet-facts';

/**
 * What cannot be known is null.
 *
 * @param options what a slice weighs, for its nutrition; whether the records of its bakes are wanted
 */
export function sheetJson(entries: readonly FormulaEntry[], { sliceGrams, records }: SheetJsonOptions = {}): string {
  return json({ formulas: entries.map((entry) => ({ ...sheetOfEntry(entry, sliceGrams), ...(records === true && recordsJson(entry)) })) });
}

export interface SheetJsonOptions extends Pick<FactsOptions, 'sliceGrams'> {
  readonly records?: boolean;
}

function sheetOfEntry({ section, formula, totals, sheet, lineOf, label }: FormulaEntry, sliceGrams: number | undefined): object {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const finalFlour = dough === undefined ? null : finalFlourGrams(dough);
  return {
    name: formula.name,
    kind: formula.kind,
    line: lineOf(formula.namePlace),
    totals,
    yield: {
      pieces: formula.yield.pieces, noun: formula.yield.noun, piece_g: formula.yield.pieceGrams,
      tin_ml: formula.yield.tinMillilitres, tin_ml_per_g: formula.yield.tinFactor, tin_assumed: formula.yield.tinFactorAssumed,
    },
    parts: formula.parts.map((part) => ({
      name: part.name,
      kind: part.kind,
      total_g: part.grams,
      flour_g: part.flourGrams,
      left_over_g: part.leftOverGrams,
      lines: part.lines.map((line) => ({
        name: line.name, key: line.key, role: line.role, grams: line.grams, pct: line.pct, text: sourceText(section, line),
      })),
    })),
    total: sheet.rows.map(({ name, key, grams, pct }) => ({ name, key, grams, pct })),
    final_dough: dough === undefined
      ? []
      : summedLines(dough).map(({ name, key, grams }) => ({ name, key, grams, pct: pctOf(grams, finalFlour) })),
    ...factsJson({ formula, totals, sheet, lineOf }, { sliceGrams, allergens: label?.allergens }),
  };
}
