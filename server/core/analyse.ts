/**
 * The one door from a section of text to everything the core knows about it: resolved formula, totals, sheet, findings.
 * Pure: what a section needs from elsewhere comes in as `Environment`.
 */
import type { Catalogue } from './ingredients/model';
import type { CheckContext, Finding, Limits } from './checks/check';
import type { ResolvedFormula, Section, Sheet, Totals } from './formula/model';
import type { MeasureSystem } from './units/volume';

export interface Environment {
  readonly catalogue: Catalogue;
  /** Formulas and dishes visible from the file, by lower-case name. */
  readonly formulas: ReadonlyMap<string, Section>;
  readonly measures: MeasureSystem;
  readonly useProblem?: CheckContext['useProblem'];
  readonly limits?: Limits;
}

export interface Analysis {
  readonly section: Section;
  readonly formula: ResolvedFormula | undefined;
  readonly totals: Totals | undefined;
  readonly sheet: Sheet | undefined;
  readonly findings: readonly Finding[];
}
