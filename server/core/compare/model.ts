/** What two versions of a text differ in, as plain data: a list of changes for each formula, with what stood there before and what stands there now. */
import type { Analysis } from '../analyse';
import type { Severity } from '../checks/check';
import type { Place, Section } from '../formula/model';

/** A section of one of the two versions, with what is known of it. */
export interface ComparedSection {
  /** As it is written. The one of the analysis has what its base gives a variant behind these blocks. */
  readonly section: Section;
  readonly analysis: Pick<Analysis, 'section' | 'formula' | 'totals' | 'sheet' | 'findings'>;
  /** Line in its file, from 1, of a place in the section; of what a base gives to a variant, the line of the variant's head. */
  readonly lineOf: (place: Place) => number;
}

/** One file of a version. Two files are the same file of two versions when their paths are equal. */
export interface ComparedFile {
  readonly path: string;
  readonly sections: readonly ComparedSection[];
}

/**
 * What a change is about. It has no direction: with `before` alone something went away, with `after` alone something came,
 * with both it is another one now.
 */
export type What =
  /** All weights times one factor. */
  | 'scaled'
  | 'formula' | 'formula-name' | 'formula-file' | 'formula-kind'
  /** On the side that has it, what a variant is based on is not to be found, so nothing can be said of what is in it. */
  | 'base-missing'
  | 'allergen'
  | 'total'
  | 'part' | 'part-name' | 'part-kind' | 'part-scaled'
  | 'ingredient' | 'ingredient-swapped' | 'ingredient-name' | 'ingredient-moved' | 'ingredient-detail'
  | 'amount'
  /** Off the common factor by no more than a scale shows, and yet by more than 1 %. */
  | 'amount-rounded'
  | 'step' | 'step-moved' | 'step-time' | 'step-temperature' | 'step-detail'
  | 'property'
  | 'record'
  | 'plan' | 'own-ingredient' | 'use' | 'other-lines'
  | 'finding'
  /** The same dough in other words: shares for grams, a total formula for a dough, another order of lines. */
  | 'rewritten'
  | 'layout';

/** Totals are called as in JSON; besides them the number of pieces, the cost and the temperature of the dough. */
export type Unit = 'g' | '%' | 'C' | 'pieces' | 'money';

/** One side of a change. What a side does not have is left out. */
export interface Fact {
  /** What it is called on this side: an ingredient, a part, a step, a total, a property, an allergen's id. */
  readonly name: string;
  /** The part that it stands in; left out for the method and the head of a formula. */
  readonly part?: string;
  /** What it says, in words. */
  readonly text?: string;
  /** g; null where it cannot be known. */
  readonly grams?: number | null;
  /** Of all the flour, %. */
  readonly pct?: number | null;
  /** Of a total, in its unit; null where it cannot be known. */
  readonly value?: number | null;
  readonly unit?: Unit;
  readonly currency?: string;
  /** Of an allergen: the list it is on. */
  readonly list?: 'eu' | 'us' | 'check';
  readonly severity?: Severity;
  /** In its file, from 1. */
  readonly line?: number;
}

export interface Change {
  readonly what: What;
  readonly before: Fact | undefined;
  readonly after: Fact | undefined;
}

/** One side of a section. */
export interface SectionName {
  readonly kind: Section['kind'];
  readonly name: string;
  readonly path: string;
  readonly line: number;
}

/** A section that differs, with its changes: allergens first, then the size, totals, what is weighed, steps, the rest, findings. */
export interface SectionChanges {
  readonly before: SectionName | undefined;
  readonly after: SectionName | undefined;
  /** How many times larger all weights are that nothing else is said of; 1 where the size is the same. */
  readonly factor: number;
  readonly changes: readonly Change[];
}

/** The same the other way round. */
export function flipped({ before, after, factor, changes }: SectionChanges): SectionChanges {
  return { before: after, after: before, factor: 1 / factor, changes: changes.map((change) => ({ ...change, before: change.after, after: change.before })) };
}
