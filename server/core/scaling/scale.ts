import { quantityMiddle } from '../../../grammar';
import { nameKey } from '../formula/draft';
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { foldName } from '../ingredients/names';
import { decimalText } from './numbers';
import { tinFactorFor } from './tins';

/** What a baker scales to. Weights in grams, tins in millilitres. */
export type ScaleRequest =
  | { readonly by: 'pieces'; readonly pieces: number }
  | { readonly by: 'piece'; readonly grams: number }
  | { readonly by: 'dough'; readonly grams: number }
  | { readonly by: 'flour'; readonly grams: number }
  | { readonly by: 'factor'; readonly factor: number }
  /** "I have 180 g of starter": as much as that ingredient or part allows. */
  | { readonly by: 'have'; readonly grams: number; readonly name: string }
  /** "I have 3 eggs". */
  | { readonly by: 'have-count'; readonly count: number; readonly name: string }
  /** Each piece for a tin of this volume. */
  | { readonly by: 'tin'; readonly millilitres: number };

export type Scaled =
  | { readonly kind: 'scaled'; readonly formula: ResolvedFormula; readonly factor: number; readonly notes: readonly string[] }
  | { readonly kind: 'cannot'; readonly message: string };

/** Past this many times larger or smaller somebody has slipped with the keys. */
const MOST_TIMES = 100_000;

/** The formula as a view of another size: every weight times one factor. Nothing is rounded and no file is touched. */
export function scaleFormula(formula: ResolvedFormula, request: ScaleRequest, flourGrams: number | null): Scaled {
  const found = factorFor(formula, request, flourGrams);
  if (typeof found === 'string') return { kind: 'cannot', message: found };
  const { factor, notes = [] } = found;
  if (!Number.isFinite(factor) || factor <= 0) return { kind: 'cannot', message: 'The size asked for must be more than nothing.' };
  if (factor > MOST_TIMES || factor < 1 / MOST_TIMES) {
    return { kind: 'cannot', message: `That is ${timesWords(factor)} the size written, which no baker means: look at the number again.` };
  }
  return { kind: 'scaled', factor, formula: scaledBy(formula, factor, request), notes };
}

function timesWords(factor: number): string {
  return factor > 1 ? 'more than 100,000 times' : 'less than a 100,000th of';
}

/** True when the pieces grow; any other way there are more of them. */
export function growsPieces({ by }: ScaleRequest): boolean {
  return by === 'piece' || by === 'tin';
}

interface Factor {
  readonly factor: number;
  readonly notes?: readonly string[];
}

/** The factor, or a sentence that says why there is none. */
function factorFor(formula: ResolvedFormula, request: ScaleRequest, flourGrams: number | null): Factor | string {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const { pieces, pieceGrams } = formula.yield;
  const over = (wanted: number, known: number | null | undefined, otherwise: string): Factor | string => (
    known ? { factor: wanted / known } : otherwise
  );
  switch (request.by) {
    case 'factor':
      return { factor: request.factor };
    case 'pieces':
      return over(request.pieces, pieces, 'The formula does not say how many pieces it makes: write, for example, "makes 2 loaves".');
    case 'piece':
      return over(request.grams, pieceGrams, PIECE_NOT_KNOWN);
    case 'dough':
      return over(request.grams, dough?.yieldGrams, formula.kind === 'dish' ? NO_FLOUR_BASE : 'The weight of the dough is not known.');
    case 'flour':
      return over(request.grams, flourGrams, formula.kind === 'dish' ? NO_FLOUR_BASE : 'The weight of the flour is not known.');
    case 'tin':
      return factorForTin(formula, request.millilitres);
    case 'have': {
      const needed = neededGrams(formula, request.name);
      if (needed === undefined) return `There is no "${request.name}" in this formula.`;
      return over(request.grams, needed, `The weight of ${request.name} in this formula is not known.`);
    }
    case 'have-count': {
      const lines = linesNamed(formula, request.name);
      if (lines.length === 0) return `There is no "${request.name}" in this formula.`;
      const needed = sum(lines.map(countOf));
      return over(request.count, needed, `What one of ${request.name} weighs is not known, so give the weight that you have.`);
    }
  }
}

const PIECE_NOT_KNOWN = 'The weight of a piece is not known: write, for example, "makes 2 loaves of 900 g".';
const NO_FLOUR_BASE = 'A dish has no dough: scale it by a factor, or by what you have of one ingredient.';

