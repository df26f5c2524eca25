/** How a rule file states a check: the rule says what it found, this adds what every finding carries. */
import type { ProblemCode } from '../../../grammar';
import type { Place, Section, Totals, Trouble } from '../formula/model';
import type { Check, CheckContext, Finding } from './check';
import { isImpossible } from './dough';
import { remembering } from './walk';

/** What a rule says of one place. */
export interface Found {
  readonly place: Finding['place'];
  readonly message: string;
  readonly fixes?: Finding['fixes'];
  readonly related?: Finding['related'];
}

export interface Rule extends Omit<Check, 'run'> {
  readonly find: (context: CheckContext) => readonly Found[];
}

/** Most checks find nothing most of the time. */
const NOTHING: readonly Finding[] = [];

export function defineCheck({ find, ...check }: Rule): Check {
  return {
    ...check,
    run(context) {
      const found = find(context);
      return found.length === 0 ? NOTHING : found.map(({ place, message, fixes = [], related = [] }) => ({
        code: check.code,
        severity: check.severity,
        message,
        place,
        fixes,
        related,
      }));
    },
  };
}

/** The resolver's troubles of one kind; none where there is no formula. */
export function troublesOf<K extends Trouble['kind']>(context: CheckContext, kind: K): readonly Extract<Trouble, { kind: K }>[] {
  return (context.formula?.troubles ?? []).filter((trouble): trouble is Extract<Trouble, { kind: K }> => trouble.kind === kind);
}

/** Troubles that leave a formula's totals as they are; any other makes them the totals of a dough nobody means. */
const HARMLESS: ReadonlySet<Trouble['kind']> = new Set<Trouble['kind']>(['makes-disagrees', 'unknown-ingredient']);
const HARMLESS_PROBLEMS: ReadonlySet<ProblemCode> = new Set<ProblemCode>(['comma-decimal', 'accept-without-reason']);

/**
 * The totals, for a check that judges them; undefined where something is wrong that would make them wrong: a part that is
 * missing, flours that are not whole, a line of a part that cannot be read or has the wrong unit, water that makes soup of it.
 * That mistake has its own finding, and a salt line half typed must not be called a dough without salt.
 */
export const soundTotals: (context: CheckContext) => Totals | undefined = remembering((context: CheckContext) => {
  const totals = readTotals(context);
  const moisture = totals?.effective_hydration_pct ?? totals?.hydration_pct ?? null;
  return moisture === null || !isImpossible(context, moisture) ? totals : undefined;
});

/** The same, of a dough that may be powder or soup. */
export function readTotals({ section, formula, totals, reports }: CheckContext): Totals | undefined {
  const halfRead = section.blocks.some(
    ({ head, problems }) =>
      (head.node.kind === 'part' || head.node.kind === 'unknown') && problems.some(({ code }) => !HARMLESS_PROBLEMS.has(code)),
  );
  // A line that changes nothing was meant to change something: these are the totals of another bread.
  const isAmiss = section.variant?.troubles.some(({ kind }) => kind !== 'elsewhere-too') === true;
  return halfRead || isAmiss || reports.slips().length > 0 || formula?.troubles.some(({ kind }) => !HARMLESS.has(kind)) === true ? undefined : totals;
}

/** Whether the reading itself found fault at a place: what a check would say there follows from that. */
export function isMisread(section: Section, { block, start, end }: Place): boolean {
  return section.blocks[block]?.problems.some((problem) => !HARMLESS_PROBLEMS.has(problem.code) && problem.start < end && problem.end > start) === true;
}

/** Whether a line cannot be read where a formula or one of its parts says how much there is. */
export function sizeIsMisread({ blocks }: Section): boolean {
  return blocks.some(
    ({ head, problems }) =>
      (head.node.kind === 'formula' || head.node.kind === 'dish' || head.node.kind === 'part') && problems.some(({ code }) => !HARMLESS_PROBLEMS.has(code)),
  );
}
