/** Random formulas that resolve without a trouble: what properties of scaling are tried on. */
import fc from 'fast-check';

const grams = fc.integer({ min: 200, max: 3000 });
const pct = fc.integer({ min: 20, max: 100 });

interface Recipe {
  readonly flour: number;
  readonly unit: 'g' | 'kg' | 'oz' | 'lb';
  readonly water: number;
  readonly inShares: boolean;
  readonly levain: 'none' | 'all' | 'grams' | 'shares';
  readonly keep: boolean;
  readonly raisins: 'none' | 'half' | 'grams' | 'thirds';
  readonly scald: boolean;
  readonly spoon: string;
  readonly makes: 'mass' | 'pieces' | 'tins' | 'whole' | 'none';
  readonly lineEnd: '\n' | '\r\n';
  readonly eggs: number;
}

const PER_UNIT = { g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 } as const;

function textOf({ flour, unit, water, inShares, levain, keep, raisins, scald, spoon, makes, lineEnd, eggs }: Recipe): string {
  const share = (percent: number): string => (inShares ? `${percent} %` : `${Math.round(flour * percent) / 100} g`);
  const written = Number((flour / PER_UNIT[unit]).toPrecision(4));
  const flourGrams = written * PER_UNIT[unit];
  const eighth = Math.round(flour / 8);
  const made = { none: 0, all: eighth * 2 + 10 - (keep ? 5 : 0), grams: eighth * 2 + 10 - (keep ? 5 : 0), shares: eighth * 2 }[levain];
  const raisinGrams = raisins === 'none' ? 0 : 90;
  const percent = (water + 2) / 100;
  const dough = flourGrams + (inShares ? flourGrams : flour) * percent + made + raisinGrams + (scald ? 120 : 0) + eggs * 50 + 6;
  const lines = [
    '# for the stall',
    'formula "Random"',
    ...(makes === 'mass' ? [`  makes 3 loaves of ${Math.round(dough / 3)} g`] : []),
    ...(makes === 'pieces' ? ['  makes 3 loaves'] : []),
    ...(makes === 'tins' ? ['  makes 2 tins of 1.8 l   # the blue ones'] : []),
    ...(makes === 'whole' ? [`  makes ${Math.round(dough) / 1000} kg`] : []),
    '  room 22 C',
    ...(levain === 'shares' ? ['levain', '  100 % bread flour', '  100 % water', '  20 % starter'] : []),
    ...(levain === 'all' || levain === 'grams' ? ['levain', `  ${eighth} g bread flour`, `  ${eighth} g water`, '  10 g starter', ...(keep ? ['  keep 5 g'] : [])] : []),
    ...(scald ? ['scald', '  20 g bread flour', '  110 g water', '  yields 120 g'] : []),
    'dough at 25 C',
    `  ${written} ${unit}   bread flour, sifted   # from the mill`,
    `  ${share(water)} water`,
    ...(eggs > 0 ? [`  ${eggs} ${eggs === 1 ? 'egg' : 'eggs'}`] : []),
    ...({ none: [], all: ['  all levain'], grams: [`  ${made} g levain`], shares: [`  ${made} g levain`] }[levain]),
    ...(scald ? ['  all scald'] : []),
    `  ${share(2)} salt`,
    `  ${spoon} tsp (6 g) honey`,
    ...(raisins === 'none' ? [] : ['  90 g raisins']),
    'steps',
    '  mix 8 min',
    '  bulk 90 min at 25 C',
    ...({
      none: [],
      half: ['    fold at 30 min, add half of raisins', '    fold at 60 min, add rest of raisins'],
      grams: ['    fold at 30 min, add 40 g of raisins', '    fold at 60 min, add rest of raisins'],
      thirds: ['    fold at 30 min, add 30 g of raisins', '    fold at 60 min, add 30 g of raisins', '    fold at 75 min, add 30 g of raisins'],
    }[raisins]),
    '',
  ];
  return lines.join(lineEnd);
}

const recipe = (eggs: fc.Arbitrary<number>): fc.Arbitrary<string> => fc.record({
  flour: grams,
  unit: fc.constantFrom('g', 'g', 'kg', 'oz', 'lb'),
  water: pct,
  inShares: fc.boolean(),
  levain: fc.constantFrom('none', 'all', 'grams', 'shares'),
  keep: fc.boolean(),
  raisins: fc.constantFrom('none', 'half', 'grams', 'thirds'),
  scald: fc.boolean(),
  spoon: fc.constantFrom('1', '1/2', '1½', '2.5'),
  makes: fc.constantFrom('mass', 'pieces', 'tins', 'whole', 'none'),
  lineEnd: fc.constantFrom('\n', '\r\n'),
  eggs,
} as const).map(textOf);

export const formulaText = recipe(fc.constant(0));
export const formulaTextWithEggs = recipe(fc.integer({ min: 1, max: 5 }));

/** Sizes that somebody might bake. */
export const factor = fc.double({ min: 0.1, max: 40, noNaN: true });
