/**
 * The weights that `resolve` finds against mathjs, a general-purpose library: the same formula written down as a system of
 * linear equations, one unknown a line, and solved by LU decomposition. The equations are made from the numbers of the
 * formula, not from anything of ours.
 */
import fc from 'fast-check';
import { lusolve } from 'mathjs';
import { describe, expect } from 'vitest';
import { outside } from './outside';
import { resolveText } from './resolve-text';

/** Unknowns by name, equations as { unknown: coefficient, … } = constant. */
class System {
  private readonly names: string[] = [];
  private readonly rows: { readonly terms: Readonly<Record<string, number>>; readonly is: number }[] = [];

  equation(terms: Readonly<Record<string, number>>, is: number): this {
    for (const name of Object.keys(terms)) if (!this.names.includes(name)) this.names.push(name);
    this.rows.push({ terms, is });
    return this;
  }

  solve(): Readonly<Record<string, number>> {
    const matrix = this.rows.map((row) => this.names.map((name) => row.terms[name] ?? 0));
    const solution = lusolve(matrix, this.rows.map((row) => row.is)) as number[][];
    return Object.fromEntries(this.names.map((name, i) => [name, solution[i]![0]!]));
  }
}

const share = fc.integer({ min: 1, max: 150 }).map((pct) => pct / 100);
const grams = fc.integer({ min: 100, max: 5000 });
const few = fc.integer({ min: 1, max: 40 }).map((pct) => pct / 100);
const pct = (value: number) => `${Math.round(value * 1000) / 10} %`;

const check = outside('general-purpose library', 'mathjs 15, LU decomposition');