/** By the formula's own pair of tin and dough; without a tin in `makes`, by the usual figure for its style, and it is said. */
function factorForTin(formula: ResolvedFormula, millilitres: number): Factor | string {
  const { tinMillilitres, pieceGrams, noun } = formula.yield;
  if (tinMillilitres) return { factor: millilitres / tinMillilitres };
  if (!pieceGrams) return PIECE_NOT_KNOWN;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const { usualMlPerGram, leastMlPerGram, mostMlPerGram, what } = tinFactorFor({
    styles: formula.styles.map((style) => style.text), noun, isBatter: dough?.kind === 'batter',
  });
  const grams = Math.round(millilitres / usualMlPerGram);
  const note = `The formula names no tin, so ${grams} g a piece is by a usual figure, ${usualMlPerGram} ml of tin a gram `
    + `(${what}, ${leastMlPerGram} to ${mostMlPerGram}). Write the tin that suits it, for example "makes 2 tins of 1.8 l", and its own weights count.`;
  return { factor: grams / pieceGrams, notes: [note] };
}

/** All of an ingredient over every part, or what is called for of a part, by its name; undefined if there is none. */
function neededGrams(formula: ResolvedFormula, name: string): number | null | undefined {
  const part = formula.parts.find((candidate) => candidate.key === nameKey(name));
  if (part) return part.calledForGrams;
  const lines = linesNamed(formula, name);
  return lines.length === 0 ? undefined : sum(lines.map((line) => line.grams));
}

/** Lines of an ingredient by the words written, by its key, or by the same words in the singular. */
function linesNamed(formula: ResolvedFormula, name: string): readonly ResolvedLine[] {
  const key = nameKey(name);
  const lines = formula.parts.flatMap((part) => part.lines).filter((line) => line.part === undefined);
  const exact = lines.filter((line) => nameKey(line.name) === key || line.key === key);
  return exact.length > 0 ? exact : lines.filter((line) => foldName(line.name) === foldName(name));
}

/** How many of a thing a line takes: as counted, or its weight in pieces. */
function countOf({ source, grams, ingredient }: ResolvedLine): number | null {
  if (source?.kind === 'ingredient' && source.amount.kind === 'count') return quantityMiddle(source.amount.quantity);
  const each = ingredient?.eachGrams ?? null;
  return grams === null || each === null ? null : grams / each;
}

function sum(values: readonly (number | null)[]): number | null {
  return values.reduce((total, value) => (total === null || value === null ? null : total + value), 0);
}

function scaledBy(formula: ResolvedFormula, factor: number, request: ScaleRequest): ResolvedFormula {
  const g = (grams: number | null): number | null => (grams === null ? null : grams * factor);
  const line = (l: ResolvedLine): ResolvedLine => ({
    ...l,
    grams: g(l.grams),
    flourGrams: l.flourGrams * factor,
    waterGrams: l.waterGrams * factor,
    ...(l.listed ? { listed: { grams: g(l.listed.grams), pct: l.listed.pct } } : {}),
  });
  const part = (p: ResolvedPart): ResolvedPart => ({
    ...p,
    lines: p.lines.map(line),
    grams: g(p.grams),
    yieldGrams: g(p.yieldGrams),
    flourGrams: g(p.flourGrams),
    baseGrams: g(p.baseGrams),
    calledForGrams: g(p.calledForGrams),
    keepGrams: p.keepGrams * factor,
    leftOverGrams: g(p.leftOverGrams),
  });
  const { pieces, pieceGrams, bakedPieceGrams, tinMillilitres } = formula.yield;
  // A whole that is not divided is one piece, and grows in any case.
  const grows = growsPieces(request) || pieces === null;
  const each = (value: number | null): number | null => (value === null || !grows ? value : value * factor);
  return {
    ...formula,
    parts: formula.parts.map(part),
    serves: formula.serves === null ? null : formula.serves * factor,
    yield: {
      ...formula.yield,
      pieces: pieces === null || grows ? pieces : request.by === 'pieces' ? request.pieces : pieces * factor,
      pieceGrams: each(pieceGrams),
      bakedPieceGrams: each(bakedPieceGrams),
      tinMillilitres: each(tinMillilitres),
    },
  };
}

/** A volume of tin as bakers write it: `1.8 l`, `750 ml`. */
export function volumeWords(millilitres: number): string {
  const rounded = Number(millilitres.toPrecision(3));
  return rounded >= 1000 ? `${decimalText(rounded / 1000)} l` : `${decimalText(rounded)} ml`;
}
