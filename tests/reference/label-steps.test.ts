/**
 * Every step of the rounding rules for labels: the last value before it and the first one after it. What is declared stands
 * as the rule words it; the value just below a step ends in 9 hundredths or thousandths.
 */
import { describe, expect } from 'vitest';
import { euEnergyRounded, euGrams, euSalt, euSaturates, usCalories, usCholesterol, usFat, usGrams, usSodium } from '../../server/core/facts';
import { outside, type Check } from './outside';

type Rule = (value: number) => number | string;
/** What is in the food, and what is declared. */
type Step = readonly [value: number, declared: number | string];

function steps(check: Check, what: string, rule: Rule, rows: readonly Step[]): void {
  for (const [value, declared] of rows) check(`${what}: ${value} is declared as ${declared}`, () => expect(rule(value)).toBe(declared));
}

describe('US, 21 CFR 101.9(c)', () => {
  const us = (paragraph: string) => outside('published standard', `21 CFR 101.9(c)${paragraph}, as tabled in FDA, A Food Labeling Guide, Appendix H (2009)`);
  const LESS_5 = 'less than 5 mg';
  const LESS_1 = 'less than 1 g';

  // Under 5 may be 0; to the nearest 5 up to and including 50; to the nearest 10 above.
  steps(us('(1)'), 'calories', usCalories, [
    [0, 0], [4.99, 0], [5, 5], [7.49, 5], [7.5, 10], [47.49, 45], [47.5, 50], [50, 50], [50.01, 50], [54.99, 50], [55, 60], [64.99, 60], [65, 70], [1234.9, 1230], [1235, 1240],
  ]);
  // Under 0.5 is 0; to the nearest 0.5 below 5; to the nearest 1 from 5.
  steps(us('(2)'), 'fat, g', usFat, [
    [0, 0], [0.49, 0], [0.5, 0.5], [0.74, 0.5], [0.75, 1], [4.74, 4.5], [4.75, 5], [4.99, 5], [5, 5], [5.25, 5], [5.49, 5], [5.5, 6], [13.49, 13], [13.5, 14],
  ]);
  // Under 2 is 0; from 2 to 5 “less than 5 mg”; above that to the nearest 5.
  steps(us('(3)'), 'cholesterol, mg', usCholesterol, [
    [0, 0], [1.99, 0], [2, LESS_5], [5, LESS_5], [5.01, 5], [7.49, 5], [7.5, 10], [12.49, 10], [12.5, 15],
  ]);
  // Under 5 is 0; to the nearest 5 from 5 to 140; to the nearest 10 above.
  steps(us('(4)'), 'sodium, mg', usSodium, [
    [0, 0], [4.99, 0], [5, 5], [7.49, 5], [7.5, 10], [137.49, 135], [137.5, 140], [140, 140], [140.01, 140], [144.99, 140], [145, 150], [154.99, 150], [155, 160],
  ]);
  // Under 0.5 is 0; under 1 “less than 1 g”; else to the nearest 1.
  steps(us('(6) and (7)'), 'carbohydrate, fibre, sugars, protein, g', usGrams, [
    [0, 0], [0.49, 0], [0.5, LESS_1], [0.99, LESS_1], [1, 1], [1.49, 1], [1.5, 2], [24.49, 24], [24.5, 25],
  ]);
});

describe('EU, guidance of the Commission of December 2012', () => {
  const eu = outside('from memory', 'European Commission, guidance on tolerances and rounding of nutrition declarations, December 2012, table 4; the page was opened, the table could not be read');

  steps(eu, 'energy, kJ or kcal', euEnergyRounded, [[0, 0], [0.49, 0], [0.5, 1], [984.49, 984], [984.5, 985]]);
  // From 10 to the nearest 1; above 0.5 to the nearest 0.1; else none to speak of.
  steps(eu, 'fat, carbohydrate, sugars, fibre, protein, g', euGrams, [
    [0, '<0.5'], [0.5, '<0.5'], [0.501, 0.5], [0.549, 0.5], [0.55, 0.6], [9.849, 9.8], [9.85, 9.9], [9.949, 9.9], [9.95, 10], [10, 10], [10.49, 10], [10.5, 11],
  ]);
  steps(eu, 'saturates, g', euSaturates, [[0, '<0.1'], [0.1, '<0.1'], [0.101, 0.1], [0.149, 0.1], [0.15, 0.2], [9.949, 9.9], [9.95, 10], [10.49, 10], [10.5, 11]]);
  // From 1 to the nearest 0.1; above 0.0125 to the nearest 0.01; else none to speak of.
  steps(eu, 'salt, g', euSalt, [
    [0, '<0.01'], [0.0125, '<0.01'], [0.0126, 0.01], [0.0149, 0.01], [0.015, 0.02], [0.994, 0.99], [0.995, 1], [0.9999, 1], [1, 1], [1.049, 1], [1.05, 1.1], [1.149, 1.1], [1.15, 1.2],
  ]);
});
