/** The known word that a mistyped one most likely stands for. */

/**
 * Edits between two words: letters put in, left out, exchanged, and neighbours swapped (`wlanuts`); more than `most` is
 * `most + 1`. Optimal string alignment, the restricted Damerau–Levenshtein distance.
 */
export function editDistance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    let least = row;
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      const exchanged = (previous[column - 1] ?? 0) + (same ? 0 : 1);
      let cost = Math.min((previous[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1, exchanged);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, (before[column - 2] ?? 0) + 1);
      }
      current.push(cost);
      least = Math.min(least, cost);
    }
    if (least > most) return most + 1;
    before = previous;
    previous = current;
  }
  return Math.min(previous[b.length] ?? 0, most + 1);
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
