import { parse } from '../../grammar';
import { builtInCatalogue, extend } from '../../server/core/ingredients/catalogue';
import { resolve } from '../../server/core/formula/resolve';
import { sectionsOf } from '../../server/core/formula/sections';
import { sheetOf } from '../../server/core/formula/sheet';
import { totalsOf } from '../../server/core/formula/totals';
import type { MeasureSystem } from '../../server/core/units/volume';
import { scaleFormula, type ScaleRequest } from '../../server/core/scaling/scale';
import type { ResolvedFormula, Sheet, Totals } from '../../server/core/formula/model';

export interface Resolved {
  readonly formula: ResolvedFormula;
  readonly totals: Totals;
  readonly sheet: Sheet;
  readonly scaled?: Resolved;
}

/** Resolves the first formula of a text; the text must parse without a problem. */
export function resolveText(text: string, scale?: ScaleRequest, measures: MeasureSystem = 'us'): Resolved {
  const blocks = parse(text).blocks.map(({ block }) => block);
  const problems = blocks.flatMap((block) => block.problems);
  if (problems.length > 0) throw new Error(`${problems.map((p) => p.message).join('\n')}\n${text}`);
  const section = sectionsOf(blocks).map((s) => s.section).find((s) => s.kind === 'formula' || s.kind === 'dish');
  if (!section) throw new Error(`no formula in\n${text}`);
  const formula = resolve(section, { catalogue: extend(builtInCatalogue, blocks), measures });
  const result = numbersOf(formula);
  if (!scale) return result;
  const scaled = scaleFormula(formula, scale, result.totals.flour_g);
  if (scaled.kind === 'cannot') throw new Error(scaled.message);
  return { ...result, scaled: numbersOf(scaled.formula) };
}

function numbersOf(formula: ResolvedFormula): Resolved {
  return { formula, totals: totalsOf(formula), sheet: sheetOf(formula) };
}
