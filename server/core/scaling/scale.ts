import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { nameKey } from '../formula/draft';

/** What a baker scales to. Weights in grams. */
export type ScaleRequest =
  | { readonly by: 'pieces'; readonly pieces: number }
  | { readonly by: 'piece'; readonly grams: number }
  | { readonly by: 'dough'; readonly grams: number }
  | { readonly by: 'flour'; readonly grams: number }
  | { readonly by: 'factor'; readonly factor: number }
  /** "I have 180 g of starter": as much as that ingredient or part allows. */
  | { readonly by: 'have'; readonly grams: number; readonly name: string };

export type Scaled =
  | { readonly kind: 'scaled'; readonly formula: ResolvedFormula; readonly factor: number }
  | { readonly kind: 'cannot'; readonly message: string };

/** The formula as a view of another size: every weight times one factor. Nothing is rounded and no file is touched. */
export function scaleFormula(formula: ResolvedFormula, request: ScaleRequest, flourGrams: number | null): Scaled {
  const found = factorFor(formula, request, flourGrams);
  if (typeof found === 'string') return { kind: 'cannot', message: found };
  if (!Number.isFinite(found) || found <= 0) return { kind: 'cannot', message: 'The size asked for must be more than nothing.' };
  return { kind: 'scaled', factor: found, formula: scaledBy(formula, found, request) };
}

/** The factor, or a sentence that says why there is none. */
function factorFor(formula: ResolvedFormula, request: ScaleRequest, flourGrams: number | null): number | string {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const { pieces, pieceGrams } = formula.yield;
  switch (request.by) {
    case 'factor':
      return request.factor;
    case 'pieces':
      return pieces ? request.pieces / pieces : 'The formula does not say how many pieces it makes: write, for example, "makes 2 loaves".';
    case 'piece':
      return pieceGrams ? request.grams / pieceGrams : 'The weight of a piece is not known: write, for example, "makes 2 loaves of 900 g".';
    case 'dough':
      return dough?.yieldGrams ? request.grams / dough.yieldGrams : 'The weight of the dough is not known.';
    case 'flour':
      return flourGrams ? request.grams / flourGrams : 'The weight of the flour is not known.';
    case 'have': {
      const needed = neededGrams(formula, nameKey(request.name));
      if (needed === undefined) return `There is no "${request.name}" in this formula.`;
      return needed === null || needed === 0 ? `The weight of ${request.name} in this formula is not known.` : request.grams / needed;
    }
  }
}

/** All of an ingredient over every part, or what is called for of a part, by the name as written; undefined if there is none. */
function neededGrams(formula: ResolvedFormula, key: string): number | null | undefined {
  const part = formula.parts.find((candidate) => candidate.key === key);
  if (part) return part.calledForGrams;
  const lines = formula.parts.flatMap((candidate) => candidate.lines).filter((line) => line.part === undefined && (nameKey(line.name) === key || line.key === key));
  if (lines.length === 0) return undefined;
  return lines.reduce<number | null>((sum, line) => (sum === null || line.grams === null ? null : sum + line.grams), 0);
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
  // By the weight of a piece, the pieces grow; any other way there are more of them.
  const bigger = request.by === 'piece' ? factor : 1;
  const more = request.by === 'piece' ? 1 : factor;
  const { pieces, pieceGrams, bakedPieceGrams } = formula.yield;
  return {
    ...formula,
    parts: formula.parts.map(part),
    yield: {
      ...formula.yield,
      pieces: pieces === null ? null : request.by === 'pieces' ? request.pieces : pieces * more,
      pieceGrams: pieceGrams === null ? null : pieces === null ? pieceGrams * factor : pieceGrams * bigger,
      bakedPieceGrams: bakedPieceGrams === null ? null : pieces === null ? bakedPieceGrams * factor : bakedPieceGrams * bigger,
    },
  };
}
