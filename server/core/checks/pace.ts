/** How long a dough rises, against how long its leaven needs. Both are rough: only far misses mean something. */
import type { Range } from '../estimate';
import { equalHours, equivalentHours, journeyOf, rateOf, ripeningHours, saltFactor, sugarFactor, type Culture, type Organism, type Stage } from '../fermentation';
import type { Place, ResolvedFormula, Totals } from '../formula/model';
import { HEATS, methodOf } from './method';

export interface Pace {
  /** The first bulk, or the proof where there is none. */
  readonly place: Place;
  readonly celsius: number;
  /** All rising from mixer to oven, cold included, in hours of that temperature. */
  readonly givenHours: { readonly low: number; readonly high: number };
  readonly neededHours: Range;
  readonly raisedBy: 'levain' | 'yeast';
}

/** A leg that may be left out, h. */
const SHORT_HOURS = 0.75;

/**
 * Null for a dough that is not followed to the oven, whose temperatures or lengths are not written, or that is raised by
 * levain and yeast together, for which nobody has published a pace.
 *
 * For sourdough: the levain thinned by the dough grows back, by the growth model. For yeast: 5.5 h at 24 C for 1 % fresh
 * yeast, shorter by the power 3/4 of the yeast, give or take half: a habit of the trade, no published source.
 */
export function paceOf(formula: ResolvedFormula, totals: Totals, { organism, hasStarter, freshYeastPct }: Culture): Pace | null {
  const mixed = hasStarter && (freshYeastPct === null || freshYeastPct > 0.02);
  if (organism === null || mixed || !methodOf(formula).some(({ node }) => HEATS.has(node.step))) return null;
  const journey = journeyOf(formula);
  const { legs, startCelsius } = journey;
  const main = legs.find(({ kind }) => kind === 'bulk') ?? legs.find(({ kind }) => kind === 'proof');
  if (main === undefined || main.ambientCelsius === null || startCelsius === null) return null;
  const celsius = main.ambientCelsius;
  const along = (pick: 'low' | 'high'): number | null => {
    const stages: Stage[] = [];
    for (const leg of legs) {
      if (leg.hours === null || leg.timeConstantHours === null) return null;
      if (leg.ambientCelsius === null) {
        // Shaping and short rests in a room that nobody says: too short to matter.
        if (leg.hours.high > SHORT_HOURS) return null;
        continue;
      }
      stages.push({ hours: leg.hours[pick], ambientCelsius: leg.ambientCelsius, timeConstantHours: leg.timeConstantHours.mid });
    }
    return equivalentHours(rateOf(organism), celsius, startCelsius, stages).hours;
  };
  const low = along('low');
  const high = along('high');
  const needed = hasStarter ? byLevain(formula, totals, celsius) : byYeast(freshYeastPct, totals, celsius, organism);
  if (low === null || high === null || needed === null || !Number.isFinite(low) || !Number.isFinite(high)) return null;
  // Sugar and salt slow a dough by figures that are guesses: they lengthen the longest time and leave the shortest.
  const slowed = needed.high / slowness(totals);
  return { place: main.place, celsius, givenHours: { low, high }, neededHours: { ...needed, high: slowed }, raisedBy: hasStarter ? 'levain' : 'yeast' };
}

function byLevain(formula: ResolvedFormula, totals: Totals, celsius: number): Range | null {
  const { flour_g: flour, inoculation_pct: inoculation, dough_g: dough } = totals;
  if (flour === null || inoculation === null || dough === null || formula.dough === undefined) return null;
  const seed = (flour * inoculation) / 100;
  const moisture = totals.effective_hydration_pct ?? totals.hydration_pct ?? 0;
  const culture = flour * (1 + Math.max(0, moisture) / 100);
  return seed <= 0 || seed >= culture ? null : ripeningHours({ seed, flour: culture - seed, water: 0 }, celsius);
}

const YEAST_HOURS = 5.5;
const YEAST_POWER = 0.75;
const YEAST_CELSIUS = 24;

function byYeast(freshPct: number | null, totals: Totals, celsius: number, organism: Organism): Range | null {
  if (freshPct === null || freshPct <= 0.01) return null;
  const hours = equalHours(organism, YEAST_HOURS * freshPct ** -YEAST_POWER, YEAST_CELSIUS, celsius);
  if (hours === null) return null;
  // A yeast preferment brings far more cells than were weighed into it.
  const fresh = 1 - Math.min(0.8, (totals.prefermented_flour_pct ?? 0) / 100);
  return { low: hours.low * 0.6 * fresh, mid: hours.mid * fresh, high: hours.high * 1.5 };
}

function slowness({ salt_pct: salt, sugar_pct: sugar }: Totals): number {
  return saltFactor(salt ?? 0) * sugarFactor(sugar ?? 0);
}
