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

const number = fc.constantFrom('0', '1', '12', '0.5', '400', '900', '100000', '1 to 3', '2,5', '');
const degrees = fc.constantFrom('0 C', '4 C', '21 C', '25 C', '38 C', '95 C', '240 C', '75 F', 'room', 'fridge');
const length = fc.constantFrom('0 min', '5 min', '1 h', '4 h 30 min', '10 to 16 h', 'overnight', '400 d', '');
const name = fc.constantFrom('bread flour', 'water', 'ice', 'milk', 'eggs', 'starter', 'salt', 'sugar', 'butter', 'instant yeast', 'walnuts', 'unobtainium', 'levain', 'soaker', 'dough');
const line = fc.oneof(
  fc.tuple(number, fc.constantFrom('g', '%', 'cup', 'kg'), name, fc.option(degrees, { nil: undefined })).map(([n, unit, what, at]) => `${n} ${unit} ${what}${at === undefined ? '' : ` at ${at}`}`),
  name.map((what) => `all ${what}`),
  fc.tuple(number, fc.constantFrom('butter for the pan', 'seeds for the top')).map(([n, what]) => `${n} g ${what}`),
);
const step = fc.tuple(
  fc.constantFrom('mix', 'bulk', 'rest', 'ripen', 'retard', 'chill', 'divide', 'shape', 'proof', 'preheat', 'bake', 'boil', 'fill', 'cool', 'freeze'),
  length,
  fc.option(degrees, { nil: undefined }),
  fc.constantFrom('', ', by mixer', ', by hand', ', lid on', ', with steam', ', until core 60 C', ', add all levain', ', add soaker'),
).map(([kind, time, at, more]) => `${kind} ${time}${at === undefined ? '' : ` at ${at}`}${more}`);
const property = fc.oneof(
  fc.tuple(fc.constantFrom('room', 'fridge', 'flour', 'friction'), degrees).map(([key, value]) => `${key} ${value}`),
  fc.constantFrom('makes 2 loaves', 'makes 0 loaves', 'makes 2 tins of 1.8 l', 'serves 0', 'style pan', 'style rye, nonsense', 'loses 12 % in the oven', 'loses 100 % in the oven', 'altitude 1500 m', 'altitude 60000 m'),
);
const part = fc.tuple(
  fc.constantFrom('levain', 'poolish at 20 C', 'soaker', 'custard', 'filling', 'dough', 'dough at 25 C', 'dough at -5 C', 'total formula at 24 C', 'batter'),
  fc.array(fc.oneof(line, step), { maxLength: 7 }),
);
const block = (head: string, lines: readonly string[]) => `${head}\n${lines.map((text) => `  ${text}\n`).join('')}`;
const text = fc.tuple(fc.constantFrom('formula "F"', 'dish "D"'), fc.array(property, { maxLength: 6 }), fc.array(part, { maxLength: 4 }), fc.array(step, { maxLength: 8 })).map(
  ([head, properties, parts, steps]) => [block(head, properties), ...parts.map(([kind, lines]) => block(kind, lines)), block('steps', steps)].join('\n'),
);

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

/** A loaf that is whole, with odd numbers in it: here most questions have an answer. */
const grams = fc.constantFrom('0.1', '1', '12', '60', '400', '900', '100000');
const warmth = fc.constantFrom('0 C', '3 C', '12 C', '21 C', '24 C', '27 C', '34 C', '38 C', '60 C', '99 C');
const whole = fc.record({
  makes: fc.constantFrom('makes 1 loaf', 'makes 2 loaves', 'makes 90 rolls', 'makes 2 tins of 1.8 l'),
  room: warmth, fridge: warmth, desired: warmth, ripenAt: warmth, bulkAt: warmth,
  friction: fc.constantFrom('', '  friction 12 C\n', '  friction 40 F\n'),
  water: fc.constantFrom('water', 'water at 30 C', 'water at 4 C', 'milk', 'ice'),
  leaven: fc.constantFrom('starter', 'starter at 50 % hydration', 'instant yeast', 'fresh yeast'),
  fed: grams, levain: grams, flour: grams, wet: grams, eggs: grams,
  ripen: length, bulk: length, retard: length,
  loses: fc.constantFrom('', '  loses 12 % in the oven\n', '  loses 95 % in the oven\n'),
}).map((w) => `formula "Whole"
  ${w.makes}
  style hearth
  room ${w.room}
  fridge ${w.fridge}
${w.friction}${w.loses}
levain
  ${w.fed} g rye flour
  ${w.fed} g water
  ${w.levain} g ${w.leaven}
  ripen ${w.ripen} at ${w.ripenAt}

dough at ${w.desired}
  ${w.flour} g bread flour
  ${w.wet} g ${w.water}
  ${w.eggs} g eggs
  all levain

steps
  mix 8 min, by mixer
  bulk ${w.bulk} at ${w.bulkAt}
  divide
  retard ${w.retard}
  bake 40 min at 230 C, until core 97 C
`);

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
    fc.assert(fc.property(text, (bake) => void expectSound(bake)), { numRuns: 400 });
  });

  it('that is whole gets numbers, in order', () => {
    let answered = 0;
    fc.assert(
      fc.property(whole, (bake) => {
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
