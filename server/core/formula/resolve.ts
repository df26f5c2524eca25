import { PREFERMENT_KINDS, quantityMiddle, type PartKind } from '../../../grammar';
import { isDoughKind, isFlourLine, starterFlourShare, type LineDraft, type PartDraft } from './draft';
import type { Catalogue } from '../ingredients/model';
import type { MeasureSystem } from '../units/volume';
import { gather, type Gathered } from './gather';
import type { ResolvedFormula, ResolvedLine, ResolvedPart, Section, Trouble, Yield } from './model';
import { solve, type Solution } from './solve';
import { takeOutPreferments } from './total-formula';

/**
 * The formula or dish of a section with every line in grams.
 *
 * Never throws; what cannot be known is null and named in `troubles`. A formula based on another is not computed (its
 * base is resolved first, which this version does not do): its lines are listed without weights.
 */
export function resolve(section: Section, env: ResolveEnvironment): ResolvedFormula {
  return resolveWithin(section, env, new Set([section]));
}

export interface ResolveEnvironment {
  readonly catalogue: Catalogue;
  readonly measures: MeasureSystem;
  /** Formulas and dishes that a dish can use, by lower-case name. */
  readonly formulas?: ReadonlyMap<string, Section>;
}

/** @param open sections being resolved: a dish that uses itself, by whatever way, finds nothing there */
function resolveWithin(section: Section, env: ResolveEnvironment, open: ReadonlySet<Section>): ResolvedFormula {
  const gathered = gather(section, {
    ...env,
    formulaNamed: (name) => {
      const used = env.formulas?.get(name);
      return used === undefined || open.has(used) ? undefined : resolveWithin(used, env, new Set([...open, used]));
    },
  });
  const isVariant = gathered.facts.deltas.length > 0;
  const solution = isVariant ? unsolved(gathered) : solve(gathered);
  const troubles: Trouble[] = [...solution.troubles];
  const used = usedFractions(gathered.parts, solution);
  const parts = gathered.parts.map((draft, p) => {
    const lines = draft.lines.map((line, l) => resolvedLine(line, grams(solution, p, l), solution.base[p] ?? NaN, gathered.parts, solution));
    return resolvedPart(draft, lines, p, solution, used[p] ?? NaN, gathered);
  });
  const dough = solution.dough;
  const isTotalFormula = dough !== undefined && gathered.parts[dough]?.kind === 'total formula';
  if (isTotalFormula && !isVariant) {
    const taken = takeOutPreferments(parts, dough);
    troubles.push(...taken.troubles);
    parts[dough] = taken.finalDough;
  }
  const doughGrams = dough === undefined ? null : known(solution.made[dough] ?? NaN);
  return {
    ...gathered.facts,
    parts,
    dough,
    isTotalFormula,
    yield: yieldOf(gathered.facts, doughGrams),
    troubles: isVariant ? [] : troubles,
  };
}

function unsolved({ parts, troubles }: Gathered): Solution {
  const nothing = parts.map(() => NaN);
  const dough = parts.findLastIndex((part) => isDoughKind(part.kind));
  return {
    base: nothing,
    weighed: nothing,
    made: nothing,
    calledFor: nothing,
    grams: parts.map((part) => part.lines.map(() => NaN)),
    dough: dough < 0 ? undefined : dough,
    troubles,
  };
}

/** How much of what each part makes ends in the dough, 0 to 1. Dishes have no dough: every part is wholly used. */
function usedFractions(parts: readonly PartDraft[], solution: Solution): readonly number[] {
  const { dough } = solution;
  if (dough === undefined) return parts.map(() => 1);
  const reached = reachableFrom(dough, parts);
  const fractions = parts.map(() => NaN);
  const open = new Set<number>();
  const fraction = (p: number): number => {
    if (p === dough) return 1;
    if (!reached.has(p)) return 0;
    if (open.has(p)) return NaN; // on a cycle
    const done = fractions[p];
    if (done !== undefined && !Number.isNaN(done)) return done;
    open.add(p);
    let sum = 0;
    parts.forEach((part, c) =>
      part.lines.forEach((line, l) => {
        if (line.part === p && line.inDough && reached.has(c)) sum += (grams(solution, c, l) / (solution.made[p] ?? NaN)) * fraction(c);
      }),
    );
    open.delete(p);
    // Binary dust must not show as a left-over of nothing.
    fractions[p] = Math.abs(sum - 1) < 1e-12 ? 1 : sum;
    return fractions[p];
  };
  return parts.map((_, p) => fraction(p));
}

/** The parts that the dough takes in, directly or by way of others. */
function reachableFrom(dough: number, parts: readonly PartDraft[]): ReadonlySet<number> {
  const reached = new Set<number>();
  const queue = [dough];
  for (let p = queue.pop(); p !== undefined; p = queue.pop()) {
    if (reached.has(p)) continue;
    reached.add(p);
    for (const line of parts[p]?.lines ?? []) if (line.part !== undefined && line.inDough) queue.push(line.part);
  }
  return reached;
}

