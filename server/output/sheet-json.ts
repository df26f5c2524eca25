/** The stable JSON form of formula sheets: `{"formulas": […]}`, snake case, grams, Celsius, per cent. Unrounded. */
import type { ResolvedFormula, ResolvedLine } from '../core/formula/model';
import { finalFlourGrams, pctOf, sourceText, summedLines, type FormulaEntry } from './entry';
import { json } from './json';

/** What cannot be known, or is not computed in this version, is null. */
export function sheetJson(entries: readonly FormulaEntry[]): string {
  return json({ formulas: entries.map(sheetOfEntry) });
}

function sheetOfEntry({ section, formula, totals, sheet, lineOf }: FormulaEntry): unknown {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const finalFlour = dough === undefined ? null : finalFlourGrams(dough);
  const weighed = [...formula.parts.flatMap((part) => part.lines), ...sheet.besides.filter((line) => !isListed(formula, line))];
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
    temperature: { desired_c: dough?.desiredCelsius ?? null, water_c: null, water_heat_balance_c: null, ice_g: null },
    nutrition_per_100g: null,
    allergens: { eu: allergens(weighed, 'eu'), us: allergens(weighed, 'us') },
    cost: costOf(weighed),
  };
}

function isListed(formula: ResolvedFormula, line: ResolvedLine): boolean {
  return formula.parts.some((part) => part.lines.includes(line));
}

/** Of every ingredient that is weighed, dusting included: what is on the loaf is eaten with it. */
function allergens(lines: readonly ResolvedLine[], list: 'eu' | 'us'): readonly string[] {
  return [...new Set(lines.flatMap((line) => line.ingredient?.allergens[list] ?? []))].sort();
}

interface Cost {
  readonly amount: number | null;
  readonly currency: string | null;
}

/** The sum of what is weighed, when the price of every line is known, in one currency. Water from the tap is free unless it has a price. */
function costOf(lines: readonly ResolvedLine[]): Cost {
  const unknown: Cost = { amount: null, currency: null };
  let amount = 0;
  let currency: string | undefined;
  for (const { part, ingredient, grams } of lines) {
    if (part !== undefined) continue;
    const cost = ingredient?.cost ?? null;
    if (cost === null && ingredient?.isWater === true) continue;
    if (cost === null || grams === null || (currency !== undefined && currency !== cost.currency)) return unknown;
    currency = cost.currency;
    amount += (grams * cost.amount) / cost.perGrams;
  }
  return currency === undefined ? unknown : { amount, currency };
}
