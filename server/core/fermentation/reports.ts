/** What fermentation says of a formula's bulk, its preferments and its time in the cold. Every answer is a range. */
import type { Place, ResolvedFormula, ResolvedLine, ResolvedPart, Totals } from '../formula/model';
import { widen, type Range } from '../estimate';
import { hoursUntil, relaxedCelsius, startCelsius as mixedCelsiusOf, timeConstantHours } from '../temperature';
import { ambientOf } from '../timeline/ambient';
import type { Timeline } from '../timeline/model';
import { FRIDGE_FLOOR, SOURDOUGH_YEAST } from './constants';
import { cultureOf, freshYeastPctOf, type Culture } from './culture';
import { saltFactor, sugarFactor } from './factors';
import { equalHours, rateOf, relativeRate, uncertaintyAt, type Organism } from './growth';
import { hoursOf, journeyOf, type Leg } from './journey';
import { equivalentHours, type Stage } from './path';
import { prefermentHours, ripeningHours, type Feeding } from './ripening';

type Hours = { readonly low: number; readonly high: number };

// --- bulk -----------------------------------------------------------------------------------------------------------

export interface BulkReport {
  readonly place: Place;
  readonly culture: Culture;
  /** What the step claims, h, and the temperature it claims it at: its own, else the room's. */
  readonly claimedHours: Hours | null;
  readonly claimedCelsius: number | null;
  /** The dough as the bulk begins, C. */
  readonly startCelsius: number | null;
  /** Hours at the claimed temperature that the dough really gets, starting as it does and warming or cooling to it. */
  readonly equivalentHours: Range | null;
  /** Hours in the room that ferment it as far as the claim; null where the claim is the room's, or the room is not said. */
  readonly roomHours: Range | null;
  /** Rate with this salt and sugar, relative to none; null where totals were not given or not known. */
  readonly saltFactor: number | null;
  readonly sugarFactor: number | null;
}

/** One for each `bulk` of the method. Totals are only needed for the factors of salt and sugar. */
export function bulkReport(formula: ResolvedFormula, totals?: Totals, timeline?: Timeline): readonly BulkReport[] {
  return risesOf('bulk', formula, totals, timeline);
}

/** The same of each `proof`: the shaped pieces are lighter than the dough, and take on the temperature around them sooner. */
export function proofReport(formula: ResolvedFormula, totals?: Totals, timeline?: Timeline): readonly BulkReport[] {
  return risesOf('proof', formula, totals, timeline);
}

function risesOf(kind: 'bulk' | 'proof', formula: ResolvedFormula, totals: Totals | undefined, timeline: Timeline | undefined): readonly BulkReport[] {
  const culture = cultureOf(formula);
  const { organism } = culture;
  return journeyOf(formula, timeline).legs.filter((leg) => leg.kind === kind).map((leg): BulkReport => {
    const claimed = leg.ambientCelsius;
    const room = formula.roomCelsius;
    return {
      place: leg.place,
      culture,
      claimedHours: leg.hours,
      claimedCelsius: claimed,
      startCelsius: leg.startCelsius,
      equivalentHours: organism === null || claimed === null ? null : workOf(leg, organism, claimed),
      roomHours: organism === null || claimed === null || room === null || claimed === room || !leg.hours ? null : spread(leg.hours, (h) => equalHours(organism, h, claimed, room)),
      saltFactor: mapKnown(totals?.salt_pct, saltFactor),
      sugarFactor: mapKnown(totals?.sugar_pct, (pct) => sugarFactor(pct, culture.osmotolerant ? 'osmotolerant' : 'ordinary')),
    };
  });
}

/** Hours at another temperature that ferment as far as the claim of a bulk. */
export function bulkHoursAt(report: BulkReport, celsius: number): Range | null {
  const { culture: { organism }, claimedCelsius, claimedHours } = report;
  if (organism === null || claimedCelsius === null || claimedHours === null) return null;
  return spread(claimedHours, (hours) => equalHours(organism, hours, claimedCelsius, celsius));
}

// --- retard ---------------------------------------------------------------------------------------------------------

export interface RetardReport {
  readonly place: Place;
  readonly kind: 'retard' | 'chill';
  readonly culture: Culture;
  readonly hours: Hours | null;
  readonly fridgeCelsius: number | null;
  /** The dough as it goes in and as it comes out, C. */
  readonly startCelsius: number | null;
  readonly endCelsius: Range | null;
  /** Temperature of the hours below: that of the first bulk, else of the room. */
  readonly referenceCelsius: number | null;
  /** Hours at the reference that the cold adds, its cooling down included. */
  readonly addedHours: Range | null;
  /** The same for the souring bacteria, for a dough with a starter. */
  readonly souringHours: Range | null;
  /** Hours until the core is so cold that sourdough yeast nearly stops (8 C): null where it does not get there. */
  readonly hoursToStandstill: Range | null;
}

