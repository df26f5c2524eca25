/** Where a step stands when the room is not the one that its formula was written for. */
import { COOL_CELSIUS, HELD_APART, USUAL_ROOM } from '../fermentation/constants';
import type { PlacedStep, ResolvedFormula, ResolvedPart } from '../formula/model';
import { ambientOf, standsInTheRoom } from './ambient';

export interface Surroundings {
  /** As the formula has it, C; null where nothing says it. */
  readonly writtenCelsius: number | null;
  /** Today, C. */
  readonly todayCelsius: number | null;
  /**
   * What ties the two: `room` where the step stands in the room, `cold` in a fridge or cellar, `held` in a box at a temperature of
   * its own, `unknown` where nothing says how warm it was.
   */
  readonly by: 'room' | 'cold' | 'held' | 'unknown';
}

/**
 * A step in the room goes with it: by as many degrees as today's room differs from the formula's, so that a warm corner stays a
 * warm corner and the formula's own room changes nothing. Without a room in the formula, the step's own temperature is taken for
 * it. What stands in the cold, or in a box far off the room, stays.
 *
 * @param part the preferment that the step is in; undefined for the method
 * @param roomCelsius today's room; undefined where it is as in the formula
 */
export function surroundingsOf(step: PlacedStep, part: ResolvedPart | undefined, formula: ResolvedFormula, roomCelsius: number | undefined): Surroundings {
  const written = ambientOf(step, part, formula, undefined);
  if (written === null) return { writtenCelsius: null, todayCelsius: isInTheRoom(step) ? (roomCelsius ?? null) : null, by: 'unknown' };
  const stays = (by: 'cold' | 'held'): Surroundings => ({ writtenCelsius: written, todayCelsius: written, by });
  const isCold = step.node.temperature?.kind === 'fridge' || (step.node.temperature === undefined && (step.node.step === 'retard' || step.node.step === 'chill'));
  if (isCold || written <= COOL_CELSIUS.value) return stays('cold');
  const room = formula.roomCelsius;
  const isHeld = room === null ? written < USUAL_ROOM.from || written > USUAL_ROOM.to : Math.abs(written - room) > HELD_APART.value + 1e-9;
  if (isHeld) return stays('held');
  const today = roomCelsius === undefined || roomCelsius === room ? written : room === null ? roomCelsius : written + (roomCelsius - room);
  return { writtenCelsius: written, todayCelsius: today, by: 'room' };
}

function isInTheRoom({ node: { temperature, step } }: PlacedStep): boolean {
  return temperature === undefined ? standsInTheRoom(step) : temperature.kind === 'room';
}
