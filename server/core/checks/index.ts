/**
 * All checks, and how they are run. A new check is one entry here and one file in `rules/`; its page, its settings and
 * its tests follow from it.
 */
import { acceptsIn, silences, type Accept } from './accept';
import type { Check, CheckContext, Finding } from './check';
import { acceptUnused, unusedAccept } from './rules/accept-unused';
import { contradiction } from './rules/contradiction';
import { flourNotWhole } from './rules/flour-not-whole';
import { foldOutsideBulk } from './rules/fold-outside-bulk';
import { formulaMissing } from './rules/formula-missing';
import { hydrationHigh } from './rules/hydration-high';
import { hydrationLow } from './rules/hydration-low';
import { inclusionLoad } from './rules/inclusion-load';
import { likeMissing } from './rules/like-missing';
import { makesDisagrees } from './rules/makes-disagrees';
import { needsAWeight } from './rules/needs-a-weight';
import { noOvenHeat } from './rules/no-oven-heat';
import { noSize } from './rules/no-size';
import { ovenTemperatureOdd } from './rules/oven-temperature-odd';
import { partCycle } from './rules/part-cycle';
import { partMissing } from './rules/part-missing';
import { partShort } from './rules/part-short';
import { partTwice } from './rules/part-twice';
import { partUnused } from './rules/part-unused';
import { planNotScheduled } from './rules/plan-not-scheduled';
import { portionsNotWhole } from './rules/portions-not-whole';
import { roomNotSaid } from './rules/room-not-said';
import { saltHigh } from './rules/salt-high';
import { saltLow } from './rules/salt-low';
import { shareOfNothing } from './rules/share-of-nothing';
import { styleUnknown } from './rules/style-unknown';
import { totalLeavesOut } from './rules/total-leaves-out';
import { unknownIngredient } from './rules/unknown-ingredient';
import { unreadable } from './rules/unreadable';
import { useItself } from './rules/use-itself';
import { useNotBake } from './rules/use-not-bake';
import { useNotFound } from './rules/use-not-found';
import { useOutside } from './rules/use-outside';
import { usesNotWeighed } from './rules/uses-not-weighed';
import { vagueAmount } from './rules/vague-amount';
import { variantNotComputed } from './rules/variant-not-computed';

/** In the order of the documentation: what cannot be read, what cannot be weighed, the dough, the method, other files, the rest. */
export const checks: readonly Check[] = [
  ...unreadable,
  noSize,
  flourNotWhole,
  makesDisagrees,
  needsAWeight,
  unknownIngredient,
  vagueAmount,
  shareOfNothing,
  contradiction,
  partMissing,
  partUnused,
  partShort,
  partCycle,
  partTwice,
  totalLeavesOut,
  saltHigh,
  saltLow,
  hydrationHigh,
  hydrationLow,
  inclusionLoad,
  portionsNotWhole,
  foldOutsideBulk,
  noOvenHeat,
  ovenTemperatureOdd,
  roomNotSaid,
  useNotFound,
  useOutside,
  useItself,
  useNotBake,
  formulaMissing,
  usesNotWeighed,
  likeMissing,
  styleUnknown,
  variantNotComputed,
  planNotScheduled,
  acceptUnused,
];

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
  const found = list.flatMap((check) => contained(check.code, () => check.run(context)));
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
