import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { cell, CSV_RECORDS } from '../core/ingredients/csv';
import { proofsheet, workspace } from './program';

const SAMPLES = path.join(__dirname, '..', '..', 'samples');

interface Form {
  readonly temperature: Readonly<Record<string, unknown>>;
  readonly nutrition_per_100g: Readonly<Record<string, number | null>>;
  readonly nutrition_per_slice: Readonly<Record<string, number | null>> | null;
  readonly nutrition_per_piece: Readonly<Record<string, number | null>> | null;
  readonly nutrition_lacking: unknown;
  readonly allergens: unknown;
}

async function form(sample: string, ...more: readonly string[]): Promise<Form> {
  const { status, out, err } = await proofsheet(['sheet', path.join(SAMPLES, sample), '--json', ...more]);
  expect({ status, err }).toEqual({ status: 0, err: '' });
  return (JSON.parse(out) as { readonly formulas: readonly Form[] }).formulas[0]!;
}

describe('nutrition of the seeded tin loaf, reckoned by hand from the table of ingredients', () => {
  // What samples/seeded-tin.bake weighs into the dough. Butter for the tins and water from the tap bring nothing.
  const grams: Readonly<Record<string, number>> = {
    'bread-flour': 840, 'whole-wheat-flour': 60 + 240, salt: 5 + 16, 'yeast-fresh': 14, honey: 30, 'sunflower-oil': 36, seeds: 240,
  };
  const waterGrams = 240 + 200 + 460;
  const cookedOffGrams = 60 + 240 - 285;
  const bakedGrams = 0.89 * (Object.values(grams).reduce((sum, each) => sum + each, waterGrams) - cookedOffGrams);

  /** In 100 g of an ingredient: of the table but for what samples/pantry.bake says. */
  function inHundred(key: string, column: string): number {
    const seeds: Readonly<Record<string, number>> = { protein_g: 22, fat_g: 48, sugars_g: 2.2, fibre_g: 12, sodium_mg: 0, carbohydrate_g: 100 - 5.4 - 22 - 48 };
    if (key === 'seeds') return seeds[column]!;
    if (key === 'bread-flour' && column === 'protein_g') return 12.6;
    return cell(CSV_RECORDS.find((record) => record.key === key)!, column)!;
  }

  const perHundred = (column: string): number =>
    (Object.keys(grams).reduce((sum, key) => sum + (grams[key]! * inHundred(key, column)) / 100, 0) * 100) / bakedGrams;

  const [fat, protein, fibre, total, sodium] = ['fat_g', 'protein_g', 'fibre_g', 'carbohydrate_g', 'sodium_mg'].map(perHundred) as [number, number, number, number, number];

  test('per 100 g', async () => {
    for (const text of ['840 g     mill bread flour', '240 g     stall seed mix', 'loses     11 % in the oven', 'yields    285 g']) {
      expect(readFileSync(path.join(SAMPLES, 'seeded-tin.bake'), 'utf8')).toContain(text);
    }
    const { nutrition_per_100g: found, nutrition_lacking } = await form('seeded-tin.bake');
    const near = (value: number): number => expect.closeTo(value, 5) as number;
    expect(found).toEqual({
      energy_kj: near(37 * fat + 17 * protein + 8 * fibre + 17 * (total - fibre)),
      energy_kcal: near(9 * fat + 4 * protein + 2 * fibre + 4 * (total - fibre)),
      energy_kcal_us: near(9 * fat + 4 * protein + 4 * total),
      fat_g: near(fat),
      saturates_g: null,
      carbohydrate_g: near(total - fibre),
      carbohydrate_total_g: near(total),
      sugars_g: near(sugars()),
      fibre_g: near(fibre),
      protein_g: near(protein),
      salt_g: near((2.5 * sodium) / 1000),
      sodium_mg: near(sodium),
    });
    expect(nutrition_lacking).toEqual({ saturates: ['stall seed mix'] });
  });

  // The table has no sugars for flour's yeast: fresh yeast is a leaven and lets its unknowns pass as none.
  function sugars(): number {
    const known = Object.keys(grams).filter((key) => key !== 'yeast-fresh' || cell(CSV_RECORDS.find((record) => record.key === key)!, 'sugars_g') !== null);
    return (known.reduce((sum, key) => sum + (grams[key]! * inHundred(key, 'sugars_g')) / 100, 0) * 100) / bakedGrams;
  }

  test('per slice and per piece, of any size of batch', async () => {
    const { nutrition_per_slice: slice, nutrition_per_piece: piece } = await form('seeded-tin.bake', '--slice', '40g', '--factor', '3');
    expect(slice).toMatchObject({ slice_g: 40, protein_g: expect.closeTo(0.4 * protein, 5) as number });
    expect(piece).toMatchObject({ protein_g: expect.closeTo((protein * bakedGrams) / 100 / 3, 4) as number });
  });
});

test('temperature, in the form that other programs read', async () => {
  const { temperature } = await form('apricot-hearth.bake');
  expect(temperature).toMatchObject({ desired_c: 25, ice_g: 0, liquid: 'water', go_by: 'factors', friction_c: 12, friction_measured: true });
  // Four factors: 4 × 25 less flour at 20, the room at 22, the levain as warm as where it ripens, and the friction.
  expect(temperature.water_c).toBeCloseTo(4 * 25 - 20 - 22 - 25 - 12, 1);
  expect(temperature.water_heat_balance_c).toBeGreaterThan(15);
});

test('a dish has the allergens of the loaf that it uses', async () => {
  const { allergens, temperature } = await form('leek-bake.bake');
  expect(allergens).toMatchObject({ eu: ['eggs', 'gluten:rye', 'gluten:wheat', 'milk'], us: ['egg', 'milk', 'wheat'], unknown: ['leeks'] });
  expect(temperature).toMatchObject({ desired_c: null, water_c: null, water_heat_balance_c: null, ice_g: null });
});

test('--label and --facts on the sheet; what they do not take', async () => {
  const file = path.join(SAMPLES, 'seeded-tin.bake');
  const { out } = await proofsheet(['sheet', file, '--label', 'us']);
  expect(out).toMatch(/total fat {2,}8 g {2,}4 g/);
  expect(out).toMatch(/Allergens\n {2}US {3}milk, wheat\n/);
  expect((await proofsheet(['sheet', file, '--facts'])).out).toContain('US FDA advice on raw flour');
  expect(await proofsheet(['sheet', file, '--label', 'Lisbon'])).toMatchObject({ status: 2, err: '--label takes eu or us, not "Lisbon".\n' });
  expect(await proofsheet(['sheet', file, '--slice', 'thin'])).toMatchObject({ status: 2, err: '--slice takes a weight above 0, such as "900 g" or "5 kg", not "thin".\n' });
});

test('what the settings file says of labels counts, and an option goes before it', async () => {
  const cwd = workspace({ 'proofsheet.json': '{ "allergens": "us", "labelRounding": "us" }', 'a.bake': 'formula "A"\n  makes 1 loaf\n  loses 10 % in the oven\n\ndough\n  500 g bread flour\n  340 g water\n  10 g salt\n' });
  const { out } = await proofsheet(['sheet', 'a.bake'], { cwd });
  expect(out).toMatch(/^ {2}US {3}wheat$/m);
  expect(out).not.toMatch(/^ {2}EU /m);
  expect(out).toMatch(/^ {2}calories +\d+0 /m);
  expect((await proofsheet(['sheet', 'a.bake', '--label', 'eu'], { cwd })).out).toMatch(/^ {2}EU {3}cereals containing gluten \(wheat\)$/m);
});
