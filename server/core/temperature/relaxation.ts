/** Dough, soakers and loaves take on the temperature around them: fast at first, ever more slowly. */
import { mapRange, rangeOf, type Range } from '../estimate';
import { TIME_CONSTANT_OF_A_KILOGRAM } from './constants';

/**
 * The temperature after a while, C: first order, T(t) = ambient + (start - ambient) e^(-t / time constant). With a time
 * constant of zero it is that of the surroundings at once.
 */
export function relaxedCelsius(startCelsius: number, ambientCelsius: number, hours: number, timeConstantHours: number): number {
  if (timeConstantHours <= 0) return ambientCelsius;
  return ambientCelsius + (startCelsius - ambientCelsius) * Math.exp(-hours / timeConstantHours);
}

/**
 * Hours until a temperature between start and surroundings is reached: 0 when it already is, null when it never is.
 */
export function hoursUntil(targetCelsius: number, startCelsius: number, ambientCelsius: number, timeConstantHours: number): number | null {
  const whole = startCelsius - ambientCelsius;
  const left = targetCelsius - ambientCelsius;
  if (whole === 0 ? left === 0 : left / whole >= 1) return 0;
  return whole === 0 || left / whole <= 0 ? null : timeConstantHours * Math.log(whole / left);
}

/** The time constant of a piece of dough by its mass, h. A habit of the trade with a wide range: see the constant. */
export function timeConstantHours(grams: number): Range {
  return mapRange(rangeOf(TIME_CONSTANT_OF_A_KILOGRAM), (hours) => hours * (Math.max(0, grams) / 1000) ** (2 / 3));
}
