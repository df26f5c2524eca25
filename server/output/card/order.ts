/** The parts of a formula in the order somebody makes them. */
import { makingOrder } from '../../core/formula/order';
import type { ResolvedFormula } from '../../core/formula/model';
import type { Timeline } from '../../core/timeline/model';
import { partsInDough } from '../entry';

/**
 * Indexes of all parts: by when the first hand is at each; those without a time before the dough where it takes them in, else after
 * it. Without a timeline each stands after those that it takes in.
 */
export function partsAsMade(formula: ResolvedFormula, timeline: Timeline | undefined): readonly number[] {
  const { producersFirst } = makingOrder(formula.parts.map(({ lines }) => lines.map(({ part }) => part)));
  const inDough = new Set(partsInDough(formula));
  const steps = timeline?.kind === 'placed' ? timeline.steps : [];
  const firstOf = (part: number | undefined): number => steps.reduce((first, step) => (step.part === part ? Math.min(first, step.startMs) : first), Infinity);
  const doughMs = Math.min(firstOf(undefined), firstOf(formula.dough));
  const startOf = (index: number): number => {
    if (index === formula.dough) return doughMs;
    const own = firstOf(index);
    return own < Infinity ? own : inDough.has(index) ? doughMs : Infinity;
  };
  const at = producersFirst.map((index, place) => ({ index, place, startMs: startOf(index), beside: Number(!inDough.has(index)) }));
  const later = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1);
  return at.sort((a, b) => later(a.startMs, b.startMs) || a.beside - b.beside || a.place - b.place).map(({ index }) => index);
}
