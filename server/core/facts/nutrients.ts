/** Nutrients of a list of weighed foods by their composition, and energy from them by either rule. */
import { SALT_PER_SODIUM } from '../ingredients/builtin';
import type { Composition } from '../ingredients/model';
import { EU_FACTORS, EU_SALT_PER_SODIUM, US_FACTORS } from './constants';

/** Grams of each, of some amount of food. What is not known is null, never 0. */
export interface Nutrients {
  /** By EU factors, on available carbohydrate and fibre. */
  readonly energyKj: number | null;
  readonly energyKcal: number | null;
  /** By the general factors 4, 4 and 9, on all carbohydrate. */
  readonly energyKcalUs: number | null;
  readonly fat: number | null;
  readonly saturated: number | null;
  /** Available: what people digest, without fibre. */
  readonly carbohydrate: number | null;
  /** With fibre: what a US label calls total. */
  readonly carbohydrateTotal: number | null;
  readonly sugars: number | null;
  readonly fibre: number | null;
  readonly protein: number | null;
  readonly sodiumMg: number | null;
  /** Sodium x 2.5, by EU rules. */
  readonly salt: number | null;
}

/** A food by weight. `composition` undefined is not known at all; `negligible` lets its unknowns pass as none. */
export interface Food {
  readonly grams: number;
  readonly composition: Composition | undefined;
  readonly negligible?: boolean;
}

/** Nutrients of all of them together. One unknown that matters makes that nutrient unknown. */
export function nutrientsOf(foods: readonly Food[]): Nutrients {
  const sum = (of: (composition: Composition) => number | null): number | null => {
    let total = 0;
    for (const { grams, composition, negligible } of foods) {
      if (grams === 0) continue;
      const value = composition ? of(composition) : null;
      if (value === null && negligible !== true) return null;
      total += (grams * (value ?? 0)) / 100;
    }
    return total;
  };
  const fat = sum((c) => c.fat);
  const protein = sum((c) => c.protein);
  const fibre = sum((c) => c.fibre);
  const carbohydrate = sum(availableCarbohydrate);
  const carbohydrateTotal = sum(totalCarbohydrate);
  // Few tables have a figure for alcohol where there can be none.
  const alcohol = sum((c) => c.alcohol ?? 0);
  const sodium = sum((c) => (c.salt === null ? null : c.salt / SALT_PER_SODIUM));
  return {
    energyKj: euEnergy({ fat, protein, fibre, carbohydrate, alcohol }, 'kj'),
    energyKcal: euEnergy({ fat, protein, fibre, carbohydrate, alcohol }, 'kcal'),
    energyKcalUs: usEnergyKcal({ fat, protein, carbohydrateTotal, alcohol }),
    fat,
    saturated: sum((c) => c.saturated),
    carbohydrate,
    carbohydrateTotal,
    sugars: sum((c) => c.sugars),
    fibre,
    protein,
    sodiumMg: sodium === null ? null : sodium * 1000,
    salt: sodium === null ? null : saltFromSodiumMg(sodium * 1000),
  };
}

/** Of an amount of food, the nutrients of a part of it (0.5 is half), or of several times it. */
export function timesNutrients(nutrients: Nutrients, factor: number): Nutrients {
  const part = (value: number | null) => (value === null ? null : value * factor);
  return {
    energyKj: part(nutrients.energyKj),
    energyKcal: part(nutrients.energyKcal),
    energyKcalUs: part(nutrients.energyKcalUs),
    fat: part(nutrients.fat),
    saturated: part(nutrients.saturated),
    carbohydrate: part(nutrients.carbohydrate),
    carbohydrateTotal: part(nutrients.carbohydrateTotal),
    sugars: part(nutrients.sugars),
    fibre: part(nutrients.fibre),
    protein: part(nutrients.protein),
    sodiumMg: part(nutrients.sodiumMg),
    salt: part(nutrients.salt),
  };
}

/** Salt of an EU label, g: sodium x 2.5. */
export function saltFromSodiumMg(sodiumMg: number): number {
  return (sodiumMg / 1000) * EU_SALT_PER_SODIUM.value;
}

/** Per 100 g, without fibre, whichever way the table counts. */
export function availableCarbohydrate({ carbohydrate, fibre, carbohydrateBasis }: Composition): number | null {
  if (carbohydrate === null || carbohydrateBasis === 'available') return carbohydrate;
  return fibre === null ? null : Math.max(0, carbohydrate - fibre);
}

/** Per 100 g, with fibre, whichever way the table counts. */
export function totalCarbohydrate({ carbohydrate, fibre, carbohydrateBasis }: Composition): number | null {
  if (carbohydrate === null || carbohydrateBasis === 'by-difference') return carbohydrate;
  return fibre === null ? null : carbohydrate + fibre;
}

interface EnergyGrams {
  readonly fat: number | null;
  readonly protein: number | null;
  readonly fibre: number | null;
  readonly carbohydrate: number | null;
  readonly alcohol: number | null;
}

/** Energy by EU factors, of grams. */
export function euEnergy({ fat, protein, fibre, carbohydrate, alcohol }: EnergyGrams, unit: 'kj' | 'kcal'): number | null {
  if (fat === null || protein === null || fibre === null || carbohydrate === null || alcohol === null) return null;
  const f = EU_FACTORS;
  return fat * f.fat[unit] + protein * f.protein[unit] + fibre * f.fibre[unit] + carbohydrate * f.carbohydrate[unit] + alcohol * f.alcohol[unit];
}

/** Energy by the general factors of US rules, of grams. */
export function usEnergyKcal({
  fat, protein, carbohydrateTotal, alcohol,
}: Pick<EnergyGrams, 'fat' | 'protein' | 'alcohol'> & { readonly carbohydrateTotal: number | null }): number | null {
  if (fat === null || protein === null || carbohydrateTotal === null || alcohol === null) return null;
  const f = US_FACTORS;
  return fat * f.fat + protein * f.protein + carbohydrateTotal * f.carbohydrate + alcohol * f.alcohol;
}
