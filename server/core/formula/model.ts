/**
 * The resolved formula: every line in grams. What all arithmetic, checks, output and features read.
 *
 * `null` always means "cannot be known from what is written"; a check says why. Weights are grams, unrounded.
 */
import type { Block, DeltaLine, IngredientLine, FlourShareLine, Line, MakesLine, PartKind, Role, Span, StepLine, UsesLine } from '../../../grammar';
import type { Ingredient } from '../ingredients/model';
import type { Variant } from '../variant/model';

/**
 * The blocks that belong together and are analysed as one: a formula or dish with its parts, steps and records; or a
 * single `use`, `ingredient`, `plan` or stray block. A section moves in its file without changing.
 */
export interface Section {
  readonly kind: 'formula' | 'dish' | 'plan' | 'ingredient' | 'use' | 'stray';
  /** The name in quotes, empty if there is none. */
  readonly name: string;
  readonly blocks: readonly Block[];
  /** Of a variant that is written out (`core/variant`): which of the blocks are its own, and where the others come from. */
  readonly variant?: Variant;
}

/** A range in a section: which of its blocks, and offsets within that block's text. */
export interface Place extends Span {
  readonly block: number;
}

/** Something the resolver could not settle; checks turn it into findings with words. */
export type Trouble =
  | { readonly kind: 'no-size'; readonly place: Place; readonly part: string }
  | { readonly kind: 'flour-not-whole'; readonly place: Place; readonly part: string; readonly pct: number; readonly gramsToo: boolean }
  | { readonly kind: 'makes-disagrees'; readonly place: Place; readonly claimedGrams: number; readonly actualGrams: number }
  | { readonly kind: 'part-missing'; readonly place: Place; readonly name: string; readonly nearest: readonly string[] }
  | { readonly kind: 'part-unused'; readonly place: Place; readonly name: string }
  /** `kept`: what is called for is what `keep` holds back. */
  | { readonly kind: 'part-short'; readonly place: Place; readonly name: string; readonly madeGrams: number; readonly calledForGrams: number; readonly kept?: true }
  | { readonly kind: 'part-cycle'; readonly place: Place; readonly names: readonly string[] }
  | { readonly kind: 'part-twice'; readonly place: Place; readonly name: string }
  | { readonly kind: 'unknown-ingredient'; readonly place: Place; readonly name: string; readonly nearest: readonly string[] }
  /** A volume without density, a count without unit weight. `unit` is `cup`, `each`, … */
  | { readonly kind: 'needs-a-weight'; readonly place: Place; readonly name: string; readonly unit: string }
  /** A total formula that leaves out, or holds too little of, what a preferment uses. */
  | {
      readonly kind: 'total-leaves-out';
      readonly place: Place;
      readonly part: string;
      readonly ingredient: string;
      readonly neededGrams: number;
      readonly listedGrams: number;
      /** The list's line of that ingredient, if there is one. */
      readonly listed: Place | undefined;
    }
  /** A share where there is nothing to take a share of. */
  | { readonly kind: 'share-of-nothing'; readonly place: Place; readonly part: string }
  /** Facts that cannot all hold, none of the above. */
  | { readonly kind: 'contradiction'; readonly place: Place; readonly message: string };

export interface ResolvedLine {
  readonly place: Place;
  readonly namePlace: Place;
  readonly amountPlace: Place;
  /** As written. */
  readonly name: string;
  /** The ingredient's key, `part:NAME` for a part taken in, or the written name in lower case if unknown. */
  readonly key: string;
  readonly ingredient: Ingredient | undefined;
  /** Index into `ResolvedFormula.parts` when the line takes a part in. */
  readonly part: number | undefined;
  readonly role: Role;
  readonly grams: number | null;
  /** Of the part's own base: the flour weighed into it, or its lines together where it has no flour. */
  readonly pct: number | null;
  /** In a total formula: what the list says of this line, preferments' share included; `pct` of all the flour. */
  readonly listed?: { readonly grams: number | null; readonly pct: number | null };
  /** False for `for dusting` and the like: out of the dough's totals, in the shopping list. */
  readonly inDough: boolean;
  readonly purpose: string | undefined;
  /** A ripe culture; its hydration as a percentage (100 unless the line says otherwise). */
  readonly starterHydrationPct: number | undefined;
  /** Grams of flour and of water that the line brings as such: a flour line, a water line, both of a starter, and of a part as it is taken in. */
  readonly flourGrams: number;
  readonly waterGrams: number;
  /** The temperature of the line in Celsius, `room`/`fridge` resolved; null if not said or not known. */
  readonly celsius: number | null;
  /** In a dish: the formula whose yield the line takes, resolved. */
  readonly uses?: ResolvedFormula;
  /** The line in the tree. For the final dough of a total formula: the line of the list. Undefined for a row the resolver added (a preferment in that final dough). */
  readonly source: IngredientLine | FlourShareLine | UsesLine | undefined;
}

