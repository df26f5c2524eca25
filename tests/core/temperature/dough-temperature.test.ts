import { describe, expect, it } from 'vitest';
import { celsiusOfPart, doughTemperature, iceFor, type DoughTemperature } from '../../../server/core/temperature';
import { analyseFormula, type TextOptions } from '../bake';

function temperatureOf(text: string, options?: TextOptions): DoughTemperature {
  const answer = doughTemperature(analyseFormula(text, options).formula);
  if (answer === null) throw new Error('no dough');
  return answer;
}

const PLAIN = (head: string, water: string, extra = '') => `formula "Plain"
${head}

dough at 25 C
  1000 g    bread flour
  ${water}
  20 g      salt
${extra}`;

describe('water for a dough', () => {
  it('goes by the rule where the friction was measured', () => {
    const answer = temperatureOf(PLAIN('  room      22 C\n  flour     20 C\n  friction  14 C', '650 g     water'));
    expect(answer.waterCelsius).toBeCloseTo(3 * 25 - 20 - 22 - 14, 9);
    expect(answer).toMatchObject({ method: 'factors', factors: 3, frictionMeasured: true, verdict: 'fine', liquid: 'water', iceGrams: 0 });
  });

  it('goes by the heat balance where it was not', () => {
    const answer = temperatureOf(PLAIN('  room      22 C', '650 g     water', '\nsteps\n  mix 10 min, by hand\n'));
    const rise = (5 / 4) * (5 / 9);
    // Salt: 0.2 % water, the rest dry solids.
    const rest = 1000 * 1.8 + 20 * ((0.2 * 4.18 + 99.8 * 1.6) / 100);
    expect(answer.method).toBe('heat balance');
    expect(answer.waterHeatBalanceCelsius).toBeCloseTo(((25 - rise) * (rest + 650 * 4.18) - rest * 22) / (650 * 4.18), 6);
    expect(answer.assumptions.join(' ')).toContain('by hand is taken to warm the dough by 0.7 C');
  });

  it('counts a preferment as the fourth factor, at the temperature it ripens at', () => {
    const text = `formula "Levain"
  room      24 C
  flour     19 C
  friction  12 C

levain
  100 g     bread flour
  100 g     water at 30 C
  20 g      starter
  ripen     14 h at 21 C

dough at 25 C
  900 g     bread flour
  600 g     water
  all       levain
  20 g      salt
`;
    const answer = temperatureOf(text);
    expect(answer.factors).toBe(4);
    expect(answer.waterCelsius).toBeCloseTo(4 * 25 - 19 - 24 - 21 - 12, 2);
    expect(answer.assumptions.join(' ')).toContain('Goes in at 21 C: levain.');
  });

  it('asks for the water that is not stated when part of it is', () => {
    const head = '  room      22 C\n  flour     20 C\n  friction  14 C';
    const all = temperatureOf(PLAIN(head, '650 g     water'));
    const part = temperatureOf(PLAIN(head, '500 g     water\n  150 g     water at 40 C'));
    expect((500 * (part.waterCelsius ?? NaN) + 150 * 40) / 650).toBeCloseTo(all.waterCelsius ?? NaN, 6);
    expect((500 * (part.waterHeatBalanceCelsius ?? NaN) + 150 * 40) / 650).toBeCloseTo(all.waterHeatBalanceCelsius ?? NaN, 6);
    expect(part.expectedCelsius).toEqual({ factors: null, heatBalance: null });
  });

  it('puts ice in place of water that would be colder than the tap', () => {
    const text = PLAIN('  room      30 C\n  friction  14 C', '650 g     water');
    const answer = temperatureOf(text, { tapCelsius: 18 });
    expect(answer.waterCelsius).toBeCloseTo(1, 9);
    expect(answer.verdict).toBe('needs ice');
    expect(answer.iceGrams).toBeCloseTo(iceFor(650, 18, 1), 9);
    expect(answer.assumptions).toContain('The tap gives 18 C by the settings.');
    const guessed = temperatureOf(text);
    expect(guessed.iceGrams).toBeCloseTo(iceFor(650, 15, 1), 9);
    expect(guessed.assumptions).toContain('The tap is taken to give 15 C, a guess: 5 to 25 are found. Measure yours and set "tapCelsius" in proofsheet.json.');
  });

  it('says when no ice could do it', () => {
    const answer = temperatureOf(PLAIN('  room      30 C\n  friction  14 C', '650 g     water').replace('25 C', '-4 C'));
    expect(answer).toMatchObject({ verdict: 'cannot be', iceGrams: null });
  });

  it('says when the water would hurt the yeast', () => {
    const answer = temperatureOf(PLAIN('  room      12 C\n  friction  4 C', '650 g     water'));
    expect(answer.waterCelsius).toBeCloseTo(47, 9);
    expect(answer.verdict).toBe('too hot for yeast');
  });

  it('sets the milk of a dough that has no water, and puts no ice in it', () => {
    const answer = temperatureOf(PLAIN('  room      22 C\n  friction  14 C', '650 g     whole milk', '  12 g fresh yeast\n'));
    expect(answer.liquid).toBe('whole milk');
    expect(answer.waterCelsius).toBeCloseTo(17, 9);
    expect(temperatureOf(PLAIN('  room      29 C\n  friction  20 C', '650 g     whole milk'))).toMatchObject({ verdict: 'cannot be', iceGrams: null });
  });

  it('does not guess a room', () => {
    const answer = temperatureOf(PLAIN('  friction  14 C', '650 g     water'));
    expect(answer).toMatchObject({ waterCelsius: null, waterHeatBalanceCelsius: null, iceGrams: null, verdict: null });
    expect(answer.assumptions[0]).toContain('does not say how warm the room is');
  });

  it('has nothing to answer for a dish, or for a size that is not known', () => {
    expect(doughTemperature(analyseFormula('dish "Bake"\n  400 g leeks\n').formula)).toBeNull();
    const sizeless = temperatureOf('formula "Shares"\n  room 22 C\n\ndough at 25 C\n  100 % bread flour\n  65 % water\n');
    expect(sizeless).toMatchObject({ waterCelsius: null, waterHeatBalanceCelsius: null, iceGrams: null });
  });
});

