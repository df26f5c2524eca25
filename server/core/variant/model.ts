/**
 * A variant, written out. Its section keeps the blocks that stand in the file, and behind them come those that the base gives
 * it, changed as its lines say. So the number of a block says which text a place is in: below `ownBlocks` the variant's own,
 * from there on a text that stands in no file, whose every piece knows where it comes from. `places.ts` follows it there.
 */
import type { DeltaLine } from '../../../grammar';
import type { Place, Section } from '../formula/model';

export type ChangeLine = Exclude<DeltaLine, { readonly kind: 'based-on' }>;

export interface Variant {
  /** How many blocks are the section's own text. */
  readonly ownBlocks: number;
  /** What it is based on, written out itself. */
  readonly base: Section;
  /** The `based on` line, and the name in it. */
  readonly basedOn: Place;
  readonly baseName: Place;
  readonly changes: readonly Change[];
  /** Of the blocks behind the own ones, in their order. */
  readonly origins: readonly Origin[];
  /** Indexes of blocks in the order in which a formula written out in full would have them. */
  readonly order: readonly number[];
  readonly troubles: readonly VariantTrouble[];
}

/** A line that changes the base, and what it has changed. */
export interface Change {
  readonly node: ChangeLine;
  readonly place: Place;
  /** Places of lines in `Variant.base`, as they were; none for `add`, and where nothing matched. */
  readonly lines: readonly Place[];
  /** The part of the base that it changes, by its block; undefined where there is none. */
  readonly part: number | undefined;
}

/** Where the text of a block comes from. */
export interface Origin {
  /** Index in `Variant.base`. */
  readonly block: number;
  /** Without gaps, from the first character to the last. */
  readonly pieces: readonly Piece[];
  /** Lines that a change made what they are, by index in `Variant.changes`. */
  readonly changed: readonly { readonly start: number; readonly end: number; readonly change: number }[];
}

/** `from`: as in the base's block, from that offset on; `own`: as the variant writes it there; neither: indents and line ends. */
export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly from?: number;
  readonly own?: Place;
}

/** What keeps a line of a variant from doing what it says, or makes it do something else than it seems to. */
export type VariantTrouble =
  /** `elsewhere`: names of parts of the base that have it. */
  | { readonly kind: 'no-match'; readonly change: number; readonly place: Place; readonly name: string; readonly part: string; readonly nearest: readonly string[]; readonly elsewhere: readonly string[] }
  | { readonly kind: 'part-missing'; readonly change: number; readonly place: Place; readonly name: string; readonly isOwn: boolean; readonly parts: readonly string[] }
  /** Several lines, or names, of one part would match. */
  | { readonly kind: 'unclear'; readonly change: number; readonly place: Place; readonly name: string; readonly part: string; readonly candidates: readonly string[]; readonly lines: readonly Place[] }
  | { readonly kind: 'twice'; readonly change: number; readonly place: Place; readonly name: string; readonly first: number }
  /** It changes the dough, and other parts have the ingredient too. */
  | { readonly kind: 'elsewhere-too'; readonly change: number; readonly place: Place; readonly name: string; readonly part: string; readonly parts: readonly string[]; readonly lines: readonly Place[] };
