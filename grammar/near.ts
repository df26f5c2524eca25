/** The known word that a mistyped one most likely stands for. */

/** Edits (insert, delete, change, swap of neighbours) from `a` to `b`, or `limit + 1` when there are more than `limit`. */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, (beforeLast[j - 2] ?? 0) + 1);
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? limit + 1;
}

/** The closest of `words`, when it is close enough to be meant: one slip in a short word, two in a longer one. */
export function nearest(word: string, words: readonly string[]): string | undefined {
  const typed = word.toLowerCase();
  if (typed.length < 3 || typed.length > 30) return undefined;
  const limit = typed.length <= 4 ? 1 : 2;
  let best: string | undefined;
  let bestDistance = limit + 1;
  for (const candidate of words) {
    const distance = editDistance(typed, candidate, limit);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}
