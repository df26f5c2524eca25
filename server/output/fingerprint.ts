/** What a finding is known by when its line has moved: the text of the line and the formula that it is in. */
import type { PlacedFinding } from './findings';

/** The text of a line without what only lays it out. */
export function lineKey(lineText: string): string {
  return lineText.trim().replace(/\s+/g, ' ');
}

/** A text in 16 hexadecimal digits: two turns of the 32-bit FNV-1a hash (Fowler, Noll, Vo), which is as good as needed to tell lines of a file apart. */
export function digest(text: string): string {
  return [0x811c9dc5, 0x01000193].map((start) => {
    let hash = start;
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
    return (hash >>> 0).toString(16).padStart(8, '0');
  }).join('');
}

/** For each of the findings of a file `digest:n`, the n-th of its code, formula and line there. */
export function fingerprints(findings: readonly PlacedFinding[]): readonly string[] {
  const seen = new Map<string, number>();
  return findings.map(({ code, formula, lineText }) => {
    const hash = digest([code, formula, lineKey(lineText)].join('\n'));
    const count = (seen.get(hash) ?? 0) + 1;
    seen.set(hash, count);
    return `${hash}:${String(count)}`;
  });
}
