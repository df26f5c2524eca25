/** Whatever a formula says, or half says, its temperatures, times and facts are numbers or null: nothing throws, nothing is NaN. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bakingReport } from '../../server/core/baking';
import { allergensOf, cautionsFor, costReport, nutritionOf } from '../../server/core/facts';
import { bulkReport, journeyOf, levainReport, retardReport } from '../../server/core/fermentation';
import { doughTemperature } from '../../server/core/temperature';
import { resolve } from '../../server/core/formula/resolve';
import { sectionsOf } from '../../server/core/formula/sections';
import { sheetOf } from '../../server/core/formula/sheet';
import { totalsOf } from '../../server/core/formula/totals';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { parse } from '../../grammar';
import { someText, wholeText } from './arbitrary';

/** Places and trees are not of interest here, and are large. */
function badNumbers(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${String(value)}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inside]) => (key === 'place' || key === 'step' || key === 'places' ? [] : badNumbers(inside, `${path}.${key}`)));
}

/** In every `{ low, mid, high }`, the order. */
function crossed(value: unknown, path = ''): readonly string[] {
  if (typeof value !== 'object' || value === null) return [];
  const { low, mid, high } = value as Record<string, unknown>;
  const here = typeof low === 'number' && typeof high === 'number' && (low > high + 1e-9 || (typeof mid === 'number' && (mid < low - 1e-9 || mid > high + 1e-9)));
  return [
    ...(here ? [`${path}: ${String(low)}, ${String(mid)}, ${String(high)}`] : []),
    ...Object.entries(value).flatMap(([key, inside]) => (key === 'place' || key === 'step' || key === 'places' ? [] : crossed(inside, `${path}.${key}`))),
  ];
}

function answersIn(bake: string) {
  const blocks = parse(bake).blocks.map((placed) => placed.block);
  return sectionsOf(blocks).filter(({ section }) => section.kind === 'formula' || section.kind === 'dish').map(({ section }) => {
    const formula = resolve(section, { catalogue: builtInCatalogue, measures: 'us' });
    const totals = totalsOf(formula);
    const sheet = sheetOf(formula);
    return {
      temperature: doughTemperature(formula),
      journey: journeyOf(formula),
      bulk: bulkReport(formula, totals),
      levain: levainReport(formula),
      retard: retardReport(formula),
      baking: bakingReport(formula),
      nutrition: nutritionOf(formula, totals, sheet),
      allergens: allergensOf(formula),
      cost: costReport(formula),
      cautions: cautionsFor(formula),
    };
  });
}

const expectSound = (bake: string) => {
  const answers = answersIn(bake);
  expect(badNumbers(answers)).toEqual([]);
  expect(crossed(answers)).toEqual([]);
  return answers;
};

describe('any formula', () => {
  it('gets numbers or null', () => {
    fc.assert(fc.property(someText, (bake) => void expectSound(bake)), { numRuns: 400 });
  });

  it('that is whole gets numbers, in order', () => {
    let answered = 0;
    fc.assert(
      fc.property(wholeText, (bake) => {
        const [one] = expectSound(bake);
        expect(one?.nutrition?.per100g.energyKj).toBeGreaterThan(0);
        expect(one?.temperature?.waterHeatBalanceCelsius ?? one?.temperature?.expectedCelsius.heatBalance).not.toBeNull();
        if (one?.bulk[0]?.equivalentHours && one.levain[0]?.ripenedHours && one.retard[0]?.addedHours) answered += 1;
      }),
      { numRuns: 400 },
    );
    expect(answered).toBeGreaterThan(100);
  });
});
