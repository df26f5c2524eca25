/**
 * Limits of time and temperature for food that spoils. Guidance, not legal advice: local food rules come first.
 *
 * Read in state adoptions of the FDA Food Code that keep its section numbers.
 */
import { SAFETY } from './constants';

/** A reading: minutes from the start, C. */
export type Reading = readonly [minutes: number, celsius: number];

export type Judged = { readonly compliant: true } | { readonly compliant: false; readonly reason: string };

/**
 * Cooling of cooked food, 3-501.14(A): from 57 to 21 C within two hours, and to 5 C within six in all. Between readings the
 * temperature is taken as a straight line. A log that ends before it is cold is not compliant: it says nothing.
 */
export function coolingOf(log: readonly Reading[]): Judged {
  const start = timeAt(log, SAFETY.hotCelsius.value) ?? log[0]?.[0];
  const first = timeAt(log, SAFETY.coolFirstCelsius.value);
  const cold = timeAt(log, SAFETY.coldCelsius.value);
  if (start === undefined) return { compliant: false, reason: 'there are no readings' };
  const firstLimit = SAFETY.coolFirstHours.value * 60;
  const allLimit = SAFETY.coolAllHours.value * 60;
  if (first === undefined) return { compliant: false, reason: `it never came down to ${String(SAFETY.coolFirstCelsius.value)} C` };
  if (first - start > firstLimit) return { compliant: false, reason: `first stage took ${minutes(first - start)} min, limit ${String(firstLimit)}` };
  if (cold === undefined) return { compliant: false, reason: `it never came down to ${String(SAFETY.coldCelsius.value)} C` };
  if (cold - start > allLimit) return { compliant: false, reason: `cooling took ${minutes(cold - start)} min in all, limit ${String(allLimit)}` };
  return { compliant: true };
}

/** When the log first is at or below a temperature, min. */
function timeAt(log: readonly Reading[], celsius: number): number | undefined {
  let before: Reading | undefined;
  for (const reading of log) {
    const [time, at] = reading;
    if (at <= celsius) {
      if (before === undefined || at === before[1]) return time;
      return before[0] + ((before[1] - celsius) / (before[1] - at)) * (time - before[0]);
    }
    before = reading;
  }
  return undefined;
}

/**
 * Time in place of temperature, 3-501.19: four hours from the cold or the hot; six for food that starts cold and never
 * passes 21 C. `limitHours` is null where neither applies.
 */
export function timeControlOf({ startCelsius, maxCelsius, hours }: { readonly startCelsius: number; readonly maxCelsius: number; readonly hours: number }): {
  readonly compliant: boolean;
  readonly limitHours: number | null;
} {
  const fromCold = startCelsius <= SAFETY.coldCelsius.value;
  const fromHot = startCelsius >= SAFETY.hotCelsius.value;
  const staysCool = fromCold && maxCelsius <= SAFETY.coolFirstCelsius.value;
  const limitHours = staysCool ? SAFETY.timeOnlyColdHours.value : fromCold || fromHot ? SAFETY.timeOnlyHours.value : null;
  return { compliant: limitHours !== null && hours <= limitHours, limitHours };
}

/** A custard, a bread bake, a quiche: safe from 71 C (160 F) in the middle. */
export function isEggDishDone(coreCelsius: number): boolean {
  return coreCelsius >= SAFETY.eggDishCelsius.value - 1e-9;
}

function minutes(value: number): string {
  return String(Math.round(value));
}
