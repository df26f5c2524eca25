/** Times for a network, counted in ms from the moment all is ready: every step as late as what needs it allows. */
import type { Conflict, Fact, Length, Link, Network, Node } from './network';

export interface Placing {
  readonly startMs: number;
  readonly endMs: number;
  readonly earliestStartMs: number;
  readonly latestStartMs: number;
}

export type Placed = { readonly kind: 'placed'; readonly places: readonly Placing[] } | { readonly kind: 'conflict'; readonly conflict: Conflict };

/**
 * Places every node by its planned length; what nothing needs ends at 0. The earliest and the latest start of a part's
 * steps come from the ranges written in that part, while whatever takes the part in stands still; all else has no slack.
 *
 * A network with a cycle is a conflict that lists the lines of it.
 */
export function place({ nodes, links }: Network): Placed {
  const after = linksByNode(nodes, links);
  const order = lastFirst(nodes, links);
  if (order.length < nodes.length) return { kind: 'conflict', conflict: cycleOf(nodes, links, order) };

  const starts = backward(nodes, after, order, (node) => node.length.chosenMs, () => undefined);
  const slack = (length: (length: Length) => number): readonly number[] =>
    backward(nodes, after, order, (node) => length(node.length), (from, to) =>
      // Another part's step, or the method's, stands where it is; and so does the method.
      nodes[from]?.sequence === undefined || nodes[from]?.sequence !== nodes[to]?.sequence ? starts[to] : undefined);
  const earliest = slack((length) => length.highMs);
  const latest = slack((length) => length.lowMs);

  const places = nodes.map((node, index): Placing => {
    const startMs = starts[index] ?? 0;
    const flexes = node.sequence !== undefined;
    return {
      startMs,
      endMs: startMs + node.length.chosenMs,
      earliestStartMs: flexes ? earliest[index] ?? startMs : startMs,
      latestStartMs: flexes ? latest[index] ?? startMs : startMs,
    };
  });
  return { kind: 'placed', places };
}

/** The start of each node, from the last to the first. `fixed` gives the start of a follower that stands still. */
function backward(
  nodes: readonly Node[],
  after: readonly (readonly Link[])[],
  order: readonly number[],
  lengthMs: (node: Node) => number,
  fixed: (from: number, to: number) => number | undefined,
): readonly number[] {
  const starts = nodes.map(() => 0);
  for (const index of order) {
    const node = nodes[index];
    if (!node || node.inside) continue;
    const limits = (after[index] ?? []).map((link) => (fixed(index, link.after) ?? starts[link.after] ?? 0) + link.lagMs);
    starts[index] = limits.reduce((least, limit) => Math.min(least, limit), limits[0] ?? 0) - lengthMs(node);
  }
  // A fold stands after its bulk in the list, so its bulk is there by now.
  nodes.forEach((node, index) => {
    if (node.inside) starts[index] = (starts[node.inside.outer] ?? 0) + node.inside.offsetMs;
  });
  return starts;
}

function linksByNode(nodes: readonly Node[], links: readonly Link[]): readonly (readonly Link[])[] {
  const after: Link[][] = nodes.map(() => []);
  for (const link of links) after[link.before]?.push(link);
  return after;
}

/** All nodes such that each stands after everything that needs it; short of some when there is a cycle. */
function lastFirst(nodes: readonly Node[], links: readonly Link[]): readonly number[] {
  const waiting = nodes.map(() => 0);
  const before: number[][] = nodes.map(() => []);
  for (const link of links) {
    waiting[link.before] = (waiting[link.before] ?? 0) + 1;
    before[link.after]?.push(link.before);
  }
  const order = [...nodes.keys()].filter((index) => waiting[index] === 0);
  for (let next = 0; next < order.length; next++) {
    for (const index of before[order[next] ?? 0] ?? []) {
      const left = (waiting[index] ?? 0) - 1;
      waiting[index] = left;
      if (left === 0) order.push(index);
    }
  }
  return order;
}

function cycleOf(nodes: readonly Node[], links: readonly Link[], placed: readonly number[]): Conflict {
  // What is left are the cycles and all that leads up to them; taking away from the other end leaves the cycles.
  const left = new Set(nodes.keys());
  for (const index of placed) left.delete(index);
  for (let shrinking = true; shrinking;) {
    const needed = new Set(links.filter((link) => left.has(link.before) && left.has(link.after)).map((link) => link.after));
    const loose = [...left].filter((index) => !needed.has(index));
    for (const index of loose) left.delete(index);
    shrinking = loose.length > 0;
  }
  const facts: Fact[] = [];
  for (const link of links) {
    if (link.fact && left.has(link.before) && left.has(link.after)) facts.push(link.fact);
  }
  return { message: 'These parts wait for one another, so none of them can begin first.', facts };
}
