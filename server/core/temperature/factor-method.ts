/**
 * The trade's rule for dough temperature: the temperatures that meet in the bowl are averaged, each with the same weight,
 * and mixer heat is one more term, the friction factor, measured in place.
 *
 * Published in trade and workshop texts; each is quoted in `tests/reference/checks.json`. Celsius throughout: the rule holds
 * in either unit as long as all terms use it, a friction factor being a difference of temperatures.
 */

/**
 * The water temperature for a desired dough temperature: factors x desired - known temperatures - friction.
 *
 * @param known what meets the water, C: flour and room (three factors), a preferment too (four)
 * @param frictionCelsius friction factor for this number of factors, Celsius degrees
 */
export function waterByFactors(desiredCelsius: number, known: readonly number[], frictionCelsius: number): number {
  return (known.length + 1) * desiredCelsius - sum(known) - frictionCelsius;
}

/**
 * The dough temperature that comes out.
 *
 * @param all every temperature, that of the water included, C; at least one
 */
export function doughByFactors(all: readonly number[], frictionCelsius: number): number {
  if (all.length === 0) throw new RangeError('no temperatures');
  return (sum(all) + frictionCelsius) / all.length;
}

/** The friction factor that a real mix shows, Celsius degrees. `all` holds every temperature, that of the water included. */
export function frictionFromMix(actualCelsius: number, all: readonly number[]): number {
  return all.length * actualCelsius - sum(all);
}

/** How much warmer mixing makes the dough: the friction factor is that much for each factor of the sum. */
export function riseOf(frictionCelsius: number, factors: number): number {
  return frictionCelsius / factors;
}

/** The friction factor of a mixer that warms the dough by so much, for a sum of so many factors. */
export function frictionFor(riseCelsius: number, factors: number): number {
  return riseCelsius * factors;
}

/** A friction factor measured with one number of factors, for a sum with another: 12 in a sum of three is 16 in a sum of four. */
export function rescaleFriction(frictionCelsius: number, fromFactors: number, toFactors: number): number {
  return frictionFor(riseOf(frictionCelsius, fromFactors), toFactors);
}

/** The French form of the rule: flour + room + water come to a base temperature that the bakery has settled on. */
export function waterFromBase(baseCelsius: number, flourCelsius: number, roomCelsius: number): number {
  return baseCelsius - flourCelsius - roomCelsius;
}

/** The base temperature that stands for a desired dough temperature and a friction factor of three factors. */
export function baseFor(desiredCelsius: number, frictionCelsius: number): number {
  return 3 * desiredCelsius - frictionCelsius;
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
