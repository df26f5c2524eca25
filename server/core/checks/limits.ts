/**
 * Which limit counts for a formula: the table of thresholds, its values by style, and what a workspace sets.
 */
import type { Limits } from './check';
import { remembering } from './walk';
import { listed } from './words';
import { COMMON_PRACTICE, THRESHOLDS, type Threshold } from './thresholds';

export { COMMON_PRACTICE, THRESHOLDS, type Threshold };

/** The styles that thresholds know, as a `style` line writes them. */
export const STYLES = [
  'hearth', 'pan', 'enriched', 'brioche', 'rye', 'whole grain', 'flatbread', 'cracker', 'bagel', 'sweet sourdough', 'with inclusions',
] as const;
export type Style = (typeof STYLES)[number];

/** Other words for them. */
const OTHER_WORDS: Readonly<Record<string, Style>> = {
  'lean hearth': 'hearth', lean: 'hearth', 'hearth bread': 'hearth', baguette: 'hearth', ciabatta: 'hearth', country: 'hearth',
  tin: 'pan', 'pan bread': 'pan', sandwich: 'pan', pullman: 'pan',
  milk: 'enriched', 'milk bread': 'enriched', buns: 'enriched', sweet: 'enriched', challah: 'enriched',
  rich: 'brioche', stollen: 'brioche',
  'rye bread': 'rye',
  wholegrain: 'whole grain', wholemeal: 'whole grain', 'whole wheat': 'whole grain', 'whole-grain': 'whole grain',
  pizza: 'flatbread', focaccia: 'flatbread', flat: 'flatbread', pita: 'flatbread',
  crackers: 'cracker', crispbread: 'cracker', 'crisp bread': 'cracker', grissini: 'cracker', breadsticks: 'cracker',
  bagels: 'bagel', pretzel: 'bagel', pretzels: 'bagel',
  panettone: 'sweet sourdough',
  inclusions: 'with inclusions', fruit: 'with inclusions', 'with fruit': 'with inclusions', 'fruit and nut': 'with inclusions',
  'with seeds': 'with inclusions', seeded: 'with inclusions', seeds: 'with inclusions', 'with nuts': 'with inclusions', nuts: 'with inclusions',
};

/** The style that a word of a `style` line means; undefined when no threshold knows it. */
export function styleOf(word: string): Style | undefined {
  const wanted = word.trim().toLowerCase().replace(/\s+/g, ' ');
  return STYLES.find((style) => style === wanted) ?? (Object.hasOwn(OTHER_WORDS, wanted) ? OTHER_WORDS[wanted] : undefined);
}

/** Where the limits of a check come from, each source once. */
export function sourcesOf(code: keyof typeof THRESHOLDS): string {
  const rows: readonly Threshold[] = Object.values(THRESHOLDS[code]);
  const sources = [...new Set(rows.map(({ source }) => source))];
  // What has a source goes before what has none.
  return sources.sort((a, b) => Number(a.startsWith(COMMON_PRACTICE)) - Number(b.startsWith(COMMON_PRACTICE))).join('; ');
}

const ALL: Readonly<Record<string, Readonly<Record<string, Threshold>>>> = THRESHOLDS;

/** The other words that mean a style. */
export function otherWordsFor(style: Style): readonly string[] {
  return Object.entries(OTHER_WORDS).flatMap(([word, means]) => (means === style ? [word] : []));
}

/** Values that a workspace sets, by check code and threshold name. They count for every style. */
export type LimitOverrides = Readonly<Record<string, Readonly<Record<string, number>>>>;

/**
 * Thresholds for a formula with these styles. A style without a value of its own leaves the default; of several that have
 * one the more lenient counts. Unknown style words change nothing. An override that is not a finite number is ignored.
 */
export function defaultLimits(styles: readonly string[], overrides: LimitOverrides = NO_OVERRIDES): Limits {
  const known = STYLES.filter((style) => styles.some((word) => styleOf(word) === style));
  const byStyles = limitsWith(overrides);
  const key = known.join();
  let limits = byStyles.get(key);
  if (limits === undefined) {
    byStyles.set(key, (limits = limitsFor(known, overrides)));
  }
  return limits;
}

const NO_OVERRIDES: LimitOverrides = {};

/** By the styles that were asked for. The same limits are asked for at every keystroke. */
const limitsWith: (overrides: LimitOverrides) => Map<string, Limits> = remembering(() => new Map<string, Limits>());

function limitsFor(known: readonly Style[], overrides: LimitOverrides): Limits {
  const values = new Map<string, Map<string, number>>();
  return {
    get(code, name) {
      let ofCheck = values.get(code);
      if (ofCheck === undefined) {
        values.set(code, (ofCheck = new Map()));
      }
      let value = ofCheck.get(name);
      if (value === undefined) {
        ofCheck.set(name, (value = limitOf(code, name, known, overrides)));
      }
      return value;
    },
  };
}

function limitOf(code: string, name: string, known: readonly Style[], overrides: LimitOverrides): number {
  const set = ownValue(ownValue(overrides, code), name);
  if (set !== undefined && Number.isFinite(set)) {
    return set;
  }
  const threshold = BY_NAME.get(code)?.get(name);
  if (threshold === undefined) {
    throw new Error(`The check ${code} has no limit named ${name}.`);
  }
  const values = known.map((style) => ownValue(threshold.byStyle, style)).filter((value) => value !== undefined);
  if (values.length === 0) {
    return threshold.value;
  }
  return name.startsWith('least') ? Math.min(...values) : Math.max(...values);
}

const BY_NAME: ReadonlyMap<string, ReadonlyMap<string, Threshold>> = new Map(
  Object.entries(ALL).map(([code, thresholds]) => [code, new Map(Object.entries(thresholds))]),
);

/** A field of a record from outside: settings may hold any key, `constructor` too. */
function ownValue<T>(record: Readonly<Record<string, T>> | undefined, key: string): T | undefined {
  return record !== undefined && Object.hasOwn(record, key) ? record[key] : undefined;
}

/** Which limits count, for a sentence that names one: ` for the style rye`, or that no style says otherwise. */
export function forStyle(formula: { readonly styles: readonly { readonly text: string }[] } | undefined): string {
  const known = (formula?.styles ?? []).filter(({ text }) => styleOf(text) !== undefined).map(({ text }) => text.trim().toLowerCase());
  return known.length === 0 ? 'where no style is written' : `for ${known.length === 1 ? 'the style' : 'the styles'} ${listed(known)}`;
}
