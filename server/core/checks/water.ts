/** What checks on the water of a dough share. */
import type { ResolvedPart } from '../formula/model';
import { mixingOf, type DoughTemperature } from '../temperature';
import type { CheckContext } from './check';
import { soundTotals } from './define';

export interface WaterNeeded {
  readonly dough: ResolvedPart;
  readonly temperature: DoughTemperature;
  readonly desiredCelsius: number;
  /** What the water would have to be, C, and how far from that it may be while nobody has measured the mixer. */
  readonly celsius: number;
  readonly leewayCelsius: number;
}

/** Less than this of the dough is no lever: eggs, butter and preferment decide, and how warm those are nobody says. */
const LEAST_SHARE = 0.15;
/** Specific heat of a dough over that of water. */
const DOUGH_TO_WATER = 0.65;

/** The water that the dough wanted would take; undefined where nothing is wanted, or it cannot be said with any confidence. */
export function waterNeeded(context: CheckContext): WaterNeeded | undefined {
  const { formula, reports } = context;
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  const temperature = soundTotals(context) === undefined ? null : reports.temperature();
  if (formula === undefined || dough === undefined || temperature === null || temperature.desiredCelsius === null) {
    return undefined;
  }
  const celsius = temperature.method === 'factors' ? temperature.waterCelsius : temperature.waterHeatBalanceCelsius;
  const { mixedGrams } = temperature;
  const liquid = dough.lines.filter((line) => line.inDough && line.name === temperature.liquid).reduce((sum, line) => sum + (line.grams ?? 0), 0);
  if (celsius === null || mixedGrams === null || liquid < mixedGrams * LEAST_SHARE) {
    return undefined;
  }
  const { rise } = mixingOf(formula);
  const unsure = temperature.frictionMeasured ? 0 : Math.max(rise.high - rise.mid, rise.mid - rise.low);
  return { dough, temperature, desiredCelsius: temperature.desiredCelsius, celsius, leewayCelsius: (unsure * mixedGrams * DOUGH_TO_WATER) / liquid };
}
