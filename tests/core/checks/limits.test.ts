import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { checks } from '../../../server/core/checks';
import { findingsIn, marked } from '../bake';
import { defaultLimits, STYLES, styleOf, THRESHOLDS, type LimitOverrides, type Threshold } from '../../../server/core/checks/limits';

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
    expect(defaultLimits(['hearth', 'with inclusions', 'crunchy']).get('inclusion-load', 'mostPct')).toBe(75);
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
  ['with seeds', 'with inclusions'],
  ['Stollen', 'brioche'],
  ['grissini', 'cracker'],
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

const loaf = (head: string, more = '', part = 'dough') => `formula "Stall loaf"\n${head}\n${part}\n  1000 g bread flour\n  700 g water\n  20 g salt\n${more}`;

/** Texts for thresholds that neither the example of their check nor a sane formula comes near. */
const BESIDE: Readonly<Record<string, readonly string[]>> = {
  'spice-slows-yeast mostGarlicPct': [loaf('', '  30 g garlic\n  5 g instant yeast\n')],
  'room-odd leastFlourCelsius': [loaf('  flour -20 C\n')],
  'tin-too-full leastLiddedMlPerGram': [loaf('  makes 2 tins of 3 l\n  style pullman\n')],
  'tin-too-full leastBatterMlPerGram': [loaf('  makes 2 tins of 3 l\n', '', 'batter')],
  'tin-too-empty mostLiddedMlPerGram': [loaf('  makes 2 tins of 3 l\n  style pullman\n')],
  'tin-too-empty mostBatterMlPerGram': [loaf('  makes 2 tins of 3 l\n', '', 'batter')],
  'loss-odd mostBenchPct': [loaf('  loses 2 % at the bench\n')],
  'pieces-odd mostDoughGrams': [loaf('')],
  'ingredient-odd mostEachGrams': ['ingredient "stall roll"\n  each 70 g\n'],
  'ingredient-odd mostAbsorbs': ['ingredient "stall oats"\n  absorbs 1.2 times its weight\n'],
};

describe('every threshold', () => {
  const entries = Object.entries(THRESHOLDS).flatMap(([code, names]) => Object.entries(names).map(([name, threshold]): [string, string, Threshold] => [code, name, threshold]));
  const folder = path.join(import.meta.dirname, 'sane');
  const sane = readdirSync(folder).map((file) => readFileSync(path.join(folder, file), 'utf8'));
  const plain = new Map<string, string>();
  const said = (text: string, limits?: LimitOverrides) => JSON.stringify(findingsIn(text, { limits }).map(({ code, message }) => [code, message]));
  const unset = (text: string) => {
    const known = plain.get(text) ?? said(text);
    plain.set(text, known);
    return known;
  };

  test.each(entries)('%s %s is what a check goes by: set, it changes what is found', (code, name) => {
    const check = checks.find((each) => each.code === code)!;
    const texts = [marked(check.trips).text, check.passes, ...BESIDE[`${code} ${name}`] ?? []];
    const changes = [-1e6, 0, 0.001, 0.5, 60, 1e9].some((value) => [...texts, ...sane].some((text) => said(text, { [code]: { [name]: value } }) !== unset(text)));
    expect(changes).toBe(true);
  });

  test.each(entries.flatMap(([code, name, { byStyle = {} }]) => Object.entries(byStyle).map(([style, value]): [string, string, string, number] => [code, name, style, value])))(
    '%s %s of %s is a style that is known, and counts for it',
    (code, name, style, value) => {
      expect(STYLES as readonly string[]).toContain(style);
      expect(defaultLimits([style]).get(code, name)).toBe(value);
    },
  );

  test('every style has a value of its own somewhere', () => {
    const used = new Set(entries.flatMap(([, , { byStyle = {} }]) => Object.keys(byStyle)));
    expect([...STYLES].filter((style) => !used.has(style))).toEqual([]);
  });
});
