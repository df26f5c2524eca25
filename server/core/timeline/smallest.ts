/** The smallest set of facts that cannot all hold. */

/** Questions asked before a set that is merely without anything superfluous will do. */
const MOST_ROUNDS = 400;

/**
 * The smallest subset of the facts 0 to `count - 1` that cannot all hold, in order. `holds` says whether some can: of a
 * set that holds every subset must hold, too. All of them together must not hold.
 *
 * Keeps the sets that would have to be left out for the rest to hold, and tries the smallest set that has a fact of
 * each; when that cannot hold it is the smallest there is (implicit hitting sets: Ignatiev, Previti, Liffiton and
 * Marques-Silva, Principles and Practice of Constraint Programming, 2015; from memory). Where that takes too long: a set from which
 * nothing can be left out.
 */
export function smallestConflict(count: number, holds: (facts: ReadonlySet<number>) => boolean): readonly number[] {
  const all = Array.from({ length: count }, (_, fact) => fact);
  const correcting: (readonly number[])[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const tried = new Set(smallestHitting(correcting));
    if (!holds(tried)) return [...tried].sort((a, b) => a - b);
    for (const fact of all) {
      if (tried.has(fact)) continue;
      tried.add(fact);
      if (!holds(tried)) tried.delete(fact);
    }
    correcting.push(all.filter((fact) => !tried.has(fact)));
  }
  return withoutSuperfluous(all, holds);
}

function withoutSuperfluous(all: readonly number[], holds: (facts: ReadonlySet<number>) => boolean): readonly number[] {
  const kept = new Set(all);
  for (const fact of all) {
    kept.delete(fact);
    if (holds(kept)) kept.add(fact);
  }
  return [...kept];
}

/** The smallest set that has a member of each; of several, one that is found first. */
function smallestHitting(sets: readonly (readonly number[])[]): readonly number[] {
  let best: readonly number[] | undefined;
  const search = (chosen: readonly number[]): void => {
    if (best && chosen.length + leastMore(sets, chosen) >= best.length) return;
    const open = sets.filter((set) => !set.some((member) => chosen.includes(member)));
    const shortest = open.reduce<readonly number[] | undefined>((least, set) => (least && least.length <= set.length ? least : set), undefined);
    if (!shortest) {
      best = chosen;
      return;
    }
    // Members of many sets first: good answers early leave less to search.
    const hits = (member: number): number => open.filter((set) => set.includes(member)).length;
    for (const member of [...shortest].sort((a, b) => hits(b) - hits(a))) search([...chosen, member]);
  };
  search([]);
  return best ?? [];
}

/** At least so many more are needed: one for each of the sets not hit yet that share nothing. */
function leastMore(sets: readonly (readonly number[])[], chosen: readonly number[]): number {
  const used = new Set(chosen);
  let more = 0;
  for (const set of sets) {
    if (set.some((member) => used.has(member))) continue;
    for (const member of set) used.add(member);
    more++;
  }
  return more;
}
