/**
 * Fermentation on a day that is not as the formula has it: another room, a dough that came out warmer or colder, a kitchen of its
 * own pace. A model: every answer carries its range, and the baker watches the dough.
 */
import type { StepKind } from '../../../grammar';
import { BEYOND_THE_EDGE, cultureOf, equalLength, hoursOf, journeyOf, organismOf, plannedCelsius, uncertaintyAt, type Organism } from '../fermentation';
import type { PlacedStep, ResolvedFormula, ResolvedPart } from '../formula/model';
import { relaxedCelsius, startCelsius, timeConstantHours } from '../temperature';
import { formatDurations } from './clock';
import type { Conditions } from './model';
import { labelOf } from './names';
import { surroundingsOf, type Surroundings } from './surroundings';

export interface AdaptedLength {
  /** In whole minutes: from an hour on in steps of five, from six hours on in quarters of an hour. */
  readonly lowMinutes: number;
  readonly highMinutes: number;
  /** `5 h 10 min instead of 4 h: the room is at 21 C, not 25 C (4 h 10 min to 6 h 10 min; watch the dough)` */
  readonly why: string;
}

/** What a day does to one step. */
export interface Adaptation {
  readonly step: PlacedStep;
  /** Undefined where the length stays as it is written. */
  readonly length: AdaptedLength | undefined;
  /** Why nothing could be said of a step that the day ought to change, in a plain sentence. */
  readonly note: string | undefined;
}

/**
 * The length of a step under these conditions; undefined where it stays as it is: nothing differs, the step is in the cold or in a
 * box of its own, or nothing can be known (`conditionNotes` says which).
 *
 * `bulk`, `proof` and `ripen` change, and the `rest` of a preferment, which is its ripening; the rest of a dough is for the gluten.
 * The whole written range changes. A measured dough temperature is that of the dough out of the mixer. The pace divides.
 *
 * @param part the part that the step is written in; undefined for the method
 */
export function adaptedLength(step: PlacedStep, part: ResolvedPart | undefined, formula: ResolvedFormula, conditions: Conditions): AdaptedLength | undefined {
  const index = part === undefined ? -1 : formula.parts.indexOf(part);
  const found = index < 0 || index === formula.dough ? doughOn(formula, conditions) : partOn(formula, index, conditions);
  return found.find((one) => one.step === step)?.length;
}

/** What has to be said of the steps that these conditions ought to change and do not. Plain sentences, each once. */
export function conditionNotes(formula: ResolvedFormula, conditions: Conditions): readonly string[] {
  const parts = formula.parts.flatMap((_, index) => (index === formula.dough ? [] : partOn(formula, index, conditions)));
  return [...new Set([...parts, ...doughOn(formula, conditions)].flatMap(({ note }) => note ?? []))];
}

/** How long the first bulk would take, in minutes, not rounded; null where that cannot be said. For a bake that was measured. */
export function bulkMinutesUnder(formula: ResolvedFormula, conditions: MeasuredConditions): { readonly low: number; readonly high: number } | null {
  const bulk = walkDough(formula, conditions).find(({ leg }) => leg.step.node.step === 'bulk');
  switch (bulk?.outcome.kind) {
    case 'length':
      return { low: bulk.outcome.low, high: bulk.outcome.high };
    case 'none':
      return bulk.leg.hours && { low: 60 * bulk.leg.hours.low, high: 60 * bulk.leg.hours.high };
    case 'unknown':
    case undefined:
      return null;
  }
}

export interface MeasuredConditions extends Conditions {
  /** Where the bulk stood, C, when it was not in the room. */
  readonly bulkCelsius?: number;
}

// --- the way of a dough and of a preferment -------------------------------------------------------------------------

const FERMENTS: ReadonlySet<StepKind> = new Set<StepKind>(['bulk', 'proof', 'ripen']);