describe('the weights of a formula solve its equations', () => {
  check('a dough in shares, sized by what it makes, with a levain in shares that is built to it', () => {
    fc.assert(
      fc.property(grams, fc.integer({ min: 1, max: 20 }), few, share, share, few, few, fc.integer({ min: 0, max: 80 }), (piece, pieces, rye, water, levainWater, starter, inoculation, keep) => {
        const text = `formula "A"
  makes ${pieces} loaves of ${piece} g
levain
  100 % dark rye flour
  ${pct(levainWater)} water
  ${pct(starter)} starter
  keep ${keep} g
dough
  ${pct(1 - rye)} bread flour
  ${pct(rye)} dark rye flour
  ${pct(water)} water
  ${pct(inoculation)} levain
`;
        const expected = new System()
          .equation({ white: 1, base: -(1 - rye) }, 0)
          .equation({ rye: 1, base: -rye }, 0)
          .equation({ water: 1, base: -water }, 0)
          .equation({ levain: 1, base: -inoculation }, 0)
          .equation({ white: 1, rye: 1, water: 1, levain: 1 }, pieces * piece)
          .equation({ levainWater: 1, levainFlour: -levainWater }, 0)
          .equation({ starter: 1, levainFlour: -starter }, 0)
          .equation({ levainFlour: 1, levainWater: 1, starter: 1, levain: -1 }, keep)
          .solve();
        const { formula } = resolveText(text);
        const line = (part: number, l: number) => formula.parts[part]!.lines[l]!.grams!;
        close(line(0, 0), expected.levainFlour!);
        close(line(0, 1), expected.levainWater!);
        close(line(0, 2), expected.starter!);
        close(line(1, 0), expected.white!);
        close(line(1, 1), expected.rye!);
        close(line(1, 2), expected.water!);
        close(line(1, 3), expected.levain!);
      }),
    );
  });

  check('a total formula with two preferments, one of which feeds the other', () => {
    fc.assert(
      fc.property(grams, fc.integer({ min: 140, max: 200 }), few, share, share, few, few, (flour, water, first, firstWater, secondWater, fed, starter) => {
        fc.pre(first * 2 + 0.2 < 1);
        const text = `formula "A"
levain "first"
  100 % bread flour
  ${pct(firstWater)} water
  ${pct(starter)} starter at 60 % hydration
poolish
  100 % bread flour
  ${pct(secondWater)} water
  ${pct(fed)} first
total formula
  ${flour} g bread flour
  ${water} % water
  ${pct(first)} of flour in poolish
`;
        // Shares of a gram of "first" that are flour and water, its starter's 100 : 60 counted in.
        const whole = 1 + firstWater + starter;
        const flourOfFirst = (1 + starter / 1.6) / whole;
        const waterOfFirst = (firstWater + (starter * 0.6) / 1.6) / whole;
        const expected = new System()
          .equation({ poolishWater: 1, poolishFlour: -secondWater }, 0)
          .equation({ first: 1, poolishFlour: -fed }, 0)
          .equation({ poolishFlour: 1, first: flourOfFirst }, first * flour)
          .equation({ firstFlour: whole, first: -1 }, 0)
          .equation({ finalFlour: 1 }, flour - first * flour)
          .equation({ finalWater: 1, poolishWater: 1, first: waterOfFirst }, (water / 100) * flour)
          .solve();
        fc.pre(expected.finalWater! > 0);
        const { formula } = resolveText(text);
        const line = (part: number, l: number) => formula.parts[part]!.lines[l]!.grams!;
        close(line(0, 0), expected.firstFlour!);
        close(line(1, 0), expected.poolishFlour!);
        close(line(1, 1), expected.poolishWater!);
        close(line(1, 2), expected.first!);
        close(line(2, 0), expected.finalFlour!);
        close(line(2, 1), expected.finalWater!);
      }),
    );
  });

  check('a dough of several preferments that feed each other, with starters, keeps, a soaker, a scald that loses water, weighed lines and losses', () => {
    fc.assert(
      fc.property(fc.array(preferment, { minLength: 1, maxLength: 4 }), dough, soaker, scald, size, (preferments, mix, soaked, scalded, { pieces, pieceGrams, benchLoss }) => {
        const text = `formula "A"
  makes ${pieces} loaves of ${pieceGrams} g
  loses ${benchLoss} % at the bench
${preferments.map(prefermentText).join('\n')}
${soakerText(soaked)}
${scaldText(scalded)}
dough
  ${pct(1 - mix.rye)} bread flour
  ${pct(mix.rye)} whole rye flour
  ${pct(mix.water)} water
  ${pct(mix.salt)} salt
  ${mix.yeastGrams} g fresh yeast
  all seeds
  all scald
${preferments.map(({ ofDough }, i) => `  ${pct(ofDough)} ${nameOf(i)}`).join('\n')}
`;
        const system = new System();
        const whole: Record<string, number> = { white: 1, rye: 1, water: 1, salt: 1 };
        system.equation({ white: 1, base: -(1 - mix.rye) }, 0).equation({ rye: 1, base: -mix.rye }, 0);
        system.equation({ water: 1, base: -mix.water }, 0).equation({ salt: 1, base: -mix.salt }, 0);
        preferments.forEach(({ ofDough }, i) => {
          system.equation({ [`taken ${i}`]: 1, base: -ofDough }, 0);
          whole[`taken ${i}`] = 1;
        });
        prefermentEquations(system, preferments);
        // A dough of so much goes on the bench that the loss leaves the pieces.
        const fixed = mix.yeastGrams + soaked.seedGrams + soaked.waterGrams + scalded.yieldGrams;
        system.equation(whole, (pieces * pieceGrams) / (1 - benchLoss / 100) - fixed);
        const expected = system.solve();
        fc.pre(expected.base! > 1);

        const { formula } = resolveText(text);
        expect(formula.troubles).toEqual([]);
        const lines = formula.parts[formula.dough!]!.lines.map(({ grams }) => grams!);
        closeAll(lines, [
          expected.white!, expected.rye!, expected.water!, expected.salt!, mix.yeastGrams, soaked.seedGrams + soaked.waterGrams, scalded.yieldGrams,
          ...preferments.map((_, i) => expected[`taken ${i}`]!),
        ]);
        preferments.forEach((each, i) => closeAll(formula.parts[i]!.lines.map(({ grams }) => grams!), prefermentLines(expected, each, i, preferments)));
      }),
    );
  });

  check('a total formula of two flours, in shares or in grams, out of which several preferments, a soaker and a scald are taken', () => {
    fc.assert(
      fc.property(fc.array(preferment, { minLength: 1, maxLength: 3 }), dough, soaker, scald, size, fc.boolean(), (preferments, mix, soaked, scalded, { pieces, pieceGrams, benchLoss }, inGrams) => {
        // Each preferment is taken in by the list, and by no other preferment, so that its share of the flour is its own.
        const own = preferments.map((each) => ({ ...each, ofNext: 0 }));
        const flourGrams = pieces * pieceGrams;
        const water = mix.water + 1.2;
        const text = `formula "A"
${inGrams ? '' : `  makes ${pieces} loaves of ${pieceGrams} g`}
  loses ${benchLoss} % at the bench
${own.map(prefermentText).join('\n')}
${soakerText(soaked)}
${scaldText(scalded)}
total formula
  ${inGrams ? `${round(flourGrams * (1 - mix.rye))} g` : pct(1 - mix.rye)} bread flour
  ${inGrams ? `${round(flourGrams * mix.rye)} g` : pct(mix.rye)} whole rye flour
  ${pct(water)} water
  ${pct(mix.salt)} salt
  ${soaked.seedGrams} g sunflower seeds
  all seeds
  all scald
${own.map(({ ofFlour }, i) => `  ${pct(ofFlour)} of flour in ${nameOf(i)}`).join('\n')}
`;
        const system = new System();
        if (inGrams) system.equation({ base: 1 }, round(flourGrams * (1 - mix.rye)) + round(flourGrams * mix.rye));
        // The list is the whole dough but for what the scald loses in cooking.
        else system.equation({ base: 1 + water + mix.salt }, (pieces * pieceGrams) / (1 - benchLoss / 100) - soaked.seedGrams + scalded.flourGrams + scalded.waterGrams - scalded.yieldGrams);
        const white = inGrams ? round(flourGrams * (1 - mix.rye)) / (round(flourGrams * (1 - mix.rye)) + round(flourGrams * mix.rye)) : 1 - mix.rye;
        prefermentEquations(system, own);
        own.forEach(({ ofFlour, rye, starter, starterWater }, i) => {
          // How much is taken in: as much as holds the flour, that of the starter counted in.
          const flour = 1 + starter / (1 + starterWater);
          system.equation({ [`taken flour ${i}`]: flour, base: -ofFlour }, 0);
          system.equation({ [`taken ${i}`]: 1, [`taken flour ${i}`]: -wholeOf(own[i]!) }, 0);
          // A starter's flour is of the flour that its preferment has most of.
          const white = 1 - rye >= rye ? 1 - rye + starter / (1 + starterWater) : 1 - rye;
          system.equation({ [`white of ${i}`]: 1, [`taken flour ${i}`]: -white }, 0);
          system.equation({ [`rye of ${i}`]: 1, [`taken flour ${i}`]: white - flour }, 0);
          system.equation({ [`water of ${i}`]: 1, [`taken flour ${i}`]: -(own[i]!.water + (starter * starterWater) / (1 + starterWater)) }, 0);
        });
        const each = (what: string) => Object.fromEntries(own.map((_, i) => [`${what} of ${i}`, 1]));
        system.equation({ white: 1, base: -white, ...each('white') }, -scalded.flourGrams);
        system.equation({ rye: 1, base: white - 1, ...each('rye') }, 0);
        system.equation({ water: 1, base: -water, ...each('water') }, -scalded.waterGrams - soaked.waterGrams);
        system.equation({ salt: 1, base: -mix.salt }, 0);
        const expected = system.solve();
        fc.pre(expected.white! > 1 && expected.rye! > 1 && expected.water! > 1);

        const { formula } = resolveText(text);
        expect(formula.troubles).toEqual([]);
        closeAll(formula.parts[formula.dough!]!.lines.map(({ grams }) => grams!), [
          expected.white!, expected.rye!, expected.water!, expected.salt!, 0, soaked.seedGrams + soaked.waterGrams, scalded.yieldGrams,
          ...own.map((_, i) => expected[`taken ${i}`]!),
        ]);
        own.forEach((one, i) => closeAll(formula.parts[i]!.lines.map(({ grams }) => grams!), prefermentLines(expected, one, i, own)));
      }),
    );
  });
});

