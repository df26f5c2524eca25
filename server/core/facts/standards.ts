/** What a bread may be called, by published limits. Rules of sale: they say nothing of how it bakes or whether it is safe. */
import { lossOf } from '../baking';
import { NAMES } from './constants';

/** The German name by the share of rye in wheat and rye flour, %. */
export function germanRyeName(ryePct: number): 'Roggenbrot' | 'Roggenmischbrot' | 'Weizenmischbrot' | 'Weizenbrot' | 'neither (exactly half)' {
  const wheatPct = 100 - ryePct;
  if (ryePct >= NAMES.ryeBreadPct.value) return 'Roggenbrot';
  if (wheatPct >= NAMES.ryeBreadPct.value) return 'Weizenbrot';
  if (ryePct > NAMES.mixedBreadPct.value) return 'Roggenmischbrot';
  return wheatPct > NAMES.mixedBreadPct.value ? 'Weizenmischbrot' : 'neither (exactly half)';
}

/** Parts of fat and sugar for 90 parts of cereal, and whether that makes it no longer bread in Germany. */
export function fineBakedGood(cerealGrams: number, fatGrams: number, sugarGrams: number): { readonly parts: number; readonly isFine: boolean } {
  const parts = ((fatGrams + sugarGrams) / cerealGrams) * 90;
  return { parts, isFine: parts > NAMES.fineBakedGoodParts.value };
}

/**
 * Solids of US bread: of finished bread at least 62 % may be anything but water.
 *
 * @param foods what is weighed, with its water in %
 * @returns the heaviest the bread may be and the least that must be lost, 0 to 1 (0 where the dough itself would do)
 */
export function usBreadSolids(foods: readonly { readonly grams: number; readonly waterPct: number }[]): {
  readonly doughGrams: number;
  readonly solidsGrams: number;
  readonly mostBreadGrams: number;
  readonly leastLoss: number;
} {
  const doughGrams = foods.reduce((sum, { grams }) => sum + grams, 0);
  const solidsGrams = foods.reduce((sum, { grams, waterPct }) => sum + grams * (1 - waterPct / 100), 0);
  const mostBreadGrams = (100 * solidsGrams) / NAMES.usSolidsPct.value;
  return { doughGrams, solidsGrams, mostBreadGrams, leastLoss: Math.max(0, lossOf(doughGrams, mostBreadGrams)) };
}

/** Whole egg that US egg bread needs, g, for eggs of this much solids in %. */
export function usLeastEggGrams(breadGrams: number, eggSolidsPct: number): number {
  return (breadGrams * NAMES.usEggSolidsPct.value) / eggSolidsPct;
}

/** Raisins for 100 parts of flour, and whether that is enough for US raisin bread. */
export function usRaisinBread(flourGrams: number, raisinsGrams: number): { readonly parts: number; readonly isEnough: boolean } {
  const parts = (100 * raisinsGrams) / flourGrams;
  return { parts, isEnough: parts >= NAMES.usRaisinParts.value };
}

/** Shares of an Italian panettone, %, and whether each reaches what the decree asks for. Of the product: give baked weights where they are known. */
export function panettone(grams: { readonly total: number; readonly butter: number; readonly fruit: number; readonly yolk: number; readonly yeast: number }): {
  readonly butterPct: number;
  readonly fruitPct: number;
  readonly yolkPct: number;
  readonly yeastPct: number;
  readonly butterOk: boolean;
  readonly fruitOk: boolean;
  readonly yolkOk: boolean;
  readonly yeastOk: boolean;
} {
  const share = (part: number) => (100 * part) / grams.total;
  const butterPct = share(grams.butter);
  const fruitPct = share(grams.fruit);
  const yolkPct = share(grams.yolk);
  const yeastPct = share(grams.yeast);
  return {
    butterPct,
    fruitPct,
    yolkPct,
    yeastPct,
    butterOk: butterPct >= NAMES.panettoneButterPct.value,
    fruitOk: fruitPct >= NAMES.panettoneFruitPct.value,
    yolkOk: yolkPct >= NAMES.panettoneYolkPct.value,
    yeastOk: yeastPct <= NAMES.panettoneYeastPct.value,
  };
}
