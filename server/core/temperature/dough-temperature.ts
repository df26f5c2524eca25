/** The two questions of dough temperature, asked of a formula: what water for this dough, and what dough from this water. */
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { bodiesOf, bodyOf, isIce, meanCelsius, type LineBody } from './bodies';
import { sharesInBowl } from './bowl';
import { MOST_ICE_SHARE, TAP_CELSIUS, YEAST_SAFE_CELSIUS } from './constants';
import { doughByFactors, frictionFor, riseOf, waterByFactors } from './factor-method';
import { celsiusNeeded, mixedCelsius } from './heat-balance';
import { iceFor } from './ice';
import { mixingOf } from './mixing';

/** How a water temperature stands to what a kitchen can do and what yeast can bear. */
export type WaterVerdict = 'fine' | 'too hot for yeast' | 'needs ice' | 'cannot be';

export interface DoughTemperature {
  /** What the dough head asks for, C. */
  readonly desiredCelsius: number | null;
  /** What the temperatures below are of: `water`, or the liquid that stands in for it (`milk`). Null where there is none. */
  readonly liquid: string | null;
  /** Of the water whose temperature is not written (of all water, where all of it is written), by the factor method, C. */
  readonly waterCelsius: number | null;
  /** The same by heat balance, C. */
  readonly waterHeatBalanceCelsius: number | null;
  /** The one to go by: the rule where the friction was measured, the balance where it was not. */
  readonly method: 'factors' | 'heat balance';
  readonly verdict: WaterVerdict | null;
  /** Ice in place of as much of that water, g, by `method`; 0 where none is needed; null where it is not known, or no ice could do it. */
  readonly iceGrams: number | null;
  /** The dough from the temperatures that the lines state, C; null unless every line of the water states one. */
  readonly expectedCelsius: { readonly factors: number | null; readonly heatBalance: number | null };
  /** Three, or four with a preferment or starter. */
  readonly factors: number;
  /** Friction factor used, for that number of factors, Celsius degrees. */
  readonly frictionCelsius: number;
  readonly frictionMeasured: boolean;
  /** What is in the bowl when mixing ends, g; what is rolled, folded or filled in later is not. Null where a weight is not known. */
  readonly mixedGrams: number | null;
  /** What was taken for granted, in a baker's words. */
  readonly assumptions: readonly string[];
}

/** At least so much water in a liquid that stands in for water where a dough has none, %. */
const MOSTLY_WATER_PCT = 80;
/** Below this share of the dough a line cannot move its temperature by half a degree. */
const SMALL_SHARE = 0.05;

/** Null for a formula with no dough. Numbers that need something not written are null, never guessed without an assumption that says so. */
export function doughTemperature(formula: ResolvedFormula): DoughTemperature | null {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (!dough || formula.kind === 'dish') return null;
  const shares = sharesInBowl(formula);
  const bodies = dough.lines.flatMap((line): readonly LineBody[] => {
    const share = shares.get(line) ?? 1;
    if (!line.inDough || share <= 0) return [];
    const body = bodyOf(formula, line);
    return [share === 1 ? body : { ...body, grams: body.grams === null ? null : body.grams * share }];
  });
  const later = dough.lines.filter((line) => line.inDough && (shares.get(line) ?? 1) < 1);
  const waters = waterOf(bodies);
  const unstated = waters.filter((body) => body.line.celsius === null && !isIce(body.line));
  const open = unstated.length > 0 ? unstated : waters.filter((body) => !isIce(body.line));
  const rest = bodies.filter((body) => !open.includes(body));
  const known = knownTemperatures(formula, bodies);
  const factors = known.length + 1;
  const mixing = mixingOf(formula);
  const frictionMeasured = formula.frictionCelsius !== null;
  const frictionCelsius = formula.frictionCelsius ?? frictionFor(mixing.rise.mid, factors);
  const riseCelsius = riseOf(frictionCelsius, factors);
  const desired = dough.desiredCelsius;
  const allStated = waters.length > 0 && unstated.length === 0;

  const byFactors = desired === null ? null : openByFactors(desired, known, frictionCelsius, waters, open);
  const byBalance = desired === null ? null : openByBalance(desired, rest, open, riseCelsius);
  const method = frictionMeasured ? 'factors' : 'heat balance';
  const needed = method === 'factors' ? (byFactors ?? byBalance) : (byBalance ?? byFactors);
  const ice = needed === null ? null : iceIn(needed, open, formula.tapCelsius);
  const settled = allStated || waters.length === 0 ? bodiesOf(bodies) : null;
  const meanWater = allStated ? meanCelsius(waters) : null;
  const temperatures = knownOnly([...known, meanWater]);
  return {
    desiredCelsius: desired,
    liquid: open[0]?.line.name ?? null,
    waterCelsius: byFactors,
    waterHeatBalanceCelsius: byBalance,
    method,
    verdict: needed === null ? null : verdictOf(needed, ice, open),
    iceGrams: ice !== null && ice <= (gramsOf(open) ?? 0) ? ice : null,
    expectedCelsius: {
      factors: temperatures === null ? null : doughByFactors(temperatures, frictionCelsius),
      heatBalance: settled === null || settled.length === 0 ? null : mixedCelsius(settled, riseCelsius),
    },
    factors,
    frictionCelsius,
    frictionMeasured,
    mixedGrams: gramsOf(bodies),
    assumptions: assumptionsOf({ formula, dough, bodies, later, open, mixing, factors, frictionMeasured, ice }),
  };
}

