/**
 * Times for a network: nothing that needs a hand in hours off; then the end when it was asked for, or the beginning; then
 * lengths near the middle of their ranges, none stretched further than the one that must give most; then as late as can be.
 */
import { HOT_OVEN_WAITS_MINUTES, READY_EARLY_MINUTES } from './defaults';
import type { HoursOff, TimelineRequest } from './model';
import { boundedNet, distancesOf, donePoint, endPoint, keepOutsOf, startPoint, writtenBox, type Box, type Pin } from './net';
import type { Network, Node } from './network';
import { earliestTimes, latestTimes, type Distance, type KeepOut, type TimeNet } from './solve';
import type { Calendar } from './windows';

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 24 * 60 * MS_PER_MINUTE;
/** How finely the stretch that all ranges share is sought. */
const STRETCHES = 32;

export interface Chosen {
  readonly startsMs: readonly number[];
  readonly endsMs: readonly number[];
  readonly earliestStartsMs: readonly number[];
  readonly latestStartsMs: readonly number[];
  readonly doneMs: number;
}

/** What a network is to be placed by: its own lengths or others, hours off, a moment. */
export interface Task {
  readonly network: Network;
  readonly anchor: TimelineRequest['anchor'];
  readonly zone: string;
  readonly hoursOff: readonly HoursOff[];
  readonly calendar: Calendar;
  /** How long nodes may take, when not as written; undefined for one that may take as long as it likes. */
  readonly boxOf?: (node: Node, index: number) => Box | undefined;
}

/** Times for every node, by its written lengths; undefined when nothing fits. */
export function chooseTimes(task: Task): Chosen | undefined {
  const room = roomFor(task);
  const pin = pinOf(task, room);
  if (!pin) return undefined;
  const { network } = task;
  const netOf = (boxes: readonly Box[], pins: readonly Pin[]): TimeNet => room.netOf(distancesOf(network, (_, index) => boxes[index]), pins);
  const boxes = nearMiddle(network, (tried) => latestTimes(netOf(tried, [pin])) !== undefined);

  const done = donePoint(network);
  let endPin = pin;
  if (pin.point !== done) {
    const soonest = earliestTimes(netOf(boxes, [pin]));
    if (!soonest) return undefined;
    endPin = { point: done, latest: soonest[done] ?? 0 };
  }
  const times = latestTimes(netOf(boxes, [pin, endPin]));
  const written = netOf(network.nodes.map(writtenBox), [endPin]);
  const [earliest, latest] = [earliestTimes(written), latestTimes(written)];
  if (!times || !earliest || !latest) return undefined;
  const starts = (all: readonly number[]): readonly number[] => network.nodes.map((_, node) => all[startPoint(node)] ?? 0);
  return {
    startsMs: starts(times),
    endsMs: network.nodes.map((_, node) => times[endPoint(node)] ?? 0),
    earliestStartsMs: starts(earliest),
    latestStartsMs: starts(latest),
    doneMs: times[done] ?? 0,
  };
}

/** True when some timeline keeps to what is asked. */
export function fits(task: Task): boolean {
  return pinOf(task, roomFor(task)) !== undefined;
}

/** The time that a network may lie in, with its hours off. */
export interface Room {
  readonly keepOuts: readonly KeepOut[];
  readonly netOf: (distances: readonly Distance[], pins: readonly Pin[]) => TimeNet;
}

/** Time enough for the longest of everything one after the other, and for some nights between. */
export function roomFor({ network, anchor, hoursOff, calendar }: Task): Room {
  const spanMs = spanOf(network) + (hoursOff.length > 0 ? 7 * MS_PER_DAY : 0);
  const range = anchor.kind === 'ready'
    ? { fromMs: anchor.epochMs - spanMs, toMs: anchor.epochMs }
    : { fromMs: anchor.epochMs, toMs: anchor.epochMs + spanMs };
  const keepOuts = keepOutsOf(network, calendar(hoursOff, range.fromMs, range.toMs));
  return { keepOuts, netOf: (distances, pins) => boundedNet(network, distances, keepOuts, range, pins) };
}

