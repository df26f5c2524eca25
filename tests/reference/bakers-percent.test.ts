/**
 * Worked examples of baker's percentages, each against its published or derived source. The examples are data
 * (`checks.json`); here each is written as the formula a baker would write, resolved, and compared.
 */
import { describe, expect } from 'vitest';
import { eachCheck } from './outside';
import { resolveText, type Resolved } from './resolve-text';

interface ExpectedPreferment {
  name: string;
  flour_g: number;
  water_g: number;
  salt_g: number;
  yeast_g: number;
  total_g: number;
}

interface Preferment {
  name: string;
  prefermented_flour_pct: number;
  hydration_pct: number;
  salt_pct_of_preferment_flour?: number;
  yeast_pct_of_preferment_flour?: number;
}

/** A number, or an object of them: which, the topic knows. */
type Field = number & { readonly [K in Key]: Field };
type Key =
  | 'final_dough_g' | 'poolish_g' | 'feasible' | 'scald_flour_g' | 'scald_water_g' | 'scald_weight_before_g' | 'seeds_g' | 'soaker_total_g'
  | 'total_yeast_g' | 'water_by_ingredient_g'
  | 'added_fat_pct_of_flour' | 'available_g' | 'bread' | 'butter' | 'divide_and_mix_loss_pct' | 'dough_g'
  | 'dough_needed_g' | 'dough_water_pct_of_flour' | 'dough_weight_g' | 'dough_weight_lb' | 'dough_yield_TA'
  | 'evaporated_g' | 'final_dough' | 'final_flour_g' | 'final_flour_lb' | 'final_water_g' | 'final_water_lb'
  | 'flour' | 'flour_g' | 'flour_lb' | 'flours_in_final_dough_g' | 'formula_pct' | 'fresh_flour_in_final_mix_g'
  | 'hydration_excl_soaker_water_pct' | 'hydration_incl_soaker_water_pct' | 'hydration_pct' | 'inclusions_g'
  | 'inclusions_pct_of_dough' | 'inclusions_pct_of_flour' | 'ingredients_g' | 'levain' | 'levain_fresh_flour_g'
  | 'levain_fresh_water_g' | 'levain_g' | 'levain_hydration_pct' | 'levain_pct_of_final_mix_flour'
  | 'levain_pct_of_total_flour' | 'levain_total_g' | 'liquid_g' | 'naive_hydration_pct' | 'name'
  | 'nominal_hydration_pct' | 'overall_hydration_pct' | 'pct_of_dough' | 'percent' | 'piece_dough_g' | 'pieces'
  | 'poolish_pct_of_final_flour' | 'preferment_total_g' | 'prefermented_flour_pct' | 'preferments' | 'raisins'
  | 'salt' | 'salt_g' | 'salt_lb' | 'salt_pct' | 'salt_pct_of_preferment_flour' | 'scald_flour_pct_of_total_flour'
  | 'scald_water_parts_per_flour' | 'scald_weight_after_cooking_g' | 'seed_g' | 'seed_hydration_pct'
  | 'seed_pct_of_levain_fresh_flour' | 'seeds_pct_of_flour' | 'share_pct' | 'soaker' | 'soaker_water_g'
  | 'sponge_flour_lb' | 'sponge_hydration_pct' | 'sponge_water_lb' | 'starter_g' | 'starter_hydration_pct'
  | 'total_dough_g' | 'total_flour_g' | 'total_formula_pct' | 'total_g' | 'total_salt_g' | 'total_water_g'
  | 'total_water_pct_of_flour' | 'true_hydration_pct' | 'walnuts' | 'water' | 'water_g' | 'water_lb' | 'water_pct'
  | 'water_total_pct_of_flour' | 'weights_lb' | 'whole_grain_pct' | 'whole_wheat' | 'yeast' | 'yeast_active_dry'
  | 'yeast_g' | 'yeast_instant' | 'yeast_lb' | 'yeast_pct' | 'yeast_pct_of_preferment_flour';

const OUNCES_A_POUND = 16;

/** One test an example, with its source in its name. */
function each(topic: string, compare: (inputs: Field, expected: Field, tolerance: Record<string, number>) => void): void {
  eachCheck<Field, Field>(`bakers_percent.${topic}`, compare);
}

