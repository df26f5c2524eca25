/**
 * The weights that `resolve` finds against mathjs, a general-purpose library: the same formula written down as a system of
 * linear equations, one unknown a line, and solved by LU decomposition. The equations are made from the numbers of the
 * formula, not from anything of ours.
 */
import fc from 'fast-check';
import { lusolve, unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { GRAMS_PER } from '../../server/core/units/mass';
import { celsius, fahrenheit } from '../../server/core/units/temperature';
import { volumeToMl } from '../../server/core/units/volume';
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

describe('the weights of a formula solve its equations (mathjs 15, LU decomposition)', () => {
  it('a dough in shares, sized by what it makes, with a levain in shares that is built to it', () => {
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

  it('a total formula with two preferments, one of which feeds the other', () => {
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
});

describe('units against mathjs 15', () => {
  it.each([['kg', 'kg'], ['mg', 'mg'], ['oz', 'oz'], ['lb', 'lbm']] as const)('%s', (ours, theirs) => {
    close(GRAMS_PER[ours], unit(1, theirs).toNumber('g'));
  });

  // Its cup and spoons are rounded, so those are made of its fluid ounce by the relations of NIST SP 430: 8, 1/2 and 1/6.
  it.each([['fl oz', 1], ['cup', 8], ['tbsp', 1 / 2], ['tsp', 1 / 6]] as const)('US %s is %d fluid ounces', (ours, ounces) => {
    const theirs = unit(ounces, 'fluidounce').toNumber('m3') * 1e6;
    expect(Math.abs(volumeToMl(ours, 'us') / theirs - 1), `${theirs} ml`).toBeLessThan(1e-6);
  });

  it.each([-40, 0, 22.5, 97, 240])('%d C in Fahrenheit and back', (degrees) => {
    expect(fahrenheit(degrees)).toBeCloseTo(unit(degrees, 'degC').toNumber('degF'), 9);
    expect(celsius(unit(degrees, 'degC').toNumber('degF'))).toBeCloseTo(degrees, 9);
  });
});

function close(actual: number, expected: number): void {
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(1e-7 * Math.max(1, Math.abs(expected)));
}
