/**
 * The one door from a section of text to everything the core knows about it: resolved formula, totals, sheet, findings.
 * Pure: what a section needs from elsewhere comes in as `Environment`.
 */
import type { Catalogue } from './ingredients/model';
import { runChecks } from './checks';
import type { CheckContext, Finding } from './checks/check';
import { defaultLimits, type LimitOverrides } from './checks/limits';
import { withSeverities, type SeverityOverrides } from './checks/severity';
import { reportsOf } from './checks/reports';
import type { ResolvedFormula, Section, Sheet, Totals } from './formula/model';
import { resolve } from './formula/resolve';
import { sheetOf } from './formula/sheet';
import { totalsOf } from './formula/totals';
import type { Namesakes } from './namesakes';
import type { BakeDay } from './plan/model';
import { readPlan } from './plan/read';
import type { MeasureSystem } from './units/volume';

export interface Environment {
  readonly catalogue: Catalogue;
  /** Formulas and dishes visible from the file, by lower-case name. */
  readonly formulas: ReadonlyMap<string, Section>;
  readonly measures: MeasureSystem;
  /** What the tap gives, C; left out where nobody says. */
  readonly tapCelsius?: number | undefined;
  /** Of clock times that name none; left out where nobody says. */
  readonly zone?: string | undefined;
  readonly useProblem?: CheckContext['useProblem'];
  readonly namesakes?: Namesakes | undefined;
  readonly limits?: LimitOverrides;
  readonly severities?: SeverityOverrides;
}

export interface Analysis {
  readonly section: Section;
  readonly formula: ResolvedFormula | undefined;
  readonly totals: Totals | undefined;
  readonly sheet: Sheet | undefined;
  /** Of a plan. */
  readonly day: BakeDay | undefined;
  readonly findings: readonly Finding[];
}

/**
 * @param onFault told of a check that threw; that check is silent and the rest goes on. Tests throw here.
 */
export function analyse(section: Section, env: Environment, onFault?: (code: string, fault: unknown) => void): Analysis {
  const isFormula = section.kind === 'formula' || section.kind === 'dish';
  const formula = isFormula ? resolve(section, env) : undefined;
  const totals = formula && totalsOf(formula);
  const sheet = formula && sheetOf(formula);
  const day = section.kind === 'plan' ? readPlan(section, { formulaNamed: formulaIn(env) }) : undefined;
  const findings = runChecks(
    {
      section,
      formula,
      totals,
      sheet,
      day,
      zone: env.zone,
      catalogue: env.catalogue,
      useProblem: env.useProblem,
      get knownFormulas() { return new Set(env.formulas.keys()); },
      formulaNamed: (name) => env.formulas.get(name),
      namesakes: env.namesakes,
      limits: defaultLimits(formula?.styles.map((style) => style.text) ?? [], env.limits),
      reports: reportsOf(formula, totals),
    },
    onFault,
  );
  return { section, formula, totals, sheet, day, findings: withSeverities(findings, env.severities) };
}

/** The formulas in sight, each resolved once however often it is asked for. */
function formulaIn(env: Environment): (name: string) => ResolvedFormula | undefined {
  const known = new Map<string, ResolvedFormula>();
  return (name) => {
    const section = env.formulas.get(name);
    const formula = known.get(name) ?? (section && resolve(section, env));
    if (formula) known.set(name, formula);
    return formula;
  };
}