export interface ResolvedPart {
  /** Lower-cased name by which later parts take it in. */
  readonly key: string;
  /** As written, or the kind when it has no name of its own. */
  readonly name: string;
  readonly kind: PartKind;
  readonly block: number;
  readonly place: Place;
  /** What is weighed into this part. For a total formula: the final dough, preferments taken out and added as rows. */
  readonly lines: readonly ResolvedLine[];
  /** All that goes in (lines in the dough only), g. */
  readonly grams: number | null;
  /** `yields`: its weight after cooking. Otherwise the same as `grams`. */
  readonly yieldGrams: number | null;
  /** Flour weighed into this very part, that of a starter counted in, parts taken in left out; the base of its percentages is `baseGrams`. */
  readonly flourGrams: number | null;
  /** What 100 % is: flour lines weighed into this block, all the flour in a total formula, the sum of lines with no flour. */
  readonly baseGrams: number | null;
  /** How much later parts call for, held back by `keep`, and left over beyond both. */
  readonly calledForGrams: number | null;
  readonly keepGrams: number;
  readonly leftOverGrams: number | null;
  /** The part of what it makes that ends in the dough, 0 to 1: 1 when nothing is kept or left over. */
  readonly usedFraction: number | null;
  /** Has flour and a leaven or starter, and is not the dough: what the trade calls a preferment. */
  readonly isPreferment: boolean;
  readonly desiredCelsius: number | null;
  /** Steps written inside the part, in order. */
  readonly steps: readonly PlacedStep[];
}

/** A step with its place, and the folds (or other refinements) under it. */
export interface PlacedStep {
  readonly place: Place;
  readonly node: StepLine;
  readonly children: readonly PlacedStep[];
}

export interface Yield {
  readonly pieces: number | null;
  /** `loaves`, as written; `piece` if nothing is said. */
  readonly noun: string;
  /** Dough of one piece after bench loss, g. */
  readonly pieceGrams: number | null;
  /** One piece after the oven, g. */
  readonly bakedPieceGrams: number | null;
  /** Volume of the tin that a piece is baked in, ml; null when `makes` names none. */
  readonly tinMillilitres: number | null;
  /** Millilitres of tin for each gram of `pieceGrams`. */
  readonly tinFactor: number | null;
  /** True when that is a usual figure that sizes the dough, false when the formula's own weights give it. */
  readonly tinFactorAssumed: boolean;
}

export interface ResolvedFormula {
  readonly kind: 'formula' | 'dish';
  readonly name: string;
  readonly namePlace: Place;
  readonly styles: readonly { readonly text: string; readonly place: Place }[];
  readonly roomCelsius: number | null;
  readonly fridgeCelsius: number | null;
  readonly flourCelsius: number | null;
  /** Mixer heat as the factor method's difference of temperatures, in Celsius degrees. */
  readonly frictionCelsius: number | null;
  readonly altitudeMetres: number | null;
  /** What the tap gives by the settings, C; left out where they do not say. */
  readonly tapCelsius?: number;
  /** 0 to 1. */
  readonly ovenLoss: number;
  readonly benchLoss: number;
  readonly ovenLossSaid: boolean;
  readonly makes: { readonly node: MakesLine; readonly place: Place } | undefined;
  readonly serves: number | null;
  /** In the order written. */
  readonly parts: readonly ResolvedPart[];
  /** Index of the part that ends in the oven; undefined when there is none (a dish, or a formula not finished). */
  readonly dough: number | undefined;
  /** True when the dough was written as `total formula`. */
  readonly isTotalFormula: boolean;
  readonly method: readonly PlacedStep[];
  /** The `steps` head, if written. */
  readonly methodPlace: Place | undefined;
  readonly yield: Yield;
  readonly troubles: readonly Trouble[];
  /** A variant's lines. What they change is in the parts already, unless `lacksBase`. */
  readonly deltas: readonly { readonly node: DeltaLine; readonly place: Place }[];
  /** A variant whose base is not to be found, or leads back to it: what it would take from there is missing. */
  readonly lacksBase: boolean;
  readonly records: readonly { readonly block: number; readonly place: Place; readonly date: string; readonly lines: readonly Line[] }[];
}

/** The totals of a formula, by their names in JSON. Base: all flour, unless the name says otherwise. Grams and per cent. */
export interface Totals {
  readonly flour_g: number | null;
  readonly dough_g: number | null;
  readonly piece_g: number | null;
  readonly baked_piece_g: number | null;
  readonly hydration_pct: number | null;
  readonly water_pct: number | null;
  readonly effective_hydration_pct: number | null;
  readonly dough_hydration_pct: number | null;
  readonly salt_pct: number | null;
  /** Salt inside butter, cheese and the like, shown apart. */
  readonly hidden_salt_pct: number | null;
  readonly sugar_pct: number | null;
  /** Sugar inside inclusions, shown apart. */
  readonly inclusion_sugar_pct: number | null;
  readonly fat_pct: number | null;
  readonly egg_pct: number | null;
  readonly milk_solids_pct: number | null;
  readonly prefermented_flour_pct: number | null;
  /** For the dough: levain or starter over all flour. */
  readonly inoculation_pct: number | null;
  readonly inclusions_pct: number | null;
  readonly inclusions_of_dough_pct: number | null;
  readonly flour_protein_pct: number | null;
}

/** A row of the sheet: one ingredient over all parts. */
export interface SheetRow {
  readonly name: string;
  readonly key: string;
  readonly role: Role;
  /** In the dough, over all parts, g and % of all flour. */
  readonly grams: number | null;
  readonly pct: number | null;
  /** What each part (same order as `ResolvedFormula.parts`) brings of it to the dough, g; 0 where it has none. Their sum is `grams`, exactly. */
  readonly columns: readonly (number | null)[];
}

export interface Sheet {
  readonly rows: readonly SheetRow[];
  /** Lines kept out of the dough: dusting, for the pan, for the top. */
  readonly besides: readonly ResolvedLine[];
  /** Water cooked off in parts with `yields`, g: Σ rows − this = dough_g. */
  readonly cookedOffGrams: number;
}
