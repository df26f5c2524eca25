/** What a refactoring is: another way of writing a formula that bakes the same bread. */
import type { IngredientLine } from '../../../grammar';
import type { Edit } from '../checks/edits';
import type { ResolveEnvironment } from '../formula/resolve';
import type { Place, ResolvedFormula, ResolvedLine, ResolvedPart, Section } from '../formula/model';

/** Where somebody asks for another way of writing, and what is known there. */
export interface Scene {
  readonly section: Section;
  readonly formula: ResolvedFormula;
  /** The cursor, or what is selected: a place in one block. */
  readonly at: Place;
  /** What is in reach of the section; left out where nobody knows. */
  readonly env?: ResolveEnvironment;
}

export interface Refactoring {
  /** The same for the same place in the same text, so that its edits can be asked for later. */
  readonly id: string;
  /** `extract` makes a new block of some of what is there. */
  readonly kind: 'rewrite' | 'extract';
  readonly title: string;
  /** In the order of the text, apart from one another. */
  readonly edits: () => readonly Edit[];
}

/** The part whose block holds the cursor. */
export function partAt({ formula, at }: Scene): ResolvedPart | undefined {
  return formula.parts.find((part) => part.block === at.block);
}

/** Whether every weight of the formula is known and nothing contradicts: only then is it the same bread afterwards. */
export function isSettled({ section, formula }: Pick<Scene, 'section' | 'formula'>): boolean {
  return (
    formula.kind === 'formula' &&
    formula.deltas.length === 0 &&
    formula.troubles.every(({ kind }) => kind === 'makes-disagrees' || kind === 'unknown-ingredient') &&
    section.blocks.every(({ head, problems }) => head.node.kind === 'record' || problems.length === 0) &&
    formula.parts.every(({ lines, grams }) => grams !== null && lines.every((line) => line.grams !== null))
  );
}

/** An ingredient line as it is written, with what is known of it. */
export interface Written {
  readonly line: ResolvedLine;
  readonly node: IngredientLine;
}

/** The ingredient lines of a part in the order of the text; those that the resolver added are left out. */
export function writtenLines(part: ResolvedPart): readonly Written[] {
  return part.lines
    .flatMap((line) => (line.source?.kind === 'ingredient' ? [{ line, node: line.source }] : []))
    .sort((a, b) => a.node.start - b.node.start);
}

/** What a line says that it weighs: in a total formula what the list says, preferments' share included. */
export function saidGrams(line: ResolvedLine): number {
  return (line.listed ?? line).grams ?? Number.NaN;
}

/**
 * Of a total list: the preferments hold all that it lists of this, so that any less of it would be too little. Whatever is
 * rounded there goes up.
 */
export function isAllInParts({ listed, grams }: ResolvedLine): boolean {
  const said = listed?.grams ?? null;
  return said !== null && grams !== null && grams < ALL_BUT * said;
}

const ALL_BUT = 0.02;

/** Flour that is weighed into the part itself. */
export function isOwnFlour({ inDough, role, part, starterHydrationPct }: ResolvedLine): boolean {
  return inDough && role === 'flour' && part === undefined && starterHydrationPct === undefined;
}

/** `the dough`, `the levain`, `“seeds”`. */
export function partWords({ name, kind }: ResolvedPart): string {
  return name === kind ? `the ${kind}` : `“${name}”`;
}
