/** Text in, scaled text out: what tests of scaling start from. */
import { parse } from '../../../grammar';
import { sectionsOf } from '../../../server/core/formula/sections';
import { builtInCatalogue, extend } from '../../../server/core/ingredients/catalogue';
import { resolve } from '../../../server/core/formula/resolve';
import { totalsOf } from '../../../server/core/formula/totals';
import { applyNumberEdits } from '../../../server/core/scaling/apply';
import { rescale } from '../../../server/core/scaling/rescale';
import type { ScaleRequest } from '../../../server/core/scaling/scale';
import type { ScaleStep } from '../../../server/core/scaling/scene';

export interface ScaledText {
  readonly text: string;
  readonly notes: readonly string[];
  readonly factor: number;
}

/** The text with its first formula or dish at another size, or the sentence that says why not. */
export function tryScaled(text: string, request: ScaleRequest, step?: ScaleStep): ScaledText | string {
  const { blocks } = parse(text);
  const all = blocks.map(({ block }) => block);
  const found = sectionsOf(all).find(({ section: { kind } }) => kind === 'formula' || kind === 'dish');
  if (found === undefined) throw new Error(`no formula in\n${text}`);
  const { first, section } = found;
  const formula = resolve(section, { catalogue: extend(builtInCatalogue, all), measures: 'us' });
  const result = rescale({ section, formula, flourGrams: totalsOf(formula).flour_g }, request, step);
  if (result.kind === 'cannot') return result.message;
  const edited = applyNumberEdits(text, result.edits, ({ block, start, end }) => {
    const { offset } = blocks[first + block]!;
    return { start: offset + start, end: offset + end };
  });
  return { text: edited, notes: result.notes.map(({ message }) => message), factor: result.factor };
}

/** The same, by a factor if nothing else is asked for; fails when it cannot be. */
export function scaled(text: string, factor: number, request: ScaleRequest = { by: 'factor', factor }, step?: ScaleStep): ScaledText {
  const result = tryScaled(text, request, step);
  if (typeof result === 'string') throw new Error(result);
  return result;
}
