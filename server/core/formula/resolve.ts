import { PREFERMENT_KINDS, quantityMiddle, type PartKind } from '../../../grammar';
import { isFlourLine, starterFlourShare, type LineDraft, type PartDraft } from './draft';
import type { Catalogue } from '../ingredients/model';
import type { MeasureSystem } from '../units/volume';
import { gather, type Gathered } from './gather';
import type { ResolvedFormula, ResolvedLine, ResolvedPart, Section, Trouble, Yield } from './model';
import { solve, type Solution } from './solve';
import { takeOutPreferments } from './total-formula';
import { writtenOut } from '../variant/write-out';

/**
 * The formula or dish of a section with every line in grams.
 *
 * Never throws; what cannot be known is null and named in `troubles`. A formula based on another is written out first
 * (`core/variant`); its places count in the section that comes of it.
 */
export function resolve(section: Section, env: ResolveEnvironment): ResolvedFormula {
  return resolveWithin(section, env, new Set([section]));
}

export interface ResolveEnvironment {
  readonly catalogue: Catalogue;
  readonly measures: MeasureSystem;
  /** What the tap gives, C; left out where nobody says. */
  readonly tapCelsius?: number | undefined;
  /** Formulas and dishes that a dish can use, by lower-case name. */
  readonly formulas?: ReadonlyMap<string, Section>;
}

/** @param open sections being resolved: a dish that uses itself, by whatever way, finds nothing there */
function resolveWithin(section: Section, env: ResolveEnvironment, open: ReadonlySet<Section>): ResolvedFormula {
  const written = writtenOut(section, { catalogue: env.catalogue, formulaNamed: (name) => env.formulas?.get(name) });
  const gathered = gather(written, {
    catalogue: env.catalogue,
    measures: env.measures,
    formulaNamed: (name) => {
      const used = env.formulas?.get(name);
      return used === undefined || open.has(used) ? undefined : resolveWithin(used, env, new Set([...open, used]));
    },
  });
  const solution = solve(gathered);
  const troubles: Trouble[] = [...solution.troubles];
  const used = usedFractions(gathered.parts, solution);
  const inside = contentsOfParts(gathered.parts, solution);
  const parts = gathered.parts.map((draft, p) => {
    const lines = draft.lines.map((line, l) => resolvedLine(line, grams(solution, p, l), solution.base[p] ?? NaN, inside));
    return resolvedPart(draft, lines, p, solution, used[p] ?? NaN, gathered);
  });
  const dough = solution.dough;
  const isTotalFormula = dough !== undefined && gathered.parts[dough]?.kind === 'total formula';
  if (isTotalFormula) {
    const taken = takeOutPreferments(parts, dough, solution.producersFirst);
    troubles.push(...taken.troubles);
    parts[dough] = taken.finalDough;
  }
  const doughGrams = dough === undefined ? null : known(solution.made[dough] ?? NaN);
  return {
    ...gathered.facts,
    ...(env.tapCelsius !== undefined && { tapCelsius: env.tapCelsius }),
    parts,
    dough,
    isTotalFormula,
    yield: yieldOf(gathered, doughGrams, solution.sizedByTin),
    troubles,
  };
}

/** How much of what each part makes ends in the dough, 0 to 1. Dishes have no dough: every part is wholly used. */
function usedFractions(parts: readonly PartDraft[], solution: Solution): readonly number[] {
  const { dough } = solution;
  if (dough === undefined) return parts.map(() => 1);
  const fractions: number[] = parts.map((_, p) => (p === dough ? 1 : 0));
  // From the dough back: by the time a part is looked at, all that take it in have been.
  for (const c of [...solution.producersFirst].reverse()) {
    const fraction = fractions[c] ?? 0;
    if (fraction === 0) continue;
    parts[c]?.lines.forEach((line, l) => {
      if (line.part === undefined || !line.inDough || line.part === dough) return;
      const taken = grams(solution, c, l);
      // Next to nothing taken of nothing made is no share, not an unknown one.
      const share = taken < 1e-100 ? 0 : (taken / (solution.made[line.part] ?? NaN)) * fraction;
      fractions[line.part] = (fractions[line.part] ?? 0) + share;
    });
  }
  // Binary dust must not show as a left-over of nothing.
  return fractions.map((fraction) => (Math.abs(fraction - 1) < 1e-12 ? 1 : fraction));
}

/** Flour and water in one gram of a part as it is taken in. */
interface FlourAndWater {
  readonly flour: number;
  readonly water: number;
}

const NEITHER: FlourAndWater = { flour: 0, water: 0 };

/** Per part, worked out once and in the order of making. A part's water is what is left after its cooking. */
function contentsOfParts(parts: readonly PartDraft[], solution: Solution): readonly FlourAndWater[] {
  const inside = parts.map(() => NEITHER);
  for (const p of solution.producersFirst) {
    const made = solution.made[p] ?? NaN;
    const weighed = solution.weighed[p] ?? NaN;
    if (!(made > 0) || Number.isNaN(weighed)) continue;
    const brought = parts[p]?.lines.map((line, l) => broughtBy(line, grams(solution, p, l), inside)) ?? [];
    const flour = brought.reduce((sum, b) => sum + b.flour, 0);
    const water = brought.reduce((sum, b) => sum + b.water, 0) - (weighed - made);
    inside[p] = { flour: flour / made, water: Math.max(0, water) / made };
  }
  return inside;
}

function resolvedLine(line: LineDraft, lineGrams: number, base: number, inside: readonly FlourAndWater[]): ResolvedLine {
  const { term, ...rest } = line;
  const brought = broughtBy(line, lineGrams, inside);
  const pct = term.kind === 'share' && !Number.isNaN(base) ? term.share * 100 : known((lineGrams / base) * 100);
  return { ...rest, grams: known(lineGrams), pct: base > 0 ? pct : null, flourGrams: brought.flour, waterGrams: brought.water };
}

/** The flour and the water that a line brings as such. */
function broughtBy(line: LineDraft, lineGrams: number, inside: readonly FlourAndWater[]): FlourAndWater {
  if (!line.inDough || Number.isNaN(lineGrams)) return NEITHER;
  if (line.starterHydrationPct !== undefined) {
    const flour = lineGrams * starterFlourShare(line.starterHydrationPct);
    return { flour, water: lineGrams - flour };
  }
  if (line.part !== undefined) {
    const { flour, water } = inside[line.part] ?? NEITHER;
    return { flour: flour * lineGrams, water: water * lineGrams };
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

function yieldOf({ facts, tin }: Gathered, doughGrams: number | null, sizedByTin: boolean): Yield {
  const makes = facts.makes?.node;
  const pieces = makes?.pieces ? quantityMiddle(makes.pieces) : null;
  const scaled = doughGrams === null ? null : doughGrams * (1 - facts.benchLoss);
  const pieceGrams = scaled === null || !makes ? null : scaled / (pieces ?? 1);
  return {
    pieces,
    noun: makes?.noun?.text ?? 'pieces',
    pieceGrams: pieces === 0 ? null : pieceGrams,
    bakedPieceGrams: pieceGrams === null || pieces === 0 || !facts.ovenLossSaid ? null : pieceGrams * (1 - facts.ovenLoss),
    tinMillilitres: tin?.millilitres ?? null,
    tinFactor: tin === undefined || !pieceGrams || pieces === 0 ? null : tin.millilitres / pieceGrams,
    tinFactorAssumed: sizedByTin,
  };
}

function grams(solution: Solution, p: number, l: number): number {
  return solution.grams[p]?.[l] ?? NaN;
}

/** Where the solver's NaN becomes the model's null. */
function known(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