/** The water of the dough; where it has none, the watery liquids (milk, buttermilk) that take its place. */
function waterOf(bodies: readonly LineBody[]): readonly LineBody[] {
  const water = bodies.filter(({ line }) => line.ingredient?.isWater === true);
  if (water.length > 0) return water;
  return bodies.filter(({ line }) => {
    const inside = line.ingredient?.composition.water ?? 0;
    return (line.role === 'liquid' || line.role === 'dairy') && inside >= MOSTLY_WATER_PCT;
  });
}

/** Flour, room and, where there is one, the preferment: null where one of them is not known. */
function knownTemperatures(formula: ResolvedFormula, bodies: readonly LineBody[]): readonly (number | null)[] {
  const flours = bodies.filter(({ line }) => line.role === 'flour');
  const ferments = bodies.filter(({ line }) => isFerment(formula, line));
  return [
    flours.length > 0 ? meanCelsius(flours) : (formula.flourCelsius ?? formula.roomCelsius),
    formula.roomCelsius,
    ...(ferments.length > 0 ? [meanCelsius(ferments)] : []),
  ];
}

function isFerment(formula: ResolvedFormula, line: ResolvedLine): boolean {
  return line.starterHydrationPct !== undefined || (line.part !== undefined && formula.parts[line.part]?.isPreferment === true);
}

/** The rule gives one temperature for all the water; what is stated of part of it is taken out by weight. */
function openByFactors(
  desired: number,
  known: readonly (number | null)[],
  friction: number,
  waters: readonly LineBody[],
  open: readonly LineBody[],
): number | null {
  const temperatures = knownOnly(known);
  const stated = waters.filter((body) => !open.includes(body));
  const statedBodies = bodiesOf(stated);
  const openGrams = gramsOf(open);
  if (temperatures === null || statedBodies === null || !openGrams) return null;
  const all = waterByFactors(desired, temperatures, friction);
  return statedBodies.reduce((left, { grams, celsius }) => left + grams * (all - celsius), openGrams * all) / openGrams;
}

function openByBalance(desired: number, rest: readonly LineBody[], open: readonly LineBody[], rise: number): number | null {
  const grams = gramsOf(open);
  const bodies = bodiesOf(rest);
  if (!grams || bodies === null) return null;
  const capacity = open.reduce((sum, body) => sum + (body.grams ?? 0) * body.specificHeat, 0);
  return celsiusNeeded(desired, bodies, { grams, specificHeat: capacity / grams }, rise);
}

/** Only water can be frozen in part; null for another liquid that would have to be colder than the tap. */
function iceIn(needed: number, open: readonly LineBody[], tapCelsius: number = TAP_CELSIUS.value): number | null {
  const grams = gramsOf(open);
  if (!grams) return null;
  if (needed >= tapCelsius) return 0;
  return open.every(({ line }) => line.ingredient?.isWater === true) ? iceFor(grams, tapCelsius, needed) : null;
}