interface Leg {
  readonly step: PlacedStep;
  /** What a note calls it: `bulk`, `ripening of the levain`. */
  readonly what: string;
  readonly hours: { readonly low: number; readonly high: number } | null;
  readonly surroundings: Surroundings;
  readonly timeConstantHours: number;
  readonly ferments: boolean;
}

/** As the formula has it, and today. */
interface Way {
  readonly organism: Organism | null;
  readonly legs: readonly Leg[];
  readonly writtenStart: number | null;
  readonly todayStart: number | null;
}

function doughOn(formula: ResolvedFormula, conditions: Conditions): readonly Adaptation[] {
  return walkDough(formula, conditions).map((walked) => adaptationOf(walked, formula, conditions));
}

function partOn(formula: ResolvedFormula, index: number, conditions: Conditions): readonly Adaptation[] {
  const part = formula.parts[index];
  // Measured is the dough, not what goes into it.
  const { doughCelsius: _, ...own } = conditions;
  return part === undefined || !part.isPreferment ? [] : walk(wayOfPart(formula, part, index, own), own).map((walked) => adaptationOf(walked, formula, own));
}

function walkDough(formula: ResolvedFormula, conditions: MeasuredConditions): readonly Walked[] {
  const { organism } = cultureOf(formula);
  const { roomCelsius, doughCelsius, bulkCelsius } = conditions;
  const journey = journeyOf(formula);
  const legs = journey.legs.map((leg): Leg => {
    const surroundings = surroundingsOf(leg.step, undefined, formula, roomCelsius);
    const isMeasured = bulkCelsius !== undefined && leg.kind === 'bulk';
    return {
      step: leg.step,
      what: nounOf(leg.step),
      hours: leg.hours,
      surroundings: isMeasured ? { ...surroundings, todayCelsius: bulkCelsius, by: 'room' } : surroundings,
      timeConstantHours: leg.timeConstantHours?.mid ?? 0,
      ferments: FERMENTS.has(leg.kind),
    };
  });
  const writtenStart = journey.startCelsius;
  const byRoom = writtenStart === null || roomCelsius === undefined ? writtenStart : journeyOf({ ...formula, roomCelsius }).startCelsius;
  return walk({ organism, legs, writtenStart, todayStart: doughCelsius ?? byRoom }, conditions);
}

function wayOfPart(formula: ResolvedFormula, part: ResolvedPart, index: number, { roomCelsius }: Conditions): Way {
  const legs = part.steps.filter(({ node }) => node.step !== 'preheat').map((step): Leg => ({
    step,
    what: `${nounOf(step)} of the ${part.name}`,
    hours: hoursOf(step),
    surroundings: surroundingsOf(step, part, formula, roomCelsius),
    timeConstantHours: part.grams === null ? 0 : timeConstantHours(part.grams).mid,
    ferments: FERMENTS.has(step.node.step) || step.node.step === 'rest',
  }));
  const writtenStart = startCelsius(formula, part, index);
  const todayStart = writtenStart === null || roomCelsius === undefined ? writtenStart : startCelsius({ ...formula, roomCelsius }, part, index);
  return { organism: organismOf(formula, part), legs, writtenStart, todayStart };
}

// --- along the legs -------------------------------------------------------------------------------------------------

type Outcome =
  /** In minutes, not rounded. `edge`: reckoned at the edge of what is known, C. `share`: how sure it is. */
  | { readonly kind: 'length'; readonly low: number; readonly high: number; readonly edge: number | undefined; readonly share: number }
  | { readonly kind: 'none' }
  | { readonly kind: 'unknown'; readonly note: string };

interface Walked {
  readonly leg: Leg;
  /** The dough as this leg begins, C. */
  readonly writtenStart: number | null;
  readonly todayStart: number | null;
  readonly isFirst: boolean;
  readonly outcome: Outcome;
}

