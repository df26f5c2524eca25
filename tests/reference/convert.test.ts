/** Units that other people's recipes use and the language has not, against their definitions. */
import { describe, expect } from 'vitest';
import { readIngredient } from '../../server/core/convert/ingredient';
import { ingredientLine } from '../../server/core/convert/lines';
import { inCelsius, temperaturesIn } from '../../server/core/convert/warmth';
import { isoMinutes } from '../../server/core/convert/durations';
import { tokensOf } from '../../server/core/convert/tokens';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { parseBlock, quantityMiddle, type Amount } from '../../grammar';
import { gramsFrom } from '../../server/core/units/mass';
import { volumeToMl } from '../../server/core/units/volume';
import { outside } from './outside';

/** The amount of a line once it is drafted: g of a mass, ml of a volume. */
function drafted(line: string): number {
  const reading = readIngredient(line, builtInCatalogue);
  const node = parseBlock(`dough\n  ${(reading && ingredientLine(reading)) ?? ''}\n`).lines[0]?.node;
  if (node?.kind !== 'ingredient') throw new Error(`${line} is no line of ingredients`);
  const amount: Amount = node.amount;
  if (amount.kind === 'mass') return gramsFrom(quantityMiddle(amount.quantity), amount.unit);
  if (amount.kind === 'volume') return quantityMiddle(amount.quantity) * volumeToMl(amount.unit, 'us');
  throw new Error(`${line} has no measure`);
}

describe('measures', () => {
  const gallonMl = 3785.411784;
  const handbook = outside('published standard', 'NIST Handbook 44, appendix C: a US gallon is 231 cubic inches, 4 quarts, 8 pints, 16 cups');
  handbook('gallons, quarts and pints', () => {
    expect(drafted('1 gallon milk')).toBeCloseTo(gallonMl, 6);
    expect(drafted('1 quart milk')).toBeCloseTo(gallonMl / 4, 6);
    expect(drafted('1 pint milk')).toBeCloseTo(gallonMl / 8, 6);
    expect(drafted('1/2 pint milk')).toBeCloseTo(gallonMl / 16, 6);
  });

  const pound = outside('published standard', 'international yard and pound agreement of 1959: a pound is 0.45359237 kg, of 16 ounces');
  pound('pounds and ounces', () => {
    expect(drafted('1 lb 2 oz bread flour')).toBeCloseTo(18 * 453.59237 / 16, 6);
    expect(drafted('2 pounds and 8 ounces bread flour')).toBeCloseTo(2.5 * 453.59237, 6);
  });

  const metric = outside('published standard', 'SI Brochure, prefixes: deci is a tenth, centi a hundredth');
  metric('decilitres and centilitres', () => {
    expect(drafted('2,5 dl milk')).toBeCloseTo(250, 9);
    expect(drafted('75 cl milk')).toBeCloseTo(750, 9);
  });

  const stick = outside('dataset', 'USDA National Nutrient Database for Standard Reference, NDB 01145: 1 stick of butter = 113 g');
  stick('a stick of butter, to the gram', () => {
    expect(Math.round(drafted('1 stick butter'))).toBe(113);
    expect(Math.round(drafted('1/2 stick butter') * 2)).toBe(113);
  });

  const packet = outside('dataset', "USDA National Nutrient Database for Standard Reference, NDB 18375: 1 packet of dry yeast = 7.2 g, which packets print as 7 g");
  packet('a packet of yeast, to within what is printed', () => {
    expect(drafted('1 packet active dry yeast')).toBeGreaterThanOrEqual(7);
    expect(drafted('1 packet active dry yeast')).toBeLessThanOrEqual(7.2);
  });
});

describe('temperatures', () => {
  const celsius = (words: string): string | undefined => temperaturesIn(tokensOf(words)).map(inCelsius)[0];
  const steam = outside('published standard', 'definition of the two scales: 32 F is 0 C, 212 F is 100 C');
  steam('fixed points of the scales', () => {
    expect(celsius('at 212°F')).toBe('100 C');
    expect(celsius('at 32 degrees Fahrenheit')).toBe('0 C');
  });

  const oven = outside('published table', 'USDA FSIS, “Safe minimum internal temperature chart”: 165 F (73.9 C), 160 F (71.1 C), 145 F (62.8 C)');
  oven('to the nearest degree', () => {
    expect(['165 F', '160 F', '145 F'].map(celsius)).toEqual(['74 C', '71 C', '63 C']);
  });
});

describe('durations', () => {
  const iso = outside('published standard', 'ISO 8601-1, durations: PnDTnHnMnS');
  iso('minutes of a duration', () => {
    expect(['PT45M', 'PT1H30M', 'P1DT2H', 'PT0.5H', 'PT90S', 'P1Y', 'PT', '45M'].map(isoMinutes)).toEqual([45, 90, 1560, 30, 1.5, undefined, undefined, undefined]);
  });
});
