/**
 * Every row of the composition table against its published source, by what cannot be made up: its parts come to 100 g, and
 * its energy by the factors of the law comes to the energy that the source prints beside it.
 *
 * The parts are the source's own numbers, since the table is made from them: of a row whose carbohydrate is the difference to
 * 100 g the balance only shows that its cells were read right. The energy column is not carried into the program, so it is
 * a number from outside.
 */
import { describe, expect } from 'vitest';
import { availableCarbohydrate, euEnergy, totalCarbohydrate, usEnergyKcal } from '../../server/core/facts/nutrients';
import { BUILT_IN } from '../../server/core/ingredients/builtin';
import { TABLE } from '../../server/core/ingredients/table';
import { CSV_RECORDS, cell, type CsvRecord } from '../core/ingredients/csv';
import { outside } from './outside';

const WITHIN_GRAMS = 1;

/** Rows whose parts do not come to 100 g, and why. */
const UNBALANCED: Readonly<Record<string, readonly [sum: number, why: string]>> = {
  'baking-soda': [37.1, 'gas and water are driven off in ashing'],
  'vinegar-cider': [94.91, 'acetic acid is in no part'],
  'pepper-black': [94.55, 'so in SR28'],
  'goat-cheese-soft': [101.93, 'so in SR28'],
  'creme-fraiche': [98.1, 'the Swiss table gives no ash'],
  'onion-roasted': [98.4, 'the Swiss table gives no ash'],
};

/** How far the source's energy may lie from that by general factors, by what the source reckoned it with. */
const ENERGY: Readonly<Record<string, { readonly factors: 'us' | 'eu'; readonly share: number; readonly kcal: number }>> = {
  'atwater-general': { factors: 'us', share: 0, kcal: 0.5 },
  'usda': { factors: 'us', share: 0.015, kcal: 2 },
  // Merrill and Watt's factors of each food, which the general ones stand for within this much.
  'usda-food-factors': { factors: 'eu', share: 0.12, kcal: 10 },
  'eu-1169-2011': { factors: 'eu', share: 0.015, kcal: 0.5 },
  'swiss-computed': { factors: 'eu', share: 0.005, kcal: 0.5 },
};

const LOW_FACTORS = 'the source has factors of its own for this food, far below the general ones';
/** Rows whose printed energy lies further away, and why. */
const OTHER_ENERGY: Readonly<Record<string, string>> = {
  'baking-powder': 'starch beside salts, of which the source counts about half',
  'cocoa-powder-unsweetened': LOW_FACTORS,
  'cocoa-powder-dutch': LOW_FACTORS,
  'oat-bran': LOW_FACTORS,
  'wheat-bran': LOW_FACTORS,
  'carob-flour': LOW_FACTORS,
  'lemon-peel': LOW_FACTORS,
  'allspice': LOW_FACTORS,
  'cloves': LOW_FACTORS,
  'coriander-seed': LOW_FACTORS,
  'anise-seed': LOW_FACTORS,
  'cumin-seed': LOW_FACTORS,
  'paprika': LOW_FACTORS,
  'lecithin-soy': 'the source counts less than 9 kcal a gram of phospholipid',
  'vinegar-cider': 'acetic acid has energy and is in no part',
  'sugar-white': 'the source counts 3.87 kcal a gram of sugar',
  'mango-dried': 'the source has factors of its own for fruit, a little below the general ones',
};

/** Rows that do not state what energy is reckoned from. */
const NO_ENERGY = ['kefir'];

/** Grams that the source's own parts come to. Fibre stands beside available carbohydrate and inside any other. */
function sumOf(record: CsvRecord): number {
  const columns = ['water_g', 'protein_g', 'fat_g', 'carbohydrate_g', 'ash_g', 'alcohol_g'];
  if (record.carbohydrate_basis === 'available') columns.push('fibre_g');
  return columns.reduce((sum, column) => sum + (cell(record, column) ?? 0), 0);
}

const compositionOf = new Map(BUILT_IN.slice(0, TABLE.length).map(({ ingredient }) => [ingredient.key, ingredient.composition]));

/** By the program's own table and factors, kcal in 100 g; null where a part is not known. */
function energyOf(key: string, factors: 'us' | 'eu'): number | null {
  const composition = compositionOf.get(key)!;
  const alcohol = composition.alcohol ?? 0;
  // A food with no figure for fibre is reckoned as one with none, as its source does.
  const known = { ...composition, fibre: composition.fibre ?? 0 };
  return factors === 'us'
    ? usEnergyKcal({ ...composition, carbohydrateTotal: totalCarbohydrate(known), alcohol })
    : euEnergy({ ...known, carbohydrate: availableCarbohydrate(known), alcohol }, 'kcal');
}

function sourceOf({ source, source_id, release, source_food }: CsvRecord): string {
  return `${source}, ${source_id}, ${release}: ${source_food}`;
}

describe('mass and energy of each row', () => {
  for (const record of CSV_RECORDS) {
    const key = record.key!;
    outside('dataset', sourceOf(record))(key, () => {
      const [sum = 100] = UNBALANCED[key] ?? [];
      expect(Math.abs(sumOf(record) - sum), `${sumOf(record)} g`).toBeLessThanOrEqual(key in UNBALANCED ? 0.05 : WITHIN_GRAMS + 1e-4);
      if (key in UNBALANCED) expect(Math.abs(sum - 100)).toBeGreaterThan(WITHIN_GRAMS);

      const printed = cell(record, 'energy_kcal');
      if (NO_ENERGY.includes(key)) {
        expect(printed).toBeNull();
        return;
      }
      const { factors, share, kcal } = ENERGY[record.energy_basis!]!;
      const ours = energyOf(key, factors);
      expect(ours, 'energy by general factors').not.toBeNull();
      const off = Math.abs(ours! - printed!);
      const allowed = Math.max(kcal, share * printed!);
      if (key in OTHER_ENERGY) expect(off, `${ours} against ${printed} kcal: no exception any more`).toBeGreaterThan(allowed);
      else expect(off, `${ours} against ${printed} kcal`).toBeLessThanOrEqual(allowed);
    });
  }
});
