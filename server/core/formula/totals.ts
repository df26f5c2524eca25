import { compositionTotals } from './composition';
import type { ResolvedFormula, ResolvedPart, Totals } from './model';
import { cookedOffGrams, cookedOffOf, leavesOf, sumKnown, times, type Leaf } from './contents';

/**
 * The totals of a formula. All flour, that inside preferments and starter included, is 100 % unless the name says otherwise.
 * A dish has no flour base: its totals are null.
 */
export function totalsOf(formula: ResolvedFormula): Totals {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (!dough || formula.kind === 'dish') return NOTHING_KNOWN;
  const leaves = leavesOf(formula);
  const flour = sumKnown(leaves.filter(bringsFlour), flourOf);
  const doughGrams = dough.yieldGrams;
  const cookedOff = cookedOffGrams(formula);
  const wet = leaves.filter(bringsWater);
  const ofFlour = (grams: number | null) => percent(grams, flour);
  const ofWater = (grams: number | null) => (isWaterOpen(leaves) ? null : ofFlour(grams));
  const inclusions = sumKnown(leaves.filter((leaf) => leaf.line.role === 'inclusion'), (leaf) => leaf.grams);
  return {
    ...NOTHING_KNOWN,
    flour_g: flour,
    dough_g: doughGrams,
    piece_g: formula.yield.pieceGrams,
    baked_piece_g: formula.yield.bakedPieceGrams,
    hydration_pct: ofWater(less(sumKnown(wet.filter((leaf) => !isDrunkBySoaker(leaf.part)), waterOf), waterCookedOff(formula, isNoSoaker))),
    water_pct: ofWater(less(sumKnown(wet, waterOf), waterCookedOff(formula, () => true))),
    dough_hydration_pct: doughHydration(dough),
    salt_pct: ofFlour(sumKnown(leaves.filter((leaf) => leaf.line.role === 'salt'), (leaf) => leaf.grams)),
    prefermented_flour_pct: ofFlour(
      sumKnown(leaves.filter((leaf) => bringsFlour(leaf) && (leaf.part.isPreferment || leaf.line.starterHydrationPct !== undefined)), flourOf),
    ),
    inoculation_pct: ofFlour(inoculationGrams(formula, dough)),
    inclusions_pct: ofFlour(inclusions),
    inclusions_of_dough_pct: percent(inclusions, doughGrams),
    ...compositionTotals(leaves, flour, cookedOff),
  };
}

export const NOTHING_KNOWN: Totals = {
  flour_g: null,
  dough_g: null,
  piece_g: null,
  baked_piece_g: null,
  hydration_pct: null,
  water_pct: null,
  effective_hydration_pct: null,
  dough_hydration_pct: null,
  salt_pct: null,
  hidden_salt_pct: null,
  sugar_pct: null,
  inclusion_sugar_pct: null,
  fat_pct: null,
  egg_pct: null,
  milk_solids_pct: null,
  prefermented_flour_pct: null,
  inoculation_pct: null,
  inclusions_pct: null,
  inclusions_of_dough_pct: null,
  flour_protein_pct: null,
};

function bringsFlour({ line }: Leaf): boolean {
  return line.role === 'flour' || line.starterHydrationPct !== undefined;
}

function bringsWater({ line }: Leaf): boolean {
  return line.ingredient?.isWater === true || line.starterHydrationPct !== undefined;
}

/** Without a line of water, what is of no known composition may be all the liquid there is: none would then be a guess. */
function isWaterOpen(leaves: readonly Leaf[]): boolean {
  const mayBeLiquid = ({ line }: Leaf): boolean => line.ingredient === undefined && line.starterHydrationPct === undefined && (line.role === 'liquid' || line.role === 'other');
  return !leaves.some(({ line }) => line.ingredient?.isWater === true) && leaves.some(mayBeLiquid);
}

function flourOf({ line, fraction }: Leaf): number | null {
  return line.grams === null ? null : times(line.flourGrams, fraction);
}

function waterOf({ line, fraction }: Leaf): number | null {
  return line.grams === null ? null : times(line.waterGrams, fraction);
}

/**
 * A part with no flour whose pieces drink its water. A scald's water is bound by what is scalded but stays in the dough's
 * account, as the trade counts it; a part of nothing that drinks (yeast stirred into water) only carries its water.
 */
function isDrunkBySoaker(part: ResolvedPart): boolean {
  if (part.kind === 'soaker') return !part.lines.some((line) => line.flourGrams > 0);
  if (part.kind === 'scald' || part.lines.some((line) => line.flourGrams > 0)) return false;
  return part.lines.some((line) => line.role === 'inclusion' || line.role === 'absorber');
}

function isNoSoaker(part: ResolvedPart): boolean {
  return !isDrunkBySoaker(part);
}

/**
 * What the water lines of some parts lose in cooking, g. What boils off a scald made with milk is the milk's own water, which no
 * water line has brought: a part loses no more here than its water lines hold.
 */
function waterCookedOff(formula: ResolvedFormula, which: (part: ResolvedPart) => boolean): number {
  return formula.parts.reduce((sum, part, index) => {
    if (index === formula.dough || !which(part)) return sum;
    const water = part.lines.reduce((held, line) => held + (line.inDough ? line.waterGrams : 0), 0) * (part.usedFraction ?? 0);
    return sum + Math.min(cookedOffOf(part), water);
  }, 0);
}

/** Water weighed into the final dough over flour weighed into it: what a home recipe calls its hydration. */
function doughHydration(dough: ResolvedPart): number | null {
  const plain = dough.lines.filter((line) => line.inDough && line.part === undefined && line.starterHydrationPct === undefined);
  const flour = sumKnown(plain.filter((line) => line.role === 'flour'), (line) => line.grams);
  return percent(sumKnown(plain.filter((line) => line.ingredient?.isWater), (line) => line.grams), flour);
}

/** The levain (or other preferment that a starter raises) and the starter weighed into the dough, g. */
function inoculationGrams(formula: ResolvedFormula, dough: ResolvedPart): number | null {
  const cultures = dough.lines.filter(
    (line) => line.inDough && (line.starterHydrationPct !== undefined || (line.part !== undefined && isCulture(formula, line.part, new Set()))),
  );
  return sumKnown(cultures, (line) => line.grams);
}

function isCulture(formula: ResolvedFormula, index: number, seen: ReadonlySet<number>): boolean {
  const part = formula.parts[index];
  if (!part || seen.has(index)) return false;
  if (part.kind === 'levain') return true;
  if (!part.isPreferment) return false;
  const open = new Set([...seen, index]);
  return part.lines.some((line) => line.starterHydrationPct !== undefined || (line.part !== undefined && isCulture(formula, line.part, open)));
}

function less(a: number | null, b: number): number | null {
  return a === null ? null : a - b;
}

function percent(grams: number | null, base: number | null): number | null {
  return grams === null || base === null || base <= 0 ? null : (grams / base) * 100;
}
