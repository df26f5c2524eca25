/** A batch made ready to be placed: its network, what each stretch of it takes up, and when it may be. */
import { distancesOf, endPoint, keepOutsOf, startPoint, writtenBox } from '../../timeline/net';
import type { Distance, KeepOut, Window } from '../../timeline/solve';
import type { Batch } from '../batches';
import { capacityOf, filledBy } from '../capacity';
import type { BakeDay } from '../model';
import type { BatchNetwork, Stay } from './network';

/** What there is on the day. Infinity is no limit. */
export interface Limits {
  readonly hands: number;
  readonly mixers: number;
  /** 1, in shares of all fridges together. */
  readonly fridge: number;
  readonly pots: number;
  readonly chambers: number;
  readonly hoursOff: readonly Window[];
}

/** How much of something there is at once. */
export function roomOf(limits: Limits, kind: Need['kind']): number {
  return limits[kind === 'mixer' ? 'mixers' : kind];
}

/** A stretch that takes up something. */
export interface Need {
  readonly kind: 'hands' | 'mixer' | 'fridge' | 'pots';
  readonly start: number;
  readonly end: number;
  readonly amount: number;
}

/** A stretch in an oven. */
export interface Bake {
  readonly stay: Stay;
  readonly start: number;
  readonly end: number;
  /** How full it makes each chamber; undefined where it does not fit. */
  readonly fills: readonly (number | undefined)[];
}

export interface Job {
  readonly index: number;
  readonly batch: Batch;
  readonly of: BatchNetwork;
  readonly needs: readonly Need[];
  readonly bakes: readonly Bake[];
  readonly distances: readonly Distance[];
  /** Moments that need a hand, outside hours off. */
  readonly moments: readonly KeepOut[];
  /** No point lies outside of these; and no load is done before `doneFromMs`. */
  readonly fromMs: number;
  readonly toMs: number;
  readonly doneFromMs: number;
}

export interface JobTimes {
  readonly fromMs: number;
  /** When it must be ready, or the end of all that is looked at. */
  readonly toMs: number;
  /** False where it is ready as soon as may be. */
  readonly isReadyBy: boolean;
  /** How long before that it may be done. */
  readonly earlyHours: number;
}

/** What a batch needs, in the room that the day has. */
export function jobOf(index: number, batch: Batch, of: BatchNetwork, day: BakeDay, limits: Limits, { fromMs, toMs, isReadyBy, earlyHours }: JobTimes): Job {
  const { network } = of;
  const order = day.orders[batch.order];
  const piecesOf = (load: number | undefined): number => (load === undefined ? batch.pieces : batch.loads[load]?.pieces) ?? Math.max(1, batch.factor);
  const needs: Need[] = network.nodes.flatMap(({ work }, node): readonly Need[] =>
    work?.handsOn ? [{ kind: 'hands', start: startPoint(node), end: endPoint(node), amount: 1 }] : []);
  if (limits.mixers < Infinity) {
    for (const node of of.mixes) needs.push({ kind: 'mixer', start: startPoint(node), end: endPoint(node), amount: 1 });
  }
  if (order && day.fridges.length > 0) {
    for (const { first, last, load } of of.chills) {
      const amount = filledBy(day.fridges, order, piecesOf(load), day);
      if (amount !== null) needs.push({ kind: 'fridge', start: startPoint(first), end: endPoint(last), amount });
    }
  }
  for (const { first, last, load } of limits.pots < Infinity && isLidded(of) ? of.bakes : []) {
    needs.push({ kind: 'pots', start: startPoint(first), end: endPoint(last), amount: piecesOf(load) });
  }
  const bakes = of.bakes.map((stay): Bake => ({
    stay, start: startPoint(stay.first), end: endPoint(stay.last),
    fills: day.chambers.map((chamber) => {
      const pieces = order ? (capacityOf(chamber, order, day)?.pieces ?? null) : null;
      // What cannot be reckoned fills it: nobody is told that two such loads go in together.
      const share = pieces === null ? 1 : pieces > 0 ? piecesOf(stay.load) / pieces : Infinity;
      return share <= 1 ? share : undefined;
    }),
  }));
  return {
    index, batch, of, needs, bakes, fromMs, toMs,
    doneFromMs: isReadyBy ? Math.max(fromMs, toMs - earlyHours * 3_600_000) : fromMs,
    distances: distancesOf(network, writtenBox),
    moments: keepOutsOf(network, limits.hoursOff, (node) => network.nodes[node]?.work?.handsOn !== true),
  };
}

function isLidded({ network, bakes }: BatchNetwork): boolean {
  return bakes.some(({ first }) => network.nodes[first]?.work?.step?.node.details.some((detail) => detail.kind === 'lid' && detail.on));
}
