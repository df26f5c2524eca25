import { editDistance } from '../../grammar/near';

/** The known word nearest to a mistyped one, when there is one that may well have been meant. */
export function nearestWord(word: string, known: readonly string[]): string | undefined {
  let best: string | undefined;
  // A third of the letters may be wrong, one in any case.
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    const distance = candidate.startsWith(word) && word.length > 2 ? 1 : editDistance(word.toLowerCase(), candidate.toLowerCase(), least);
    if (distance < least) [best, least] = [candidate, distance];
  }
  return best;
}

/** ` Did you mean "sheet"?`, or nothing. */
export function didYouMean(word: string, known: readonly string[], show: (word: string) => string = (each) => `"${each}"`): string {
  const nearest = nearestWord(word, known);
  return nearest === undefined ? '' : ` Did you mean ${show(nearest)}?`;
}
