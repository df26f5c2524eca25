/**
 * The steps of a formula as a network: what there is to do, how long it takes at least and at most, and what must have
 * ended before what. Says nothing of clock times; `choose.ts` does.
 */
import type { StepKind } from '../../../grammar';
import type { Place, PlacedStep } from '../formula/model';
import type { TimelineStep } from './model';

/** Something a line says, for the reader of a conflict. */
export interface Fact {
  readonly text: string;
  readonly place: Place;
}

/** Facts that cannot all hold, and one sentence that says why. */
export interface Conflict {
  readonly message: string;
  readonly facts: readonly Fact[];
}

/** A length of time: what it takes at the least, as planned, and at the most, ms, whole numbers. */
export interface Length {
  readonly lowMs: number;
  readonly chosenMs: number;
  readonly highMs: number;
}

/** What a person sees of a node. */
export interface Work {
  readonly id: string;
  readonly part: number | undefined;
  readonly step: PlacedStep | undefined;
  readonly kind: StepKind;
  readonly label: string;
  readonly place: Place;
  readonly handsOn: boolean;
  readonly handAtStart: boolean;
  readonly handAtEnd: boolean;
  readonly adapted: TimelineStep['adapted'];
  readonly ambientCelsius: number | null;
  readonly assumed: boolean;
}

export interface Node {
  readonly length: Length;
  /** The part whose steps it stands among; undefined for the method, to which the steps of the dough belong. */
  readonly sequence: number | undefined;
  /** A step; undefined for the moment at which the part of `sequence` is ready, which takes no time and is not shown. */
  readonly work: Work | undefined;
  /** A fold: begins this long after its bulk does, and binds nothing else. */
  readonly inside: { readonly outer: number; readonly offsetMs: number; /** Nobody wrote when, so it follows from how long the bulk is. */ readonly follows: boolean } | undefined;
}

/** `before` must have ended when `after` has been going on for `lagMs`. */
export interface Link {
  readonly before: number;
  readonly after: number;
  readonly lagMs: number;
  /** The most time that may pass between the two: 0 for a dough, that goes on fermenting; Infinity where waiting does no harm. */
  readonly waitMs: number;
  /** The line that says so, where one does: the one that takes a part in. */
  readonly fact: Fact | undefined;
}

/** Indices in `links` and `inside` are into `nodes`; a fold stands after its bulk. */
export interface Network {
  readonly nodes: readonly Node[];
  readonly links: readonly Link[];
  /** The node that the whole ends with: the last step of the method. Undefined for one that has no method. */
  readonly last: number | undefined;
}

/** A network under construction. */
export interface Draft {
  readonly nodes: Node[];
  readonly links: Link[];
  readonly conflicts: Conflict[];
}

export const NO_TIME: Length = { lowMs: 0, chosenMs: 0, highMs: 0 };

/** Adds a node and gives its index. */
export function addNode(draft: Draft, node: Node): number {
  return draft.nodes.push(node) - 1;
}

/** Adds `before` ends by the start of `after`, or by `lagMs` into it, and at most `waitMs` earlier. */
export function addLink(
  draft: Draft, before: number, after: number,
  { fact, lagMs = 0, waitMs = Infinity }: { readonly fact?: Fact; readonly lagMs?: number; readonly waitMs?: number } = {},
): void {
  draft.links.push({ before, after, lagMs, waitMs, fact });
}