function walk({ organism, legs, writtenStart, todayStart }: Way, conditions: Conditions): readonly Walked[] {
  let written = writtenStart;
  let today = todayStart;
  let isFirst = true;
  // A pace alone is no weather: the dough is as warm as ever, and every length is divided.
  const isSameDay = writtenStart === todayStart && legs.every(({ surroundings }) => surroundings.writtenCelsius === surroundings.todayCelsius);
  return legs.map((leg): Walked => {
    const outcome = leg.ferments ? outcomeOf(leg, organism, written, today, conditions) : { kind: 'none' as const };
    const walked: Walked = { leg, writtenStart: written, todayStart: today, isFirst, outcome };
    const hours = leg.hours && (leg.hours.low + leg.hours.high) / 2;
    const todayHours = outcome.kind === 'length' ? (outcome.low + outcome.high) / 120 : hours;
    written = after(written, leg.surroundings.writtenCelsius, hours, leg.timeConstantHours);
    today = isSameDay ? written : after(today, leg.surroundings.todayCelsius, todayHours, leg.timeConstantHours);
    if (leg.ferments) isFirst = false;
    return walked;
  });
}

function after(celsius: number | null, ambient: number | null, hours: number | null, timeConstant: number): number | null {
  if (ambient === null) return celsius;
  return celsius === null || hours === null ? ambient : relaxedCelsius(celsius, ambient, hours, timeConstant);
}

function outcomeOf(leg: Leg, organism: Organism | null, writtenStart: number | null, todayStart: number | null, conditions: Conditions): Outcome {
  const { hours, surroundings: { writtenCelsius: ambient, todayCelsius: ambientToday, by }, timeConstantHours: slow, step, what } = leg;
  const pace = paceIn(conditions);
  const isChanged = ambient !== ambientToday || (writtenStart ?? ambient) !== (todayStart ?? ambientToday);
  if (pace === 1 && (!isChanged || by === 'cold')) return { kind: 'none' };
  if (organism === null) return { kind: 'unknown', note: `What ferments it is not known, so the ${what} stays as it is written.` };
  if (hours === null) return { kind: 'unknown', note: `The ${what} has no length to change. Write one, with its temperature: \`${step.node.step} 4 h at 24 C\`.` };
  const minutes = (low: number, high: number, edge: number | undefined): Outcome => ({
    kind: 'length', low: (60 * low) / pace, high: (60 * high) / pace, edge, share: uncertaintyAt(...[ambient, ambientToday].flatMap((one) => one ?? [])),
  });
  if (!isChanged || by === 'cold') return minutes(hours.low, hours.high, undefined);
  if (ambient === null || ambientToday === null) {
    return pace !== 1 ? minutes(hours.low, hours.high, undefined) : {
      kind: 'unknown', note: `Nothing says how warm it was for the length of the ${what}, so it stays as it is written. Write \`room 22 C\` under the formula, with your own figure.`,
    };
  }
  const known = plannedCelsius(organism);
  const beyond = [ambient, ambientToday, writtenStart, todayStart].find((one) => one !== null && (one < known.from - BEYOND_THE_EDGE.value || one > known.to + BEYOND_THE_EDGE.value));
  if (beyond !== undefined && beyond !== null) {
    return {
      kind: 'unknown',
      note: `The ${what} stays as it is written: it would be at ${degrees(beyond)}, and the pace of ${organism} is known from ${degrees(known.from)} to ${degrees(known.to)}. Watch the dough, not the clock.`,
    };
  }
  const inside = (celsius: number): number => Math.min(known.to, Math.max(known.from, celsius));
  const from = { startCelsius: inside(writtenStart ?? ambient), ambientCelsius: inside(ambient), timeConstantHours: slow };
  const to = { startCelsius: inside(todayStart ?? ambientToday), ambientCelsius: inside(ambientToday), timeConstantHours: slow };
  const low = equalLength(organism, hours.low, from, to);
  const high = equalLength(organism, hours.high, from, to);
  if (low === null || high === null) return { kind: 'unknown', note: `How the day changes the ${what} cannot be worked out, so it stays as it is written. Watch the dough, not the clock.` };
  return minutes(low, high, to.ambientCelsius === ambientToday ? undefined : to.ambientCelsius);
}

