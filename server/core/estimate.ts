/** Numbers that are not exact: constants with their source, and answers with a low and a high. */

/** How a number came here. What is not `read` or `derived` is a habit or a recollection, and is shown as one. */
export type Basis = 'read' | 'read in part' | 'derived' | 'from memory' | 'common practice, no source';

/** A number that arithmetic leans on, with its honest range where sources or bakers differ. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  readonly low?: number;
  readonly high?: number;
  readonly source: string;
  readonly basis: Basis;
}

/** An answer of which only the neighbourhood is known. `low <= mid <= high`. */
export interface Range {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

export function exactly(value: number): Range {
  return { low: value, mid: value, high: value };
}

/** The constant as a range; exact where it has none. */
export function rangeOf({ low, value, high }: Constant): Range {
  return { low: low ?? value, mid: value, high: high ?? value };
}

/** A range through a function that never falls (or, with `falling`, never rises). */
export function mapRange({ low, mid, high }: Range, f: (value: number) => number, direction: 'rising' | 'falling' = 'rising'): Range {
  return direction === 'rising' ? { low: f(low), mid: f(mid), high: f(high) } : { low: f(high), mid: f(mid), high: f(low) };
}

/** Widened by a share of itself on both sides: ±0.2 is 20 %. For values that are not negative. */
export function widen({ low, mid, high }: Range, share: number): Range {
  return { low: low * (1 - share), mid, high: high * (1 + share) };
}

/** Straight lines between the points, level beyond the first and the last. Points in rising order. */
export function interpolate(points: readonly (readonly [x: number, y: number])[], x: number): number {
  let before: readonly [number, number] | undefined;
  for (const point of points) {
    if (x <= point[0]) {
      if (before === undefined || point[0] === before[0]) return point[1];
      return before[1] + ((x - before[0]) / (point[0] - before[0])) * (point[1] - before[1]);
    }
    before = point;
  }
  return before === undefined ? NaN : before[1];
}
