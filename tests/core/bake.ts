/** Text in, analyses out: what tests of the core start from. Faults in checks are thrown. */
import { parse, type PlacedBlock } from '../../grammar';
import { analyse, type Analysis, type Environment } from '../../server/core/analyse';
import type { Finding, Fix } from '../../server/core/checks/check';
import type { Place, ResolvedFormula, Section, Sheet, Totals } from '../../server/core/formula/model';
import { sectionsOf } from '../../server/core/formula/sections';
import { namesakesAmong } from '../../server/core/namesakes';
import { builtInCatalogue, extend } from '../../server/core/ingredients/catalogue';

export interface TextAnalysis extends Analysis {
  /** Where a place of this section stands in the file. */
  readonly rangeOf: (place: Place) => { readonly start: number; readonly end: number };
  /** What it was analysed in. */
  readonly environment: Environment;
}

export type TextOptions = Partial<Pick<Environment, 'measures' | 'tapCelsius' | 'zone' | 'useProblem' | 'limits' | 'formulas'>>;

/**
 * Every section of a file, analysed with the ingredients that ship and those of the file's own `ingredient` blocks.
 * Formulas see each other by name.
 */
export function analyseText(text: string, options: TextOptions = {}): readonly TextAnalysis[] {
  const { blocks } = parse(text);
  const sections = sectionsOf(blocks.map(({ block }) => block));
  const named = sections.filter(({ section }) => (section.kind === 'formula' || section.kind === 'dish') && section.name !== '');
  const own: ReadonlyMap<string, Section> = new Map(
    // The first of a name is the one that others see.
    [...named].reverse().map(({ section }) => [section.name.trim().toLowerCase().replace(/\s+/g, ' '), section]),
  );
  const environment: Environment = {
    catalogue: extend(builtInCatalogue, blocks.map(({ block }) => block).filter((block) => block.head.node.kind === 'ingredient')),
    formulas: new Map([...(options.formulas ?? []), ...own]),
    measures: options.measures ?? 'us',
    tapCelsius: options.tapCelsius,
    zone: options.zone,
    useProblem: options.useProblem,
    limits: options.limits,
    namesakes: namesakesAmong(sections.map(({ section }) => section), []),
  };
  return sections.map(({ first, section }) => ({
    ...analyse(section, environment, (code, fault) => {
      throw new Error(`The check ${code} failed.`, { cause: fault });
    }),
    rangeOf: (place) => inFile(blocks, first, place),
    environment,
  }));
}

interface Known {
  readonly formula: ResolvedFormula;
  readonly totals: Totals;
  readonly sheet: Sheet;
}

/** The one formula or dish of a file. Fails when there is none or more than one. */
export function analyseFormula(text: string, options: TextOptions = {}): TextAnalysis & Known {
  const formulas = analyseText(text, options).filter((analysis) => analysis.formula !== undefined);
  const [only] = formulas;
  if (formulas.length !== 1 || only?.formula === undefined || only.totals === undefined || only.sheet === undefined) {
    throw new Error(`Expected one formula in the text, found ${formulas.length}.`);
  }
  return { ...only, formula: only.formula, totals: only.totals, sheet: only.sheet };
}

export interface TextFinding {
  readonly code: string;
  readonly message: string;
  /** Offsets in the file. */
  readonly start: number;
  readonly end: number;
  /** The text it stands at. */
  readonly text: string;
  readonly finding: Finding;
  /** The file after a fix of this finding. */
  readonly after: (fix: Fix) => string;
}

/** All findings of a file, in its order. */
export function findingsIn(text: string, options: TextOptions = {}): readonly TextFinding[] {
  return analyseText(text, options).flatMap(({ findings, rangeOf }) =>
    findings.map((finding): TextFinding => {
      const { start, end } = rangeOf(finding.place);
      return {
        code: finding.code,
        message: finding.message,
        start,
        end,
        text: text.slice(start, end),
        finding,
        after: (fix) => applyEdits(text, fix.edits.map(({ place, newText }) => ({ ...rangeOf(place), newText }))),
      };
    }),
  );
}

/** A text with `«…»` around a place, without the marks, and the place's offsets. */
export function marked(text: string): { readonly text: string; readonly start: number; readonly end: number } {
  const start = text.indexOf('«');
  const end = text.indexOf('»') - 1;
  if (start < 0 || end < start || text.includes('«', start + 1)) {
    throw new Error(`Expected one place marked with «…» in:\n${text}`);
  }
  return { text: text.replace('«', '').replace('»', ''), start, end };
}

/** Edits applied together, the last first. Fails when two overlap or one lies outside the text. */
export function applyEdits(text: string, edits: readonly { readonly start: number; readonly end: number; readonly newText: string }[]): string {
  const lastFirst = [...edits].sort((a, b) => b.start - a.start || b.end - a.end);
  let result = text;
  let before = text.length;
  for (const { start, end, newText } of lastFirst) {
    if (start < 0 || end < start || end > before) {
      throw new Error(`The edit ${start}..${end} overlaps another one, or lies outside the text.`);
    }
    result = result.slice(0, start) + newText + result.slice(end);
    before = start;
  }
  return result;
}

function inFile(blocks: readonly PlacedBlock[], first: number, { block, start, end }: Place): { readonly start: number; readonly end: number } {
  const placed = blocks[first + block];
  if (placed === undefined || start < 0 || end < start || end > placed.block.text.length) {
    throw new Error(`The place ${block}:${start}..${end} is not in the section.`);
  }
  return { start: placed.offset + start, end: placed.offset + end };
}