// --- in words -------------------------------------------------------------------------------------------------------

function adaptationOf(walked: Walked, formula: ResolvedFormula, conditions: Conditions): Adaptation {
  const { leg: { step, hours }, outcome } = walked;
  if (outcome.kind === 'unknown') return { step, length: undefined, note: outcome.note };
  const note = heldNote(walked, formula, conditions);
  if (outcome.kind === 'none' || hours === null) return { step, length: undefined, note };
  const [lowMinutes, highMinutes] = [rounded(outcome.low), rounded(outcome.high)];
  const written = { low: hours.low * 60, high: hours.high * 60 };
  if (lowMinutes === rounded(written.low) && highMinutes === rounded(written.high)) return { step, length: undefined, note };
  const least = rounded(outcome.low * (1 - outcome.share));
  const most = rounded(outcome.high * (1 + outcome.share));
  const why = `${formatDurations(lowMinutes, highMinutes)} instead of ${formatDurations(written.low, written.high)}: ${causes(walked, formula, conditions)} (${formatDurations(least, most)}; watch the dough)`;
  return { step, length: { lowMinutes, highMinutes, why }, note };
}

/** Of a step that the room would change if it stood in the room. */
function heldNote({ leg: { what, surroundings: { by, writtenCelsius }, ferments } }: Walked, { roomCelsius: room }: ResolvedFormula, conditions: Conditions): string | undefined {
  if (!ferments || by !== 'held' || writtenCelsius === null || conditions.roomCelsius === undefined || conditions.roomCelsius === room) return undefined;
  const than = room === null ? 'no usual room' : `not the formula's room of ${degrees(room)}`;
  return `The ${what} keeps its ${degrees(writtenCelsius)}: that is ${than}, so it is taken to stand in a box or a cellar that today's room does not touch.`;
}

function causes({ leg: { surroundings }, writtenStart, todayStart, isFirst, outcome }: Walked, formula: ResolvedFormula, conditions: Conditions): string {
  const { writtenCelsius, todayCelsius, by } = surroundings;
  const said: string[] = [];
  const { roomCelsius, doughCelsius } = conditions;
  const isWarmer = by === 'room' && writtenCelsius !== todayCelsius;
  if (isWarmer && roomCelsius !== undefined) {
    const edge = outcome.kind === 'length' && outcome.edge !== undefined ? `, reckoned as ${degrees(outcome.edge)}, beyond which no pace is known` : '';
    said.push(`the room is at ${degrees(roomCelsius)}, not ${degrees(formula.roomCelsius ?? writtenCelsius ?? roomCelsius)}${edge}`);
  }
  const [start, startToday] = [writtenStart ?? writtenCelsius, todayStart ?? todayCelsius];
  if (start !== null && startToday !== null && degrees(start) !== degrees(startToday)) {
    if (isFirst && doughCelsius !== undefined) said.push(`the dough came from the mixer at ${degrees(startToday)}, not ${degrees(start)}`);
    else if (!isWarmer) said.push(`the dough goes in at ${degrees(startToday)}, not ${degrees(start)}`);
  }
  const pace = paceIn(conditions);
  if (pace !== 1) said.push(`your own pace is ${figure(pace, 2)} times the formula's`);
  return said.join('; ');
}

/** What is no pace counts as the formula's own. */
function paceIn({ pace = 1 }: Conditions): number {
  return Number.isFinite(pace) && pace > 0 ? pace : 1;
}

/** To five minutes from an hour on, to a quarter of an hour from six hours on: nobody watches a dough to the minute. */
function rounded(minutes: number): number {
  const step = minutes < 60 ? 1 : minutes < 360 ? 5 : 15;
  return step * Math.round(minutes / step);
}

function nounOf(step: PlacedStep): string {
  return step.node.step === 'ripen' ? 'ripening' : labelOf(step);
}

function degrees(celsius: number): string {
  return `${figure(celsius, 1)} C`;
}

function figure(value: number, digits: number): string {
  return String(Number(value.toFixed(digits)));
}
