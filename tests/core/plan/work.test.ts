import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shoppingOf } from '../../../server/core/plan/lists';
import { workOf } from '../../../server/core/plan/work';
import { dayIn, ROLLS, RYE, WHEAT } from './day';

const work = (text: string, ...lines: readonly string[]) => workOf(dayIn(`${text}plan "Saturday"\n  ready 2026-03-14 08:00\n${lines.map((line) => `  ${line}\n`).join('')}`));
const shape = ({ batches }: ReturnType<typeof work>) => batches.map(({ pieces, loads }) => [pieces, ...loads.map((load) => load.pieces)]);

describe('doughs and loads', () => {
  it('is one dough in one load where all fits', () => {
    expect(shape(work(RYE, 'oven holds 6 loaves', 'mixer holds 8 kg', 'bake 6 of "Rye"'))).toEqual([[6, 6]]);
  });

  it('splits a dough that the mixer does not take into about equal mixes', () => {
    // 10 loaves of 900 g are 9 kg: two mixes of 5, not of 6 and 4.
    const { batches } = work(RYE, 'oven holds 6 loaves', 'mixer holds 6 kg', 'bake 10 of "Rye"');
    expect(batches.map(({ label, pieces, doughGrams }) => [label, pieces, Math.round(doughGrams!)])).toEqual([['Rye, dough 1 of 2', 5, 4500], ['Rye, dough 2 of 2', 5, 4500]]);
  });

  it('takes flour as the measure of a mixer that says so, and none for what is mixed by hand', () => {
    expect(shape(work(RYE, 'oven holds 9 loaves', 'mixer holds 3.2 kg of flour', 'bake 6 of "Rye"'))).toEqual([[6, 6]]);
    expect(shape(work(RYE, 'oven holds 9 loaves', 'mixer holds 2 kg of flour', 'bake 6 of "Rye"'))).toEqual([[3, 3], [3, 3]]);
    expect(shape(work(RYE.replace('by mixer', 'by hand'), 'oven holds 9 loaves', 'mixer holds 1 kg', 'bake 6 of "Rye"'))).toEqual([[6, 6]]);
  });

  it('bakes one dough in several loads where its pieces can wait', () => {
    // The retard gives 6 h; a bake and the oven coming back take 50 min.
    expect(shape(work(RYE, 'oven holds 4 loaves', 'bake 10 of "Rye"'))).toEqual([[10, 4, 3, 3]]);
  });

  it('makes a dough for each load where they cannot', () => {
    // The proof gives 10 min; a bake and the oven coming back take 25.
    expect(shape(work(ROLLS, 'oven holds 20 rolls', 'bake 50 of "Rolls"'))).toEqual([[17, 17], [17, 17], [16, 16]]);
  });

  it('has as many loads of one dough as there are ovens for them', () => {
    expect(shape(work(ROLLS, 'oven holds 20 rolls', 'oven holds 20 rolls', 'bake 40 of "Rolls"'))).toEqual([[40, 20, 20]]);
  });

  it('fills pots and not the oven where the lid is on', () => {
    const potted = RYE.replace('bake      40 min at 240 C', 'bake      40 min at 240 C, lid on');
    expect(shape(work(potted, 'oven holds 6 loaves', 'pots 2', 'bake 6 of "Rye"'))).toEqual([[6, 2, 2, 2]]);
  });

  it('counts by the noun, else by weight, and says so', () => {
    const { batches, notes } = work(RYE + ROLLS, 'oven holds 2 loaves', 'bake 4 of "Rye"', 'bake 60 of "Rolls"');
    // 2 loaves of 900 g are 30 rolls of 60 g.
    expect(batches.map(({ pieces, loads }) => [pieces, loads.length])).toEqual([[4, 2], [30, 1], [30, 1]]);
    expect(notes).toEqual(['The oven is reckoned to hold 30 rolls of “Rolls”, by the weight of the 2 loaves that the plan gives. Write `or 24 rolls` behind them with your own number.']);
  });

  it('neither loses a piece nor overfills an oven or a mixer, whatever the numbers', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 20 }), fc.constantFrom(RYE, ROLLS), (pieces, oven, kilos, text) => {
      const name = text === RYE ? 'Rye' : 'Rolls';
      const day = work(text, `oven holds ${oven}`, `mixer holds ${kilos} kg`, `bake ${pieces} of "${name}"`);
      expect(day.batches.reduce((sum, batch) => sum + batch.pieces!, 0)).toBe(pieces);
      for (const batch of day.batches) {
        expect(batch.loads.reduce((sum, load) => sum + load.pieces!, 0)).toBe(batch.pieces);
        for (const load of batch.loads) expect(load.pieces).toBeLessThanOrEqual(oven);
        expect(batch.doughGrams).toBeLessThanOrEqual(Math.max(kilos * 1000, text === RYE ? 900 : 60) + 1e-6);
      }
    }), { numRuns: 60 });
  });
});