function verdictOf(needed: number, ice: number | null, open: readonly LineBody[]): WaterVerdict {
  if (needed > 100 || (ice !== null && ice > (gramsOf(open) ?? 0))) return 'cannot be';
  if (needed > YEAST_SAFE_CELSIUS.value) return 'too hot for yeast';
  if (ice === null) return needed < 0 ? 'cannot be' : 'fine';
  return ice > 0 ? 'needs ice' : 'fine';
}

function gramsOf(bodies: readonly LineBody[]): number | null {
  return bodies.reduce<number | null>((sum, { grams }) => (sum === null || grams === null ? null : sum + grams), 0);
}

function knownOnly(values: readonly (number | null)[]): readonly number[] | null {
  const known = values.filter((value) => value !== null);
  return known.length === values.length ? known : null;
}

interface Ground {
  readonly formula: ResolvedFormula;
  readonly dough: ResolvedPart;
  readonly bodies: readonly LineBody[];
  /** Lines of which some or all goes in after the mixing. */
  readonly later: readonly ResolvedLine[];
  readonly open: readonly LineBody[];
  readonly mixing: ReturnType<typeof mixingOf>;
  readonly factors: number;
  readonly frictionMeasured: boolean;
  readonly ice: number | null;
}

function assumptionsOf({ formula, dough, bodies, later, open, mixing, factors, frictionMeasured, ice }: Ground): readonly string[] {
  const said: string[] = [];
  if (formula.roomCelsius === null) said.push('The formula does not say how warm the room is, so what is not stated cannot be taken for as warm as the room.');
  else {
    const flours = bodies.filter(({ line, atRoom }) => line.role === 'flour' && atRoom);
    if (flours.length > 0) said.push(`The flour is taken as at room temperature, ${degrees(formula.roomCelsius)}.`);
    const others = bodies.filter(
      ({ line, atRoom, grams }) =>
        atRoom && line.role !== 'flour' && line.starterHydrationPct === undefined && (grams ?? 0) > SMALL_SHARE * (dough.grams ?? Infinity),
    );
    const names = others.filter((body) => !open.includes(body)).map(({ line }) => line.name);
    if (names.length > 0) said.push(`As warm as the room: ${[...new Set(names)].join(', ')}. Say \`at 5 C\` on a line that comes from the fridge.`);
  }
  for (const { line, celsius } of bodies) {
    if (line.part !== undefined && line.celsius === null && celsius !== null) said.push(`Goes in at ${degrees(celsius)}: ${line.name}.`);
  }
  if (later.length > 0) said.push(`Goes in after the mixing, so it does not count here: ${[...new Set(later.map(({ name }) => name))].join(', ')}.`);
  if (frictionMeasured) said.push(`The friction is taken as measured with ${factors === 4 ? 'four' : 'three'} factors.`);
  else {
    const howLong = mixing.method === 'by mixer' && mixing.minutes !== null ? ` for ${one(mixing.minutes)} min${mixing.rests ? ' with rests' : ''}` : '';
    const how = mixing.methodSaid ? `Mixing ${mixing.method}${howLong}` : 'Nothing says how the dough is mixed; by hand, mixing';
    const { low, mid, high } = mixing.rise;
    said.push(`${how} is taken to warm the dough by ${one(mid)} C (${one(low)} to ${one(high)}). Measure your own and write it as friction.`);
  }
  if (ice !== null && ice > 0) {
    const { value, low = value, high = value } = TAP_CELSIUS;
    said.push(formula.tapCelsius !== undefined
      ? `The tap gives ${degrees(formula.tapCelsius)} by the settings.`
      : `The tap is taken to give ${degrees(value)}, a guess: ${one(low)} to ${one(high)} are found. Measure yours and set "tapCelsius" in proofsheet.json.`);
    if (ice > MOST_ICE_SHARE.value * (gramsOf(open) ?? 0)) said.push('More than about half the water as ice does not melt in time.');
    else said.push('Crush the ice, so that it melts before mixing ends.');
  }
  return said;
}

function degrees(celsius: number): string {
  return `${one(celsius)} C`;
}

/** One decimal, none when it is zero. */
function one(value: number): string {
  return String(Math.round(value * 10) / 10);
}
