/**
 * What several checks ask of a formula. Each answer is worked out when the first check asks and then remembered for the
 * rest of the run: a keystroke pays for nothing twice, and for nothing that no check needs.
 */
import { cultureOf, levainReport, type Culture, type LevainReport } from '../fermentation';
import { leavesOf, type Leaf } from '../formula/contents';
import type { ResolvedFormula, Totals } from '../formula/model';
import { doughTemperature, type DoughTemperature } from '../temperature';
import { paceOf, type Pace } from './pace';
import { slipsIn, type Slip } from './slips';

export interface Reports {
  readonly temperature: () => DoughTemperature | null;
  readonly culture: () => Culture | null;
  readonly levains: () => readonly LevainReport[];
  /** Every weighed line and how much of it ends in the dough. */
  readonly leaves: () => readonly Leaf[];
  /** How long the dough rises against how long its leaven needs; null where that cannot be said. */
  readonly pace: () => Pace | null;
  /** Lines whose unit is a slip of the pen. */
  readonly slips: () => readonly Slip[];
}

export function reportsOf(formula: ResolvedFormula | undefined, totals: Totals | undefined): Reports {
  const culture = lazily(() => (formula === undefined ? null : cultureOf(formula)));
  return {
    temperature: lazily(() => (formula === undefined ? null : doughTemperature(formula))),
    culture,
    levains: lazily(() => (formula === undefined ? [] : levainReport(formula))),
    leaves: lazily(() => (formula === undefined ? [] : leavesOf(formula))),
    pace: lazily(() => {
      const raisedBy = culture();
      return formula === undefined || totals === undefined || raisedBy === null ? null : paceOf(formula, totals, raisedBy);
    }),
    slips: lazily(() => (formula === undefined ? [] : slipsIn(formula))),
  };
}

function lazily<T>(work: () => T): () => T {
  let known: { readonly value: T } | undefined;
  return () => (known ??= { value: work() }).value;
}
