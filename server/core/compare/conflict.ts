/** Files in which a merge has left both versions, between marks: `<<<<<<<`, `|||||||`, `=======`, `>>>>>>>`, seven of each at the start of a line. */

/** A line that a merge has written between two versions. */
const MARK = /^(<{7}|\|{7}|={7}|>{7})(?:[ \t].*)?\r?$/;

export type ConflictMark = 'begin' | 'base' | 'middle' | 'end';

/** Which mark a line is; undefined for any other line. */
export function conflictMarkIn(line: string): ConflictMark | undefined {
  switch (MARK.exec(line)?.[1]?.charAt(0)) {
    case '<':
      return 'begin';
    case '|':
      return 'base';
    case '=':
      return 'middle';
    case '>':
      return 'end';
    default:
      return undefined;
  }
}

export interface ConflictSides {
  readonly ours: string;
  readonly theirs: string;
  /** What the marks call the two: a branch, a commit; empty where they say nothing. */
  readonly oursName: string;
  readonly theirsName: string;
  readonly conflicts: number;
}

/** True where a merge has left at least one whole conflict. */
export function hasConflict(text: string): boolean {
  return text.includes('<<<<<<<') && sidesOfConflict(text) !== undefined;
}

/** The two texts, each with its own lines in the place of every conflict; undefined where there is none, or it is not whole. */
export function sidesOfConflict(text: string): ConflictSides | undefined {
  const ours: string[] = [];
  const theirs: string[] = [];
  let [oursName, theirsName] = ['', ''];
  let conflicts = 0;
  let side: 'both' | 'ours' | 'base' | 'theirs' = 'both';
  for (const line of text.split(/(?<=\n)/)) {
    const mark = conflictMarkIn(line.replace(/\n$/, ''));
    if (mark === 'begin' && side === 'both') {
      side = 'ours';
      oursName ||= line.slice(7).trim();
    } else if (mark === 'base' && side === 'ours') side = 'base';
    else if (mark === 'middle' && (side === 'ours' || side === 'base')) side = 'theirs';
    else if (mark === 'end' && side === 'theirs') {
      side = 'both';
      theirsName ||= line.slice(7).trim();
      conflicts += 1;
    } else {
      if (side === 'both' || side === 'ours') ours.push(line);
      if (side === 'both' || side === 'theirs') theirs.push(line);
    }
  }
  return conflicts === 0 || side !== 'both' ? undefined : { ours: ours.join(''), theirs: theirs.join(''), oursName, theirsName, conflicts };
}