const near = (actual: number | null | undefined, expected: number, tolerance: number) => {
  expect(actual, 'known').not.toBeNull();
  expect(Math.abs((actual ?? NaN) - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);
};

const row = ({ sheet }: Resolved, key: string) => sheet.rows.find((r) => r.key === key);
const partLine = ({ formula }: Resolved, part: string, key: string) =>
  formula.parts.find((p) => p.key === part)?.lines.find((l) => l.key === key)?.grams ?? 0;

describe('baker’s percentages against worked examples', () => {
  each('scale_from_dough_weight', (inputs, expected, tolerance) => {
    const pct = inputs.formula_pct;
    const result = resolveText(`
formula "Scaled"
  makes ${inputs.dough_weight_lb} lb
dough
  ${pct.flour} % bread flour
  ${pct.water} % water
  ${pct.salt} % salt
  ${pct.yeast ?? pct.yeast_active_dry} % active dry yeast
`);
    const pounds = (key: string) => (row(result, key)?.grams ?? NaN) / 453.59237;
    if (expected.total_formula_pct !== undefined) near((100 * result.totals.dough_g!) / result.totals.flour_g!, expected.total_formula_pct, tolerance.percent!);
    near(pounds('bread-flour'), expected.flour_lb, tolerance.pounds!);
    near(pounds('water'), expected.water_lb, tolerance.pounds!);
    near(pounds('salt'), expected.salt_lb, tolerance.pounds!);
    near(pounds('yeast-dry-active'), expected.yeast_lb, tolerance.pounds!);
  });

  each('weights_to_percent', (inputs, expected, tolerance) => {
    const lb = inputs.weights_lb;
    const result = resolveText(`
formula "Weighed"
dough
  ${lb.flour} lb bread flour
  ${lb.water} lb water
  ${lb.salt * OUNCES_A_POUND} oz salt
  ${lb.yeast} lb fresh yeast
`);
    near(result.totals.hydration_pct, expected.percent.water, tolerance.percent!);
    near(result.totals.salt_pct, expected.percent.salt, tolerance.percent!);
    near(row(result, 'yeast-fresh')?.pct, expected.percent.yeast, tolerance.percent!);
    near((100 * result.totals.dough_g!) / result.totals.flour_g!, expected.total_formula_pct, tolerance.percent!);
  });

  each('preferment_to_total', (inputs, expected, tolerance) => {
    const { poolish_g: poolish, final_dough_g: final } = inputs;
    const result = resolveText(`
formula "Poolish"
poolish
  ${poolish.flour} g bread flour
  ${poolish.water} g water
  ${poolish.yeast_instant} g instant yeast
dough
  ${final.flour} g bread flour
  ${final.water} g water
  ${final.yeast_instant} g instant yeast
  ${final.salt} g salt
  all poolish
`);
    near(result.totals.flour_g, expected.total_flour_g, tolerance.grams!);
    near(row(result, 'water')?.grams, expected.total_water_g, tolerance.grams!);
    near(row(result, 'salt')?.grams, expected.total_salt_g, tolerance.grams!);
    near(row(result, 'yeast-instant')?.grams, expected.total_yeast_g, tolerance.grams!);
    near(row(result, 'yeast-instant')?.pct, expected.yeast_pct, tolerance.percent!);
    near(result.totals.dough_g, expected.total_dough_g, tolerance.grams!);
    near(result.totals.hydration_pct, expected.overall_hydration_pct, tolerance.percent!);
    near(result.totals.salt_pct, expected.salt_pct, tolerance.percent!);
    near(result.totals.prefermented_flour_pct, expected.prefermented_flour_pct, tolerance.percent!);
    const dough = result.formula.parts[result.formula.dough!]!;
    near(dough.lines.find((l) => l.key === 'part:poolish')?.pct, expected.poolish_pct_of_final_flour, 0.1);
  });

  for (const topic of ['levain_100', 'levain_stiff_50', 'levain_liquid_125', 'poolish', 'biga', 'pate_fermentee', 'two_preferments']) {
    each(topic, (inputs, expected, tolerance) => {
      const result = resolveText(totalFormula(inputs as unknown as Sheet));
      expect(result.formula.troubles).toEqual([]);
      near(result.totals.flour_g, expected.total_flour_g, tolerance.grams!);
      near(row(result, 'water')?.grams, expected.total_water_g, tolerance.grams!);
      near(row(result, 'salt')?.grams ?? 0, expected.total_salt_g, tolerance.grams!);
      near(row(result, 'yeast-instant')?.grams ?? 0, expected.total_yeast_g, tolerance.yeast_grams!);
      near((100 * result.totals.dough_g!) / result.totals.flour_g!, expected.total_formula_pct, tolerance.percent!);
      near(result.totals.dough_g, expected.total_dough_g, tolerance.grams!);
      near(result.totals.hydration_pct, expected.overall_hydration_pct, tolerance.percent!);
      near(result.totals.prefermented_flour_pct, expected.prefermented_flour_pct, tolerance.percent!);
      let preferments = 0;
      for (const p of expected.preferments as unknown as ExpectedPreferment[]) {
        const name = p.name.replace('pate_fermentee', 'old dough');
        const part = result.formula.parts.find((q) => q.key === name)!;
        near(partLine(result, name, 'bread-flour'), p.flour_g, tolerance.grams!);
        near(partLine(result, name, 'water'), p.water_g, tolerance.grams!);
        near(partLine(result, name, 'salt'), p.salt_g, tolerance.grams!);
        near(partLine(result, name, 'yeast-instant'), p.yeast_g, tolerance.yeast_grams!);
        near(part.yieldGrams, p.total_g, tolerance.grams!);
        preferments += part.yieldGrams!;
      }
      const final = expected.final_dough;
      near(partLine(result, 'total formula', 'bread-flour'), final.flour_g, tolerance.grams!);
      near(partLine(result, 'total formula', 'water'), final.water_g, tolerance.grams!);
      near(partLine(result, 'total formula', 'salt'), final.salt_g, tolerance.grams!);
      near(partLine(result, 'total formula', 'yeast-instant'), final.yeast_g, tolerance.yeast_grams!);
      near(preferments, final.preferment_total_g, tolerance.grams!);
    });
  }

  each('infeasible_preferment', (inputs, expected) => {
    const result = resolveText(totalFormula(inputs as unknown as Sheet));
    const trouble = result.formula.troubles.find((t) => t.kind === 'total-leaves-out');
    expect(trouble === undefined).toBe(expected.feasible);
    expect(trouble).toMatchObject({ kind: 'total-leaves-out', ingredient: 'water', part: 'poolish' });
    if (trouble?.kind === 'total-leaves-out') near(trouble.listedGrams - trouble.neededGrams, expected.final_water_g, 0.5);
    expect(result.formula.parts.flatMap((p) => p.lines).every((l) => l.grams === null || l.grams >= 0)).toBe(true);
  });

  each('soaker', (inputs, expected, tolerance) => {
    const seeds = (inputs.flour_g * inputs.soaker.seeds_pct_of_flour) / 100;
    const extra = inputs.dough_water_pct_of_flour !== undefined;
    // The two conventions are two ways to write: the soaker's water inside a total list, or beside the dough's own.
    const result = resolveText(
      extra
        ? `
formula "Soaker, extra water"
soaker "seeds"
  ${seeds} g sunflower seeds
  ${seeds} g water
dough
  ${inputs.flour_g} g bread flour
  ${inputs.dough_water_pct_of_flour} % water
  ${inputs.salt_pct} % salt
  ${inputs.yeast_pct} % instant yeast
  all seeds
`
        : `
formula "Soaker inside the total"
soaker "seeds"
  ${seeds} g sunflower seeds
  ${seeds} g water
total formula
  ${inputs.flour_g} g bread flour
  ${inputs.water_total_pct_of_flour} % water
  ${inputs.salt_pct} % salt
  ${inputs.yeast_pct} % instant yeast
  ${inputs.soaker.seeds_pct_of_flour} % sunflower seeds
  all seeds
`,
    );
    expect(result.formula.troubles).toEqual([]);
    near(partLine(result, extra ? 'dough' : 'total formula', 'water'), expected.final_water_g, tolerance.grams!);
    near(partLine(result, 'seeds', 'water'), expected.soaker_water_g, tolerance.grams!);
    if (!extra) {
      near(partLine(result, 'seeds', 'sunflower-seeds'), expected.seeds_g, tolerance.grams!);
      near(result.formula.parts[0]!.yieldGrams, expected.soaker_total_g, tolerance.grams!);
    }
    near(result.totals.dough_g, expected.dough_g, tolerance.grams!);
    near(result.totals.water_pct, expected.hydration_incl_soaker_water_pct, tolerance.percent!);
    near(result.totals.hydration_pct, expected.hydration_excl_soaker_water_pct, tolerance.percent!);
  });

  each('scald', (inputs, expected, tolerance) => {
    const scaldFlour = (inputs.flour_g * inputs.scald_flour_pct_of_total_flour) / 100;
    const result = resolveText(`
formula "Scald"
scald
  ${scaldFlour} g bread flour
  ${scaldFlour * inputs.scald_water_parts_per_flour} g water at 98 C
  yields ${inputs.scald_weight_after_cooking_g} g
total formula
  ${inputs.flour_g} g bread flour
  ${inputs.total_water_pct_of_flour} % water
  all scald
`);
    near(partLine(result, 'scald', 'bread-flour'), expected.scald_flour_g, tolerance.grams!);
    near(partLine(result, 'scald', 'water'), expected.scald_water_g, tolerance.grams!);
    near(result.formula.parts[0]!.grams, expected.scald_weight_before_g, tolerance.grams!);
    near(result.sheet.cookedOffGrams, expected.evaporated_g, tolerance.grams!);
    near(partLine(result, 'total formula', 'bread-flour'), expected.final_flour_g, tolerance.grams!);
    near(partLine(result, 'total formula', 'water'), expected.final_water_g, tolerance.grams!);
    near(result.totals.hydration_pct, expected.overall_hydration_pct, tolerance.percent!);
  });

  each('enriched_true_hydration', (inputs, expected, tolerance) => {
    const names: Record<string, string> = {
      egg_whole: 'eggs', milk_whole: 'whole milk', butter_unsalted: 'unsalted butter', sugar: 'sugar', honey: 'honey', salt: 'salt', yeast_instant: 'instant yeast',
    };
    const lines = Object.entries(inputs.ingredients_g).map(([key, grams]) => `  ${grams} g ${names[key]}`);
    const result = resolveText(`\nformula "Enriched"\ndough\n  ${inputs.flour_g} g bread flour\n${lines.join('\n')}\n`);
    near(result.totals.dough_g, expected.total_dough_g, tolerance.grams!);
    near(result.totals.hydration_pct, expected.nominal_hydration_pct, tolerance.percent!);
    const waterOf = (key: string) => {
      const line = result.formula.parts[0]!.lines.find(({ name }) => name === names[key])!;
      return (line.grams! * line.ingredient!.composition.water!) / 100;
    };
    const waters = Object.entries(expected.water_by_ingredient_g);
    for (const [key, grams] of waters) near(waterOf(key), grams, tolerance.grams!);
    near(waters.reduce((sum, [key]) => sum + waterOf(key), 0), expected.total_water_g, tolerance.grams!);
    // The yeast and salt bring a little water of their own by the table (under 0.1 % of the flour), which the example leaves out.
    near(result.totals.effective_hydration_pct, expected.true_hydration_pct, 0.15);
    // The same holds for the fat of the yeast: the example counts egg, milk and butter only.
    near(result.totals.fat_pct, expected.added_fat_pct_of_flour, 0.15);
  });

  each('levain_with_seed', (inputs, expected, tolerance) => {
    const result = resolveText(`
formula "Levain with its seed"
levain
  100 % bread flour
  ${inputs.levain_hydration_pct} % water
  ${inputs.seed_pct_of_levain_fresh_flour} % starter at ${inputs.seed_hydration_pct} % hydration
total formula
  ${inputs.total_flour_g} g bread flour
  68 % water
  ${inputs.prefermented_flour_pct} % of flour in levain
`);
    near(result.formula.parts[0]!.yieldGrams, expected.levain_total_g, tolerance.grams!);
    near(partLine(result, 'levain', 'starter'), expected.seed_g, tolerance.grams!);
    near(partLine(result, 'levain', 'bread-flour'), expected.levain_fresh_flour_g, tolerance.grams!);
    near(partLine(result, 'levain', 'water'), expected.levain_fresh_water_g, tolerance.grams!);
    near(result.totals.flour_g, inputs.total_flour_g, tolerance.grams!);
  });

  each('levain_pct_conversions', (inputs, expected, tolerance) => {
    const half = inputs.levain_g / 2;
    const result = resolveText(`
formula "Three inoculations"
levain
  ${half} g bread flour
  ${half} g water
dough
  ${inputs.fresh_flour_in_final_mix_g} g bread flour
  all levain
`);
    const dough = result.formula.parts[1]!;
    near(dough.lines.find((l) => l.key === 'part:levain')?.pct, expected.levain_pct_of_final_mix_flour, tolerance.percent!);
    near(result.totals.inoculation_pct, expected.levain_pct_of_total_flour, tolerance.percent!);
    near(result.totals.prefermented_flour_pct, expected.prefermented_flour_pct, tolerance.percent!);
  });

  each('true_hydration_from_recipe', (inputs, expected, tolerance) => {
    const result = resolveText(`
formula "A cup of starter"
dough
  ${inputs.flour_g} g bread flour
  ${inputs.water_g} g water
  ${inputs.starter_g} g starter at ${inputs.starter_hydration_pct} % hydration
`);
    near(result.totals.flour_g, expected.total_flour_g, tolerance.grams!);
    near((result.totals.water_pct! * result.totals.flour_g!) / 100, expected.total_water_g, tolerance.grams!);
    near(result.totals.dough_hydration_pct, expected.naive_hydration_pct, tolerance.percent!);
    near(result.totals.hydration_pct, expected.overall_hydration_pct, tolerance.percent!);
    near(result.totals.prefermented_flour_pct, expected.prefermented_flour_pct, tolerance.percent!);
  });

  each('dough_yield_ta', (inputs, expected, tolerance) => {
    const { totals } = resolveText(`\nformula "TA"\ndough\n  ${inputs.flour_g} g bread flour\n  ${inputs.liquid_g} g water\n`);
    near(totals.hydration_pct, expected.hydration_pct, tolerance.percent!);
    near(100 + totals.hydration_pct!, expected.dough_yield_TA, tolerance.percent!);
  });

  each('flour_share', (inputs, expected, tolerance) => {
    const result = resolveText(`
formula "Shares"
levain
  ${inputs.levain.flour_g} g wholemeal rye flour
  100 g water
dough
  ${inputs.flours_in_final_dough_g.bread} g bread flour
  ${inputs.flours_in_final_dough_g.whole_wheat} g whole wheat flour
  all levain
`);
    near(result.totals.flour_g, expected.total_flour_g, 1e-9);
    near(row(result, 'bread-flour')?.pct, expected.share_pct.bread, tolerance.percent!);
    near(row(result, 'whole-wheat-flour')?.pct, expected.share_pct.whole_wheat, tolerance.percent!);
    const wholeGrain = result.formula.parts.flatMap((p) => p.lines).filter((l) => l.ingredient?.wholeGrain);
    near((100 * wholeGrain.reduce((sum, l) => sum + l.grams!, 0)) / result.totals.flour_g!, expected.whole_grain_pct, tolerance.percent!);
  });

  each('pct_of_dough', (inputs, expected, tolerance) => {
    const pct = inputs.formula_pct;
    const result = resolveText(`
formula "Of dough"
  makes 1 kg
dough
  ${pct.flour} % bread flour
  ${pct.water} % water
  ${pct.salt} % salt
  ${pct.yeast} % instant yeast
`);
    const ofDough = (key: string) => (100 * row(result, key)!.grams!) / result.totals.dough_g!;
    near(ofDough('bread-flour'), expected.pct_of_dough.flour, tolerance.percent!);
    near(ofDough('water'), expected.pct_of_dough.water, tolerance.percent!);
    near(ofDough('salt'), expected.pct_of_dough.salt, tolerance.percent!);
    near(ofDough('yeast-instant'), expected.pct_of_dough.yeast, tolerance.percent!);
  });

  each('limiting_ingredient', (inputs, expected, tolerance) => {
    const pct = inputs.formula_pct;
    const text = `
formula "What the butter allows"
  makes 1 kg
dough
  ${pct.flour} % bread flour
  ${pct.water} % water
  ${pct.salt} % salt
  ${pct.butter} % butter
`;
    const { scaled } = resolveText(text, { by: 'have', name: 'butter', grams: inputs.available_g.butter });
    near(row(scaled!, 'bread-flour')?.grams, expected.flour_g, tolerance.grams!);
    near(row(scaled!, 'water')?.grams, expected.water_g, tolerance.grams!);
    near(row(scaled!, 'salt')?.grams, expected.salt_g, tolerance.grams!);
    near(scaled!.totals.dough_g, expected.total_g, tolerance.grams!);
  });

  each('pieces_with_loss', (inputs, expected, tolerance) => {
    const rest = inputs.total_formula_pct - 100;
    const result = resolveText(`
formula "Rolls"
  makes ${inputs.pieces} rolls of ${inputs.piece_dough_g} g
  loses ${inputs.divide_and_mix_loss_pct} % at the bench
dough
  100 % bread flour
  ${rest} % water
`);
    near(result.totals.dough_g, expected.dough_needed_g, tolerance.grams!);
    near(result.totals.flour_g, expected.flour_g, tolerance.grams!);
    near(result.totals.piece_g, inputs.piece_dough_g, 1e-9);
  });

  each('sponge_1916', (inputs, expected, tolerance) => {
    const result = resolveText(`
formula "Sponge and dough"
sponge
  ${expected.sponge_flour_lb} lb bread flour
  ${(inputs.water_lb * 4) / 7} lb water
  1 lb fresh yeast
total formula
  ${inputs.flour_lb} lb bread flour
  ${inputs.water_lb} lb water
  1 lb fresh yeast
  50 % of flour in sponge
`);
    const pound = 453.59237;
    near(partLine(result, 'total formula', 'bread-flour') / pound, expected.final_flour_lb, tolerance.pounds!);
    near(partLine(result, 'total formula', 'water') / pound, expected.final_water_lb, tolerance.pounds!);
    near(partLine(result, 'sponge', 'water') / pound, expected.sponge_water_lb, tolerance.pounds!);
    near(result.totals.prefermented_flour_pct, expected.prefermented_flour_pct, tolerance.percent!);
    near(result.formula.parts[0]!.lines.find((l) => l.key === 'water')?.pct, expected.sponge_hydration_pct, tolerance.percent!);
  });

  each('inclusion_load', (inputs, expected, tolerance) => {
    const { totals } = resolveText(`
formula "Load"
dough
  ${inputs.flour_g} g bread flour
  ${inputs.water_g} g water
  ${inputs.salt_g} g salt
  ${inputs.yeast_g} g instant yeast
  ${inputs.inclusions_g.raisins} g raisins
  ${inputs.inclusions_g.walnuts} g walnuts
`);
    near(totals.inclusions_pct, expected.inclusions_pct_of_flour, tolerance.percent!);
    near(totals.inclusions_of_dough_pct, expected.inclusions_pct_of_dough, tolerance.percent!);
  });
});

interface Sheet {
  water_pct: number;
  salt_pct?: number;
  yeast_pct?: number;
  preferments: Preferment[];
  dough_weight_g?: number;
  total_flour_g?: number;
}

function totalFormula(inputs: Sheet): string {
  const name = (p: Preferment) => p.name.replace('pate_fermentee', 'old dough');
  const some = (pct: number | undefined, what: string) => (pct ? `  ${pct} % ${what}\n` : '');
  const parts = inputs.preferments.map(
    (p) => `${name(p)}\n  100 % bread flour\n  ${p.hydration_pct} % water\n${some(p.salt_pct_of_preferment_flour, 'salt')}${some(p.yeast_pct_of_preferment_flour, 'instant yeast')}`,
  );
  const flour = inputs.total_flour_g ? `${inputs.total_flour_g} g` : '100 %';
  return `
formula "Sheet"
${inputs.dough_weight_g ? `  makes ${inputs.dough_weight_g} g` : ''}
${parts.join('\n')}
total formula
  ${flour} bread flour
  ${inputs.water_pct} % water
${some(inputs.salt_pct, 'salt')}${some(inputs.yeast_pct, 'instant yeast')}${inputs.preferments.map((p) => `  ${p.prefermented_flour_pct} % of flour in ${name(p)}`).join('\n')}
`;
}