describe('mixing', () => {
  const mixed = (...steps: readonly string[]): DoughTemperature => temperatureOf(PLAIN('  room      22 C', '650 g     water', `\nsteps\n${steps.map((step) => `  ${step}\n`).join('')}`));
  /** The true rise of the dough. */
  const rise = (...steps: readonly string[]): number => mixed(...steps).frictionCelsius / 3;

  it('by machine warms by the minute, at first as published', () => {
    expect(rise('mix 1 min, by mixer')).toBeCloseTo(0.4, 1);
    expect(rise('mix 10 min, by mixer')).toBeCloseTo(10 * (1 - Math.exp(-10 / 25)), 9);
  });

  it('by machine warms ever less, and never beyond what a dough can take', () => {
    // By the minute without end 36 min came to 14.4 C.
    expect(rise('mix 36 min, by mixer')).toBeCloseTo(10 * (1 - Math.exp(-36 / 25)), 9);
    expect(rise('mix 36 min, by mixer')).toBeLessThan(8);
    expect(rise('mix 10 h, by mixer')).toBeCloseTo(10, 6);
    expect(mixed('mix 36 min, by mixer').assumptions.join(' ')).toContain('Mixing by mixer for 36 min is taken to warm the dough by 7.6 C (5 to 10.5).');
  });

  it('in two goes is one of the same length, and less with a rest between', () => {
    expect(rise('mix 8 min, by mixer', 'mix 10 min, by mixer')).toBeCloseTo(rise('mix 18 min, by mixer'), 9);
    const rested = rise('mix 8 min, by mixer', 'rest 30 min', 'mix 10 min, by mixer');
    expect(rested).toBeLessThan(rise('mix 18 min, by mixer') - 0.2);
    expect(rested).toBeGreaterThan(rise('mix 10 min, by mixer'));
    expect(mixed('mix 8 min, by mixer', 'rest 30 min', 'mix 10 min, by mixer').assumptions.join(' ')).toContain('for 18 min with rests');
  });

  it('is as fast as the step says', () => {
    expect(rise('mix 4 min, by mixer, slow')).toBeLessThan(rise('mix 4 min, by mixer'));
    expect(rise('mix 4 min, by mixer, second speed')).toBeGreaterThan(rise('mix 4 min, by mixer'));
    expect(rise('mix 4 min, by mixer, first speed', 'mix 6 min, by mixer, fast')).toBeCloseTo(12.5 + (7.5 * (1 - Math.exp(-4 / 25)) - 12.5) * Math.exp(-6 / 25), 9);
    // On one machine a spiral's fast, on another a whisper.
    expect(rise('mix 4 min, by mixer, speed 2')).toBeCloseTo(rise('mix 4 min, by mixer'), 9);
  });

  it('by hand hardly warms, however long', () => {
    expect(rise('mix 5 min, by hand')).toBeCloseTo(rise('knead 20 min, by hand'), 9);
    expect(rise('mix 5 min, by hand')).toBeCloseTo(0.7, 1);
  });

  it('in a food processor goes by its own figure', () => {
    expect(rise('mix 1 min, in the food processor')).toBeCloseTo((25 / 4) * (5 / 9), 9);
  });

  it('ends where the dough begins to rise', () => {
    expect(rise('mix 10 min, by mixer', 'bulk 12 h at 24 C', 'mix 20 min, by mixer')).toBeCloseTo(rise('mix 10 min, by mixer'), 9);
  });
});

