/** Fermentation added up over a dough that warms and cools on its way. */
import { relaxedCelsius } from '../temperature';
import type { Rate } from './growth';

/** A while in one place. */
export interface Stage {
  readonly hours: number;
  readonly ambientCelsius: number;
  /** How slowly the dough takes on the temperature around it, h; 0 for at once. */
  readonly timeConstantHours: number;
}

export interface Travelled {
  /** Hours at the reference temperature that ferment as far. */
  readonly hours: number;
  readonly endCelsius: number;
}

/**
 * Goes through the stages from a start temperature and adds up hours x rate at the dough's own temperature, in hours of the
 * reference temperature. NaN where the rate is zero at the reference.
 */
export function equivalentHours(rate: Rate, referenceCelsius: number, startCelsius: number, stages: readonly Stage[]): Travelled {
  const reference = rate(referenceCelsius);
  let work = 0;
  let celsius = startCelsius;
  for (const { hours, ambientCelsius, timeConstantHours } of stages) {
    const at = (time: number) => rate(relaxedCelsius(celsius, ambientCelsius, time, timeConstantHours));
    // After so many time constants a dough is as warm as what is around it, to a hundredth of a degree.
    const changing = Math.min(hours, SETTLED_AFTER * timeConstantHours);
    work += integral(at, changing) + (hours > changing ? (hours - changing) * rate(ambientCelsius) : 0);
    celsius = hours > 0 ? relaxedCelsius(celsius, ambientCelsius, hours, timeConstantHours) : celsius;
  }
  return { hours: reference > 0 ? work / reference : NaN, endCelsius: celsius };
}

/** Steps in an hour; the rates bend slowly, so this is good to a second. */
const STEPS_AN_HOUR = 30;
const MOST_STEPS = 6000;
/** Time constants: of 30 degrees of difference 0.001 is left. */
const SETTLED_AFTER = 10;

/** Simpson's rule from 0 to `end`. */
function integral(f: (x: number) => number, end: number): number {
  if (!(end > 0)) return 0;
  const pairs = Math.min(MOST_STEPS, Math.max(4, Math.ceil((end * STEPS_AN_HOUR) / 2)));
  const step = end / (2 * pairs);
  let sum = f(0) + f(end);
  for (let i = 1; i < 2 * pairs; i++) sum += f(i * step) * (i % 2 === 1 ? 4 : 2);
  return (sum * step) / 3;
}
