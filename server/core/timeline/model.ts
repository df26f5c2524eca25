/** A timeline: every step of all parts and of the method with a clock time. Instants are epoch milliseconds (UTC). */
import type { StepKind } from '../../../grammar';
import type { Place, PlacedStep } from '../formula/model';

export interface TimelineRequest {
  /** Exactly one of the two. */
  readonly anchor: { readonly kind: 'start' | 'ready'; readonly epochMs: number };
  /** IANA zone of clock times; lengths are absolute, so a night with a change of summer time keeps its hours. */
  readonly zone: string;
  /** When nobody works. Nothing that needs a hand is placed there. */
  readonly hoursOff?: readonly HoursOff[];
  /** What is not as the formula has it. */
  readonly conditions?: Conditions;
}

/** `asleep 22:30 to 05:30`, `away 09:00 to 17:00 on Mon to Fri`: on the clock of the zone, over midnight when it ends before it begins. */
export interface HoursOff {
  readonly kind: 'asleep' | 'away';
  /** Minutes from midnight, 0 to 1440. Both the same: none at all. */
  readonly fromMinute: number;
  readonly toMinute: number;
  /** Week days on which it begins, 1 for Monday to 7 for Sunday (ISO 8601); every day if left out. */
  readonly days?: readonly number[];
}

/** A day that differs from the one the formula was written for. */
export interface Conditions {
  /** The room that dough and levain stand in, C. */
  readonly roomCelsius?: number;
  /** The dough as it came from the mixer, measured, C. */
  readonly doughCelsius?: number;
  /** The baker's own pace of fermentation over the formula's, fitted to records: 1.1 ripens in 10/11 of the time. */
  readonly pace?: number;
}

export interface TimelineStep {
  /** Stable within the formula: `levain/ripen`, `method/bulk`, `method/bulk/fold-2`. */
  readonly id: string;
  /** Index into `ResolvedFormula.parts`, or undefined for the method. */
  readonly part: number | undefined;
  /** Undefined for a step that nobody wrote but somebody must do: putting a part together before it ripens or soaks (`levain/build`). */
  readonly step: PlacedStep | undefined;
  /** The kind of `step`; `mix` for `build`. */
  readonly kind: StepKind;
  /** What a person reads: `bulk`, `coil fold`, the words of `do`, `mix the levain`. */
  readonly label: string;
  /** The line of the step; the part's for `build`. */
  readonly place: Place;
  readonly startMs: number;
  readonly endMs: number;
  /**
   * The earliest and the latest start that some timeline with the same end has, all others moving within their written ranges. The
   * two are the same where nothing gives.
   */
  readonly earliestStartMs: number;
  readonly latestStartMs: number;
  readonly lowMinutes: number;
  readonly highMinutes: number;
  /** Someone works or watches all the while. */
  readonly handsOn: boolean;
  /** Someone must be there as it begins or as it ends, though it goes on by itself: dough into the fridge, bread out of the oven. */
  readonly handAtStart: boolean;
  readonly handAtEnd: boolean;
  /** Longer or shorter than written, for the day is not as the formula has it: the length written, and why it changed. */
  readonly adapted: { readonly lowMinutes: number; readonly highMinutes: number; readonly why: string } | undefined;
  /** Where the dough or oven is, Celsius; null if not said. */
  readonly ambientCelsius: number | null;
  /** No duration was written and a default was taken. */
  readonly assumed: boolean;
}

/** A change that would make a timeline fit, tried before it is offered. */
export interface WayOut {
  /** `retard 9 h instead of 10 to 16 h, and start the levain at Fri 21:40` */
  readonly text: string;
  /** The line it changes; undefined when it changes what was asked. */
  readonly place: Place | undefined;
  /** What the line's length would be, as text for that line: `9 h`. */
  readonly length: string | undefined;
}

export type Timeline =
  | {
      readonly kind: 'placed';
      readonly startMs: number;
      readonly readyMs: number;
      readonly zone: string;
      readonly steps: readonly TimelineStep[];
      /** Plain sentences: ready earlier than asked, begun later, lengths adapted to the room. */
      readonly notes: readonly string[];
    }
  /** No steps to place. */
  | { readonly kind: 'empty' }
  | {
      readonly kind: 'conflict';
      readonly message: string;
      /** The smallest set that cannot all hold. What was asked, and not written, has no place. */
      readonly facts: readonly { readonly text: string; readonly place: Place | undefined }[];
      /** At most three. */
      readonly waysOut: readonly WayOut[];
    };