describe('what goes in after the mixing', () => {
  const yeasted = (line: string, steps: string, parts = ''): string => `formula "Layers"
  room      22 C
${parts}
dough at 24 C
  1000 g    bread flour
  600 g     water
  20 g      salt
  12 g      instant yeast
${line}
steps
  mix       8 min, by hand
${steps}`;
  const plain = temperatureOf(yeasted('', '  bulk      1 h\n'));
  const block = '\npart "butter block"\n  500 g     butter at 8 C\n';

  it.each([
    ['a part that is rolled in', yeasted('  all       butter block\n', '  rest      1 h\n  laminate  30 min, add butter block\n', block)],
    ['a part of fat alone, where the method rolls in and names nothing', yeasted('  all       butter block\n', '  laminate  30 min\n', block)],
    ['a line that is rolled in', yeasted('  500 g     butter at 8 C\n', '  laminate  30 min, add butter\n')],
    ['pieces that are folded in', yeasted('  300 g     walnuts at 5 C\n', '  bulk      3 h\n    fold    at 30 min, add half of walnuts\n    fold    at 60 min, add rest of walnuts\n')],
    ['a filling', yeasted('  all       filling\n', '  bulk      1 h\n  fill      20 min\n', '\nfilling\n  300 g     butter at 5 C\n  100 g     sugar\n')],
  ])('%s does not cool the dough', (_, text) => {
    const answer = temperatureOf(text);
    expect(answer.waterHeatBalanceCelsius).toBeCloseTo(plain.waterHeatBalanceCelsius ?? NaN, 9);
    expect(answer.mixedGrams).toBeCloseTo(1632, 9);
    expect(answer.assumptions.join(' ')).toContain('Goes in after the mixing, so it does not count here');
  });

  it('counts with the part of it that is mixed in', () => {
    const half = temperatureOf(yeasted('  300 g     walnuts at 5 C\n', '  bulk      3 h\n    fold    at 30 min, add half of walnuts\n'));
    expect(half.mixedGrams).toBeCloseTo(1632 + 150, 9);
    const weighed = temperatureOf(yeasted('  300 g     walnuts at 5 C\n', '  bulk      3 h\n    fold    at 30 min, add 100 g of walnuts\n'));
    expect(weighed.mixedGrams).toBeCloseTo(1632 + 200, 9);
  });

  it('is not what a mixing step adds, salt late in the mixing included', () => {
    const salted = yeasted('  50 g      butter at 5 C\n', '  rest      20 min\n  mix       5 min, by hand, add salt, add butter\n  bulk      1 h\n');
    expect(temperatureOf(salted).mixedGrams).toBeCloseTo(1682, 9);
  });
});

describe('the dough that comes out', () => {
  const head = '  room      22 C\n  flour     20 C\n  friction  14 C';

  it('is the one asked for when the water is as worked out', () => {
    const wanted = temperatureOf(PLAIN(head, '650 g     water'));
    const byRule = temperatureOf(PLAIN(head, `650 g     water at ${String(wanted.waterCelsius)} C`));
    expect(byRule.expectedCelsius.factors).toBeCloseTo(25, 6);
    const byHeat = temperatureOf(PLAIN(head, `650 g     water at ${(wanted.waterHeatBalanceCelsius ?? NaN).toFixed(6)} C`));
    expect(byHeat.expectedCelsius.heatBalance).toBeCloseTo(25, 5);
  });

  it('still says what all the water should have been', () => {
    const answer = temperatureOf(PLAIN(head, '650 g     water at 35 C'));
    expect(answer.waterCelsius).toBeCloseTo(19, 9);
    expect(answer.expectedCelsius.factors).toBeCloseTo((20 + 22 + 35 + 14) / 3, 9);
  });

  it('is colder with ice in the bowl', () => {
    const answer = temperatureOf(PLAIN(head, '550 g     water at 20 C\n  100 g     ice'));
    const without = temperatureOf(PLAIN(head, '650 g     water at 20 C'));
    const fall = (without.expectedCelsius.heatBalance ?? NaN) - (answer.expectedCelsius.heatBalance ?? NaN);
    const capacity = 1000 * 1.8 + 20 * ((0.2 * 4.18 + 99.8 * 1.6) / 100) + 650 * 4.18;
    expect(fall).toBeCloseTo((100 * (334 + 4.18 * 20)) / capacity, 6);
  });
});

describe('parts as they are taken in', () => {
  const soaked = (rest: string) => analyseFormula(`formula "Soaker"
  room      20 C

soaker
  100 g     raisins
  100 g     water at 90 C
  rest      ${rest}

dough
  500 g     bread flour
  300 g     water
  all       soaker
`).formula;

  it('cool from where they settled towards the room, the longer the nearer', () => {
    const at = (rest: string) => celsiusOfPart(soaked(rest), 0) ?? NaN;
    expect(at('1 min')).toBeGreaterThan(60);
    expect(at('1 h')).toBeLessThan(at('1 min'));
    expect(at('1 h')).toBeGreaterThan(25);
    expect(at('12 h')).toBeCloseTo(20, 1);
    expect(at('12 h at 4 C')).toBeCloseTo(4, 1);
  });
});
