import { describe, expect, it } from 'vitest';
import { celsiusOfPart, doughTemperature, iceFor, type DoughTemperature } from '../../../server/core/temperature';
import { analyseFormula } from '../bake';

function temperatureOf(text: string, options?: Parameters<typeof doughTemperature>[1]): DoughTemperature {
  const answer = doughTemperature(analyseFormula(text).formula, options);
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
    expect(temperatureOf(text).assumptions.join(' ')).toContain('The tap is taken to give 15 C.');
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

  it('warms a mixer by the minute', () => {
    const answer = temperatureOf(PLAIN('  room      22 C', '650 g     water', '\nsteps\n  mix 10 min, by mixer\n'));
    expect(answer.frictionCelsius).toBeCloseTo(3 * 0.4 * 10, 9);
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
