/**
 * `# accept CODE: reason` comments: what each covers, and which findings they silence.
 *
 * - at the end of a line: that line and the lines that refine it;
 * - alone on a line: the next line and the lines that refine it;
 * - on the head line of a block, or above it: the whole block. On or above the head of a `formula` or `dish`: all its
 *   parts and steps too, since they are what the formula is.
 *
 * Without a reason it silences nothing; the parser says so.
 */
import type { Comment, Line, Span } from '../../../grammar';
import type { Place, Section } from '../formula/model';
import type { Finding } from './check';
import { linesOfBlock, placeOf } from './walk';

export interface Accept {
  /** The comment, `#` included. */
  readonly place: Place;
  /** Where the code stands in it. */
  readonly codePlace: Place;
  readonly code: string;
  /** All codes of the comment, this one included. */
  readonly codes: readonly string[];
  /** Why, in the baker's words. */
  readonly reason: string;
  /** Undefined: the whole section. A covered block and range otherwise; null when there is nothing it could cover. */
  readonly covers: Place | null | undefined;
}

export function acceptsIn(section: Section): readonly Accept[] {
  return section.blocks.flatMap((block, index) => {
    const found: Accept[] = [];
    const take = (comment: Comment | undefined, covers: Accept['covers']) => {
      const accept = comment?.accept;
      if (comment === undefined || accept === undefined || accept.reason.trim() === '') {
        return;
      }
      const codes = accept.codes.map(({ code }) => code);
      for (const code of accept.codes) {
        found.push({ place: placeOf(index, comment), codePlace: placeOf(index, code), code: code.code, codes, reason: accept.reason.trim(), covers });
      }
    };
    const kind = block.head.node.kind;
    const whole = kind === 'formula' || kind === 'dish' ? undefined : placeOf(index, { start: 0, end: block.text.length });
    for (const line of block.leading) {
      take(line.comment, whole);
    }
    take(block.head.comment, whole);
    const lines = linesOfBlock(block, index);
    lines.forEach(({ line }, at) => {
      if (line.comment?.accept === undefined) {
        return;
      }
      const target = isTrivia(line) ? lines.slice(at + 1).find((next) => !isTrivia(next.line))?.line : line;
      take(line.comment, target === undefined ? null : placeOf(index, withChildren(target)));
    });
    return found;
  });
}

export function silences(accept: Accept, finding: Finding): boolean {
  if (accept.code !== finding.code || accept.covers === null) {
    return false;
  }
  const { covers } = accept;
  return (
    covers === undefined ||
    (covers.block === finding.place.block && finding.place.start >= covers.start && finding.place.start <= covers.end)
  );
}

function isTrivia(line: Line): boolean {
  return line.node.kind === 'comment' || line.node.kind === 'blank';
}

/** The range of a line and all that refines it. Not recursive, for the same reason as `linesOf`. */
function withChildren(line: Line): Span {
  let end = line.end;
  const waiting: Line[] = [line];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    end = Math.max(end, next.end);
    waiting.push(...next.children);
  }
  return { start: line.start, end };
}
