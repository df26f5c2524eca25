/** Parts in the order they can be made, and those that wait for each other in a circle. */
export interface MakingOrder {
  /** Every part, each after the parts it takes in (circles aside). */
  readonly producersFirst: readonly number[];
  /** For each circle: the parts on it, and the part and line that close it. */
  readonly cycles: readonly { readonly parts: readonly number[]; readonly part: number; readonly line: number }[];
}

/**
 * Depth first over the lines that take parts in, without recursion: a chain of thousands of parts is only long.
 *
 * @param takes per part, per line: the index of the part that the line takes in, if it does
 */
export function makingOrder(takes: readonly (readonly (number | undefined)[])[]): MakingOrder {
  const producersFirst: number[] = [];
  const cycles: { parts: number[]; part: number; line: number }[] = [];
  const state = takes.map((): 'new' | 'open' | 'done' => 'new');
  for (let start = 0; start < takes.length; start++) {
    if (state[start] !== 'new') continue;
    const path: { part: number; line: number }[] = [{ part: start, line: 0 }];
    state[start] = 'open';
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const lines = takes[top.part] ?? [];
      if (top.line >= lines.length) {
        state[top.part] = 'done';
        producersFirst.push(top.part);
        path.pop();
        continue;
      }
      const line = top.line++;
      const next = lines[line];
      if (next === undefined) continue;
      if (state[next] === 'new') {
        state[next] = 'open';
        path.push({ part: next, line: 0 });
      } else if (state[next] === 'open') {
        const from = path.findIndex(({ part }) => part === next);
        cycles.push({ parts: path.slice(from).map(({ part }) => part), part: top.part, line });
      }
    }
  }
  return { producersFirst, cycles };
}
