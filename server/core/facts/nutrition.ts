/** Nutrition of a formula's bread: an estimate from tables, for a baker's own use and as a first draft of a label. */
import type { Composition } from '../ingredients/model';
import type { ResolvedFormula, Sheet, Totals } from '../formula/model';
import { bakeClassOf, breadFrom, CLASS_FIGURES } from '../baking';
import { SLICE_GRAMS, TRACE_SHARE } from './constants';
import { eatenOf, rawGrams, type Eaten } from './eaten';
import { availableCarbohydrate, nutrientsOf, timesNutrients, type Food, type Nutrients } from './nutrients';

export interface Nutrition {
  /** All pieces together after the oven, g: what is lost at the bench is in none of them. */
  readonly bakedGrams: number;
  readonly per100g: Nutrients;
  readonly sliceGrams: number;
  readonly perSlice: Nutrients;
  /** Null where the number of pieces is not known. */
  readonly perPiece: Nutrients | null;
  /** Share of the weight lost in the oven that was reckoned with, 0 to 1. */
  readonly ovenLoss: number;
  /** Names of ingredients that nobody has a composition of, and that are too much to leave out: why a nutrient is null. */
  readonly unknown: readonly string[];
  /** By nutrient, the ingredients that do not tell it and are too much to leave out. Those of energy are those of all it is reckoned from. */
  readonly lacking: Readonly<Record<Lacking, readonly string[]>>;
  /** What was taken for granted, in a baker's words. Always at least one: it is an estimate. */
  readonly assumptions: readonly string[];
}

export type Lacking = 'energy' | 'fat' | 'saturated' | 'carbohydrate' | 'sugars' | 'fibre' | 'protein' | 'salt';

export interface NutritionOptions {
  readonly sliceGrams?: number;
}

/**
 * Null where a weight is not known. By the baked weight: reckoned on the dough, a slice would come out 10 to 20 % too light
 * in everything. What fermentation eats is not taken off. `totals` and `sheet` are those of the formula; they say whether
 * the whole is known.
 */
export function nutritionOf(formula: ResolvedFormula, totals: Totals, sheet: Sheet, options: NutritionOptions = {}): Nutrition | null {
  const raw = rawGrams(formula);
  if (raw === null || !(raw > 0) || (formula.kind === 'formula' && totals.dough_g === null) || sheet.rows.some((row) => row.grams === null)) return null;
  const eaten = eatenOf(formula);
  const { loss, said } = ovenLossOf(formula);
  // Of all that is weighed. What stays at the bench has the same in it, gram for gram, so it changes no figure by weight.
  const bakedWhole = breadFrom(raw, loss);
  if (!(bakedWhole > 0)) return null;
  const cultures = eaten.some(({ line }) => line.starterHydrationPct !== undefined);
  const foods = eaten.flatMap((one) => foodsOf(one, raw, eaten));
  const all = nutrientsOf(foods);
  const sliceGrams = options.sliceGrams ?? SLICE_GRAMS.value;
  const pieces = formula.yield.pieces ?? formula.serves;
  return {
    bakedGrams: breadFrom(bakedWhole, formula.benchLoss),
    per100g: timesNutrients(all, 100 / bakedWhole),
    sliceGrams,
    perSlice: timesNutrients(all, sliceGrams / bakedWhole),
    perPiece: pieces === null || pieces <= 0 ? null : timesNutrients(all, (1 - formula.benchLoss) / pieces),
    ovenLoss: loss,
    unknown: namesOf(eaten, raw, ({ composition }) => composition === undefined),
    lacking: lackingOf(eaten, raw),
    assumptions: [
      'An estimate from composition tables; what fermentation eats is not taken off.',
      ...(said === undefined ? [] : [said]),
      ...(cultures ? ['The flour of the starter is taken as the blend of the other flours.'] : []),
    ],
  };
}

function namesOf(eaten: readonly Eaten[], raw: number, lacks: (food: Food) => boolean): readonly string[] {
  const some = eaten.filter((one) => foodsOf(one, raw, eaten).some((food) => food.grams > 0 && !food.negligible && lacks(food)));
  return [...new Set(some.map(({ line }) => line.name))];
}

function lackingOf(eaten: readonly Eaten[], raw: number): Nutrition['lacking'] {
  const without = (of: (composition: Composition) => number | null): readonly string[] =>
    namesOf(eaten, raw, ({ composition }) => composition === undefined || of(composition) === null);
  const fat = without((c) => c.fat);
  const protein = without((c) => c.protein);
  const fibre = without((c) => c.fibre);
  const carbohydrate = without(availableCarbohydrate);
  return {
    energy: [...new Set([...fat, ...protein, ...fibre, ...carbohydrate])],
    fat, carbohydrate, fibre, protein,
    saturated: without((c) => c.saturated),
    sugars: without((c) => c.sugars),
    salt: without((c) => c.salt),
  };
}

/** What the formula says; else what is usual for its class; else, for a dish, none. */
export function ovenLossOf(formula: ResolvedFormula): { loss: number; said: string | undefined } {
  if (formula.ovenLossSaid) return { loss: formula.ovenLoss, said: undefined };
  if (formula.kind === 'dish') return { loss: 0, said: 'No loss in the oven is written, and none is reckoned with.' };
  const bakeClass = bakeClassOf(formula.styles.map(({ text }) => text)) ?? 'hearth';
  const loss = CLASS_FIGURES[bakeClass].ovenLoss.value;
  return { loss, said: `No loss in the oven is written; ${Math.round(loss * 1000) / 10} % is reckoned with, the middle of what is usual (${bakeClass}).` };
}

/** A line as foods: a culture is flour and water, bread of another formula what that is made of. */
function foodsOf({ line, grams }: Eaten, rawGrams: number, eaten: readonly Eaten[]): readonly Food[] {
  if (grams === null) return [];
  const negligible = grams <= TRACE_SHARE.value * rawGrams || line.role === 'leaven' || line.role === 'spice';
  if (line.starterHydrationPct !== undefined) {
    const flour = (grams * 100) / (100 + line.starterHydrationPct);
    return flourBlend(eaten).map(({ share, composition }): Food => ({ grams: flour * share, composition }));
  }
  if (line.ingredient?.isWater) return [];
  if (line.uses) return usedFoods(line.uses, grams);
  return [{ grams, composition: line.ingredient?.composition, negligible }];
}

function flourBlend(eaten: readonly Eaten[]): readonly { readonly share: number; readonly composition: Composition | undefined }[] {
  const flours = eaten.filter(({ line }) => line.role === 'flour');
  const total = flours.reduce((sum, { grams }) => sum + (grams ?? 0), 0);
  if (total <= 0) return [{ share: 1, composition: undefined }];
  return flours.map(({ line, grams }) => ({ share: (grams ?? 0) / total, composition: line.ingredient?.composition }));
}

/** So many grams of another formula's bread. */
function usedFoods(uses: ResolvedFormula, grams: number): readonly Food[] {
  const raw = rawGrams(uses);
  if (raw === null || raw <= 0) return [{ grams, composition: undefined }];
  const baked = breadFrom(raw, ovenLossOf(uses).loss);
  const eaten = eatenOf(uses);
  return eaten.flatMap((one) => foodsOf(one, raw, eaten)).map((food) => ({ ...food, grams: (food.grams * grams) / baked }));
}
