/** Steps that wait for one another: no clock can help them. */
import type { Conflict, Fact, Link, Network, Node } from './network';

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

/** Steps that wait for one another, as a conflict that lists the lines that say so; undefined when there are none. */
export function cycleIn({ nodes, links }: Network): Conflict | undefined {
  const placed = lastFirst(nodes, links);
  if (placed.length === nodes.length) return undefined;
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
