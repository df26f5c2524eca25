/** Temperature: everything is computed in degrees Celsius. A reading and a difference convert differently. */

/** A reading in Celsius: 75 F is 23.9 C. By definition of the two scales (32 F = 0 C, 9 F degrees = 5 C degrees). */
export function celsius(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9;
}

/** A reading in Fahrenheit. */
export function fahrenheit(celsius: number): number {
  return (celsius * 9) / 5 + 32;
}

/** A difference in Celsius degrees: a friction of 22 F is 12.2 C. */
export function celsiusDegrees(fahrenheitDegrees: number): number {
  return (fahrenheitDegrees * 5) / 9;
}

/** A difference in Fahrenheit degrees. */
export function fahrenheitDegrees(celsiusDegrees: number): number {
  return (celsiusDegrees * 9) / 5;
}

/** Nothing is colder. By definition of the kelvin. */
export const ABSOLUTE_ZERO_CELSIUS = -273.15;
