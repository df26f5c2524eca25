/** A dough on its way through the steps of a formula: how long it is where, and how warm it is itself. */
import type { StepKind } from '../../../grammar';
import type { Place, PlacedStep, ResolvedFormula } from '../formula/model';
import { doughTemperature, relaxedCelsius, timeConstantHours } from '../temperature';
import type { Range } from '../estimate';
import { ambientOf } from '../timeline/ambient';
import { STEP_DEFAULTS } from '../timeline/defaults';
import type { Timeline } from '../timeline/model';

/** One step that the dough goes through. */
export interface Leg {
  readonly step: PlacedStep;
  readonly kind: StepKind;
  readonly place: Place;
  /** As written, or as the timeline has placed it; null where neither says. */
  readonly hours: { readonly low: number; readonly high: number } | null;
  readonly ambientCelsius: number | null;
  /** Of the dough, by the middle of all lengths; null where a temperature is missing. */
  readonly startCelsius: number | null;
  readonly endCelsius: number | null;
  /** How slowly the dough takes on the temperature around it: of the whole dough before it is divided, then of a piece. */
  readonly timeConstantHours: Range | null;
}

export interface Journey {
  readonly legs: readonly Leg[];
  /** The dough out of the mixing, C, and how it is known: by its lines' temperatures, by what the dough head asks for, by the room. */
  readonly startCelsius: number | null;
  readonly startBy: 'lines' | 'head' | 'room' | null;
}

/** Steps after which the dough is in pieces. */
const DIVIDES: ReadonlySet<StepKind> = new Set<StepKind>(['divide', 'preshape', 'shape', 'fill']);
/** Nothing ferments after these. */
const ENDS: ReadonlySet<StepKind> = new Set<StepKind>(['bake', 'boil', 'steam', 'fry']);
/** Of the oven, or so short that nothing ferments meanwhile. */
const BESIDES: ReadonlySet<StepKind> = new Set<StepKind>(['preheat', 'mix', 'knead']);

/**
 * From the mixing to the oven. Folds happen inside their bulk and are not legs of their own.
 *
 * @param timeline lengths as placed, in place of the written ranges
 */
export function journeyOf(formula: ResolvedFormula, timeline?: Timeline): Journey {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const start = startOf(formula);
  if (!dough) return { legs: [], startCelsius: start.celsius, startBy: start.by };
  const legs: Leg[] = [];
  let celsius = start.celsius;
  let grams = dough.grams;
  const steps = [...dough.steps, ...formula.method];
  const firstMix = steps.findIndex(({ node }) => node.step === 'mix' || node.step === 'knead');
  const firstHeat = steps.findIndex(({ node }, index) => index > firstMix && ENDS.has(node.step));
  // What is done before the dough is mixed (an autolyse) does not ferment it; mixing itself is short.
  for (const step of steps.slice(firstMix + 1, firstHeat < 0 ? undefined : firstHeat)) {
    const kind = step.node.step;
    if (BESIDES.has(kind)) continue;
    if (DIVIDES.has(kind)) grams = formula.yield.pieceGrams ?? grams;
    // Not the temperature of the dough head: that is the dough's out of the mixer, not of the place it stands in.
    const ambientCelsius = ambientOf(step, undefined, formula, undefined);
    const hours = hoursOf(step, timeline);
    const timeConstant = grams === null ? null : timeConstantHours(grams);
    const startCelsius = celsius;
    celsius = after(celsius, ambientCelsius, hours, timeConstant);
    legs.push({ step, kind, place: step.place, hours, ambientCelsius, startCelsius, endCelsius: celsius, timeConstantHours: timeConstant });
  }
  return { legs, startCelsius: start.celsius, startBy: start.by };
}

function startOf(formula: ResolvedFormula): { celsius: number | null; by: Journey['startBy'] } {
  const temperature = doughTemperature(formula);
  if (temperature === null) return { celsius: null, by: null };
  const { expectedCelsius, frictionMeasured, desiredCelsius, liquid } = temperature;
  const byLines = frictionMeasured ? (expectedCelsius.factors ?? expectedCelsius.heatBalance) : expectedCelsius.heatBalance;
  if (byLines !== null && liquid !== null) return { celsius: byLines, by: 'lines' };
  if (desiredCelsius !== null) return { celsius: desiredCelsius, by: 'head' };
  return { celsius: formula.roomCelsius, by: formula.roomCelsius === null ? null : 'room' };
}

function after(celsius: number | null, ambient: number | null, hours: Leg['hours'], timeConstant: Range | null): number | null {
  if (ambient === null || hours === null || timeConstant === null) return ambient ?? celsius;
  return celsius === null ? null : relaxedCelsius(celsius, ambient, (hours.low + hours.high) / 2, timeConstant.mid);
}

/** Written, as placed, or for short work by hand the default; a fermentation whose length nobody wrote is not guessed. */
export function hoursOf(step: PlacedStep, timeline?: Timeline): Leg['hours'] {
  const placed = timeline?.kind === 'placed' ? timeline.steps.find((one) => one.step === step) : undefined;
  if (placed && !placed.assumed) {
    const hours = (placed.endMs - placed.startMs) / 3_600_000;
    return { low: hours, high: hours };
  }
  const { duration } = step.node;
  if (duration) {
    const [low, high] = [duration.lowMinutes, duration.highMinutes].sort((a, b) => a - b);
    return { low: (low ?? 0) / 60, high: (high ?? 0) / 60 };
  }
  const usual = STEP_DEFAULTS[step.node.step];
  return usual.handsOn ? { low: usual.minutes / 60, high: usual.minutes / 60 } : null;
}
