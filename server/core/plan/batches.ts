/** What is mixed and what goes into the oven together: orders divided into doughs, and doughs into loads. */
import type { ResolvedFormula } from '../formula/model';
import { scaleFormula } from '../scaling/scale';
import { capacityOf, mixableGrams, pieceGramsOf } from './capacity';
import { MOST_LOADS, RECOVERY_MINUTES } from './constants';
import type { BakeDay, Order } from './model';

/** One dough, or one dish. */
export interface Batch {
  /** Index into `BakeDay.orders`. */
  readonly order: number;
  readonly formula: ResolvedFormula;
  /** `Country loaf`, or `Country loaf, dough 2 of 3`. */
  readonly label: string;
  /** At the size of this batch, for its weights. */
  readonly scaled: ResolvedFormula;
  readonly factor: number;
  readonly pieces: number | null;
  readonly noun: string;
  readonly doughGrams: number | null;
  /** Pieces that go into the oven together; one load of all when it is not divided, none when it is not baked. */
  readonly loads: readonly { readonly pieces: number | null }[];
}

export interface Divided {
  readonly batches: readonly Batch[];
  /** What was assumed on the way; sentences. */
  readonly notes: readonly string[];
  /** The first order (its index) that would have made more loads than a plan can have; it and what comes after it is left out. */
  readonly tooMany: number | undefined;
}

/** Steps that end with pieces on boards. */
const SHAPING = new Set(['divide', 'preshape', 'shape', 'fill']);

/**
 * Divides every order that has a size. A mixer that takes less than the dough makes several of about the same size. What one
 * oven, or one set of lidded pots, does not take at once makes several loads: of one dough where its shaped pieces can
 * wait (a proof or a retard with a range as long as the bakes between), else a dough each.
 */
export function batchesOf(day: BakeDay): Divided {
  const notes: string[] = [];
  const batches: Batch[] = [];
  let loads = 0;
  for (const [index, order] of day.orders.entries()) {
    const own = divide(order, index, day, notes);
    loads += own.reduce((sum, batch) => sum + Math.max(1, batch.loads.length), 0);
    if (loads > MOST_LOADS.value) return { batches, notes: [...new Set(notes)], tooMany: index };
    batches.push(...own);
  }
  return { batches, notes: [...new Set(notes)], tooMany: undefined };
}

function divide(order: Order, index: number, day: BakeDay, notes: string[]): readonly Batch[] {
  const { formula, factor, pieces } = order;
  if (formula === undefined || factor === null || order.scaled === undefined) return [];
  const isBaked = formula.method.some(({ node }) => node.step === 'bake');
  const rooms = isBaked ? day.chambers.flatMap((chamber) => capacityOf(chamber, order, day) ?? []) : [];
  for (const { assumed, pieces: count } of rooms) if (assumed !== undefined && count > 0) notes.push(assumed);
  const lidded = formula.method.some(({ node }) => node.step === 'bake' && node.details.some((detail) => detail.kind === 'lid' && detail.on));
  const most = Math.min(rooms.length > 0 ? Math.max(...rooms.map((room) => room.pieces)) : Infinity, lidded ? (day.pots ?? Infinity) : Infinity);
  const mixable = isMixed(formula) ? mixableGrams(day.mixers, order) : Infinity;
  const groups = pieces === null
    ? wholes(order.doughGrams === null ? 1 : Math.ceil(order.doughGrams / mixable), isBaked)
    : grouped(pieces, most, piecesInMix(order, mixable), loadsPerDough(formula) * Math.max(1, rooms.filter((room) => room.pieces >= most).length), isBaked);
  return groups.flatMap((loads, number): readonly Batch[] => {
    const own = pieces === null ? null : loads.reduce<number>((sum, load) => sum + (load ?? 0), 0);
    const share = own === null || pieces === null ? 1 / groups.length : own / pieces;
    const scaled = scaleFormula(formula, { by: 'factor', factor: factor * share }, null);
    if (scaled.kind === 'cannot') return [];
    return [{
      order: index, formula, scaled: scaled.formula, factor: factor * share, pieces: own, noun: order.noun,
      label: groups.length === 1 ? formula.name : `${formula.name}, ${formula.kind === 'dish' ? 'batch' : 'dough'} ${number + 1} of ${groups.length}`,
      doughGrams: order.doughGrams === null ? null : order.doughGrams * share,
      loads: isBaked ? loads.map((count) => ({ pieces: count })) : [],
    }];
  });
}

function wholes(count: number, isBaked: boolean): readonly (readonly (number | null)[])[] {
  return Array.from({ length: Math.min(Math.max(1, count), MOST_LOADS.value + 1) }, () => (isBaked ? [null] : []));
}

/** Pieces of each load, by the dough that they are of. */
function grouped(pieces: number, most: number, inMix: number, perDough: number, isBaked: boolean): readonly (readonly number[])[] {
  if (!isBaked || most === Infinity) return even(pieces, Math.ceil(pieces / inMix)).map((count) => [count]);
  const room = Math.max(1, Math.min(most, inMix));
  const loads = even(pieces, Math.ceil(pieces / room));
  const together = Math.max(1, Math.min(Math.floor(inMix / room), perDough));
  let next = 0;
  return even(loads.length, Math.ceil(loads.length / together)).map((count) => loads.slice(next, (next += count)));
}

/** A number in so many whole parts as like as can be, the larger ones first. */
function even(total: number, parts: number): readonly number[] {
  const count = Math.min(Math.max(1, parts), MOST_LOADS.value + 1);
  return Array.from({ length: count }, (_, part) => Math.floor(total / count) + (part < total % count ? 1 : 0));
}

function piecesInMix(order: Order, mixable: number): number {
  const each = pieceGramsOf(order);
  return each === null || each <= 0 || mixable === Infinity ? Infinity : Math.max(1, Math.floor(mixable / each + 1e-9));
}

/** Whether a machine may be what mixes it: what is mixed by hand needs none. */
export function isMixed(formula: ResolvedFormula): boolean {
  return formula.method.some(({ node }) =>
    (node.step === 'mix' || node.step === 'knead') && !node.details.some((detail) => detail.kind === 'by' && detail.how === 'hand'));
}

/** How many loads may follow one another out of one dough, by how long the shaped pieces can wait. */
function loadsPerDough(formula: ResolvedFormula): number {
  const { method } = formula;
  const bake = method.findIndex(({ node }) => node.step === 'bake');
  const shaped = method.slice(0, bake).findLastIndex(({ node }) => SHAPING.has(node.step));
  const minutes = (from: number, to: number, kinds: readonly string[], of: (low: number, high: number) => number): number =>
    method.slice(from, to).reduce((sum, { node }) => (kinds.includes(node.step) && node.duration ? sum + of(node.duration.lowMinutes, node.duration.highMinutes) : sum), 0);
  const waits = minutes(shaped + 1, bake, ['proof', 'retard', 'chill', 'rest'], (low, high) => high - low);
  const baked = minutes(bake, method.length, ['bake'], (low) => low);
  return 1 + Math.floor(waits / (baked + RECOVERY_MINUTES.value));
}