/** One for each `retard` and `chill` that the dough goes through. */
export function retardReport(formula: ResolvedFormula, timeline?: Timeline): readonly RetardReport[] {
  const culture = cultureOf(formula);
  const { legs } = journeyOf(formula, timeline);
  const reference = legs.find((leg) => leg.kind === 'bulk')?.ambientCelsius ?? formula.roomCelsius;
  return legs.flatMap((leg): readonly RetardReport[] => {
    if (leg.kind !== 'retard' && leg.kind !== 'chill') return [];
    const { hours, ambientCelsius, startCelsius, timeConstantHours: slow } = leg;
    const known = hours !== null && ambientCelsius !== null && startCelsius !== null && slow !== null;
    const { organism } = culture;
    return [{
      place: leg.place,
      kind: leg.kind,
      culture,
      hours,
      fridgeCelsius: ambientCelsius,
      startCelsius,
      endCelsius: known ? ordered([relaxedCelsius(startCelsius, ambientCelsius, hours.high, slow.low), relaxedCelsius(startCelsius, ambientCelsius, (hours.low + hours.high) / 2, slow.mid), relaxedCelsius(startCelsius, ambientCelsius, hours.low, slow.high)]) : null,
      referenceCelsius: reference,
      addedHours: organism === null || reference === null ? null : workOf(leg, organism, reference),
      souringHours: !culture.hasStarter || reference === null ? null : workOf(leg, 'sourdough bacteria', reference),
      hoursToStandstill: known ? rangeThrough(slow, (hour) => hoursUntil(SOURDOUGH_YEAST.least, startCelsius, ambientCelsius, hour)) : null,
    }];
  });
}

// --- preferments ----------------------------------------------------------------------------------------------------

export type Ripeness = 'not ripe yet' | 'about ripe' | 'past its peak';

export interface LevainReport {
  /** Index into the formula's parts. */
  readonly part: number;
  readonly place: Place;
  readonly raisedBy: 'starter' | 'yeast' | 'both' | 'nothing';
  /** Seed, flour and water by weight, for a part fed from a starter. */
  readonly feeding: Feeding | null;
  /** Starter over the flour weighed into it, %. */
  readonly inoculationPct: number | null;
  /** Where it ripens, and how warm it is when it is put together, C. */
  readonly ripeningCelsius: number | null;
  readonly startCelsius: number | null;
  /** Hours to its peak at that temperature. */
  readonly peakHours: Range | null;
  /** What its steps give it, in hours of the same temperature, as written from least to most. */
  readonly ripenedHours: Hours | null;
  readonly ripeness: Ripeness | null;
  /** Why there is no answer, in a baker's words. */
  readonly unknown: string | null;
}

/** One for each preferment: is it ripe when the dough takes it in? */
export function levainReport(formula: ResolvedFormula, timeline?: Timeline): readonly LevainReport[] {
  return formula.parts.flatMap((part, index) => (part.isPreferment ? [reportOf(formula, part, index, timeline)] : []));
}

const FERMENTING: ReadonlySet<string> = new Set(['ripen', 'rest', 'bulk', 'proof', 'retard', 'chill', 'soak']);

function reportOf(formula: ResolvedFormula, part: ResolvedPart, index: number, timeline: Timeline | undefined): LevainReport {
  const steps = part.steps.filter((step) => FERMENTING.has(step.node.step)).map((step) => ({
    hours: hoursOf(step, timeline),
    ambient: ambientOf(step, part, formula, undefined),
  }));
  const feeding = feedingOf(formula, part, new Set([index]));
  const yeastPct = freshYeastPctOf(part);
  const hasYeast = yeastPct === null || yeastPct > 0;
  const raisedBy = feeding ? (hasYeast && yeastPct !== null ? 'both' : 'starter') : hasYeast ? 'yeast' : 'nothing';
  const ripening = steps.find((step) => step.ambient !== null)?.ambient ?? null;
  const start = mixedCelsiusOf(formula, part, index);
  const peak = ripening === null ? null : peakOf(raisedBy, feeding, yeastPct, ripening);
  const organism: Organism = raisedBy === 'yeast' ? "baker's yeast" : 'sourdough yeast';
  const ripened = ripening === null ? null : ripenedOf(organism, steps, start ?? ripening, ripening, part.grams);
  return {
    part: index,
    place: part.place,
    raisedBy,
    feeding,
    inoculationPct: feeding && feeding.flour > 0 ? (100 * feeding.seed) / feeding.flour : null,
    ripeningCelsius: ripening,
    startCelsius: start,
    peakHours: peak,
    ripenedHours: ripened,
    ripeness: peak === null || ripened === null ? null : ripened.high < peak.low ? 'not ripe yet' : ripened.low > peak.high ? 'past its peak' : 'about ripe',
    unknown: peak !== null && ripened !== null ? null : whyUnknown(raisedBy, steps.length, ripening, ripened, yeastPct),
  };
}

/**
 * Of a part that is fed from a starter, or from another part that is: the seed, and the flour and water weighed in beside it.
 * Null for a part that nothing seeds, or whose weights are not known.
 */
function feedingOf(formula: ResolvedFormula, part: ResolvedPart, seen: ReadonlySet<number>): Feeding | null {
  let seed = 0;
  let flour = 0;
  let water = 0;
  for (const line of part.lines) {
    if (!line.inDough) continue;
    if (isSeed(formula, line, seen)) seed += line.grams ?? NaN;
    else if (line.part === undefined) {
      flour += line.flourGrams;
      water += line.waterGrams;
    }
  }
  return seed > 0 && flour > 0 ? { seed, flour, water } : null;
}

