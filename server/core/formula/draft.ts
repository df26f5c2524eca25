/**
 * What the blocks of a formula say, sorted into parts and lines, before any weight is worked out.
 * The solver reads drafts and adds grams; nothing outside this folder sees them.
 */
import type { Amount, FlourShareLine, IngredientLine, PartKind, Role, UsesLine } from '../../../grammar';
import type { Ingredient } from '../ingredients/model';
import type { Place, PlacedStep, ResolvedFormula } from './model';

/** How a line's weight is said. Shares are 0 to 1. */
export type Term =
  | { readonly kind: 'grams'; readonly grams: number }
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'all' }
  /** So much of all the flour lies in the part: only in a total formula. */
  | { readonly kind: 'flour-share'; readonly share: number }
  | { readonly kind: 'unknown' };

export interface LineDraft {
  readonly place: Place;
  readonly namePlace: Place;
  readonly amountPlace: Place;
  readonly name: string;
  readonly key: string;
  readonly ingredient: Ingredient | undefined;
  /** Index of the part taken in. */
  readonly part: number | undefined;
  readonly role: Role;
  readonly inDough: boolean;
  readonly purpose: string | undefined;
  readonly starterHydrationPct: number | undefined;
  readonly celsius: number | null;
  readonly source: IngredientLine | FlourShareLine | UsesLine;
  readonly uses?: ResolvedFormula;
  readonly term: Term;
}

export interface PartDraft {
  readonly key: string;
  readonly name: string;
  readonly kind: PartKind;
  readonly block: number;
  readonly place: Place;
  readonly lines: readonly LineDraft[];
  readonly keepGrams: number;
  /** `yields`: its weight after cooking, as grams or as a share of what goes in. */
  readonly yields: Term | undefined;
  readonly desiredCelsius: number | null;
  readonly steps: readonly PlacedStep[];
}

/** The middle of an amount's quantity; a bare pinch is one. */
export function middleOf(amount: Amount): number {
  if (amount.kind === 'all') return 1;
  const { quantity } = amount;
  if (!quantity) return 1;
  return quantity.high ? (quantity.low.value + quantity.high.value) / 2 : quantity.low.value;
}

/** Flour lines weighed into the part itself, dusting left out. A starter's flour and that of parts taken in are not these. */
export function isFlourLine(line: LineDraft): boolean {
  return line.inDough && line.role === 'flour' && line.part === undefined && line.starterHydrationPct === undefined;
}

/** Flour in one gram of a starter of this hydration (per cent of its flour). */
export function starterFlourShare(hydrationPct: number): number {
  return 100 / (100 + hydrationPct);
}

export function isDoughKind(kind: PartKind): boolean {
  return kind === 'dough' || kind === 'batter' || kind === 'total formula';
}

/** Names match whatever their case and spacing. */
export function nameKey(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, ' ');
}
