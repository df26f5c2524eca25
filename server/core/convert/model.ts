/**
 * What the converter makes of somebody else's text: first lines by what they are, then a draft by what it says. Plain data; nothing
 * here knows where the text came from.
 */
import type { PartKind } from '../../../grammar';

/** A line of the source by what it is, and nothing read in it yet. */
export type PlacedKind =
  /** What the bread is called. */
  | 'title'
  /** How much it makes. */
  | 'yield'
  | 'source' | 'author'
  /** Words about the whole bread: kept as a note. */
  | 'note'
  /** Facts that the language has no place for (times, nutrition): kept as a comment. */
  | 'fact'
  /** `For the levain:` */
  | 'part'
  | 'ingredient'
  /** Words among the ingredients that are none: the head of a table, its total. */
  | 'words'
  /** A paragraph of the method. */
  | 'step'
  /** A heading in the method. */
  | 'step-heading'
  /** `Ingredients`, `Method`: said by the blocks of the draft. */
  | 'marker';

export interface PlacedLine {
  readonly kind: PlacedKind;
  readonly text: string;
  /** Line of the source, from 1; of JSON the place in its list. */
  readonly line: number;
}

/** One bread (or dish) of the source. */
export interface Card {
  readonly lines: readonly PlacedLine[];
}

/** How far a line of the source was understood. */
export type Understood =
  /** It is in the draft as data. */
  | 'understood'
  /** It is in the draft, with something left to decide. */
  | 'doubtful'
  /** Its words are in the draft as a note or a comment. */
  | 'text';

/** What became of one line of the source. */
export interface Outcome {
  readonly line: number;
  readonly text: string;
  readonly reading: Understood;
  /** What is left to decide, or why it stayed text; empty where it was understood. */
  readonly why: readonly string[];
}

/** A line of the draft: data, a comment, or data with a comment. */
export interface DraftLine {
  /** As the language has it, without indent or comment; undefined for a comment alone. */
  readonly bake?: string;
  /** Words of the source that are kept, as a comment. */
  readonly comment?: string;
  /** What the baker has still to decide. */
  readonly decide?: string;
  /** Folds of a bulk. */
  readonly children?: readonly DraftLine[];
}

export interface DraftPart {
  readonly kind: PartKind;
  readonly name: string | undefined;
  /** Words of its heading that are not in its name. */
  readonly comment: string | undefined;
  readonly lines: readonly DraftLine[];
}

export interface Draft {
  /** A dish has no flour, and so no baker's percentages. */
  readonly kind: 'formula' | 'dish';
  readonly name: string;
  readonly head: readonly DraftLine[];
  readonly parts: readonly DraftPart[];
  readonly method: readonly DraftLine[];
  readonly outcomes: readonly Outcome[];
  /** Ingredient lines with a name, and how many of these names are known. */
  readonly names: { readonly known: number; readonly all: number };
}
