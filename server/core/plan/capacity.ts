/** How many pieces of a formula an oven, a deck or a fridge holds, and how much of a dough a mixer takes. */
import { singular } from '../scaling/nouns';
import { DUST, MOST_LOADS, USUAL_LOAF_GRAMS } from './constants';
import type { BakeDay, Held, Mixer, Order, PlanTrouble, Store } from './model';

/** Pieces of one order that there is room for at once. */
export interface Capacity {
  readonly pieces: number;
  /** How it was reckoned, where no noun of the plan says it; a sentence. */
  readonly assumed: string | undefined;
}

/**
 * By the noun that the formula counts in; else by a number without one; else by weight, and where the plan counts something
 * else, by the dough of that, which is an assumption. Null where neither can be known.
 */
export function capacityOf({ name, holds }: Store, order: Order, day: BakeDay): Capacity | null {
  const named = holds.find((held) => held.kind === 'pieces' && held.noun !== undefined && sameNoun(held.noun, order.noun));
  if (named?.kind === 'pieces') return { pieces: named.count, assumed: undefined };
  const bare = holds.find((held) => held.kind === 'pieces' && held.noun === undefined);
  if (bare?.kind === 'pieces') return { pieces: bare.count, assumed: undefined };
  const grams = pieceGramsOf(order);
  if (grams === null || grams <= 0) return null;
  const byWeight = holds.find((held) => held.kind === 'dough');
  if (byWeight?.kind === 'dough') return { pieces: Math.floor(byWeight.grams / grams + DUST), assumed: undefined };
  for (const held of holds) {
    const each = held.kind === 'pieces' && held.noun !== undefined ? usualGrams(held.noun, day) : null;
    if (held.kind !== 'pieces' || each === null) continue;
    const pieces = Math.floor((held.count * each) / grams + DUST);
    return { pieces, assumed: `The ${name} is reckoned to hold ${pieces} ${order.noun} of “${order.name}”, by the weight of the ${held.count} ${held.noun ?? ''} that the plan gives. Write \`or 24 ${order.noun}\` behind them with your own number.` };
  }
  return null;
}

/** How much of the whole a number of pieces fills, where several stores are used as one. Null where it cannot be known. */
export function filledBy(stores: readonly Store[], order: Order, pieces: number, day: BakeDay): number | null {
  const room = stores.map((store) => capacityOf(store, order, day)?.pieces ?? null);
  const known = room.flatMap((count) => (count === null ? [] : [count]));
  const total = known.reduce((sum, count) => sum + count, 0);
  return known.length === 0 ? null : total > 0 ? pieces / total : Infinity;
}

/** The most dough of an order that one mix takes, g; Infinity where no mixer limits it. */
export function mixableGrams(mixers: readonly Mixer[], order: Order): number {
  if (mixers.length === 0 || order.doughGrams === null) return Infinity;
  const flour = flourGramsOf(order);
  const most = mixers.map(({ grams, of }) => (of === 'dough' ? grams : flour === null || flour <= 0 ? Infinity : (grams * (order.doughGrams ?? 0)) / flour));
  return Math.max(...most);
}

function flourGramsOf({ scaled }: Order): number | null {
  if (scaled === undefined) return null;
  // What is weighed into the dough and what its preferments bring.
  return scaled.parts.reduce<number | null>((sum, part) => (sum === null || part.flourGrams === null ? null : sum + part.flourGrams * (part.usedFraction ?? 0)), 0);
}

/** The dough of one piece; of what is not divided, all of it as one. */
export function pieceGramsOf({ scaled, doughGrams, pieces, factor }: Order): number | null {
  if (scaled?.yield.pieceGrams) return scaled.yield.pieceGrams;
  return doughGrams === null ? null : doughGrams / (pieces ?? Math.max(1, factor ?? 1));
}

/** What one of something weighs that the plan counts in: of what it orders by that noun, else of a usual loaf. */
function usualGrams(noun: string, day: BakeDay): number | null {
  const own = day.orders.filter((order) => sameNoun(noun, order.noun)).flatMap((order) => pieceGramsOf(order) ?? []);
  if (own.length > 0) return own.reduce((sum, grams) => sum + grams, 0) / own.length;
  return lastWord(noun) === 'loaf' ? USUAL_LOAF_GRAMS.value : null;
}

/** `loaves` and `loaf`; `small loaves` and `loaves` too, but not `small loaves` and `large loaves`. */
export function sameNoun(a: string, b: string): boolean {
  const [one, other] = [plainNoun(a), plainNoun(b)];
  return one === other || (one === lastWord(b) || other === lastWord(a));
}

function plainNoun(noun: string): string {
  return singular(noun.trim().toLowerCase());
}

function lastWord(noun: string): string {
  return plainNoun(noun).split(/\s+/).at(-1) ?? '';
}

// --- what is wrong --------------------------------------------------------------------------------------------------

/** What does not go with the room that there is. */
export function roomTroubles(day: BakeDay, hasOvenLine: boolean): readonly PlanTrouble[] {
  const troubles: PlanTrouble[] = [];
  const baked = day.orders.filter(({ formula }) => formula && needsOven(formula));
  if (baked.length > 0 && day.chambers.length === 0 && !hasOvenLine) troubles.push({ kind: 'no-oven', place: day.place });
  const unknown = new Set<string>();
  let loadsSoFar = 0;
  for (const order of baked) {
    if (day.chambers.length === 0 || order.scaled === undefined) continue;
    const rooms = day.chambers.map((chamber) => capacityOf(chamber, order, day));
    const most = Math.max(0, ...rooms.map((room) => room?.pieces ?? 0));
    if (rooms.every((room) => room === null)) {
      for (const { holds, place } of [...day.chambers]) {
        const noun = holds.flatMap((held: Held) => (held.kind === 'pieces' ? held.noun ?? [] : []))[0];
        const key = `${place.start}`;
        if (noun !== undefined && !unknown.has(key)) troubles.push({ kind: 'room-unknown', place, noun });
        unknown.add(key);
      }
    } else if (most < 1) {
      const mostGrams = Math.max(...day.chambers.flatMap(({ holds }) => holds.map((held) => (held.kind === 'dough' ? held.grams : held.count * (usualGrams(held.noun ?? '', day) ?? 0)))));
      troubles.push({ kind: 'fits-no-oven', place: order.place, name: order.name, noun: order.noun, pieceGrams: pieceGramsOf(order) ?? 0, mostGrams });
    } else {
      const loads = Math.ceil((order.pieces ?? Math.max(1, order.factor ?? 1)) / most);
      const before = loadsSoFar;
      loadsSoFar += loads;
      if (before <= MOST_LOADS.value && loadsSoFar > MOST_LOADS.value) troubles.push({ kind: 'too-many-loads', place: order.place, name: order.name, loads: loadsSoFar });
    }
  }
  return troubles;
}

function needsOven(formula: NonNullable<Order['formula']>): boolean {
  return formula.method.some(({ node }) => node.step === 'bake');
}