// --- formulas of any number of parts ---------------------------------------------------------------------------------

/** All shares are of the preferment's own flour, but for `ofDough` and `ofFlour`. */
interface Preferment {
  readonly rye: number;
  readonly water: number;
  readonly starter: number;
  /** Water of the starter, per part of its flour. */
  readonly starterWater: number;
  /** How much of this one the next one takes in. */
  readonly ofNext: number;
  readonly ofDough: number;
  readonly ofFlour: number;
  readonly keepGrams: number;
}

const hundredths = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 100);
const preferment: fc.Arbitrary<Preferment> = fc.record({
  rye: hundredths(1, 99).filter((rye) => rye !== 0.5),
  water: hundredths(40, 150),
  starter: hundredths(1, 60),
  starterWater: hundredths(45, 130),
  ofNext: hundredths(0, 40),
  ofDough: hundredths(1, 40),
  ofFlour: hundredths(1, 20),
  keepGrams: fc.integer({ min: 0, max: 120 }),
});
const dough = fc.record({ rye: hundredths(20, 80), water: hundredths(20, 90), salt: hundredths(1, 3), yeastGrams: fc.integer({ min: 1, max: 20 }) });
const soaker = fc.record({ seedGrams: fc.integer({ min: 1, max: 200 }), waterGrams: fc.integer({ min: 1, max: 200 }) });
const scald = fc
  .record({ flourGrams: fc.integer({ min: 1, max: 60 }), waterGrams: fc.integer({ min: 5, max: 200 }), lost: fc.integer({ min: 1, max: 4 }) })
  .map(({ lost, ...rest }) => ({ ...rest, yieldGrams: rest.flourGrams + rest.waterGrams - lost }));
