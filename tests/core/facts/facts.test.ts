import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allergensOf, availableCarbohydrate, coolingOf, costOf, costReport, euGrams, euSalt, euSaturates, germanRyeName, nutrientsOf, nutritionOf, panettone,
  timeControlOf, timesNutrients, totalCarbohydrate, usBreadSolids, usCalories, usFat, usGrams, usSodium, type Nutrition,
} from '../../../server/core/facts';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { analyseFormula, analyseText } from '../bake';

const LOAF = `formula "Loaf"
  makes     2 loaves
  loses     12 % in the oven

levain
  100 g     whole wheat flour
  100 g     water
  20 g      starter
  keep      20 g

dough
  900 g     bread flour
  600 g     water
  200 g     levain
  20 g      salt
  100 g     walnuts
`;

function nutritionIn(text: string, options?: Parameters<typeof nutritionOf>[3]): Nutrition | null {
  const { formula, totals, sheet } = analyseFormula(text);
  return nutritionOf(formula, totals, sheet, options);
}

describe('nutrition', () => {
  it('is by the baked weight', () => {
    const nutrition = nutritionIn(LOAF);
    expect(nutrition?.bakedGrams).toBeCloseTo((900 + 600 + 200 + 20 + 100) * 0.88, 6);
    const heavy = nutritionIn(LOAF.replace('loses     12 %', 'loses     20 %'));
    expect((heavy?.per100g.energyKj ?? NaN) / (nutrition?.per100g.energyKj ?? NaN)).toBeCloseTo(0.88 / 0.8, 9);
  });

  it('of a slice, of a piece and of 100 g are one thing', () => {
    const nutrition = nutritionIn(LOAF, { sliceGrams: 40 });
    expect((nutrition?.perSlice.protein ?? NaN) / 40).toBeCloseTo((nutrition?.per100g.protein ?? NaN) / 100, 9);
    expect((nutrition?.perPiece?.protein ?? NaN) * 2).toBeCloseTo(((nutrition?.per100g.protein ?? NaN) * (nutrition?.bakedGrams ?? NaN)) / 100, 6);
  });

  it('of a piece is what is left after the bench, of 100 g the same as without it', () => {
    const plain = nutritionIn(LOAF);
    const lossy = nutritionIn(LOAF.replace('  loses     12 %', '  loses     5 % at the bench\n  loses     12 %'));
    expect((lossy?.perPiece?.energyKj ?? NaN) / (plain?.perPiece?.energyKj ?? NaN)).toBeCloseTo(0.95, 9);
    expect(lossy?.per100g.energyKj).toBeCloseTo(plain?.per100g.energyKj ?? NaN, 9);
  });

  it('of all pieces together is what the pieces have, the bench and the oven taken off', () => {
    const share = fc.double({ min: 0.5, max: 15, noNaN: true });
    fc.assert(fc.property(share, share, fc.integer({ min: 20, max: 120 }), (bench, oven, sliceGrams) => {
      const text = LOAF.replace('  loses     12 %', `  loses     ${bench.toFixed(2)} % at the bench\n  loses     ${oven.toFixed(2)} %`);
      const { formula } = analyseFormula(text);
      const { bakedGrams, per100g, perPiece, perSlice } = nutritionIn(text, { sliceGrams })!;
      expect(bakedGrams).toBeCloseTo(2 * formula.yield.bakedPieceGrams!, 6);
      for (const nutrient of ['energyKj', 'protein', 'carbohydrate', 'salt'] as const) {
        const all = (per100g[nutrient]! * bakedGrams) / 100;
        expect(2 * perPiece![nutrient]!).toBeCloseTo(all, 6);
        expect((perSlice[nutrient]! * bakedGrams) / sliceGrams).toBeCloseTo(all, 6);
      }
    }));
  });

  it('does not count water that is cooked off a scald', () => {
    const scalded = (yields: string) => nutritionIn(`formula "Scald"
  loses 10 % in the oven

scald
  50 g  bread flour
  250 g water
${yields}
dough
  450 g bread flour
  100 g water
  all   scald
`);
    expect(scalded('')?.bakedGrams).toBeCloseTo(850 * 0.9, 9);
    expect(scalded('  yields 260 g\n')?.bakedGrams).toBeCloseTo(810 * 0.9, 9);
  });

  it('does not change with the size of the batch', () => {
    const twice = LOAF.replace(/(\d+) g /g, (_, grams: string) => `${String(Number(grams) * 2)} g `).replace('keep      20 g', 'keep      40 g');
    expect(nutritionIn(twice)?.per100g.energyKj).toBeCloseTo(nutritionIn(LOAF)?.per100g.energyKj ?? NaN, 9);
  });

  it('counts only the levain that the dough takes, its starter as the flours of the formula', () => {
    const { formula, totals, sheet } = analyseFormula(LOAF);
    const protein = nutritionOf(formula, totals, sheet)?.per100g.protein ?? NaN;
    const flour = (name: string) => builtInCatalogue.find(name)?.composition.protein ?? NaN;
    const used = 200 / 220;
    const blend = (900 * flour('bread flour') + 100 * used * flour('whole wheat flour')) / (900 + 100 * used);
    const grams = 9 * flour('bread flour') + used * flour('whole wheat flour') + (10 * used * blend) / 100 + flour('walnuts');
    expect(protein).toBeCloseTo((100 * grams) / (1820 * 0.88), 6);
  });

  it('reckons with a usual loss where none is written, and says so', () => {
    const nutrition = nutritionIn(LOAF.replace('  loses     12 % in the oven\n', '  style     pan\n'));
    expect(nutrition?.ovenLoss).toBeCloseTo(0.105, 9);
    expect(nutrition?.assumptions.join(' ')).toContain('10.5 % is reckoned with, the middle of what is usual (pan)');
  });

  it('counts a filling and what goes on top, not what greases the tin', () => {
    const knots = 'formula "Knots"\n  loses 10 % in the oven\n\ndough\n  500 g bread flour\n  300 g water\n';
    const plain = nutritionIn(knots);
    const filled = nutritionIn(`${knots}\nfilling\n  100 g butter\n`);
    expect((filled?.per100g.fat ?? NaN) * (filled?.bakedGrams ?? NaN)).toBeGreaterThan((plain?.per100g.fat ?? NaN) * (plain?.bakedGrams ?? NaN) + 7900);
    expect(nutritionIn(`${knots}  20 g sesame seeds for the top\n`)?.bakedGrams).toBeCloseTo((plain?.bakedGrams ?? NaN) + 18, 9);
    expect(nutritionIn(`${knots}  20 g butter for the tins\n`)?.bakedGrams).toBeCloseTo(plain?.bakedGrams ?? NaN, 9);
  });

  it('is null for a nutrient that a main ingredient does not tell, and for a weight that is not known', () => {
    const unknown = nutritionIn(LOAF.replace('100 g     walnuts', '100 g     moon cheese'));
    expect(unknown?.per100g.energyKj).toBeNull();
    expect(unknown?.unknown).toEqual(['moon cheese']);
    expect(nutritionIn('formula "X"\n\ndough\n  500 g bread flour\n  1 cup unobtainium\n')).toBeNull();
    const trace = nutritionIn(LOAF.replace('100 g     walnuts', '1 g     moon dust'));
    expect(trace?.per100g.energyKj).not.toBeNull();
  });

  it('names which ingredient keeps which nutrient from being known', () => {
    const seeds = 'ingredient "seed mix"\n  role inclusion\n  water 6 %\n  protein 22 %\n  fat 48 %\n  fibre 12 %\n  sugar 2 %\n  salt 0 %\n\n';
    const nutrition = nutritionIn(seeds + LOAF.replace('walnuts', 'seed mix'));
    expect(nutrition?.per100g).toMatchObject({ saturated: null, energyKj: expect.any(Number) as number });
    expect(nutrition?.lacking).toEqual({ energy: [], fat: [], saturated: ['seed mix'], carbohydrate: [], sugars: [], fibre: [], protein: [], salt: [] });
    expect(nutritionIn(LOAF.replace('walnuts', 'moon cheese'))?.lacking).toMatchObject({ energy: ['moon cheese'], salt: ['moon cheese'] });
  });

  it('of a dish takes the bread it uses from that bread', () => {
    const analyses = analyseText(`${LOAF}
dish "Toast"
  serves 2
  uses 400 g "Loaf"
`);
    const loaf = nutritionIn(LOAF);
    const dish = analyses.find(({ section }) => section.kind === 'dish');
    if (!dish?.formula || !dish.totals || !dish.sheet) throw new Error('no dish');
    const nutrition = nutritionOf(dish.formula, dish.totals, dish.sheet);
    expect(nutrition?.bakedGrams).toBe(400);
    expect(nutrition?.per100g.energyKj).toBeCloseTo(loaf?.per100g.energyKj ?? NaN, 6);
    expect(nutrition?.perPiece?.energyKj).toBeCloseTo(2 * (loaf?.per100g.energyKj ?? NaN), 6);
    expect(allergensOf(dish.formula).us).toEqual(['tree-nuts:walnut', 'wheat']);
  });
});

