/** Temperatures of a card: Celsius first, Fahrenheit in brackets, an oven's to the 5 degrees of its dial. */
import type { Temperature } from '../../../grammar';
import { fahrenheit } from '../../core/units/temperature';
import { decimals } from '../numbers';

/** From here on it is an oven, whose dial goes by fives, C. */
const OVEN_FROM_CELSIUS = 120;

/** `25 °C (77 °F)`, `245 °C (475 °F)`, `240 to 250 °C (465 to 480 °F)`; the other scale than `unit` is rounded. */
export function degrees(lowCelsius: number, highCelsius = lowCelsius, unit: 'C' | 'F' = 'C'): string {
  const inCelsius = range(shown(lowCelsius, lowCelsius, unit === 'C'), shown(highCelsius, highCelsius, unit === 'C'));
  const inFahrenheit = range(shown(fahrenheit(lowCelsius), lowCelsius, unit === 'F'), shown(fahrenheit(highCelsius), highCelsius, unit === 'F'));
  return `${inCelsius} °C (${inFahrenheit} °F)`;
}

/** As written in a step; `room` and `fridge` with what they are, where the formula says it. */
export function temperatureWords(temperature: Temperature, { roomCelsius, fridgeCelsius }: { readonly roomCelsius: number | null; readonly fridgeCelsius: number | null }): string {
  switch (temperature.kind) {
    case 'degrees':
      return `at ${degrees(temperature.lowCelsius, temperature.highCelsius, temperature.unit)}`;
    case 'room':
      return `at room temperature${roomCelsius === null ? '' : `, ${degrees(roomCelsius)}`}`;
    case 'fridge':
      return `in the fridge${fridgeCelsius === null ? '' : `, ${degrees(fridgeCelsius)}`}`;
  }
}

/** Our own sentences with every `32 C` in both scales; one that is said in both already stays. */
export function inBothScales(sentence: string): string {
  return sentence.replace(/(\d+(?:\.\d+)?) °?C\b( \((\d+) °?F\))?/g, (_all, celsius: string, _other, said: string | undefined) => (
    said === undefined ? degrees(Number(celsius)) : `${celsius} °C (${said} °F)`
  ));
}

function shown(value: number, celsius: number, isWritten: boolean): string {
  if (isWritten) return decimals(value, 1);
  return decimals(celsius >= OVEN_FROM_CELSIUS ? Math.round(value / 5) * 5 : value, 0);
}

function range(low: string, high: string): string {
  return low === high ? low : `${low} to ${high}`;
}
