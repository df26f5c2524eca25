/**
 * A bake day along the clock: every batch with its steps, every load of every oven, the builds that several doughs share, and
 * how far from the best it can be. Instants are epoch milliseconds (UTC).
 */
import type { Place } from '../formula/model';
import type { Conditions, HoursOff, TimelineStep } from '../timeline/model';

export interface DayRequest {
  /** Where the plan names no zone. */
  readonly zone: string;
  /** In the place of the plan's own. */
  readonly anchor?: { readonly kind: 'start' | 'ready'; readonly epochMs: number };
  /** Beside the plan's own. */
  readonly hoursOff?: readonly HoursOff[];
  /** The plan's own `room` goes before `roomCelsius`. */
  readonly conditions?: Conditions;
  /**
   * Asked between two placings, once a whole day has been tried; false ends the search with the best day found so far, or with what is
   * known of why there is none. Without it, a set number of tries.
   */
  readonly mayGoOn?: () => boolean;
}

export type DaySchedule =
  | ScheduledDay
  /** Nothing is ordered that has any steps. */
  | { readonly kind: 'empty' }
  | {
      readonly kind: 'conflict';
      readonly message: string;
      readonly facts: readonly DayFact[];
      /** At most three, each tried. */
      readonly waysOut: readonly DayWayOut[];
    };

export interface DayFact {
  readonly text: string;
  /** In the plan's section, or in that of the formula named; undefined for what was asked and not written. */
  readonly place: Place | undefined;
  readonly formula?: string;
}

export interface DayWayOut {
  readonly text: string;
  readonly place: Place | undefined;
  readonly formula?: string;
  /** What would stand in that line in the place of its length, as in `WayOut`. */
  readonly length: string | undefined;
}

export interface ScheduledDay {
  readonly kind: 'scheduled';
  /** The first work, and when the last order is ready. */
  readonly startMs: number;
  readonly readyMs: number;
  readonly zone: string;
  /** As in `workOf`: in the order of the plan. */
  readonly batches: readonly ScheduledBatch[];
  /** By oven, then by time. */
  readonly ovenLoads: readonly OvenLoad[];
  /** When each oven is switched on. */
  readonly heatings: readonly Heating[];
  readonly builds: readonly ScheduledBuild[];
  /**
   * No day of these doughs and loads, its bread as fresh as this one's, begins later (for a time to be ready) or is over earlier (for a start)
   * than this.
   */
  readonly boundMs: number;
  /** How much less this day could take at the best, the oven heating by itself left out: 0 when nothing better exists. */
  readonly gapMinutes: number;
  /** The gap is nothing. */
  readonly proven: boolean;
  /** Plain sentences: what was assumed, what is ready early, what could not be shared. */
  readonly notes: readonly string[];
}

/** One dough: mixed at once, or a dish put together at once. */
export interface ScheduledBatch {
  /** Index into `BakeDay.orders`. */
  readonly order: number;
  readonly formula: string;
  /** `Country loaf, dough 2 of 3`; the name alone when there is one. */
  readonly label: string;
  readonly pieces: number | null;
  readonly noun: string;
  readonly doughGrams: number | null;
  /** Times what the formula makes as written. */
  readonly factor: number;
  readonly startMs: number;
  readonly readyMs: number;
  /** When each part of its formula (by index) goes in; null where none of its steps takes it. */
  readonly takenMs: readonly (number | null)[];
  /** In order of their start. Preheating is not among them, nor what a shared build takes over: see `heatings` and `builds`. */
  readonly steps: readonly DayStep[];
}

/** Places are in the section of the batch's formula. */
export interface DayStep extends TimelineStep {
  /** Index into the loads of its batch, for what each load does by itself; undefined for the whole dough. */
  readonly load: number | undefined;
  readonly pieces: number | null;
  /** What it takes up: the name of an oven, a fridge or a mixer. */
  readonly taken: { readonly kind: 'oven' | 'fridge' | 'mixer'; readonly name: string } | undefined;
  /** Who does it, from 1; undefined where no hand is needed all the while. */
  readonly person: number | undefined;
}

/** What stands in one oven together. */
export interface OvenLoad {
  readonly oven: string;
  /** From the first in to the last out. */
  readonly startMs: number;
  readonly endMs: number;
  readonly what: readonly {
    /** Index into `batches`. */
    readonly batch: number;
    readonly load: number;
    readonly formula: string;
    readonly pieces: number | null;
    readonly noun: string;
    readonly startMs: number;
    readonly endMs: number;
  }[];
  /** What it begins and ends with. Null when no line says how hot. */
  readonly startCelsius: number | null;
  readonly endCelsius: number | null;
  /** How full, 0 to 1. */
  readonly filled: number;
}

export interface Heating {
  readonly oven: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly celsius: number | null;
}

/** A preferment put together once for one dough or several. */
export interface ScheduledBuild {
  /** Index into the builds of `workOf`. */
  readonly build: number;
  readonly name: string;
  readonly startMs: number;
  /** Ripe, as the first dough takes it; `lastMs` as the last one does. */
  readonly firstMs: number;
  readonly lastMs: number;
  readonly person: number | undefined;
  readonly totalGrams: number | null;
  readonly keepGrams: number;
  readonly lines: readonly { readonly name: string; readonly key: string; readonly grams: number | null }[];
  /** How much goes into which batch (index into `batches`), where it is that part of its formula. */
  readonly portions: readonly { readonly batch: number; readonly part: number; readonly grams: number | null }[];
}
