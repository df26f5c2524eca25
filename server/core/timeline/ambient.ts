/** How warm it is where a step happens. */
import type { StepKind, Temperature } from '../../../grammar';
import type { PlacedStep, ResolvedFormula, ResolvedPart } from '../formula/model';

const COLD_KINDS: readonly StepKind[] = ['retard', 'chill'];
/** Their temperature is not that of the room, so nothing is known of it unless it is written. */
const HEATED_OR_FROZEN_KINDS: readonly StepKind[] = ['preheat', 'boil', 'steam', 'bake', 'fry', 'freeze'];

/**
 * Celsius, the middle of a range: what the step says; for one inside another, what holds there; the fridge for cold
 * steps; what the part wants (`levain at 24 C`) and then the room for the others. Null where none of these is said.
 */
export function ambientOf(
  step: PlacedStep,
  part: ResolvedPart | undefined,
  formula: ResolvedFormula,
  outerCelsius: number | null | undefined,
): number | null {
  const { temperature, step: kind } = step.node;
  if (temperature) return celsiusOf(temperature, formula);
  if (outerCelsius !== undefined) return outerCelsius;
  if (COLD_KINDS.includes(kind)) return formula.fridgeCelsius;
  if (HEATED_OR_FROZEN_KINDS.includes(kind)) return null;
  return part?.desiredCelsius ?? formula.roomCelsius;
}

function celsiusOf(temperature: Temperature, formula: ResolvedFormula): number | null {
  switch (temperature.kind) {
    case 'degrees':
      return (temperature.lowCelsius + temperature.highCelsius) / 2;
    case 'room':
      return formula.roomCelsius;
    case 'fridge':
      return formula.fridgeCelsius;
  }
}

/** Whether a step of this kind stands in the room when it says no temperature. */
export function standsInTheRoom(kind: StepKind): boolean {
  return !COLD_KINDS.includes(kind) && !HEATED_OR_FROZEN_KINDS.includes(kind);
}
