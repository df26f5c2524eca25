import type { Role } from '../../../grammar';

/** Grams of each component in 100 g of the edible ingredient. `null` is not known, never zero. */
export interface Composition {
  readonly water: number | null;
  readonly protein: number | null;
  readonly fat: number | null;
  readonly saturated: number | null;
  /** As `carbohydrateBasis` says: with fibre inside, or available carbohydrate beside it. */
  readonly carbohydrate: number | null;
  readonly carbohydrateBasis: 'by-difference' | 'available';
  readonly sugars: number | null;
  readonly fibre: number | null;
  /** Sodium chloride equivalent, g: sodium × 2.5421 (the molar mass ratio NaCl / Na). */
  readonly salt: number | null;
  readonly alcohol: number | null;
}

/** One ingredient as the arithmetic sees it, from the table that ships or from an `ingredient` block. */
export interface Ingredient {
  /** Identity: lower case, hyphens. Two names of the same thing have one key. */
  readonly key: string;
  /** What a person reads: `Bread flour`. */
  readonly label: string;
  readonly role: Role;
  /** A grain flour or meal that counts as whole grain. */
  readonly wholeGrain: boolean;
  /** Water and nothing else (tap water, ice): what hydration counts. */
  readonly isWater: boolean;
  readonly composition: Composition;
  readonly gramsPerMl: number | null;
  /** Grams by measure as the source weighs it; preferred over `gramsPerMl` for that measure. US customary. */
  readonly gramsPerMeasure: { readonly tsp?: number; readonly tbsp?: number; readonly cup?: number; readonly 'fl oz'?: number };
  readonly eachGrams: number | null;
  /** What one piece is: `large egg, without shell`. */
  readonly eachOf: string;
  /** Grams of water that one gram binds, from an `absorbs` line; null: by the table of absorbers. */
  readonly absorbs: number | null;
  /** The key to look up in the table of absorbers, where it is another's: one's own bran `like wheat bran` drinks like bran. */
  readonly absorbsAs?: string;
  readonly cost: { readonly amount: number; readonly currency: string; readonly perGrams: number } | null;
  readonly allergens: { readonly eu: readonly string[]; readonly us: readonly string[]; readonly checkLabel: readonly string[] };
  readonly source: string;
  readonly note: string;
}

/**
 * Finds ingredients by the names bakers write. Case, plural, hyphens and common words of preparation do not matter.
 * Immutable; `extend` layers the baker's own `ingredient` blocks over it.
 */
export interface Catalogue {
  find(name: string): Ingredient | undefined;
  /** Known names nearest to a mistyped one, best first, at most `limit`; empty when nothing is close. */
  nearest(name: string, limit?: number): readonly string[];
  /** Every ingredient, with the name to write for it. For completion. */
  readonly all: readonly { readonly name: string; readonly ingredient: Ingredient }[];
}