describe('carbohydrate', () => {
  it('of a European table and of an American one', () => {
    const european = builtInCatalogue.find('T65 flour');
    expect(european?.composition).toMatchObject({ carbohydrate: 68.7, fibre: 3.9, carbohydrateBasis: 'available' });
    expect([availableCarbohydrate(european!.composition), totalCarbohydrate(european!.composition)]).toEqual([68.7, expect.closeTo(72.6, 9)]);
    const american = builtInCatalogue.find('bread flour');
    expect([availableCarbohydrate(american!.composition), totalCarbohydrate(american!.composition)]).toEqual([expect.closeTo(70.13, 9), 72.53]);
  });

  it('is with and without fibre, whichever way the table counts', () => {
    for (const { ingredient } of builtInCatalogue.all) {
      const available = availableCarbohydrate(ingredient.composition);
      const total = totalCarbohydrate(ingredient.composition);
      if (available === null || total === null) continue;
      expect(total, ingredient.key).toBeGreaterThanOrEqual(available);
      expect(available, ingredient.key).toBeGreaterThanOrEqual(0);
    }
  });

  it('of nothing is nothing', () => {
    expect(nutrientsOf([]).energyKj).toBe(0);
    expect(timesNutrients(nutrientsOf([]), 3).protein).toBe(0);
  });
});

