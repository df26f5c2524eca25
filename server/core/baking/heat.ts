/** Boiling at a height, cores of loaves, and cooling. */
import { mapRange, rangeOf, type Range } from '../estimate';
import { hoursUntil } from '../temperature';
import { ANTOINE_WATER, ATMOSPHERE, COOLING_LOAF_GRAMS, COOLING_MINUTES } from './constants';

/** Air pressure at a height, Pa, by the standard atmosphere. Heights below sea level count as they are. */
export function pressurePascal(altitudeMetres: number): number {
  return ATMOSPHERE.seaLevelPascal * (1 - ATMOSPHERE.lapse * altitudeMetres) ** ATMOSPHERE.exponent;
}

/** Where water boils at a height, C: within 0.2 C of published tables up to 3000 m. NaN above the atmosphere. */
export function boilingCelsius(altitudeMetres: number): number {
  const mmHg = pressurePascal(altitudeMetres) / ANTOINE_WATER.pascalPerMmHg;
  return ANTOINE_WATER.b / (ANTOINE_WATER.a - Math.log10(mmHg)) - ANTOINE_WATER.c;
}

/** How much lower water boils there than at sea level; cores of loaves stand still that much lower too. */
export function boilingDrop(altitudeMetres: number): number {
  return boilingCelsius(0) - boilingCelsius(altitudeMetres);
}

/** Minutes until a loaf's core is down to a temperature; null when it never is. First order, like all cooling in a room. */
export function coolingMinutes(startCelsius: number, roomCelsius: number, targetCelsius: number, timeConstantMinutes: number): number | null {
  const hours = hoursUntil(targetCelsius, startCelsius, roomCelsius, timeConstantMinutes / 60);
  return hours === null ? null : hours * 60;
}

/** How slowly a loaf cools by its weight, min: from the one that is published, by mass to the power 2/3. */
export function coolingConstantMinutes(bakedGrams: number): Range {
  const scale = (Math.max(0, bakedGrams) / COOLING_LOAF_GRAMS.value) ** (2 / 3);
  return mapRange(rangeOf(COOLING_MINUTES), (minutes) => minutes * scale);
}