describe('preferments built together', () => {
  it('are those of the same make, whatever they are called', () => {
    const { builds, batches } = work(RYE + WHEAT, 'oven holds 9 loaves', 'bake 4 of "Rye"', 'bake 6 of "Wheat"');
    expect(builds).toHaveLength(1);
    const [levain] = builds;
    expect(levain).toMatchObject({ name: 'levain', keepGrams: 50, portions: [{ batch: 0 }, { batch: 1 }] });
    const called = batches.map(({ scaled }) => scaled.parts[0]!.calledForGrams!);
    expect(levain!.portions.map(({ grams }) => grams)).toEqual(called);
    expect(levain!.totalGrams).toBeCloseTo(called[0]! + called[1]! + 50, 6);
    expect(levain!.lines.reduce((sum, { grams }) => sum + grams!, 0)).toBeCloseTo(levain!.totalGrams!, 6);
    // 20 % of starter on 100 % flour and 100 % water is an eleventh.
    expect(levain!.lines.find((line) => line.isStarter)!.grams).toBeCloseTo(levain!.totalGrams! / 11, 6);
  });

  it('are apart where a share or the ripening differs, and it is said', () => {
    const other = RYE.replace('"Rye"', '"Other"').replace('20 %      starter', '10 %      starter');
    const { builds, notes } = work(RYE + other, 'oven holds 9 loaves', 'bake 4 of "Rye"', 'bake 6 of "Other"');
    expect(builds.map(({ portions }) => portions.length)).toEqual([1, 1]);
    expect(notes).toEqual(['There are 2 makes of levain, each built by itself: for Rye; for Other.']);
    const warmer = RYE.replace('"Rye"', '"Other"').replace('7 to 9 h', '4 to 5 h');
    expect(work(RYE + warmer, 'oven holds 9 loaves', 'bake 4 of "Rye"', 'bake 6 of "Other"').builds).toHaveLength(2);
  });
});

describe('the shopping list', () => {
  const PANTRY = 'ingredient "bread flour"\n  like bread flour\n  costs 1.20 EUR per kg\n\n';

  it('has every gram that is weighed, dusting and what is kept included, and no gram twice', () => {
    const day = work(RYE + WHEAT + ROLLS, 'oven holds 40', 'bake 4 of "Rye"', 'bake 6 of "Wheat"', 'bake 40 of "Rolls"');
    const list = shoppingOf(day);
    const flourOf = (key: RegExp) => list.rows.filter((row) => key.test(row.key)).reduce((sum, row) => sum + row.grams!, 0);
    const expected = day.batches.flatMap(({ scaled }) => scaled.parts[scaled.dough!]!.lines).filter((line) => line.part === undefined).reduce((sum, line) => sum + line.grams!, 0)
      + day.builds.reduce((sum, build) => sum + build.totalGrams!, 0);
    expect(flourOf(/./) + list.starterGrams!).toBeCloseTo(expected, 6);
    // 10 g of rice flour for dusting in a formula of two loaves: 20 g for four and 30 g for six.
    expect(list.rows.find((row) => row.name === 'rice flour')).toMatchObject({ grams: expect.closeTo(50, 6), formulas: ['Rye', 'Wheat'] });
  });

  it('adds the cost up where every price is known, tap water free', () => {
    const plain = 'formula "Plain"\n  makes 1 loaf of 850 g\n\ndough\n  500 g bread flour\n  350 g water\n\nsteps\n  bake 30 min at 230 C\n';
    const list = shoppingOf(work(PANTRY + plain, 'oven holds 4', 'bake 4 of "Plain"'));
    expect(list.cost).toEqual({ amount: expect.closeTo(2.4, 9), currency: 'EUR' });
    expect(shoppingOf(work(plain, 'oven holds 4', 'bake 4 of "Plain"'))).toMatchObject({ cost: null, unpriced: ['bread flour'] });
  });

  it('lists bread that a dish takes by the name of its formula', () => {
    const dish = 'dish "Crumbs"\n  uses 300 g "Rolls"\n\nsteps\n  bake 10 min at 150 C\n';
    expect(shoppingOf(work(ROLLS + dish, 'oven holds 4', 'make 2 "Crumbs"')).bread).toEqual([{ name: 'Rolls', grams: 600 }]);
  });
});
