/** What a bake day takes: all to be bought or taken off the shelf, and what to weigh when. */
import type { ResolvedFormula, ResolvedLine } from '../formula/model';
import type { Batch } from './batches';
import { prefermentsOf } from './builds';
import type { ScheduledDay } from './schedule-model';
import type { DayWork } from './work';

export interface ShoppingRow {
  readonly name: string;
  /** The ingredient's key; the written name where it is unknown. */
  readonly key: string;
  /** All of it, unrounded; null where a weight is not known. */
  readonly grams: number | null;
  /** Of eggs: what one weighs. */
  readonly eachGrams: number | null;
  /** Null where no price is known, or no weight. */
  readonly cost: { readonly amount: number; readonly currency: string } | null;
  /** Names of the formulas it goes into, each once. */
  readonly formulas: readonly string[];
}

export interface ShoppingList {
  /** The heaviest first. */
  readonly rows: readonly ShoppingRow[];
  /** Ripe culture to have at hand, g; null where a weight is not known, 0 where nothing needs any. */
  readonly starterGrams: number | null;
  /** Bread of this bakery that dishes take. */
  readonly bread: readonly { readonly name: string; readonly grams: number | null }[];
  /** Of all rows, tap water without a price left out; null where one has no price, or they have several currencies. */
  readonly cost: { readonly amount: number; readonly currency: string } | null;
  /** Names of what has no price. */
  readonly unpriced: readonly string[];
}

/** Everything weighed on a day, over all orders: into doughs, builds and dishes, on benches, in pans and on top. */
export function shoppingOf({ batches, builds }: DayWork): ShoppingList {
  const items: Item[] = [];
  for (const { scaled } of batches) items.push(...ownLines(scaled).map((line) => itemOf(line, scaled.name)));
  for (const { lines, portions } of builds) {
    for (const line of lines) {
      const formulas = portions.flatMap(({ batch }) => batches[batch]?.formula.name ?? []);
      items.push(...formulas.map((formula, index) => ({ ...line, isBread: false, formula, grams: index === 0 ? line.grams : 0 })));
    }
  }
  const starter = items.filter((item) => item.isStarter);
  const rows = [...grouped(items.filter((item) => !item.isStarter && !item.isBread)).values()].map(rowOf).sort((a, b) => (b.grams ?? 0) - (a.grams ?? 0));
  const free = new Set(items.filter(({ ingredient }) => ingredient?.isWater === true).map(({ key }) => key));
  const unpriced = rows.filter((row) => row.cost === null && !free.has(row.key)).map((row) => row.name);
  const currencies = new Set(rows.flatMap(({ cost }) => (cost === null ? [] : [cost.currency])));
  const [currency] = currencies;
  return {
    rows,
    starterGrams: sum(starter.map(({ grams }) => grams)),
    bread: [...grouped(items.filter((item) => item.isBread)).values()].map((same) => ({ name: same[0]?.name ?? '', grams: sum(same.map(({ grams }) => grams)) })),
    cost: unpriced.length > 0 || currencies.size > 1 || currency === undefined
      ? null : { amount: rows.reduce((total, { cost }) => total + (cost?.amount ?? 0), 0), currency },
    unpriced,
  };
}

interface Item {
  readonly name: string;
  readonly key: string;
  readonly grams: number | null;
  readonly ingredient: ResolvedLine['ingredient'];
  readonly role: ResolvedLine['role'];
  readonly isStarter: boolean;
  readonly isBread: boolean;
  readonly formula: string;
}

/** Lines that are weighed for this batch alone: not those of a preferment that a build makes, nor those that take in a part. */
function ownLines(formula: ResolvedFormula): readonly ResolvedLine[] {
  const built = new Set(prefermentsOf(formula));
  return formula.parts.flatMap((part, index) => (built.has(index) ? [] : part.lines.filter((line) => line.part === undefined)));
}

