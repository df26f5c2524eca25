import { describe, expect, test } from 'vitest';
import { sheetJson } from '../../server/output/sheet-json';
import { entriesOf } from './from-text';

interface Line { readonly name: string; readonly key: string; readonly role?: string; readonly grams: number | null; readonly pct: number | null; readonly text?: string | null }

interface SheetForm {
  readonly name: string;
  readonly kind: string;
  readonly line: number;
  readonly totals: Readonly<Record<string, number | null>>;
  readonly yield: unknown;
  readonly parts: readonly { readonly name: string; readonly kind: string; readonly total_g: number | null; readonly flour_g: number | null; readonly left_over_g: number | null; readonly lines: readonly Line[] }[];
  readonly total: readonly Line[];
  readonly final_dough: readonly Line[];
  readonly temperature: unknown;
  readonly nutrition_per_100g: unknown;
  readonly allergens: { readonly eu: readonly string[]; readonly us: readonly string[] };
  readonly cost: unknown;
}

const formsOf = (text: string): readonly SheetForm[] => (JSON.parse(sheetJson(entriesOf(text))) as { formulas: readonly SheetForm[] }).formulas;
const formOf = (text: string): SheetForm => formsOf(text)[0]!;

describe('the stable JSON form of a sheet', () => {
  const form = formOf(`# a comment above
formula "Rye"
  makes     2 loaves

levain
  50 g      dark rye flour
  50 g      water
  keep      20 g

dough at 25 C
  450 g     bread flour   # from the mill
  290 g     water
  all       levain
  10 g      salt
  15 g      rice flour for dusting
`);

  test('what it is and where', () => {
    expect(form).toMatchObject({
      name: 'Rye', kind: 'formula', line: 2,
      yield: { pieces: 2, noun: 'loaves', piece_g: form.totals.piece_g, tin_ml: null, tin_ml_per_g: null, tin_assumed: false },
      temperature: { desired_c: 25, water_c: null, water_heat_balance_c: null, ice_g: null },
    });
  });

  test('all the names of the totals table, and hydration by them', () => {
    expect(Object.keys(form.totals).sort()).toEqual([
      'baked_piece_g', 'dough_g', 'dough_hydration_pct', 'effective_hydration_pct', 'egg_pct', 'fat_pct', 'flour_g', 'flour_protein_pct',
      'hidden_salt_pct', 'hydration_pct', 'inclusion_sugar_pct', 'inclusions_of_dough_pct', 'inclusions_pct', 'inoculation_pct', 'milk_solids_pct',
      'piece_g', 'prefermented_flour_pct', 'salt_pct', 'sugar_pct', 'water_pct',
    ]);
    // 80 of the 100 g of levain go in: 40 g of flour and 40 g of water.
    expect(form.totals).toMatchObject({ flour_g: 490, hydration_pct: expect.closeTo((100 * 330) / 490, 5) as number });
  });

  test('a part: what is weighed into it, and the text of each line without its comment', () => {
    expect(form.parts.map(({ name, kind, total_g, flour_g, left_over_g }) => ({ name, kind, total_g, flour_g, left_over_g }))).toEqual([
      { name: 'levain', kind: 'levain', total_g: 100, flour_g: 50, left_over_g: 0 },
      { name: 'dough', kind: 'dough', total_g: 830, flour_g: 450, left_over_g: 0 },
    ]);
    expect(form.parts[1]?.lines[0]).toEqual({ name: 'bread flour', key: 'bread-flour', role: 'flour', grams: 450, pct: 100, text: '450 g     bread flour' });
    expect(form.parts[1]?.lines.find(({ key }) => key === 'part:levain')).toMatchObject({ grams: 80, text: 'all       levain' });
  });

  test('the total and the final dough', () => {
    const total = Object.fromEntries(form.total.map(({ key, grams }) => [key, grams]));
    expect(total).toMatchObject({ 'bread-flour': 450, water: 330, salt: 10 });
    expect(form.total.reduce((sum, { grams }) => sum + (grams ?? NaN), 0)).toBeCloseTo(form.totals.dough_g!, 6);
    expect(form.final_dough.map(({ name, grams }) => [name, grams])).toEqual([['bread flour', 450], ['water', 290], ['levain', 80], ['salt', 10]]);
    expect(form.final_dough[1]?.pct).toBeCloseTo((100 * 290) / 450, 5);
  });
});

test('allergens are those of every line, dusting included', () => {
  const { allergens } = formOf('dough\n  100 g bread flour\n  60 g water\n  10 g butter for the tins\n  5 g sesame seeds for the top\n');
  expect(allergens.us).toEqual(['milk', 'sesame', 'wheat']);
  expect(allergens.eu.join(' ')).toMatch(/gluten.*milk.*sesame/);
});

describe('cost', () => {
  const PRICED = 'ingredient "mill flour"\n  like bread flour\n  costs 2.40 EUR per kg\n\ningredient "grey salt"\n  like salt\n  costs 1 EUR per kg\n\n';

  test('known when every line has a price; water from the tap is free', () => {
    expect(formOf(`${PRICED}formula "X"\n\ndough\n  1000 g mill flour\n  700 g water\n  20 g grey salt\n`).cost).toEqual({ amount: 2.42, currency: 'EUR', per_piece: null, unpriced: [] });
  });

  test('null as soon as one has none', () => {
    expect(formOf(`${PRICED}formula "X"\n\ndough\n  1000 g mill flour\n  700 g water\n  20 g salt\n`).cost).toEqual({ amount: null, currency: null, per_piece: null, unpriced: ['salt'] });
  });
});

test('what cannot be known is null, never 0', () => {
  const form = formOf('formula "X"\n\ndough\n  500 g bread flour\n  1 cup unobtainium\n');
  expect(form.totals.dough_g).toBeNull();
  expect(form.parts[0]).toMatchObject({ total_g: null });
  expect(form.final_dough.find(({ name }) => name === 'unobtainium')).toMatchObject({ grams: null, pct: null });
});

test('a dish, and several in one file', () => {
  const forms = formsOf('formula "A"\n\ndough\n  100 g bread flour\n\ndish "B"\n  serves 4\n\ncustard\n  500 g milk\n');
  expect(forms.map(({ name, kind, line }) => ({ name, kind, line }))).toEqual([{ name: 'A', kind: 'formula', line: 1 }, { name: 'B', kind: 'dish', line: 6 }]);
  expect(forms[1]).toMatchObject({ final_dough: [], temperature: { desired_c: null } });
});