/** All lengths at their most, one after the other, ms. */
export function spanOf({ nodes }: Network): number {
  return nodes.reduce((sum, { length, inside }) => sum + length.highMs + (inside ? Math.abs(inside.offsetMs) : 0), HOT_OVEN_WAITS_MINUTES * MS_PER_MINUTE);
}

/**
 * The point that what was asked hangs on, and when it is: the end, just when all must be ready or as little earlier as can be;
 * or the first step, as soon after the start as can be.
 */
function pinOf({ network, anchor, boxOf = writtenBox }: Task, { netOf }: Room): Pin | undefined {
  const distances = distancesOf(network, boxOf);
  switch (anchor.kind) {
    case 'ready': {
      const point = donePoint(network);
      const ms = latestTimes(netOf(distances, [{ point, earliest: anchor.epochMs - READY_EARLY_MINUTES * MS_PER_MINUTE }]))?.[point];
      return ms === undefined ? undefined : { point, earliest: ms, latest: ms };
    }
    case 'start': {
      const point = startPoint(leadOf(network));
      const ms = earliestTimes(netOf(distances, [{ point, latest: anchor.epochMs + MS_PER_DAY }]))?.[point];
      return ms === undefined ? undefined : { point, earliest: ms, latest: ms };
    }
  }
}

/** The node that begins first when every length is at its middle and nobody sleeps. */
function leadOf(network: Network): number {
  const distances = distancesOf(network, ({ length }) => ({ lowMs: length.chosenMs, highMs: length.chosenMs }));
  const times = latestTimes(boundedNet(network, distances, [], { fromMs: -spanOf(network), toMs: 0 })) ?? [];
  return network.nodes.reduce((lead, _, node) => ((times[startPoint(node)] ?? 0) < (times[startPoint(lead)] ?? 0) ? node : lead), 0);
}

/**
 * Lengths near the middle of their ranges: first no range is stretched by a greater share than need be, then each in the order written is as
 * near its middle as those before it let it be, to the minute. `feasible` is true for the whole ranges.
 */
export function nearMiddle(network: Network, feasible: (boxes: readonly Box[]) => boolean): readonly Box[] {
  const { nodes } = network;
  const boxes: Box[] = nodes.map(({ length }) => around(length, () => 0));
  const flexible = [...nodes.keys()].filter((index) => (nodes[index]?.length.highMs ?? 0) > (nodes[index]?.length.lowMs ?? 0));
  if (flexible.length === 0 || feasible(boxes)) return boxes;
  const stretched = (share: number): readonly Box[] => nodes.map(({ length }) => around(length, (rangeMs) => share * rangeMs));
  const stretch = leastWhere(1, STRETCHES, (count) => count === STRETCHES || feasible(stretched(count / STRETCHES)));
  const limits = stretched(stretch / STRETCHES);
  limits.forEach((box, index) => { boxes[index] = box; });
  for (const index of flexible) {
    const length = nodes[index]?.length;
    const limit = limits[index];
    if (!length || !limit) continue;
    const minutes = Math.ceil(Math.max(length.chosenMs - limit.lowMs, limit.highMs - length.chosenMs) / MS_PER_MINUTE);
    const least = leastWhere(0, minutes, (count) => {
      if (count === minutes) return true;
      boxes[index] = around(length, () => count * MS_PER_MINUTE);
      return feasible(boxes);
    });
    boxes[index] = least === minutes ? limit : around(length, () => least * MS_PER_MINUTE);
  }
  return boxes;
}

/** A length within so much of its middle, in whole minutes, and within its range. */
function around({ lowMs, chosenMs, highMs }: { readonly lowMs: number; readonly chosenMs: number; readonly highMs: number }, giveMs: (rangeMs: number) => number): Box {
  const give = (rangeMs: number): number => Math.ceil(giveMs(rangeMs) / MS_PER_MINUTE) * MS_PER_MINUTE;
  return { lowMs: Math.max(lowMs, chosenMs - give(chosenMs - lowMs)), highMs: Math.min(highMs, chosenMs + give(highMs - chosenMs)) };
}

/** The least whole number from `low` to `high` for which something holds that holds for all greater ones; it holds for `high`. */
export function leastWhere(low: number, high: number, holds: (count: number) => boolean): number {
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