function resolvedLine(line: LineDraft, lineGrams: number, base: number, parts: readonly PartDraft[], solution: Solution): ResolvedLine {
  const { term, ...rest } = line;
  const brought = broughtBy(line, lineGrams, parts, solution);
  const pct = term.kind === 'share' && !Number.isNaN(base) ? term.share * 100 : known((lineGrams / base) * 100);
  return { ...rest, grams: known(lineGrams), pct: base > 0 ? pct : null, flourGrams: brought.flour, waterGrams: brought.water };
}

/** The flour and the water that a line brings as such. A part's water is what is left after its cooking. */
function broughtBy(line: LineDraft, lineGrams: number, parts: readonly PartDraft[], solution: Solution): { flour: number; water: number } {
  if (!line.inDough || Number.isNaN(lineGrams)) return { flour: 0, water: 0 };
  if (line.starterHydrationPct !== undefined) {
    const flour = lineGrams * starterFlourShare(line.starterHydrationPct);
    return { flour, water: lineGrams - flour };
  }
  if (line.part !== undefined) {
    const part = parts[line.part];
    const made = solution.made[line.part] ?? NaN;
    const weighed = solution.weighed[line.part] ?? NaN;
    if (!part || Number.isNaN(made) || Number.isNaN(weighed)) return { flour: 0, water: 0 };
    const inner = part.lines.map((l, i) => broughtBy(l, grams(solution, line.part ?? 0, i), parts, solution));
    const scale = lineGrams / made;
    const flour = inner.reduce((sum, b) => sum + b.flour, 0) * scale;
    const water = (inner.reduce((sum, b) => sum + b.water, 0) - (weighed - made)) * scale;
    return { flour, water: Math.max(0, water) };
  }
  return { flour: isFlourLine(line) ? lineGrams : 0, water: line.ingredient?.isWater ? lineGrams : 0 };
}

function resolvedPart(
  draft: PartDraft,
  lines: readonly ResolvedLine[],
  p: number,
  solution: Solution,
  used: number,
  { facts, parts }: Gathered,
): ResolvedPart {
  const made = solution.made[p] ?? NaN;
  const called = solution.calledFor[p] ?? NaN;
  const isDough = p === solution.dough;
  const ownFlour = draft.lines.some((line) => isFlourLine(line) || line.starterHydrationPct !== undefined);
  const flour = lines.reduce((sum, line) => sum + (line.part === undefined ? line.flourGrams : 0), 0);
  const left = made - draft.keepGrams - called;
  return {
    key: draft.key,
    name: draft.name,
    kind: draft.kind,
    block: draft.block,
    place: draft.place,
    lines,
    grams: known(solution.weighed[p] ?? NaN),
    yieldGrams: known(made),
    flourGrams: ownFlour && Number.isNaN(solution.weighed[p] ?? NaN) && flour === 0 ? null : flour,
    baseGrams: known(solution.base[p] ?? NaN),
    calledForGrams: isDough ? null : known(called),
    keepGrams: draft.keepGrams,
    leftOverGrams: isDough || facts.kind === 'dish' || called === 0 ? 0 : known(Math.abs(left) < 1e-9 * Math.max(1, made) ? 0 : Math.max(0, left)),
    usedFraction: known(used),
    isPreferment: !isDough && isPreferment(draft, parts),
    desiredCelsius: draft.desiredCelsius,
    steps: draft.steps,
  };
}

/** By its name, or because flour and something that ferments it are in it. */
function isPreferment(draft: PartDraft, parts: readonly PartDraft[]): boolean {
  if ((PREFERMENT_KINDS as readonly PartKind[]).includes(draft.kind)) return true;
  if (draft.kind !== 'part') return false;
  const leaven = draft.lines.some((line) => line.role === 'leaven' || (line.part !== undefined && parts[line.part]?.kind === 'levain'));
  return leaven && draft.lines.some(isFlourLine);
}

function yieldOf(facts: Gathered['facts'], doughGrams: number | null): Yield {
  const makes = facts.makes?.node;
  const pieces = makes?.pieces ? quantityMiddle(makes.pieces) : null;
  const scaled = doughGrams === null ? null : doughGrams * (1 - facts.benchLoss);
  const pieceGrams = scaled === null || !makes ? null : scaled / (pieces ?? 1);
  return {
    pieces,
    noun: makes?.noun?.text ?? 'pieces',
    pieceGrams: pieces === 0 ? null : pieceGrams,
    bakedPieceGrams: pieceGrams === null || pieces === 0 || !facts.ovenLossSaid ? null : pieceGrams * (1 - facts.ovenLoss),
  };
}

function grams(solution: Solution, p: number, l: number): number {
  return solution.grams[p]?.[l] ?? NaN;
}

/** Where the solver's NaN becomes the model's null. */
function known(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
