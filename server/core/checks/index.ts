/**
 * All checks, and how they are run. A new check is one entry in the list and one file in `rules/`; its page, its settings
 * and its tests follow from it.
 */
import { isOwnPlace } from '../variant/places';
import { acceptsIn, silences, type Accept } from './accept';
import type { AcceptedFinding, Check, CheckContext, Finding } from './check';
import { checks, topics } from './list';
import { acceptUnused, unusedAccept } from './rules/accept-unused';
import { isConflicted, mergeConflict } from './rules/merge-conflict';

export { checks, topics };

const codes: readonly string[] = checks.map((check) => check.code);

/** Told of a check that threw: its code and what it threw. */
export type OnFault = (code: string, fault: unknown) => void;

/** What the checks say of a section, both in the order of the text. */
export interface Checked {
  readonly findings: readonly Finding[];
  readonly accepted: readonly AcceptedFinding[];
}

/**
 * All findings of a section, and apart from them those that `accept` comments silence.
 *
 * Never throws: a check with a fault is silent and told to `onFault`, and the others go on. (`onFault` may throw, and
 * tests let it.)
 *
 * @param settled puts findings that no comment accepts where they belong in the section's own text: those of a variant may stand
 *   in what its base gives it. Comments are looked at again then, since one at the line that brings it about is meant, too.
 */
export function runChecks(
  context: CheckContext,
  onFault: OnFault = () => undefined,
  list: readonly Check[] = checks,
  settled?: (findings: readonly Finding[]) => readonly Finding[],
): Checked {
  const faulty = new Set<string>();
  const told: OnFault = (code, fault) => {
    faulty.add(code);
    onFault(code, fault);
  };
  const contained = <T>(run: () => readonly T[]): readonly T[] => {
    try {
      return run();
    } catch (fault) {
      told(acceptUnused.code, fault);
      return [];
    }
  };
  const isTwoVersions = isConflicted(context.section);
  const found = findingsBeforeAccepts(context, told, isTwoVersions ? list.filter(({ code }) => code === mergeConflict.code) : list);
  const accepts = isTwoVersions ? [] : contained(() => acceptsIn(context.section));
  const used = new Set<Accept>();
  const accepted: AcceptedFinding[] = [];
  const unaccepted = (findings: readonly Finding[]): readonly Finding[] => findings.filter((finding) => {
    const accepting = accepts.filter((accept) => silences(accept, finding));
    accepting.forEach((accept) => used.add(accept));
    const [first] = accepting;
    if (first !== undefined) accepted.push({ finding, reason: first.reason });
    return first === undefined;
  });
  const kept = settled === undefined ? unaccepted(found) : unaccepted(settled(unaccepted(found)));
  const unused = contained(() =>
    accepts
      // A check with a fault found nothing; that says nothing about the comment. What the base accepts is told there.
      .filter((accept) => !used.has(accept) && !faulty.has(accept.code) && isOwnPlace(context.section, accept.place))
      .map((accept) => unusedAccept(context.section, accept, codes)),
  );
  return {
    findings: [...kept, ...unused].sort(inOrder),
    accepted: accepted.filter(({ finding }) => isOwnPlace(context.section, finding.place)).sort((a, b) => inOrder(a.finding, b.finding)),
  };
}

/** What the checks find, whatever any comment says of it, in the order of the checks. */
export function findingsBeforeAccepts(context: CheckContext, onFault: OnFault = () => undefined, list: readonly Check[] = checks): readonly Finding[] {
  const found: Finding[] = [];
  for (const check of list) {
    try {
      for (const finding of check.run(context)) found.push(finding);
    } catch (fault) {
      onFault(check.code, fault);
    }
  }
  return found;
}

function inOrder(a: Finding, b: Finding): number {
  return (
    a.place.block - b.place.block ||
    a.place.start - b.place.start ||
    a.place.end - b.place.end ||
    (a.code < b.code ? -1 : a.code > b.code ? 1 : 0)
  );
}
