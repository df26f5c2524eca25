/**
 * A bake day as its plan says it: when it is ready, who is there, what there is room for, and what is ordered, with the
 * formulas found and brought to the size ordered. No clock times of steps yet; `schedule-model.ts` has those.
 *
 * Places are in the plan's own section, unless a field says otherwise. Weights are grams, unrounded; null is not known.
 */
import type { Place, ResolvedFormula } from '../formula/model';
import type { HoursOff } from '../timeline/model';

export interface BakeDay {
  readonly name: string;
  /** The head. */
  readonly place: Place;
  /** The first `ready` or `start` of the plan; undefined when it has none. */
  readonly anchor: DayTime | undefined;
  readonly hoursOff: readonly (HoursOff & { readonly place: Place })[];
  readonly room: { readonly celsius: number; readonly place: Place } | undefined;
  /** Every room to bake in that is heated by itself: an oven, or one deck of it. Empty when the plan names none. */
  readonly chambers: readonly Store[];
  readonly fridges: readonly Store[];
  readonly mixers: readonly Mixer[];
  /** People who work. */
  readonly hands: number;
  readonly handsPlace: Place | undefined;
  /** Lidded pots; null when the plan does not say, and then they are no limit. */
  readonly pots: number | null;
  readonly potsPlace: Place | undefined;
  readonly orders: readonly Order[];
  readonly troubles: readonly PlanTrouble[];
}

/** A time as written. `instantIn` in `times.ts` makes an instant of it. */
export interface DayTime {
  readonly kind: 'ready' | 'start';
  /** `2026-03-14`. */
  readonly date: string;
  /** `08:00`; undefined when it is left out. */
  readonly time: string | undefined;
  /** As written, and perhaps no zone at all. */
  readonly zone: string | undefined;
  readonly place: Place;
}

/** An oven, a deck or a fridge. */
export interface Store {
  /** `oven`, `fridge`, `deck`, `deck 2`: unique among those of its kind. */
  readonly name: string;
  readonly place: Place;
  /** The same room in different pieces; the first that fits a formula counts. Never empty. */
  readonly holds: readonly Held[];
}

export type Held =
  /** `noun` is undefined for pieces of whatever is baked. */
  | { readonly kind: 'pieces'; readonly count: number; readonly noun: string | undefined }
  | { readonly kind: 'dough'; readonly grams: number };

export interface Mixer {
  readonly name: string;
  readonly place: Place;
  readonly grams: number;
  /** What is weighed: all the dough, or the flour in it. */
  readonly of: 'dough' | 'flour';
}

export interface Order {
  readonly place: Place;
  readonly formulaPlace: Place;
  /** The formula as the plan writes it. */
  readonly name: string;
  /** As it is written, and at the size ordered; undefined when there is none of that name or no size can be found. */
  readonly formula: ResolvedFormula | undefined;
  readonly scaled: ResolvedFormula | undefined;
  /** Times what the formula makes as written. */
  readonly factor: number | null;
  /** Whole pieces; null when it is not divided into any. */
  readonly pieces: number | null;
  /** `loaves`: as the formula says it, or the plan where that says nothing. */
  readonly noun: string;
  /** All that is mixed: the dough, or the parts of a dish together. */
  readonly doughGrams: number | null;
  /** Its own time to be ready, in the place of the day's. */
  readonly ready: DayTime | undefined;
}

/** What is wrong with a plan; checks turn it into findings with words. */
export type PlanTrouble =
  | { readonly kind: 'no-time'; readonly place: Place }
  | { readonly kind: 'second-time'; readonly place: Place; readonly first: Place }
  | { readonly kind: 'no-orders'; readonly place: Place }
  | { readonly kind: 'no-oven'; readonly place: Place }
  /** `oven`, `hands`, `order`: what comes to nothing, or to more than anybody has. */
  | { readonly kind: 'odd-number'; readonly place: Place; readonly what: string; readonly value: number; readonly why: 'none' | 'not-whole' | 'too-many' }
  /** A mixer that says no weight. */
  | { readonly kind: 'needs-a-weight'; readonly place: Place; readonly name: string }
  /** The formula says neither how many pieces it makes nor what it weighs. */
  | { readonly kind: 'no-size'; readonly place: Place; readonly name: string; readonly message: string }
  | { readonly kind: 'pieces-not-whole'; readonly place: Place; readonly name: string; readonly pieces: number; readonly pieceGrams: number | null; readonly unit: 'kg' | 'batches' | 'pieces' }
  /** No oven holds so much as one piece. */
  | { readonly kind: 'fits-no-oven'; readonly place: Place; readonly name: string; readonly noun: string; readonly pieceGrams: number; readonly mostGrams: number }
  /** What is counted there is none of what is baked, and its weight is not known. */
  | { readonly kind: 'room-unknown'; readonly place: Place; readonly noun: string }
  /** With all before it. */
  | { readonly kind: 'too-many-loads'; readonly place: Place; readonly name: string; readonly loads: number };
