/** What happened on a bake: the `record` blocks of a formula, read and set against what the formula plans. Never part of its totals. */
import type { StepKind } from '../../../grammar';
import type { Place } from '../formula/model';

/** A figure and the line it stands on. */
export interface Noted<T = number> {
  readonly value: T;
  readonly place: Place;
}

/** A step as it went. */
export interface RecordedStep {
  readonly kind: StepKind;
  readonly place: Place;
  /** The middle of a range; null where no length was noted. */
  readonly minutes: number | null;
  /** Where it stood, C; null where not noted. `room` and `fridge` are those of the record, else of the formula. */
  readonly celsius: number | null;
  /** The rise at its end, %. */
  readonly volumePct: number | null;
  readonly coreCelsius: number | null;
}

export interface BakeRecord {
  /** The record's block in its section. */
  readonly block: number;
  /** `2026-05-09`; empty where it cannot be read. */
  readonly date: string;
  /** The head of the record. */
  readonly place: Place;
  readonly roomCelsius: Noted | undefined;
  readonly fridgeCelsius: Noted | undefined;
  /** Of the dough out of the mixer. */
  readonly doughCelsius: Noted | undefined;
  readonly steps: readonly RecordedStep[];
  /** Of the loaf at the end: the `core` line, else that of the last bake that has one. */
  readonly coreCelsius: Noted | undefined;
  readonly weighed: Noted<{ readonly grams: number; readonly pieces: number | null; readonly afterMinutes: number | null }> | undefined;
  readonly ph: Noted | undefined;
  readonly note: string;
}

export type RecordedWhat = 'room' | 'fridge' | 'dough' | 'length' | 'temperature' | 'volume' | 'core' | 'loss' | 'ph';

/** One figure of a record against the plan. */
export interface Comparison {
  readonly what: RecordedWhat;
  /** The step it is of. */
  readonly step: StepKind | undefined;
  /** The line of the record. */
  readonly place: Place;
  readonly unit: 'C' | 'min' | '%' | '';
  /** What the formula says, from least to most; null where it says nothing. */
  readonly planned: { readonly low: number; readonly high: number } | null;
  readonly was: number;
  /** How far outside of the plan: 0 inside, negative below; null without a plan. */
  readonly difference: number | null;
  /** What it means, in one plain sentence. */
  readonly meaning: string;
}

export interface ComparedRecord {
  readonly record: BakeRecord;
  readonly comparisons: readonly Comparison[];
}

/** The pace of a kitchen, from its records. */
export interface PaceFit {
  /** Over the formula's: at 1.1 the dough is ready in 10/11 of the time. */
  readonly pace: number;
  /** It lies between these in 19 of 20 cases. */
  readonly low: number;
  readonly high: number;
  readonly bakes: number;
  /** How far a single bake lies from the pace, % of its time: the standard deviation. */
  readonly residualPct: number;
  /** Plain sentences: what the figure does not say. */
  readonly notes: readonly string[];
}

export type FittedPace = PaceFit | { readonly reason: string };
