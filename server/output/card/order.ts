/** The parts of a formula in the order somebody makes them. */
import { makingOrder } from '../../core/formula/order';
import type { ResolvedFormula } from '../../core/formula/model';
import type { Timeline } from '../../core/timeline/model';
import { partsInDough } from '../entry';

/**
 * Indexes of all parts: those that the dough takes in, the dough, then what is made beside it; among each by when the first hand is at
 * them, and without a timeline each after those that it takes in.
 */
export function partsAsMade(formula: ResolvedFormula, timeline: Timeline | undefined): readonly number[] {
  const { producersFirst } = makingOrder(formula.parts.map(({ lines }) => lines.map(({ part }) => part)));
  const inDough = new Set(partsInDough(formula));
  const steps = timeline?.kind === 'placed' ? timeline.steps : [];
  const ranked = producersFirst.map((index, place) => ({
    index, place,
    stage: index === formula.dough ? 1 : inDough.has(index) ? 0 : 2,
    startMs: steps.reduce((first, step) => (step.part === index ? Math.min(first, step.startMs) : first), Number.MAX_SAFE_INTEGER),
  }));
  return ranked.sort((a, b) => a.stage - b.stage || a.startMs - b.startMs || a.place - b.place).map(({ index }) => index);
}
