/**
 * What several checks ask of a formula. Each answer is worked out when the first check asks and then remembered for the
 * rest of the run: a keystroke pays for nothing twice, and for nothing that no check needs.
 */
import { bakingReport, type BakingReport } from '../baking';
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
  readonly baking: () => BakingReport | null;
  /** Every weighed line and how much of it ends in the dough. */
  readonly leaves: () => readonly Leaf[];
  /** How long the dough rises against how long its leaven needs; null where that cannot be said. */
  readonly pace: () => Pace | null;
  /** Lines whose unit is a slip of the pen. */
  readonly slips: () => readonly Slip[];
}

export function reportsOf(formula: ResolvedFormula | undefined, totals: Totals | undefined): Reports {
  return {
    temperature: lazily(() => (formula === undefined ? null : doughTemperature(formula))),
    culture: lazily(() => (formula === undefined ? null : cultureOf(formula))),
    levains: lazily(() => (formula === undefined ? [] : levainReport(formula))),
    baking: lazily(() => (formula === undefined ? null : bakingReport(formula))),
    leaves: lazily(() => (formula === undefined ? [] : leavesOf(formula))),
    pace: lazily(() => (formula === undefined || totals === undefined ? null : paceOf(formula, totals))),
    slips: lazily(() => (formula === undefined ? [] : slipsIn(formula))),
  };
}

function lazily<T>(work: () => T): () => T {
  let known: { readonly value: T } | undefined;
  return () => (known ??= { value: work() }).value;
}
