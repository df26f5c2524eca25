/** Where two texts differ. */

/** What stands between `start` and `oldEnd` in one text stands between `start` and `newEnd` in the other; the rest is the same. */
export interface Difference {
  readonly start: number;
  readonly oldEnd: number;
  readonly newEnd: number;
}

/** Long pieces are compared at a time, as fast as memory is read; only the last one is looked into. */
const PIECE = 1 << 16;

export function differenceOf(before: string, after: string): Difference {
  const most = Math.min(before.length, after.length);
  const start = sameFor(most, (from, to) => before.slice(from, to) === after.slice(from, to));
  const end = sameFor(most - start, (from, to) => (
    before.slice(before.length - to, before.length - from) === after.slice(after.length - to, after.length - from)
  ));
  return { start, oldEnd: before.length - end, newEnd: after.length - end };
}

/** How many characters, `most` at most, are the same, where `same` compares a stretch of them. */
function sameFor(most: number, same: (from: number, to: number) => boolean): number {
  let known = 0;
  for (let piece = PIECE; piece >= 1; piece >>= 2) {
    while (known + piece <= most && same(known, known + piece)) known += piece;
  }
  return known;
}
