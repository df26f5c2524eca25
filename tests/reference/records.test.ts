/** The fit of a pace, and lengths on another day, against a general-purpose library's algebra, statistics and differential equations. */
import * as math from 'mathjs';
import { describe, expect } from 'vitest';
import { equalLength, relativeRate, type Organism, type Standing } from '../../server/core/fermentation';
import { fitPace, recordsOf } from '../../server/core/records';
import { STUDENT_T } from '../../server/core/records/constants';
import { bulkMinutesUnder } from '../../server/core/timeline/conditions';
import { outside } from './outside';
import { resolveText } from './resolve-text';

type Pair = readonly [number, number];

/** The library has it, its types do not. */
const { solveODE } = math as unknown as {
  readonly solveODE: (slope: (time: number, at: Pair) => Pair, span: Pair, start: Pair, options: { readonly method: 'RK45'; readonly tol: number; readonly maxStep: number }) => { readonly y: readonly Pair[] };
};

const LOAF = `formula "Market loaf"
  room      24 C

levain
  100 g     rye flour
  100 g     water
  20 g      starter
  ripen     8 h at 24 C

dough at 25 C
  900 g     bread flour
  620 g     water
  all       levain
  20 g      salt

steps
  mix         8 min, by hand
  bulk        4 h at 24 C, until volume 75 %
  bake        40 min at 240 C
`;

/** Room and dough, C; the bulk, min, and its rise, %. */
const BAKES = [[20, 24, 270, 70], [22, 25, 245, 75], [26, 26, 170, 80], [24, 23.5, 235, 75], [19, 25, 250, 60]] as const;

describe('the pace of a kitchen', () => {
  const check = outside('general-purpose library', 'mathjs 15, linear algebra and statistics');

  check('is the least-squares answer, and its scatter the standard deviation', () => {
    const { formula: planned } = resolveText(LOAF);
    const logs = BAKES.map(([roomCelsius, doughCelsius, minutes, volume]) =>
      Math.log(((bulkMinutesUnder(planned, { roomCelsius, doughCelsius })?.low ?? NaN) * volume) / 75 / minutes));
    // One unknown, the logarithm of the pace, in as many equations as there are bakes.
    const ones = math.matrix(BAKES.map(() => [1]));
    const solved = math.lusolve(math.multiply(math.transpose(ones), ones), math.multiply(math.transpose(ones), math.matrix(logs.map((one) => [one]))));
    const deviation = Number(math.std(logs));
    const records = BAKES.map(([room, dough, minutes, volume], at) =>
      `record 2026-05-0${String(at + 1)}\n  room ${String(room)} C\n  dough ${String(dough)} C\n  bulk ${String(minutes)} min, volume ${String(volume)} %\n`);
    const { formula } = resolveText(`${LOAF}\n${records.join('\n')}`);
    const found = fitPace(formula, recordsOf(formula));
    if ('reason' in found) throw new Error(found.reason);
    expect(found.bakes).toBe(5);
    expect(found.pace).toBeCloseTo(Math.exp(Number(math.subset(solved, math.index(0, 0)))), 9);
    expect(found.residualPct).toBeCloseTo(100 * (Math.exp(deviation) - 1), 9);
    expect(Math.log(found.high / found.low) / 2).toBeCloseTo((2.776 * deviation) / Math.sqrt(5), 9);
  });

  check("the table of Student's t leaves one case in twenty outside", () => {
    for (const [df, t] of STUDENT_T.points) {
      const scale = math.gamma((df + 1) / 2) / (Math.sqrt(df * Math.PI) * math.gamma(df / 2));
      const density = (x: number) => scale * (1 + (x * x) / df) ** (-(df + 1) / 2);
      const steps = 400;
      let sum = density(0) + density(t);
      for (let i = 1; i < steps; i++) sum += density((i * t) / steps) * (i % 2 === 1 ? 4 : 2);
      expect((2 * sum * t) / (3 * steps)).toBeCloseTo(0.95, 3);
    }
  });
});

describe('a length on another day', () => {
  const check = outside('general-purpose library', 'mathjs 15, differential equations');

  /** Work done after so many hours, of a dough that takes on the temperature around it: dT/dt = (ambient - T) / constant, dW/dt = rate(T). */
  const workBy = (organism: Organism, hours: number, { startCelsius, ambientCelsius, timeConstantHours }: Standing): number => {
    const { y } = solveODE(
      (_, [celsius]) => [(ambientCelsius - celsius) / timeConstantHours, relativeRate(organism, celsius)],
      [0, hours], [startCelsius, 0], { method: 'RK45', tol: 1e-8, maxStep: 0.1 },
    );
    return y.at(-1)?.[1] ?? NaN;
  };

  for (const organism of ['sourdough yeast', "baker's yeast"] as const) {
    for (const [start, ambient] of [[25, 19], [20, 26], [27, 27], [16, 16]] as const) {
      check(`${organism}: 4 h at 24 C, against ${String(start)} C in ${String(ambient)} C`, () => {
        const from = { startCelsius: 25, ambientCelsius: 24, timeConstantHours: 2.9 };
        const to = { startCelsius: start, ambientCelsius: ambient, timeConstantHours: 2.9 };
        const length = equalLength(organism, 4, from, to);
        expect(workBy(organism, length ?? NaN, to) / workBy(organism, 4, from)).toBeCloseTo(1, 5);
      });
    }
  }
});
