/**
 * Dough temperature by heat balance against physics worked by hand: what the warm things give off is what the cold ones take
 * up. Written as a baker writes it, with ice, a preferment, a hot scald, milk and butter. Specific heats in J/(g K): water
 * 4.18, flour 1.8, fat 1.98, other dry solids 1.6; ice 2.1 and 334 J/g to melt.
 */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { doughTemperature } from '../../server/core/temperature';
import { near, outside } from './outside';
import { resolveText } from './resolve-text';

const temperatureOf = (lines: string) => doughTemperature(resolveText(`formula "A"\n  room 20 C\n${lines}`).formula)!;

describe('the dough that comes out of what is written', () => {
  const check = outside('worked by hand', 'conservation of heat, specific heats as in the table of constants');

  check('flour and warm water', () => {
    // (1000 × 1.8 × 20 + 650 × 4.18 × 30) / (1000 × 1.8 + 650 × 4.18) = (36 000 + 81 510) / 4517
    near(temperatureOf(`  friction 0 C
dough
  1000 g bread flour
  650 g water at 30 C
`).expectedCelsius.heatBalance, 26.0151, 1e-4);
  });

  check('the same with a friction of 9 C in a sum of three, which is 3 C warmer', () => {
    near(temperatureOf(`  friction 9 C
dough
  1000 g bread flour
  650 g water at 30 C
`).expectedCelsius.heatBalance, 29.0151, 1e-4);
  });

  check('ice that melts', () => {
    // (1800 × 24 + 450 × 4.18 × 20 - 150 × 334) / (1800 + 600 × 4.18) = (43 200 + 37 620 - 50 100) / 4308
    near(temperatureOf(`  flour 24 C
  friction 0 C
dough
  1000 g bread flour
  450 g water at 20 C
  150 g ice
`).expectedCelsius.heatBalance, 7.1309, 1e-4);
  });

  check('ice from the freezer, which warms to 0 C first', () => {
    // 150 × (334 + 18 × 2.1) = 55 770; (43 200 + 37 620 - 55 770) / 4308
    near(temperatureOf(`  flour 24 C
  friction 0 C
dough
  1000 g bread flour
  450 g water at 20 C
  150 g ice at -18 C
`).expectedCelsius.heatBalance, 5.8148, 1e-4);
  });

  check('milk from the fridge and butter, by what they are made of', () => {
    // Milk, 88.13 % water and 3.27 % fat: 0.8813 × 4.18 + 0.0327 × 1.98 + 0.086 × 1.6 = 3.8862.
    // Butter, 17.94 % water and 81.11 % fat: 0.1794 × 4.18 + 0.8111 × 1.98 + 0.0095 × 1.6 = 2.3711.
    // (900 × 20 + 1165.85 × 5 + 237.11 × 18) / (900 + 1165.85 + 237.11) = 28 097.2 / 2302.96
    near(temperatureOf(`  friction 0 C
dough
  500 g bread flour
  300 g milk at 5 C
  100 g butter at 18 C
`).expectedCelsius.heatBalance, 12.2005, 1e-3);
  });

  check('any flour, water and ice: nothing is gained or lost', () => {
    const grams = fc.integer({ min: 50, max: 3000 });
    const celsius = (min: number, max: number) => fc.integer({ min, max });
    fc.assert(fc.property(grams, celsius(-5, 35), grams, celsius(1, 60), fc.integer({ min: 1, max: 200 }), celsius(-25, 0), (flour, flourC, water, waterC, ice, iceC) => {
      const dough = temperatureOf(`  flour ${flourC} C
  friction 0 C
dough
  ${flour} g bread flour
  ${water} g water at ${waterC} C
  ${ice} g ice at ${iceC} C
`).expectedCelsius.heatBalance!;
      const takenUp = flour * 1.8 * (dough - flourC) + water * 4.18 * (dough - waterC) + ice * (2.1 * (0 - iceC) + 334 + 4.18 * dough);
      expect(Math.abs(takenUp)).toBeLessThan(1e-6 * (flour + water + ice) * 100);
    }));
  });
});

describe('the water that a dough needs', () => {
  const check = outside('worked by hand', 'conservation of heat, specific heats as in the table of constants');

  check('with a cool preferment', () => {
    // A friction of 16 C in a sum of four is 4 C, so the bowl has to settle at 22 C. Capacities: poolish 300 × 1.8 + 300 × 4.18
    // = 1794, flour 700 × 1.8 = 1260, water 380 × 4.18 = 1588.4. (22 × 4642.4 - 1794 × 18 - 1260 × 22) / 1588.4 = 42 120.8 / 1588.4
    near(temperatureOf(`  flour 22 C
  friction 16 C
poolish at 18 C
  300 g bread flour
  300 g water
dough at 26 C
  700 g bread flour
  380 g water
  all poolish
`).waterHeatBalanceCelsius, 26.5178, 1e-4);
  });

  const hotScald = `scald
  100 g rye flour
  200 g water at 95 C
`;

  check('with a scald stirred in hot', () => {
    // The scald: 180 × 20 + 836 × 95 = 83 020 in 1016, so 81.7 C. Flour 900 × 1.8 = 1620, water 400 × 4.18 = 1672.
    // (26 × 4308 - 83 020 - 1620 × 20) / 1672 = -3412 / 1672
    near(temperatureOf(`  friction 0 C
${hotScald}dough at 26 C
  900 g bread flour
  400 g water
  all scald
`).waterHeatBalanceCelsius, -2.0407, 1e-4);
  });

  check('with the same scald after an hour on the bench', () => {
    // 300 g take on the room's 20 C with a time constant of 2.2 × 0.3^(2/3) = 0.98591 h: 20 + 61.7126 × e^(-1 / 0.98591) = 42.3806 C.
    // (26 × 4308 - 1016 × 42.3806 - 1620 × 20) / 1672 = 36 549.3 / 1672
    near(temperatureOf(`  friction 0 C
${hotScald}  rest 1 h at 20 C
dough at 26 C
  900 g bread flour
  400 g water
  all scald
`).waterHeatBalanceCelsius, 21.8596, 1e-4);
  });

  check('the ice found for it leaves the dough as warm as it is wanted', () => {
    // Nothing says the friction, so the balance is what is gone by: water at 9.6 C where the tap gives 15 C, as it is taken to.
    const wanted = temperatureOf(`  flour 34 C
dough at 20 C
  1000 g bread flour
  650 g water
`);
    const ice = wanted.iceGrams!;
    expect(wanted.method).toBe('heat balance');
    expect(ice).toBeGreaterThan(30);
    // By hand: ice takes 334 J/g and then warms as water; the tap gives 15 C.
    const rise = wanted.frictionCelsius / wanted.factors;
    const settled = (1800 * 34 + (650 - ice) * 4.18 * 15 - ice * 334) / (1800 + 650 * 4.18) + rise;
    near(settled, 20, 1e-9);
  });
});