describe('rounding for a label', () => {
  it('never falls as the amount rises, and stays within a step of it', () => {
    const amount = fc.double({ min: 0, max: 400, noNaN: true });
    const asNumber = (value: number | string) => (typeof value === 'number' ? value : 0.75);
    fc.assert(
      fc.property(amount, fc.double({ min: 0, max: 50, noNaN: true }), (value, more) => {
        for (const rule of [usCalories, usFat, usSodium, usGrams, euGrams, euSaturates]) {
          if (typeof rule(value) === 'string' || typeof rule(value + more) === 'string') continue;
          expect(asNumber(rule(value + more))).toBeGreaterThanOrEqual(asNumber(rule(value)));
        }
        expect(Math.abs(usCalories(value) - value)).toBeLessThanOrEqual(5);
        expect(Math.abs(usSodium(value) - value)).toBeLessThanOrEqual(5 + 1e-6);
      }),
    );
  });

  it('says less than, where the guidance does', () => {
    expect([euGrams(0.5), euGrams(0.51), euGrams(9.96), euGrams(10.4)]).toEqual(['<0.5', 0.5, 10, 10]);
    expect([euSalt(0.01), euSalt(0.234), euSalt(1.26)]).toEqual(['<0.01', 0.23, 1.3]);
    expect([euSaturates(0.1), euSaturates(0.16)]).toEqual(['<0.1', 0.2]);
    expect([usGrams(0.49), usGrams(0.5), usGrams(1)]).toEqual([0, 'less than 1 g', 1]);
  });

  it('puts a tie up although binary fractions put it under', () => {
    expect([usFat(1.25), usFat(0.75), euSalt(1.25), euGrams(2.35)]).toEqual([1.5, 1, 1.3, 2.4]);
  });
});

describe('allergens', () => {
  const of = (lines: string) => allergensOf(analyseFormula(`formula "X"\n\ndough\n${lines}`).formula);

  it('are those of every line, dusting included', () => {
    const found = of('  100 g bread flour\n  60 g water\n  10 g butter for the tins\n  5 g sesame seeds for the top\n');
    expect(found).toEqual({ eu: ['gluten:wheat', 'milk', 'sesame'], us: ['milk', 'sesame', 'wheat'], checkLabel: [], unknown: [] });
  });

  it('name what nobody knows', () => {
    expect(of('  100 g bread flour\n  60 g water\n  10 g moon cheese\n').unknown).toEqual(['moon cheese']);
  });

  it('ask after the flour of a culture where no other flour has gluten', () => {
    expect(of('  100 g rice flour\n  90 g water\n  10 g starter\n')).toMatchObject({ eu: [], checkLabel: ['gluten'] });
    expect(of('  100 g rye flour\n  90 g water\n  10 g starter\n')).toMatchObject({ eu: ['gluten:rye'], us: [], checkLabel: [] });
  });
});

