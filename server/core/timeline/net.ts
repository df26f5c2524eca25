/** A network of steps as a net of times: a point where each node begins and one where it ends, and one when all is done. */
import type { Network, Node } from './network';
import type { Distance, KeepOut, TimeNet, Window } from './solve';

export const startPoint = (node: number): number => 2 * node;
export const endPoint = (node: number): number => 2 * node + 1;
/** When everything is done. The last step of the method ends then. */
export const donePoint = (network: Network): number => 2 * network.nodes.length;

/** How long each node may take, ms. */
export interface Box {
  readonly lowMs: number;
  readonly highMs: number;
}

/** What is written, from the least to the most. */
export const writtenBox = ({ length }: Node): Box => ({ lowMs: length.lowMs, highMs: length.highMs });

/** The distances of a network whose nodes take as long as `boxOf` says; without a box, as long as they like, and when they like inside another. */
export function distancesOf(network: Network, boxOf: (node: Node, index: number) => Box | undefined): readonly Distance[] {
  const distances: Distance[] = [];
  const done = donePoint(network);
  network.nodes.forEach((node, index) => {
    const [start, end] = [startPoint(index), endPoint(index)];
    const box = boxOf(node, index);
    atLeast(distances, start, end, box?.lowMs ?? 0);
    atMost(distances, start, end, box?.highMs ?? Infinity);
    // A fold is done with its bulk; one that comes after it, by mistake, must not keep the rest from a time.
    if (!node.inside) atLeast(distances, end, done, 0);
    if (node.inside && box) {
      const outer = startPoint(node.inside.outer);
      atLeast(distances, outer, start, node.inside.offsetMs);
      atMost(distances, outer, start, node.inside.offsetMs);
    }
  });
  for (const { before, after, lagMs, waitMs } of network.links) {
    atLeast(distances, endPoint(before), startPoint(after), -lagMs);
    atMost(distances, endPoint(before), startPoint(after), waitMs - lagMs);
  }
  if (network.last !== undefined) atMost(distances, endPoint(network.last), done, 0);
  return distances;
}

/** What needs a hand, as stretches that must touch none of the windows; with `only`, of some nodes. */
export function keepOutsOf(network: Network, windows: readonly Window[], only: (index: number) => boolean = () => true): readonly KeepOut[] {
  if (windows.length === 0) return [];
  return network.nodes.flatMap(({ work }, index): readonly KeepOut[] => {
    if (!work || !only(index)) return [];
    const [start, end] = [startPoint(index), endPoint(index)];
    if (work.handsOn) return [{ start, end, windows }];
    return [
      ...(work.handAtStart ? [{ start, end: start, windows }] : []),
      ...(work.handAtEnd ? [{ start: end, end, windows }] : []),
    ];
  });
}

/** Bounds for every point: between two moments, and closer for some. A fold written beyond the end of its bulk may be later. */
export function boundedNet(
  network: Network,
  distances: readonly Distance[],
  keepOuts: readonly KeepOut[],
  { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number },
  pins: readonly Pin[] = [],
): TimeNet {
  const points = donePoint(network) + 1;
  const earliestMs = new Array<number>(points).fill(fromMs);
  const latestMs = new Array<number>(points).fill(toMs);
  network.nodes.forEach(({ inside, length }, index) => {
    if (!inside) return;
    latestMs[startPoint(index)] = toMs + inside.offsetMs;
    latestMs[endPoint(index)] = toMs + inside.offsetMs + length.highMs;
  });
  for (const { point, earliest, latest } of pins) {
    if (earliest !== undefined) earliestMs[point] = Math.max(earliest, earliestMs[point] ?? earliest);
    if (latest !== undefined) latestMs[point] = Math.min(latest, latestMs[point] ?? latest);
  }
  return { points, distances, keepOuts, earliestMs, latestMs };
}

/** A point that is held between two moments. */
export interface Pin {
  readonly point: number;
  readonly earliest?: number;
  readonly latest?: number;
}

function atLeast(distances: Distance[], from: number, to: number, ms: number): void {
  distances.push({ from, to, ms });
}

function atMost(distances: Distance[], from: number, to: number, ms: number): void {
  if (ms !== Infinity) distances.push({ from: to, to: from, ms: -ms });
}
