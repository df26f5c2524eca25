/** Who does what: the least busy pair of hands that is free. */

export interface Job {
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * A person, from 1, for each of some work of which no more goes on at once than there are people. Whoever did the work before goes on with it
 * where that is free, so that nobody changes places for nothing; else whoever has worked least.
 *
 * @param threads what belongs together: the same number for the work of one dough
 */
export function assignPeople(works: readonly Job[], people: number, threads: readonly number[]): readonly number[] {
  const freeFromMs = Array.from({ length: people }, () => -Infinity);
  const workedMs = Array.from({ length: people }, () => 0);
  const before = new Map<number, number>();
  const who = works.map(() => 1);
  const inOrder = [...works.keys()].sort((a, b) => (works[a]?.startMs ?? 0) - (works[b]?.startMs ?? 0) || a - b);
  for (const index of inOrder) {
    const work = works[index];
    if (!work) continue;
    const thread = threads[index] ?? index;
    const free = [...freeFromMs.keys()].filter((person) => (freeFromMs[person] ?? 0) <= work.startMs);
    const same = before.get(thread);
    const person = same !== undefined && free.includes(same) ? same
      : free.reduce<number | undefined>((least, one) => (least === undefined || (workedMs[one] ?? 0) < (workedMs[least] ?? 0) ? one : least), undefined) ?? 0;
    freeFromMs[person] = Math.max(freeFromMs[person] ?? 0, work.endMs);
    workedMs[person] = (workedMs[person] ?? 0) + work.endMs - work.startMs;
    before.set(thread, person);
    who[index] = person + 1;
  }
  return who;
}
