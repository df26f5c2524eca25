/**
 * The one door from a section of text to everything the core knows about it: resolved formula, totals, sheet, findings.
 * Pure: what a section needs from elsewhere comes in as `Environment`.
 */
import type { Catalogue } from './ingredients/model';
import { checks, findingsBeforeAccepts, runChecks } from './checks';
import type { AcceptedFinding, Check, CheckContext, Finding } from './checks/check';
import { defaultLimits, type LimitOverrides } from './checks/limits';
import { withSeverities, type SeverityOverrides } from './checks/severity';
import { reportsOf } from './checks/reports';
import { remembering } from './checks/walk';
import { findingsOfVariant } from './checks/variants';
import type { ResolvedFormula, Section, Sheet, Totals } from './formula/model';
import { resolve } from './formula/resolve';
import { sheetOf } from './formula/sheet';
import { totalsOf } from './formula/totals';
import type { Namesakes } from './namesakes';
import type { BakeDay } from './plan/model';
import { readPlan } from './plan/read';
import type { MeasureSystem } from './units/volume';
import { writtenOut } from './variant/write-out';

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
  /** Of a variant: written out, with what its base gives it behind its own blocks. Places of the formula count in it. */
  readonly section: Section;
  readonly formula: ResolvedFormula | undefined;
  readonly totals: Totals | undefined;
  /** Worked out when first asked for. */
  readonly sheet: Sheet | undefined;
  /** Of a plan. */
  readonly day: BakeDay | undefined;
  /** Their places are in the section's own text. */
  readonly findings: readonly Finding[];
  /** What `accept` comments silence, by their place. */
  readonly accepted: readonly AcceptedFinding[];
}

/**
 * @param onFault told of a check that threw; that check is silent and the rest goes on. Tests throw here.
 */
export function analyse(own: Section, env: Environment, onFault?: (code: string, fault: unknown) => void): Analysis {
  const section = writtenBy(own, env);
  const context = contextOf(section, env);
  const { variant } = section;
  const { findings, accepted } = runChecks(context, onFault, checks, variant && ((found) => findingsOfVariant(section, variant, found, {
    ofBase: (codes) => findingsBeforeAccepts(contextOf(variant.base, env), onFault, checksOf(codes)),
    without: (change, codes) => {
      const other = writtenBy(own, env, change);
      return { section: other, findings: findingsBeforeAccepts(contextOf(other, env), onFault, checksOf(codes)) };
    },
  })));
  const { formula, totals, day } = context;
  const heard = accepted.flatMap(({ finding, reason }) => withSeverities([finding], env.severities).map((one) => ({ finding: one, reason })));
  return withSheet({ section, formula, totals, day, findings: withSeverities(findings, env.severities), accepted: heard });
}

/** Apart from `analyse`: what has a look at the surroundings there would keep them, and with them every text that they once were. */
function withSheet(analysis: Omit<Analysis, 'sheet'>): Analysis {
  const { formula } = analysis;
  return { ...analysis, get sheet() { return formula && sheetFor(formula); } };
}

/** No check reads it, and few of the formulas of a file are looked at. */
const sheetFor: (formula: ResolvedFormula) => Sheet = remembering(sheetOf);

function checksOf(codes: ReadonlySet<string>): readonly Check[] {
  return checks.filter(({ code }) => codes.has(code));
}

/** The formula or dish of a lower-case name; a variant with what its base gives it, as places of its formula count. */
export function sectionNamed(env: Environment, name: string): Section | undefined {
  const section = env.formulas.get(name);
  return section && writtenBy(section, env);
}

function writtenBy(section: Section, env: Environment, left?: number): Section {
  return writtenOut(section, { catalogue: env.catalogue, formulaNamed: (name) => env.formulas.get(name) }, left);
}

function contextOf(section: Section, env: Environment): CheckContext {
  const isFormula = section.kind === 'formula' || section.kind === 'dish';
  const formula = isFormula ? resolve(section, env) : undefined;
  const totals = formula && totalsOf(formula);
  return {
    section,
    formula,
    totals,
    day: section.kind === 'plan' ? readPlan(section, { formulaNamed: formulaIn(env) }) : undefined,
    zone: env.zone,
    catalogue: env.catalogue,
    useProblem: env.useProblem,
    get knownFormulas() { return new Set(env.formulas.keys()); },
    formulaNamed: (name) => env.formulas.get(name),
    namesakes: env.namesakes,
    limits: defaultLimits(formula?.styles.map((style) => style.text) ?? [], env.limits),
    reports: reportsOf(formula, totals),
  };
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
