/** Which part of one version is which of the other: by its place as the dough, by its name, then by what is in it. */
import type { Entry, Weighed } from './entries';
import { LEAST_PART_LIKENESS, MOST_PAIRS } from './thresholds';

export interface Paired {
  /** Indexes before and after. */
  readonly pairs: readonly (readonly [number, number])[];
  readonly onlyBefore: readonly number[];
  readonly onlyAfter: readonly number[];
}

export function pairParts(before: Weighed, after: Weighed): Paired {
  const [a, b] = [before.formula, after.formula];
  const pairs: (readonly [number, number])[] = [];
  const [takenBefore, takenAfter] = [new Set<number>(), new Set<number>()];
  const take = (i: number, j: number): void => {
    pairs.push([i, j]);
    takenBefore.add(i);
    takenAfter.add(j);
  };
  if (a.dough !== undefined && b.dough !== undefined) take(a.dough, b.dough);
  const byKey = new Map<string, number[]>();
  b.parts.forEach(({ key }, j) => {
    if (!takenAfter.has(j)) byKey.set(key, [...(byKey.get(key) ?? []), j]);
  });
  a.parts.forEach(({ key }, i) => {
    if (takenBefore.has(i)) return;
    const j = byKey.get(key)?.shift();
    if (j !== undefined) take(i, j);
  });
  const left = (count: number, taken: ReadonlySet<number>): readonly number[] => Array.from({ length: count }, (_, i) => i).filter((i) => !taken.has(i));
  const likely = bestPairs(left(a.parts.length, takenBefore), left(b.parts.length, takenAfter), LEAST_PART_LIKENESS, (i, j) => {
    const alike = likenessOf(keysOf(before.entries[i] ?? []), keysOf(after.entries[j] ?? []));
    return alike === 0 ? 0 : alike * 0.9 + (a.parts[i]?.kind === b.parts[j]?.kind ? 0.1 : 0);
  });
  for (const [i, j] of likely) take(i, j);
  return {
    pairs: [...pairs].sort(([, x], [, y]) => x - y),
    onlyBefore: left(a.parts.length, takenBefore),
    onlyAfter: left(b.parts.length, takenAfter),
  };
}

/**
 * Pairs of the likest, best first, each in one pair only. Where there are more combinations than are worth looking at, there are none:
 * so many unknown names are another text, not a renamed one.
 */
export function bestPairs<A, B>(before: readonly A[], after: readonly B[], least: number, likeness: (a: A, b: B) => number): readonly (readonly [A, B])[] {
  if (before.length * after.length > MOST_PAIRS) return [];
  const scored = before.flatMap((a, i) => after.flatMap((b, j) => {
    const score = likeness(a, b);
    return score >= least ? [{ a, b, i, j, score }] : [];
  })).sort((x, y) => y.score - x.score || x.i - y.i || x.j - y.j);
  const [takenBefore, takenAfter] = [new Set<A>(), new Set<B>()];
  return scored.flatMap(({ a, b }): (readonly [A, B])[] => {
    if (takenBefore.has(a) || takenAfter.has(b)) return [];
    takenBefore.add(a);
    takenAfter.add(b);
    return [[a, b]];
  });
}

/** What two sets have in common, of what is in either, 0 to 1. Two empty ones have nothing in common. */
export function likenessOf(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  const common = [...a].filter((key) => b.has(key)).length;
  const all = a.size + b.size - common;
  return all === 0 ? 0 : common / all;
}

function keysOf(entries: readonly Entry[]): ReadonlySet<string> {
  return new Set(entries.map(({ key }) => key));
}
