/** What the totals say of moisture, sugar, fat and the rest by composition: of every ingredient, not only of the line named so. */
import { ABSORBERS } from './absorbers';
import type { Composition } from '../ingredients/model';
import { sumKnown, times, type Leaf } from './contents';
import type { Totals } from './model';

type FromComposition = Pick<
  Totals,
  | 'effective_hydration_pct' | 'hidden_salt_pct' | 'sugar_pct' | 'inclusion_sugar_pct' | 'fat_pct' | 'egg_pct' | 'milk_solids_pct' | 'flour_protein_pct'
>;

/** Under this share of the flour an ingredient of unknown composition cannot move a total that is shown to one decimal. */
const TRACE = 0.0025;

/**
 * Totals that need the composition of the lines, per cent of all flour. Null where an ingredient that could matter has no
 * known value: a spice by the pinch cannot, 100 g of something unheard of can.
 *
 * @param cookedOff water gone in cooking, g
 */
export function compositionTotals(leaves: readonly Leaf[], flourGrams: number | null, cookedOff: number): FromComposition {
  const pct = (grams: number | null) => (grams === null || flourGrams === null || flourGrams <= 0 ? null : (grams / flourGrams) * 100);
  const trace = (flourGrams ?? 0) * TRACE;
  const of = (part: readonly Leaf[], component: Component) => sumKnown(part, (leaf) => componentGrams(leaf, component, trace));
  const pieces = leaves.filter(isPiece);
  const rest = leaves.filter((leaf) => !isPiece(leaf));
  const moisture = of(rest.filter((leaf) => leaf.line.role !== 'flour'), 'water');
  const bound = sumKnown(leaves, boundGrams);
  const flours = leaves.filter((leaf) => leaf.line.role === 'flour');
  return {
    effective_hydration_pct: pct(moisture === null || bound === null ? null : moisture - bound - cookedOff),
    hidden_salt_pct: pct(of(rest.filter((leaf) => leaf.line.role !== 'salt' && leaf.line.role !== 'flour'), 'salt')),
    sugar_pct: pct(of(rest.filter((leaf) => leaf.line.role !== 'flour'), 'sugars')),
    inclusion_sugar_pct: pct(of(pieces, 'sugars')),
    fat_pct: pct(of(rest.filter((leaf) => leaf.line.role !== 'flour'), 'fat')),
    egg_pct: pct(sumKnown(leaves.filter((leaf) => leaf.line.role === 'egg'), (leaf) => leaf.grams)),
    milk_solids_pct: pct(sumKnown(leaves.filter(isMilk), milkSolids)),
    flour_protein_pct: proteinOf(flours),
  };
}

type Component = 'water' | 'protein' | 'fat' | 'sugars' | 'salt';

/**
 * Names of weighed ingredients whose composition keeps totals from being known, each with what is missing of it. Flour only
 * matters for its protein, inclusions only for their sugar.
 */
export function unknownCompositions(leaves: readonly Leaf[], flourGrams: number | null): readonly { readonly name: string; readonly missing: readonly Component[] }[] {
  const trace = (flourGrams ?? 0) * TRACE;
  return leaves.flatMap((leaf) => {
    if (leaf.grams === null) return [];
    const matters: readonly Component[] = leaf.line.role === 'flour' ? ['protein'] : isPiece(leaf) ? ['sugars'] : leaf.line.role === 'salt' ? [] : ['water', 'salt', 'sugars', 'fat'];
    const missing = matters.filter((component) => componentGrams(leaf, component, component === 'protein' ? 0 : trace) === null);
    return missing.length === 0 ? [] : [{ name: leaf.line.name, missing }];
  });
}

/** Whole pieces that the dough carries: what is in them stays in them. */
function isPiece({ line }: Leaf): boolean {
  return line.role === 'inclusion';
}

function isMilk({ line }: Leaf): boolean {
  return line.role === 'dairy' || (line.ingredient?.key.startsWith('milk-powder') ?? false) || (line.ingredient?.key.startsWith('whey') ?? false);
}

/** Salt, leaven and water bring none of the rest; their water is what the table says. */
function componentGrams({ line, grams, fraction }: Leaf, component: Component, trace: number): number | null {
  if (grams === null) return null;
  if (line.starterHydrationPct !== undefined) return component === 'water' ? times(line.waterGrams, fraction) : 0;
  if (line.ingredient?.isWater) return component === 'water' ? grams : 0;
  const value = per100(line.ingredient?.composition, component);
  if (value !== null) return (grams * value) / 100;
  return grams <= trace || line.role === 'leaven' || line.role === 'spice' ? 0 : null;
}

function per100(composition: Composition | undefined, component: Component): number | null {
  return composition ? composition[component] : null;
}

/** Water that dry absorbers take from the dough, g: the baker's own `absorbs`, else the table. */
function boundGrams({ line, grams }: Leaf): number | null {
  if (grams === null) return line.role === 'absorber' ? null : 0;
  return grams * (line.ingredient?.absorbs ?? ABSORBERS[line.ingredient?.absorbsAs ?? line.ingredient?.key ?? '']?.value ?? 0);
}

/** Everything of milk but its water and its fat: protein, lactose, ash. */
function milkSolids({ line, grams }: Leaf): number | null {
  const water = per100(line.ingredient?.composition, 'water');
  const fat = per100(line.ingredient?.composition, 'fat');
  return grams === null || water === null || fat === null ? null : (grams * (100 - water - fat)) / 100;
}

/** Protein of the flour blend, % of its weight; that of a starter's flour is not known and left out. */
function proteinOf(flours: readonly Leaf[]): number | null {
  const grams = sumKnown(flours, (leaf) => leaf.grams);
  const protein = sumKnown(flours, (leaf) => componentGrams(leaf, 'protein', 0));
  return grams === null || protein === null || grams <= 0 ? null : (protein / grams) * 100;
}
