/** What a check is. One file in `rules/` a check; `index.ts` lists them; documentation, settings and tests are generated from them. */
import type { Block, Span } from '../../../grammar';
import type { Catalogue } from '../ingredients/model';
import type { Place, ResolvedFormula, Section, Totals } from '../formula/model';
import type { Namesakes } from '../namesakes';
import type { BakeDay } from '../plan/model';
import type { Reports } from './reports';

export type Severity = 'error' | 'warning' | 'info';

export interface Fix {
  readonly title: string;
  /** Certain: applying it without reading is right. Doubtful ones are offered, never applied in bulk. */
  readonly certain: boolean;
  readonly edits: readonly { readonly place: Place; readonly newText: string }[];
}

export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  /** One sentence or two a baker would say: the number, the limit, the consequence, what to do. */
  readonly message: string;
  readonly place: Place;
  readonly fixes: readonly Fix[];
  /** Other lines that have to do with it. */
  readonly related: readonly Related[];
}

/** A finding that an `accept` comment silences: told to nobody but those who keep a list of what was accepted. */
export interface AcceptedFinding {
  readonly finding: Finding;
  readonly reason: string;
}

/** Another line that has to do with a finding: of its own section, or of a block that stands anywhere in this file or one that it reaches. */
export type Related =
  | { readonly place: Place; readonly message: string }
  | ({ readonly elsewhere: Block; readonly message: string } & Span);

/** What a check can look at. Nothing here is computed by the check itself. */
export interface CheckContext {
  readonly section: Section;
  /** Undefined for sections that are no formula or dish. */
  readonly formula: ResolvedFormula | undefined;
  readonly totals: Totals | undefined;
  /** Of a plan. */
  readonly day: BakeDay | undefined;
  /** Of clock times that name none; undefined where nobody says. */
  readonly zone: string | undefined;
  readonly catalogue: Catalogue;
  /** What the project knows of `use` lines: undefined when the path was found. */
  readonly useProblem: ((path: string) => 'not-found' | 'outside' | 'itself' | 'not-bake' | undefined) | undefined;
  /** Formula and dish names of this file and of the files it uses, lower case. Whoever looks through them is asked again when any of them changes. */
  readonly knownFormulas: ReadonlySet<string>;
  /** What else is called alike; undefined where nobody knows what is around the section. */
  readonly namesakes: Namesakes | undefined;
  /** The formula or dish of a name, lower case, in this file or one that it uses. */
  readonly formulaNamed: (name: string) => Section | undefined;
  readonly limits: Limits;
  /** Worked out when first asked for. */
  readonly reports: Reports;
}

/** Thresholds by check code and name, resolved for the formula's style and the workspace's settings. */
export interface Limits {
  get(code: string, name: string): number;
}

export interface Check {
  readonly code: string;
  readonly severity: Severity;
  /** A few words: the heading of its documentation. */
  readonly title: string;
  /** Why a baker cares, in two or three plain sentences. */
  readonly why: string;
  /** The published source of its limit, or `common practice, no source`. */
  readonly source: string;
  /** Default thresholds by name, with their unit and, where they differ, their value by style. */
  readonly limits?: Readonly<Record<string, { readonly value: number; readonly unit: string; readonly what: string; readonly byStyle?: Readonly<Record<string, number>> }>>;
  /** Bake text that trips it (the test asserts that exactly this code appears at the marked place) and text that does not. `«…»` marks the place. */
  readonly trips: string;
  /** How many findings `trips` has: one, unless each of several places is told. The marked one is the first. */
  readonly tripsTimes?: number;
  /** Codes of other findings that `trips` cannot be without: of a base, the mistake that its variant tells again. */
  readonly tripsBeside?: readonly string[];
  readonly passes: string;
  /** After the first fix: the text that `trips` becomes, for checks with a fix. */
  readonly fixed?: string;
  readonly run: (context: CheckContext) => readonly Finding[];
}