function itemOf({ name, key, grams, role, ingredient, starterHydrationPct, uses }: ResolvedLine, formula: string): Item {
  return { name: uses?.name ?? name, key, grams, role, ingredient, isStarter: starterHydrationPct !== undefined, isBread: uses !== undefined, formula };
}

function grouped(items: readonly Item[]): ReadonlyMap<string, readonly Item[]> {
  const byKey = new Map<string, Item[]>();
  for (const item of items) {
    const same = byKey.get(item.key);
    if (same) same.push(item);
    else byKey.set(item.key, [item]);
  }
  return byKey;
}

function rowOf(same: readonly Item[]): ShoppingRow {
  const [first] = same;
  const grams = sum(same.map((item) => item.grams));
  const ingredient = first?.ingredient;
  const price = ingredient?.cost ?? null;
  const cost = price === null || grams === null ? null : { amount: (grams * price.amount) / price.perGrams, currency: price.currency };
  return {
    name: first?.name ?? '', key: first?.key ?? '', grams, eachGrams: first?.role === 'egg' ? (ingredient?.eachGrams ?? null) : null, cost,
    formulas: [...new Set(same.map(({ formula }) => formula))],
  };
}

function sum(values: readonly (number | null)[]): number | null {
  return values.reduce<number | null>((total, value) => (total === null || value === null ? null : total + value), 0);
}

// --- what to weigh when ---------------------------------------------------------------------------------------------

/** One moment at the scale. */
export interface Weighing {
  readonly timeMs: number;
  /** `levain`, `dough`, `seeds`. */
  readonly what: string;
  /** Of a batch: its index into `ScheduledDay.batches`; undefined for a build, which may be for several. */
  readonly batch: number | undefined;
  /** Names of the formulas it is for. */
  readonly formulas: readonly string[];
  readonly items: readonly { readonly name: string; readonly key: string; readonly grams: number | null; readonly purpose: string | undefined }[];
}

/** What to have weighed by when: each part as its work begins, or as it goes in where it has none, in order of time. */
export function weighingsOf({ builds, batches }: ScheduledDay, work: DayWork): readonly Weighing[] {
  const weighings: Weighing[] = builds.map(({ startMs, name, lines, portions }) => ({
    timeMs: startMs, what: name, batch: undefined,
    formulas: [...new Set(portions.flatMap(({ batch }) => batches[batch]?.formula ?? []))],
    items: lines.map((line) => ({ name: line.name, key: line.key, grams: line.grams, purpose: undefined })),
  }));
  batches.forEach((batch, index) => {
    const of = work.batches[index];
    const built = builds.flatMap(({ portions }) => portions.flatMap((portion) => (portion.batch === index ? [portion.part] : [])));
    if (of) weighings.push(...partsOf(of, batch, index, new Set(built)));
  });
  return weighings.sort((a, b) => a.timeMs - b.timeMs);
}

function partsOf({ scaled }: Batch, { steps, startMs, takenMs, formula: name }: ScheduledDay['batches'][number], index: number, built: ReadonlySet<number>): readonly Weighing[] {
  return scaled.parts.flatMap((part, at): readonly Weighing[] => {
    if (built.has(at) || part.lines.length === 0) return [];
    const isDough = at === scaled.dough;
    const own = steps.filter((step) => step.part === (isDough ? undefined : at));
    const begins = (isDough ? own.find(({ kind }) => kind === 'mix' || kind === 'knead' || kind === 'autolyse') : undefined) ?? own[0];
    return [{
      // A dish is laid out before any of it is put together.
      timeMs: scaled.kind === 'dish' ? startMs : begins?.startMs ?? takenMs[at] ?? startMs, what: part.kind === 'total formula' ? 'dough' : part.name, batch: index, formulas: [name],
      items: part.lines.map((line) => ({ name: line.name, key: line.key, grams: line.grams, purpose: line.purpose })),
    }];
  });
}
