/** Which known names a mistyped one may have meant. */
import { editDistance } from '../../../grammar';

export interface Candidate {
  /** As it is written. */
  readonly name: string;
  /** As it is compared. */
  readonly normal: string;
  /** `lettersOf(normal)`. */
  readonly letters: number;
  /** Names of one thing share it; only the nearest of them is offered. */
  readonly of: object;
}

/** Which letters a name holds, a bit for each (some share one). */
export function lettersOf(normal: string): number {
  let letters = 0;
  for (let at = 0; at < normal.length; at += 1) letters |= 1 << (normal.charCodeAt(at) & 31);
  return letters;
}

function countOf(bits: number): number {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

/** A distance that cannot be undercut: one edit takes away, or brings in, at most one letter that the other name lacks. */
function leastDistance(a: number, b: number): number {
  return Math.max(countOf(a & ~b), countOf(b & ~a));
}

/** How many slips a name of this length may hold before another name is no longer what was meant. */
function slipsAllowed(length: number): number {
  if (length <= 2) return 0;
  if (length <= 5) return 1;
  return length <= 11 ? 2 : 3;
}

/** The names nearest to a normalised one, best first, at most `limit` and one for each thing. */
export function nearestNames(normal: string, candidates: Iterable<Candidate>, limit: number): readonly string[] {
  // Once a name is found, only those with as few slips are of interest.
  let most = slipsAllowed(normal.length);
  const found: { name: string; of: object; distance: number; score: number }[] = [];
  const letters = lettersOf(normal);
  for (const { name, normal: other, letters: theirs, of } of candidates) {
    // Most names are ruled out here, without comparing them letter by letter: this runs for each unknown line as one types.
    if (leastDistance(letters, theirs) > most) continue;
    const distance = editDistance(normal, other, most);
    if (distance > most) continue;
    most = distance;
    // Slips are rare in the first letter, and a slip of the keyboard seldom changes the length by much.
    const score = distance + (normal[0] === other[0] ? 0 : 0.5) + Math.abs(normal.length - other.length) / 10;
    found.push({ name, of, distance, score });
  }
  found.sort((a, b) => a.score - b.score);
  const taken = new Set<object>();
  const names: string[] = [];
  for (const { name, of, distance } of found) {
    if (names.length >= limit) break;
    if (distance > most || taken.has(of)) continue;
    taken.add(of);
    names.push(name);
  }
  return names;
}
