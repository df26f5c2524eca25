/** The known word nearest to a mistyped one, when there is one that may well have been meant. */
export function nearestWord(word: string, known: readonly string[]): string | undefined {
  let best: string | undefined;
  // A third of the letters may be wrong, one in any case.
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    const distance = candidate.startsWith(word) && word.length > 2 ? 1 : edits(word.toLowerCase(), candidate.toLowerCase());
    if (distance < least) [best, least] = [candidate, distance];
  }
  return best;
}

/** ` Did you mean "sheet"?`, or nothing. */
export function didYouMean(word: string, known: readonly string[], show: (word: string) => string = (each) => `"${each}"`): string {
  const nearest = nearestWord(word, known);
  return nearest === undefined ? '' : ` Did you mean ${show(nearest)}?`;
}

/** Letters to insert, drop, change or swap with their neighbour, to get from one word to the other. */
function edits(a: string, b: string): number {
  if (a.length > 60 || b.length > 60) return Infinity;
  let older: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((row[j - 1] ?? 0) + 1, (previous[j] ?? 0) + 1, (previous[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, (older[j - 2] ?? 0) + 1);
      row.push(best);
    }
    older = previous;
    previous = row;
  }
  return previous[b.length] ?? 0;
}