const size = fc.record({ pieces: fc.integer({ min: 1, max: 24 }), pieceGrams: fc.integer({ min: 80, max: 1500 }), benchLoss: fc.integer({ min: 1, max: 9 }) });

const nameOf = (i: number): string => `ferment ${'abcd'[i] ?? ''}`;
const round = (value: number): number => Math.round(value);

function prefermentText(each: Preferment, i: number, all: readonly Preferment[]): string {
  const before = all[i - 1]?.ofNext ?? 0;
  return `levain "${nameOf(i)}"
  ${pct(1 - each.rye)} bread flour
  ${pct(each.rye)} whole rye flour
  ${pct(each.water)} water
  ${pct(each.starter)} starter at ${pct(each.starterWater)} hydration
${before > 0 ? `  ${pct(before)} ${nameOf(i - 1)}` : ''}
${each.keepGrams > 0 ? `  keep ${each.keepGrams} g` : ''}`;
}

const soakerText = ({ seedGrams, waterGrams }: { seedGrams: number; waterGrams: number }): string => `soaker "seeds"\n  ${seedGrams} g sunflower seeds\n  ${waterGrams} g water`;
const scaldText = ({ flourGrams, waterGrams, yieldGrams }: { flourGrams: number; waterGrams: number; yieldGrams: number }): string =>
  `scald\n  ${flourGrams} g bread flour\n  ${waterGrams} g water\n  yields ${yieldGrams} g`;

/** What a preferment weighs for one part of its flour, without another one in it. */
const wholeOf = ({ water, starter }: Preferment): number => 1 + water + starter;

/** Each makes what the dough and the next one take of it, and what is kept. */
function prefermentEquations(system: System, all: readonly Preferment[]): void {
  all.forEach((each, i) => {
    const before = all[i - 1]?.ofNext ?? 0;
    const taken: Record<string, number> = { [`taken ${i}`]: -1 };
    if (each.ofNext > 0 && i + 1 < all.length) taken[`flour ${i + 1}`] = -each.ofNext;
    system.equation({ [`flour ${i}`]: wholeOf(each) + before, ...taken }, each.keepGrams);
  });
}

function prefermentLines(solved: Readonly<Record<string, number>>, each: Preferment, i: number, all: readonly Preferment[]): readonly number[] {
  const flour = solved[`flour ${i}`]!;
  const before = all[i - 1]?.ofNext ?? 0;
  const shares = [1 - each.rye, each.rye, each.water, each.starter, ...(before > 0 ? [before] : [])];
  return shares.map((of) => of * flour);
}

function closeAll(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length);
  actual.forEach((value, i) => close(value, expected[i] ?? NaN));
}

function close(actual: number, expected: number): void {
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(1e-7 * Math.max(1, Math.abs(expected)));
}
