/** The totals of a formula and of a part as a table, in words that a newcomer reads. */
import type { Analysis } from '../../core/analyse';
import type { ResolvedFormula, ResolvedPart } from '../../core/formula/model';
import { escaped, gramsOrNothing, paragraphs, percentOrNothing, table } from './markdown';

/** What all of a formula comes to; a sentence when its weights cannot be known. */
export function formulaWords({ formula, totals }: Analysis): string {
  if (formula === undefined || totals === undefined) return '';
  const { pieces, noun, pieceGrams, bakedPieceGrams } = formula.yield;
  const piece = gramsOrNothing(pieceGrams);
  const baked = formula.ovenLossSaid ? gramsOrNothing(bakedPieceGrams) : undefined;
  const some = (pct: number | null): string | undefined => (pct === null || pct < 0.05 ? undefined : percentOrNothing(pct));
  // What every dough has and is not known is said; what only some have is left out.
  const known = (words: string | undefined): string | undefined => words ?? (formula.dough === undefined ? undefined : 'not known');
  const rows = table(['', 'of all the flour'], [
    ['flour', known(totals.flour_g === 0 ? '' : gramsOrNothing(totals.flour_g)) || undefined],
    ['dough', known(gramsOrNothing(totals.dough_g))],
    [pieces === null ? 'one piece' : `each of the ${pieces} ${escaped(noun)}`, piece === undefined ? pieceUnknown(formula) : baked === undefined ? piece : `${piece}, baked ${baked}`],
    ['hydration', totals.flour_g === 0 ? undefined : known(percentOrNothing(totals.hydration_pct))],
    ['water in all, soakers too', differs(totals.water_pct, totals.hydration_pct)],
    ['with the moisture of eggs, milk, butter …', differs(totals.effective_hydration_pct, totals.water_pct)],
    ['salt', totals.flour_g === 0 ? undefined : known(percentOrNothing(totals.salt_pct))],
    ['sugar', some(totals.sugar_pct)],
    ['fat', some(totals.fat_pct)],
    ['egg', some(totals.egg_pct)],
    ['flour in preferments', some(totals.prefermented_flour_pct)],
    ['nuts, fruit and other pieces', some(totals.inclusions_pct)],
    ['protein of the flour', percentOrNothing(totals.flour_protein_pct)],
  ]);
  if (rows !== '') return rows;
  if (formula.lacksBase) return 'A variant of a formula that is not to be found, so its weights are not known.';
  return formula.kind === 'dish' ? '' : 'It has no weights yet, for no `dough` is written under it.';
}

/** Why a piece of a dough with a weight has none. */
function pieceUnknown({ makes, yield: { pieces }, dough, parts }: ResolvedFormula): string | undefined {
  if (dough === undefined || parts[dough]?.yieldGrams === null) return undefined;
  if (makes === undefined) return 'not known: no `makes` line says how many there are';
  return pieces === 0 ? 'not known: the `makes` line says no pieces' : undefined;
}

/** What a part weighs and is made of. `why`: what keeps its weights from being known. */
export function partWords(part: ResolvedPart, why: string | undefined): string {
  const { flourGrams, waterGrams } = weighedInto(part);
  const cooked = part.grams !== null && part.yieldGrams !== null && Math.abs(part.grams - part.yieldGrams) > 0.05;
  const over = part.leftOverGrams !== null && part.leftOverGrams > 0.05 ? part.leftOverGrams : null;
  const rows = table([escaped(part.name), ''], [
    ['goes in', gramsOrNothing(part.grams)],
    ['weighs after cooking', cooked ? gramsOrNothing(part.yieldGrams) : undefined],
    ['flour weighed in', gramsOrNothing(flourGrams || null)],
    ['water weighed in', gramsOrNothing(waterGrams || null)],
    ['hydration of that', flourGrams > 0 ? percentOrNothing((waterGrams / flourGrams) * 100) : undefined],
    ['called for', gramsOrNothing(part.calledForGrams || null)],
    ['kept back', gramsOrNothing(part.keepGrams || null)],
    ['left over', gramsOrNothing(over)],
  ]);
  const some = part.grams === null || part.lines.some(({ inDough, grams }) => inDough && grams === null);
  const words = some && part.lines.length > 0 ? why : undefined;
  return rows === '' ? `**${escaped(part.name)}**: ${words === undefined ? 'nothing is weighed into it yet.' : escaped(words)}` : paragraphs(rows, words && escaped(words));
}

/** Flour and water weighed into this very part, those of a starter counted in, those of parts that it takes in left out. */
export function weighedInto(part: ResolvedPart): { readonly flourGrams: number; readonly waterGrams: number } {
  const own = part.lines.filter(line => line.inDough && line.part === undefined);
  return {
    flourGrams: own.reduce((sum, line) => sum + line.flourGrams, 0),
    waterGrams: own.reduce((sum, line) => sum + line.waterGrams, 0),
  };
}

/** A percentage, unless it says the same as the one beside it. */
function differs(pct: number | null, other: number | null): string | undefined {
  return pct === null || (other !== null && Math.abs(pct - other) < 0.05) ? undefined : percentOrNothing(pct);
}