describe('cost', () => {
  const PRICED = 'ingredient "mill flour"\n  like bread flour\n  costs 2.40 EUR per kg\n\ningredient "grey salt"\n  like salt\n  costs 1 EUR per kg\n\n';
  const of = (text: string) => analyseFormula(PRICED + text).formula;

  it('is known when every line has a price; water from the tap is free', () => {
    const formula = of('formula "X"\n  makes 4 loaves\n\ndough\n  1000 g mill flour\n  700 g water\n  20 g grey salt\n');
    expect(costOf(formula)).toEqual({ amount: 2.42, currency: 'EUR' });
    expect(costReport(formula)).toEqual({ amount: 2.42, currency: 'EUR', perPiece: 0.605, unpriced: [] });
  });

  it('is null as soon as one has none, and says which', () => {
    const formula = of('formula "X"\n\ndough\n  1000 g mill flour\n  700 g water\n  20 g salt\n');
    expect(costOf(formula)).toEqual({ amount: null, currency: null });
    expect(costReport(formula).unpriced).toEqual(['salt']);
  });

  it('of a culture is that of its flour', () => {
    expect(costReport(of('formula "X"\n\ndough\n  1000 g rye flour\n  200 g starter\n')).unpriced).toEqual(['rye flour']);
    expect(costOf(of('formula "X"\n\ndough\n  1000 g mill flour\n  700 g water\n  200 g starter\n')).amount).toBeCloseTo(2.4 * 1.1, 9);
  });

  it('of bread in a dish is that of its baked weight', () => {
    const text = `${PRICED}formula "X"
  makes 2 loaves
  loses 10 % at the bench
  loses 20 % in the oven

dough
  1000 g mill flour
  700 g water

dish "Toast"
  uses 612 g "X"
`;
    const dish = analyseText(text).find(({ section }) => section.kind === 'dish');
    // 1700 g of dough give 1700 x 0.9 x 0.8 = 1224 g of bread for 2.40 EUR.
    expect(costOf(dish!.formula!).amount).toBeCloseTo(1.2, 9);
  });

  it('of bread that a dish takes is by its baked weight, with the loss that nutrition reckons with', () => {
    const analyses = analyseText(`${PRICED}formula "X"\n  style pan\n\ndough\n  1000 g mill flour\n  700 g water\n  20 g grey salt\n\ndish "Toast"\n  serves 2\n  uses 500 g "X"\n`);
    const dish = analyses.find(({ section }) => section.kind === 'dish')?.formula;
    if (!dish) throw new Error('no dish');
    // Pan loaves lose 10.5 %, the middle of what is usual: 1720 g of dough are 1539.4 g of bread.
    expect(costReport(dish)).toMatchObject({ amount: expect.closeTo((2.42 * 500) / (1720 * 0.895), 9) as number, perPiece: null });
  });

  it('is not added up over two currencies', () => {
    const dollars = 'ingredient "far salt"\n  like salt\n  costs 1 USD per kg\n\n';
    expect(costOf(analyseFormula(`${PRICED}${dollars}formula "X"\n\ndough\n  1000 g mill flour\n  20 g far salt\n`).formula)).toEqual({ amount: null, currency: null });
  });
});

describe('names and limits', () => {
  it('go by the share of rye, at its edges too', () => {
    expect([100, 90, 89.9, 50.1, 49.9, 10.1, 10, 0].map(germanRyeName)).toEqual([
      'Roggenbrot', 'Roggenbrot', 'Roggenmischbrot', 'Roggenmischbrot', 'Weizenmischbrot', 'Weizenmischbrot', 'Weizenbrot', 'Weizenbrot',
    ]);
  });

  it('ask nothing of a dough that is dry enough as it is', () => {
    expect(usBreadSolids([{ grams: 1000, waterPct: 13 }, { grams: 200, waterPct: 100 }]).leastLoss).toBe(0);
  });

  it('hold a panettone to each share by itself', () => {
    expect(panettone({ total: 1000, butter: 160, fruit: 200, yolk: 40, yeast: 11 })).toMatchObject({ butterOk: true, fruitOk: true, yolkOk: true, yeastOk: false });
  });

  it('of cooling are read between the readings', () => {
    expect(coolingOf([[0, 60], [60, 54], [120, 22], [200, 14], [390, 4]])).toEqual({ compliant: true });
    expect(coolingOf([[0, 57], [100, 20], [400, 4]])).toEqual({ compliant: false, reason: expect.stringContaining('in all, limit 360') });
    expect(coolingOf([[0, 57], [100, 20]])).toEqual({ compliant: false, reason: 'it never came down to 5 C' });
    expect(coolingOf([])).toEqual({ compliant: false, reason: 'there are no readings' });
  });

  it('of time do not apply to what starts lukewarm', () => {
    expect(timeControlOf({ startCelsius: 20, maxCelsius: 24, hours: 1 })).toEqual({ compliant: false, limitHours: null });
    expect(timeControlOf({ startCelsius: 60, maxCelsius: 60, hours: 4.5 })).toEqual({ compliant: false, limitHours: 4 });
  });
});
