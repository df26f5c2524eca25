/**
 * Every threshold of every check, in one table, each with where it comes from. A baker can change any of them; where no
 * published number was found the source says so, so that nobody takes a habit for a standard.
 *
 * Names begin with `most` (a finding above it) or `least` (a finding below it): where several styles of one formula
 * disagree, that says which of them is the more lenient one.
 */
import type { Check, Limits } from './check';

/** One threshold: its default, its unit, what it limits, its value by style, and where it comes from. */
export type Threshold = NonNullable<Check['limits']>[string] & { readonly source: string };

export const COMMON_PRACTICE = 'common practice, no source';

/** The styles that thresholds know, as a `style` line writes them. */
export const STYLES = [
  'hearth', 'pan', 'enriched', 'brioche', 'rye', 'whole grain', 'flatbread', 'bagel', 'sweet sourdough', 'with inclusions',
] as const;
export type Style = (typeof STYLES)[number];

/** Other words for them. */
const OTHER_WORDS: Readonly<Record<string, Style>> = {
  'lean hearth': 'hearth', lean: 'hearth', 'hearth bread': 'hearth', baguette: 'hearth', ciabatta: 'hearth', country: 'hearth',
  tin: 'pan', 'pan bread': 'pan', sandwich: 'pan', pullman: 'pan',
  milk: 'enriched', 'milk bread': 'enriched', buns: 'enriched', sweet: 'enriched', challah: 'enriched',
  rich: 'brioche',
  'rye bread': 'rye',
  wholegrain: 'whole grain', wholemeal: 'whole grain', 'whole wheat': 'whole grain', 'whole-grain': 'whole grain',
  pizza: 'flatbread', focaccia: 'flatbread', flat: 'flatbread', pita: 'flatbread',
  bagels: 'bagel', pretzel: 'bagel', pretzels: 'bagel',
  panettone: 'sweet sourdough',
  inclusions: 'with inclusions', fruit: 'with inclusions', 'with fruit': 'with inclusions', 'fruit and nut': 'with inclusions',
};

/** The style that a word of a `style` line means; undefined when no threshold knows it. */
export function styleOf(word: string): Style | undefined {
  const wanted = word.trim().toLowerCase().replace(/\s+/g, ' ');
  return STYLES.find((style) => style === wanted) ?? (Object.hasOwn(OTHER_WORDS, wanted) ? OTHER_WORDS[wanted] : undefined);
}

export const THRESHOLDS = {
  'salt-high': {
    mostPct: {
      value: 2.5, unit: '% of all flour', what: 'salt lines',
      byStyle: { flatbread: 3.2, 'sweet sourdough': 2 },
      source: COMMON_PRACTICE,
    },
  },
  'salt-low': {
    leastPct: {
      value: 1.5, unit: '% of all flour', what: 'salt, that inside butter and cheese counted in',
      byStyle: { enriched: 1, brioche: 1, 'sweet sourdough': 0.5 },
      source:
        'common practice, no source; for sweet doughs the proportion of A Treatise on Baking, “Salt and Its Effect ' +
        'on Fermentation”: a third less in milk bread, a third of the dose in sweet bread',
    },
  },
  'hydration-high': {
    mostPct: {
      value: 90, unit: '% of all flour', what: 'moisture that reaches the dough',
      byStyle: {
        pan: 80, enriched: 85, brioche: 85, rye: 110, 'whole grain': 105, flatbread: 95, bagel: 65, 'sweet sourdough': 75,
      },
      source: COMMON_PRACTICE,
    },
    mostInBatterPct: { value: 300, unit: '% of all flour', what: 'the same, in a batter', source: COMMON_PRACTICE },
  },
  'hydration-low': {
    leastPct: {
      value: 55, unit: '% of all flour', what: 'moisture that reaches the dough',
      byStyle: {
        pan: 52, enriched: 45, brioche: 48, rye: 60, 'whole grain': 60, flatbread: 48, bagel: 45, 'sweet sourdough': 40,
      },
      source: COMMON_PRACTICE,
    },
  },
  'inclusion-load': {
    mostPct: {
      value: 40, unit: '% of all flour', what: 'fruit, nuts, seeds and other pieces',
      byStyle: { enriched: 50, brioche: 50, 'sweet sourdough': 90, 'with inclusions': 60 },
      source: COMMON_PRACTICE,
    },
  },
  'oven-temperature-odd': {
    leastCelsius: { value: 90, unit: 'C', what: 'oven temperature of a bake', source: COMMON_PRACTICE },
    mostCelsius: {
      value: 320, unit: 'C', what: 'oven temperature of a bake',
      byStyle: { flatbread: 510 },
      source:
        'common practice, no source; flatbread leaves room for the 485 C of Regulation (EU) 97/2010 (Pizza ' +
        'Napoletana), read in summary',
    },
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, Threshold>>>>;

const ALL: Readonly<Record<string, Readonly<Record<string, Threshold>>>> = THRESHOLDS;

/** Values that a workspace sets, by check code and threshold name. They count for every style. */
export type LimitOverrides = Readonly<Record<string, Readonly<Record<string, number>>>>;

/**
 * Thresholds for a formula with these styles. A style without a value of its own leaves the default; of several that have
 * one the more lenient counts. Unknown style words change nothing. An override that is not a finite number is ignored.
 */
export function defaultLimits(styles: readonly string[], overrides: LimitOverrides = {}): Limits {
  const known = styles.map(styleOf).filter((style) => style !== undefined);
  return {
    get(code, name) {
      const set = ownValue(ownValue(overrides, code), name);
      if (set !== undefined && Number.isFinite(set)) {
        return set;
      }
      const threshold = ownValue(ownValue(ALL, code), name);
      if (threshold === undefined) {
        throw new Error(`The check ${code} has no limit named ${name}.`);
      }
      const values = known.map((style) => ownValue(threshold.byStyle, style)).filter((value) => value !== undefined);
      if (values.length === 0) {
        return threshold.value;
      }
      return name.startsWith('least') ? Math.min(...values) : Math.max(...values);
    },
  };
}

/** A field of a record from outside: settings may hold any key, `constructor` too. */
function ownValue<T>(record: Readonly<Record<string, T>> | undefined, key: string): T | undefined {
  return record !== undefined && Object.hasOwn(record, key) ? record[key] : undefined;
}
