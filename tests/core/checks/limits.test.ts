import { describe, expect, test } from 'vitest';
import { defaultLimits, styleOf, THRESHOLDS } from '../../../server/core/checks/limits';

describe('which limit counts', () => {
  test('the default without a style', () => {
    expect(defaultLimits([]).get('salt-high', 'mostPct')).toBe(THRESHOLDS['salt-high'].mostPct.value);
  });

  test("the style's own", () => {
    expect(defaultLimits(['sweet sourdough']).get('inclusion-load', 'mostPct')).toBe(THRESHOLDS['inclusion-load'].mostPct.byStyle['sweet sourdough']);
  });

  test('the more lenient one of several styles, in both directions', () => {
    const most = THRESHOLDS['hydration-high'].mostPct.byStyle;
    const least = THRESHOLDS['hydration-low'].leastPct.byStyle;
    expect(most.rye).toBeGreaterThan(most.pan);
    expect(least.pan).toBeLessThan(least.rye);
    for (const styles of [['rye', 'pan'], ['pan', 'rye']]) {
      expect(defaultLimits(styles).get('hydration-high', 'mostPct')).toBe(most.rye);
      expect(defaultLimits(styles).get('hydration-low', 'leastPct')).toBe(least.pan);
    }
  });

  test('a style without a value of its own, and a word that is no style, leave the others', () => {
    expect(defaultLimits(['hearth', 'with inclusions', 'crunchy']).get('inclusion-load', 'mostPct')).toBe(60);
    expect(defaultLimits(['hearth', 'crunchy']).get('inclusion-load', 'mostPct')).toBe(40);
  });

  test('what the workspace sets, whatever the style', () => {
    expect(defaultLimits(['brioche'], { 'salt-low': { leastPct: 0.2 } }).get('salt-low', 'leastPct')).toBe(0.2);
  });

  test('settings that are no numbers or name nothing are ignored', () => {
    const odd = { 'salt-low': { leastPct: Number.NaN, constructor: 3 }, toString: {} };
    expect(defaultLimits([], odd).get('salt-low', 'leastPct')).toBe(THRESHOLDS['salt-low'].leastPct.value);
  });

  test('a limit that does not exist is a fault of the check that asks', () => {
    expect(() => defaultLimits([]).get('salt-low', 'constructor')).toThrow('no limit named constructor');
    expect(() => defaultLimits([]).get('toString', 'length')).toThrow();
  });
});

test.each([
  ['hearth', 'hearth'],
  ['Sweet  Sourdough', 'sweet sourdough'],
  ['wholemeal', 'whole grain'],
  ['with inclusions', 'with inclusions'],
  ['constructor', undefined],
])('the style %s', (word, style) => {
  expect(styleOf(word)).toBe(style);
});

test('every threshold says where it comes from, and a habit is called one', () => {
  for (const names of Object.values(THRESHOLDS)) {
    for (const { source } of Object.values(names)) {
      expect(source.length).toBeGreaterThan(10);
    }
  }
});
