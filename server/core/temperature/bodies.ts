/** The lines of a formula as bodies in the bowl: their mass, specific heat and temperature. */
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { ambientOf } from '../timeline/ambient';
import { SPECIFIC_HEAT } from './constants';
import { iceAsWaterCelsius, mixedCelsius, specificHeatOf, specificHeatOfFerment, type Body } from './heat-balance';
import { relaxedCelsius, timeConstantHours } from './relaxation';

/** A line as a body; what is not known of it is null. */
export interface LineBody {
  readonly line: ResolvedLine;
  readonly grams: number | null;
  readonly specificHeat: number;
  readonly celsius: number | null;
  /** Nothing says how warm it is, and the room was taken. */
  readonly atRoom: boolean;
}

/** Flour lines go by the `flour` line of the formula, parts by what happens to them before, all else by the room. */
export function bodyOf(formula: ResolvedFormula, line: ResolvedLine, seen: ReadonlySet<number> = new Set()): LineBody {
  const { grams } = line;
  const common = { line, grams, specificHeat: heatOfLine(formula, line, seen), atRoom: false };
  if (isIce(line)) return { ...common, celsius: iceAsWaterCelsius(line.celsius ?? 0) };
  if (line.celsius !== null) return { ...common, celsius: line.celsius };
  if (line.part !== undefined) return { ...common, celsius: celsiusOfPart(formula, line.part, seen) };
  if (line.role === 'flour' && formula.flourCelsius !== null) return { ...common, celsius: formula.flourCelsius };
  return { ...common, celsius: formula.roomCelsius, atRoom: true };
}

/** All of them with mass and temperature, or null if one lacks either. A line of no weight is left out. */
export function bodiesOf(bodies: readonly LineBody[]): readonly Body[] | null {
  const known: Body[] = [];
  for (const { grams, specificHeat, celsius } of bodies) {
    if (grams === 0) continue;
    if (grams === null || celsius === null) return null;
    known.push({ grams, specificHeat, celsius });
  }
  return known;
}

/** The temperature by weight, null if one is not known or there is none. */
export function meanCelsius(bodies: readonly LineBody[]): number | null {
  let grams = 0;
  let sum = 0;
  for (const body of bodies) {
    if (body.grams === null || body.celsius === null) return null;
    grams += body.grams;
    sum += body.grams * body.celsius;
  }
  return grams > 0 ? sum / grams : null;
}

/** The word `ice` by itself or with cubes, not iced water: the catalogue has one entry for all water. */
export function isIce(line: ResolvedLine): boolean {
  return line.ingredient?.isWater === true && /^(crushed |flaked? )?ice( cubes?| flakes?)?$/i.test(line.name.trim());
}

/**
 * How warm a part is when it is taken in, C: its lines settle by heat balance, and then it takes on the temperature of each
 * of its steps as fast as its mass lets it. A levain of 8 h is as warm as where it ripens; a scald of 1 h is not yet.
 * A step without a length is taken as long enough. A part without steps is as it was put together, a preferment without
 * them as warm as it is wanted, or as the room. Null where a temperature is missing.
 */
export function celsiusOfPart(formula: ResolvedFormula, index: number, seen: ReadonlySet<number> = new Set()): number | null {
  const part = formula.parts[index];
  if (!part || seen.has(index)) return null;
  const timeConstant = timeConstantHours(part.grams ?? 0).mid;
  const resting = part.steps.filter((step) => step.node.step !== 'preheat');
  if (resting.length === 0 && part.isPreferment) return part.desiredCelsius ?? formula.roomCelsius;
  return resting.reduce<number | null>((celsius, step) => {
    const ambient = ambientOf(step, part, formula, undefined);
    const { duration } = step.node;
    if (ambient === null) return HANDLING.has(step.node.step) ? celsius : null;
    if (!duration || part.grams === null) return HANDLING.has(step.node.step) ? celsius : ambient;
    if (celsius === null) return part.isPreferment ? ambient : null;
    return relaxedCelsius(celsius, ambient, (duration.lowMinutes + duration.highMinutes) / 120, timeConstant);
  }, startCelsius(formula, part, index, seen));
}

/** The temperature at which a part comes out of the mixing, before it rests, C. Null where something is not known. */
export function startCelsius(formula: ResolvedFormula, part: ResolvedPart, index: number, seen: ReadonlySet<number> = new Set()): number | null {
  const inside = new Set([...seen, index]);
  const bodies = bodiesOf(part.lines.filter((line) => line.inDough).map((line) => bodyOf(formula, line, inside)));
  return bodies === null || bodies.length === 0 ? null : mixedCelsius(bodies);
}

const HANDLING: ReadonlySet<string> = new Set(['mix', 'knead', 'whisk', 'fold', 'divide', 'shape']);

/** J per gram and kelvin. Flour goes by the trade's figure, a culture by its hydration, a part by what is in it. */
function heatOfLine(formula: ResolvedFormula, line: ResolvedLine, seen: ReadonlySet<number>): number {
  if (line.starterHydrationPct !== undefined) return specificHeatOfFerment(line.starterHydrationPct / 100);
  if (line.part !== undefined) return heatOfPart(formula, line.part, seen);
  if (line.ingredient?.isWater) return SPECIFIC_HEAT.water.value;
  if (line.role === 'flour' || !line.ingredient) return line.role === 'liquid' ? SPECIFIC_HEAT.water.value : SPECIFIC_HEAT.flour.value;
  return specificHeatOf(line.ingredient.composition);
}

function heatOfPart(formula: ResolvedFormula, index: number, seen: ReadonlySet<number>): number {
  const part = formula.parts[index];
  if (!part || seen.has(index)) return SPECIFIC_HEAT.dough.value;
  const inside = new Set([...seen, index]);
  let grams = 0;
  let capacity = 0;
  for (const line of part.lines) {
    if (!line.inDough || line.grams === null) continue;
    grams += line.grams;
    capacity += line.grams * heatOfLine(formula, line, inside);
  }
  return grams > 0 ? capacity / grams : SPECIFIC_HEAT.dough.value;
}
