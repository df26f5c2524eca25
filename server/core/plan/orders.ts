/** One line of a plan that orders something: its formula, and that formula at the size ordered. */
import type { PropertyValue } from '../../../grammar';
import type { Place, ResolvedFormula } from '../formula/model';
import { scaleFormula, type ScaleRequest } from '../scaling/scale';
import { singular } from '../scaling/nouns';
import { gramsFrom, middleOf } from '../units/mass';
import type { DayTime, Order, PlanTrouble } from './model';
import type { PlanLookup } from './read';

export interface OrderLine {
  readonly value: Extract<PropertyValue, { readonly kind: 'order' }>;
  readonly place: Place;
  readonly formulaPlace: Place;
  /** The date of the plan, for a time without one. */
  readonly dayDate: string | undefined;
}

/** Dividing a weight leaves dust; nobody cuts a thousandth of a loaf. */
const WHOLE_WITHIN = 1e-3;

/**
 * The order of a line. `pieces` counts what the formula makes, a weight counts dough, and `batches` are as many times what it makes;
 * a dish that is not divided into pieces is counted as a whole, or by the people it serves.
 */
export function orderOf({ value, place, formulaPlace, dayDate }: OrderLine, { formulaNamed }: PlanLookup, troubles: PlanTrouble[]): Order {
  const name = value.formula.text;
  const formula = formulaNamed(name.trim().toLowerCase().replace(/\s+/g, ' '));
  const ready: DayTime | undefined = value.ready && (value.ready.date ?? dayDate) !== undefined
    ? { kind: 'ready', date: value.ready.date ?? dayDate ?? '', time: value.ready.time, zone: undefined, place: { ...place, start: value.ready.start, end: value.ready.end } }
    : undefined;
  const unsized: Order = {
    place, formulaPlace, name, formula, scaled: undefined, factor: null, pieces: null, noun: value.noun?.text ?? formula?.yield.noun ?? 'pieces',
    doughGrams: null, ready,
  };
  const count = middleOf(value.quantity);
  if (count <= 0) {
    troubles.push({ kind: 'odd-number', place, what: name, value: count, why: 'none' });
    return unsized;
  }
  if (formula === undefined) return unsized;
  const request = requestOf(formula, count, value);
  if (typeof request === 'string') {
    troubles.push({ kind: 'no-size', place, name, message: request });
    return unsized;
  }
  const scaled = scaleFormula(formula, request, null);
  if (scaled.kind === 'cannot') {
    troubles.push({ kind: 'no-size', place, name, message: scaled.message });
    return unsized;
  }
  const exact = scaled.formula.yield.pieces;
  const pieces = exact === null || formula.yield.pieces === null ? null : Math.round(exact);
  if (exact !== null && pieces !== null && Math.abs(exact - pieces) > WHOLE_WITHIN) {
    const unit = value.unit !== undefined ? 'kg' : isBatches(value.noun?.text) ? 'batches' : 'pieces';
    troubles.push({ kind: 'pieces-not-whole', place, name, pieces: exact, pieceGrams: formula.yield.pieceGrams, unit });
  }
  return {
    ...unsized, scaled: scaled.formula, factor: scaled.factor, pieces: pieces === null ? null : Math.max(1, pieces),
    noun: formula.yield.pieces === null ? unsized.noun : formula.yield.noun, doughGrams: mixedGrams(scaled.formula),
  };
}

function requestOf(formula: ResolvedFormula, count: number, { unit, noun }: OrderLine['value']): ScaleRequest | string {
  if (unit !== undefined) {
    return formula.kind === 'dish'
      ? 'A dish has no dough to order by weight: write how many, for example `make 2`.'
      : { by: 'dough', grams: gramsFrom(count, unit) };
  }
  if (isBatches(noun?.text)) return { by: 'factor', factor: count };
  if (formula.yield.pieces !== null) return { by: 'pieces', pieces: count };
  const { serves } = formula;
  if (serves !== null && serves > 0 && /^(portion|serving|people|person|guest|plate)/i.test(noun?.text ?? '')) return { by: 'factor', factor: count / serves };
  if (formula.kind === 'dish' || formula.makes !== undefined) return { by: 'factor', factor: count };
  return 'It does not say how many pieces it makes: write, for example, `makes 2 loaves`, or order `batches` of it.';
}

function isBatches(noun: string | undefined): boolean {
  return noun !== undefined && singular(noun.toLowerCase()).replace(/e$/, '') === 'batch';
}

/** All that is put together: the dough; of a dish, its parts that go into no other, and what it takes of a formula. */
export function mixedGrams(formula: ResolvedFormula): number | null {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough) return dough.yieldGrams;
  const taken = new Set(formula.parts.flatMap((part) => part.lines.flatMap((line) => (line.part === undefined ? [] : [line.part]))));
  return formula.parts.reduce<number | null>(
    (sum, part, index) => (taken.has(index) ? sum : sum === null || part.yieldGrams === null ? null : sum + part.yieldGrams), 0,
  );
}
