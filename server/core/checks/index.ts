/**
 * All checks, and how they are run. A new check is one entry in the list and one file in `rules/`; its page, its settings
 * and its tests follow from it.
 */
import { acceptsIn, silences, type Accept } from './accept';
import type { Check, CheckContext, Finding } from './check';
import { checks, topics } from './list';
import { acceptUnused, unusedAccept } from './rules/accept-unused';

export { checks, topics };

const codes: readonly string[] = checks.map((check) => check.code);

/** Told of a check that threw: its code and what it threw. */
export type OnFault = (code: string, fault: unknown) => void;

/**
 * All findings of a section, in the order of the text, `accept` comments applied.
 *
 * Never throws: a check with a fault is silent and told to `onFault`, and the others go on. (`onFault` may throw, and
 * tests let it.)
 */
export function runChecks(
  context: CheckContext,
  onFault: OnFault = () => undefined,
  list: readonly Check[] = checks,
): readonly Finding[] {
  const faulty = new Set<string>();
  const contained = <T>(code: string, run: () => readonly T[]): readonly T[] => {
    try {
      return run();
    } catch (fault) {
      faulty.add(code);
      onFault(code, fault);
      return [];
    }
  };
  const found: Finding[] = [];
  for (const check of list) {
    try {
      found.push(...check.run(context));
    } catch (fault) {
      faulty.add(check.code);
      onFault(check.code, fault);
    }
  }
  const accepts = contained(acceptUnused.code, () => acceptsIn(context.section));
  const used = new Set<Accept>();
  const kept = found.filter((finding) => {
    const accepting = accepts.filter((accept) => silences(accept, finding));
    accepting.forEach((accept) => used.add(accept));
    return accepting.length === 0;
  });
  const unused = contained(acceptUnused.code, () =>
    accepts
      // A check with a fault found nothing; that says nothing about the comment.
      .filter((accept) => !used.has(accept) && !faulty.has(accept.code))
      .map((accept) => unusedAccept(context.section, accept, codes)),
  );
  return [...kept, ...unused].sort(inOrder);
}

function inOrder(a: Finding, b: Finding): number {
  return (
    a.place.block - b.place.block ||
    a.place.start - b.place.start ||
    a.place.end - b.place.end ||
    (a.code < b.code ? -1 : a.code > b.code ? 1 : 0)
  );
}
