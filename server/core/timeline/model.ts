/** A timeline: every step of all parts and of the method with a clock time. Instants are epoch milliseconds (UTC). */
import type { StepKind } from '../../../grammar';
import type { Place, PlacedStep } from '../formula/model';

export interface TimelineRequest {
  /** Exactly one of the two. */
  readonly anchor: { readonly kind: 'start' | 'ready'; readonly epochMs: number };
  /** IANA zone for printing; placing is in absolute time, so a night with a change of summer time keeps its hours. */
  readonly zone: string;
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
  /** How far the start can move within the written ranges of its part, what takes the part in standing still. The chosen time where nothing flexes. */
  readonly earliestStartMs: number;
  readonly latestStartMs: number;
  readonly lowMinutes: number;
  readonly highMinutes: number;
  readonly handsOn: boolean;
  /** Where the dough or oven is, Celsius; null if not said. */
  readonly ambientCelsius: number | null;
  /** No duration was written and a default was taken. */
  readonly assumed: boolean;
}

export type Timeline =
  | { readonly kind: 'placed'; readonly startMs: number; readonly readyMs: number; readonly zone: string; readonly steps: readonly TimelineStep[] }
  /** No steps to place. */
  | { readonly kind: 'empty' }
  | { readonly kind: 'conflict'; readonly message: string; readonly facts: readonly { readonly text: string; readonly place: Place }[] };