function isSeed(formula: ResolvedFormula, line: ResolvedLine, seen: ReadonlySet<number>): boolean {
  if (line.starterHydrationPct !== undefined) return true;
  const taken = line.part === undefined || seen.has(line.part) ? undefined : formula.parts[line.part];
  return taken?.isPreferment === true && line.part !== undefined && feedingOf(formula, taken, new Set([...seen, line.part])) !== null;
}

function peakOf(raisedBy: LevainReport['raisedBy'], feeding: Feeding | null, yeastPct: number | null, celsius: number): Range | null {
  switch (raisedBy) {
    case 'starter':
      return feeding && ripeningHours(feeding, celsius);
    case 'yeast':
      return yeastPct === null ? null : prefermentHours(yeastPct, celsius);
    case 'both':
    case 'nothing':
      return null;
  }
}

function ripenedOf(
  organism: Organism,
  steps: readonly { readonly hours: Hours | null; readonly ambient: number | null }[],
  start: number,
  reference: number,
  grams: number | null,
): Hours | null {
  if (grams === null || steps.length === 0 || relativeRate(organism, reference) <= 0) return null;
  const slow = timeConstantHours(grams).mid;
  const along = (pick: 'low' | 'high'): number | null => {
    const stages: Stage[] = [];
    for (const { hours, ambient } of steps) {
      if (hours === null || ambient === null) return null;
      stages.push({ hours: hours[pick], ambientCelsius: ambient, timeConstantHours: slow });
    }
    return equivalentHours(rateOf(organism), reference, start, stages).hours;
  };
  const low = along('low');
  const high = along('high');
  return low === null || high === null ? null : { low, high };
}

function whyUnknown(raisedBy: LevainReport['raisedBy'], steps: number, celsius: number | null, ripened: Hours | null, yeastPct: number | null): string {
  if (raisedBy === 'nothing') return 'Nothing in it ferments it by itself, or its weights are not known.';
  if (raisedBy === 'both') return 'It holds both starter and yeast, and there is no published pace for that.';
  if (steps === 0) return 'No step says how long it ripens.';
  if (celsius === null) return 'Nothing says how warm it is where it ripens.';
  if (ripened === null) return 'Its length of ripening or its weight is not known, or it is too hot or too cold there.';
  if (raisedBy === 'yeast' && yeastPct !== null) return 'Its yeast lies outside the table of preferments, 0.1 to 1.5 % fresh yeast.';
  return 'Its peak cannot be worked out.';
}

// --- shared ---------------------------------------------------------------------------------------------------------

/**
 * What a leg gives a dough in hours of the reference temperature: from the shorter length, the quicker body and the lower
 * floor to the longer, slower and higher, widened by how sure a time is at these temperatures.
 */
function workOf(leg: Leg, organism: Organism, reference: number): Range | null {
  const { hours, ambientCelsius, startCelsius, timeConstantHours: slow } = leg;
  if (hours === null || ambientCelsius === null || startCelsius === null || slow === null) return null;
  const at = (length: number, constant: number, floor: number) =>
    equivalentHours(rateOf(organism, floor), reference, startCelsius, [{ hours: length, ambientCelsius, timeConstantHours: constant }]).hours;
  const middle = (hours.low + hours.high) / 2;
  const floorLow = FRIDGE_FLOOR.low ?? FRIDGE_FLOOR.value;
  const floorHigh = FRIDGE_FLOOR.high ?? FRIDGE_FLOOR.value;
  const values = [
    at(hours.low, slow.low, floorLow), at(hours.low, slow.high, floorLow),
    at(middle, slow.mid, FRIDGE_FLOOR.value),
    at(hours.high, slow.low, floorHigh), at(hours.high, slow.high, floorHigh),
  ];
  const mid = values[2] ?? NaN;
  if (values.some((value) => !Number.isFinite(value))) return null;
  return widen({ low: Math.min(...values), mid, high: Math.max(...values) }, uncertaintyAt(reference, ambientCelsius, startCelsius));
}

/** A written range of lengths through a function that gives a range for one. */
function spread(hours: Hours, f: (hours: number) => Range | null): Range | null {
  const low = f(hours.low);
  const mid = f((hours.low + hours.high) / 2);
  const high = f(hours.high);
  return low && mid && high ? { low: low.low, mid: mid.mid, high: high.high } : null;
}

function rangeThrough(range: Range, f: (value: number) => number | null): Range | null {
  const low = f(range.low);
  const mid = f(range.mid);
  const high = f(range.high);
  return low === null || mid === null || high === null ? null : { low, mid, high };
}

function ordered([a, mid, b]: readonly [number, number, number]): Range {
  return { low: Math.min(a, mid, b), mid, high: Math.max(a, mid, b) };
}

function mapKnown(value: number | null | undefined, f: (value: number) => number): number | null {
  return value === null || value === undefined ? null : f(value);
}
