/** A record against what its formula plans. */
import { bakingReport } from '../baking';
import { journeyOf } from '../fermentation';
import type { Place, PlacedStep, ResolvedFormula } from '../formula/model';
import { ambientOf } from '../timeline/ambient';
import { bulkMinutesUnder, type MeasuredConditions } from '../timeline/conditions';
import { isOven, meaningOf, withoutPlan } from './meaning';
import type { BakeRecord, ComparedRecord, Comparison, RecordedStep } from './model';

type Plan = Comparison['planned'];
type Finding = Omit<Comparison, 'difference' | 'meaning' | 'step'> & { readonly step?: Comparison['step']; readonly expected?: Plan };

/** Every figure of the record that can be compared, in the order of its lines. Whatever it says, the formula's totals stay. */
export function compareRecord(formula: ResolvedFormula, record: BakeRecord): ComparedRecord {
  const figures = [...ofProperties(formula, record), ...ofSteps(formula, record)].sort((a, b) => a.place.start - b.place.start);
  return { record, comparisons: figures.map(comparisonOf) };
}

/** What was not as the formula has it on the day of a record, for its bulk. */
export function conditionsOf(record: BakeRecord): MeasuredConditions {
  const bulkCelsius = record.steps.find(({ kind }) => kind === 'bulk')?.celsius ?? null;
  return {
    ...(record.roomCelsius && { roomCelsius: record.roomCelsius.value }),
    ...(record.doughCelsius && { doughCelsius: record.doughCelsius.value }),
    ...(bulkCelsius !== null && { bulkCelsius }),
  };
}

/** Share of the dough that the weighed loaves lost, %; null where their dough is not known. Negative when they weigh more. */
export function lossPctOf(formula: ResolvedFormula, { weighed }: BakeRecord): number | null {
  if (weighed === undefined) return null;
  const { grams, pieces } = weighed.value;
  const all = formula.yield.pieces;
  const each = formula.yield.pieceGrams;
  const dough = each === null ? null : pieces !== null ? each * pieces : all === null ? null : each * all;
  return dough === null || !(dough > 0) ? null : 100 * (1 - grams / dough);
}

function comparisonOf({ expected, step, ...figure }: Finding): Comparison {
  const { planned, was } = figure;
  const difference = planned === null ? null : outside(was, planned);
  const whole = { ...figure, step, difference };
  return { ...whole, meaning: planned === null ? withoutPlan(whole) : meaningOf(whole, expected ?? null) };
}

function outside(was: number, { low, high }: { readonly low: number; readonly high: number }): number {
  return was < low ? was - low : was > high ? was - high : 0;
}

function exact(value: number | null): Plan {
  return value === null ? null : { low: value, high: value };
}

function ofProperties(formula: ResolvedFormula, record: BakeRecord): readonly Finding[] {
  const degrees = (what: 'room' | 'fridge' | 'dough' | 'core', noted: BakeRecord['roomCelsius'], planned: Plan): readonly Finding[] =>
    noted === undefined ? [] : [{ what, place: noted.place, unit: 'C', planned, was: noted.value }];
  const baking = bakingReport(formula);
  const asked = baking.bakes.reduce<number | null>((last, { coreCelsius }) => coreCelsius ?? last, null);
  const journey = journeyOf(formula);
  const lossPct = lossPctOf(formula, record);
  const usual = baking.usualOvenLoss;
  const lost: Plan = formula.ovenLossSaid ? exact(100 * formula.ovenLoss) : usual && { low: 100 * usual.low, high: 100 * usual.high };
  return [
    ...degrees('room', record.roomCelsius, exact(formula.roomCelsius)),
    ...degrees('fridge', record.fridgeCelsius, exact(formula.fridgeCelsius)),
    ...degrees('dough', record.doughCelsius, journey.startBy === 'room' ? null : exact(journey.startCelsius)),
    ...degrees('core', record.coreCelsius, asked === null ? baking.usualCoreCelsius : exact(asked)),
    ...(record.weighed === undefined || lossPct === null ? [] : [{ what: 'loss' as const, place: record.weighed.place, unit: '%' as const, planned: lost, was: lossPct }]),
    ...(record.ph === undefined ? [] : [{ what: 'ph' as const, place: record.ph.place, unit: '' as const, planned: null, was: record.ph.value }]),
  ];
}

// --- steps ----------------------------------------------------------------------------------------------------------

/** A step of the formula with what it plans. */
interface PlannedStep {
  readonly step: PlacedStep;
  readonly minutes: Plan;
  readonly celsius: number | null;
  readonly volumePct: number | null;
}

function ofSteps(formula: ResolvedFormula, record: BakeRecord): readonly Finding[] {
  const planned = plannedSteps(formula);
  const taken = new Map<string, number>();
  return record.steps.flatMap((recorded): readonly Finding[] => {
    const { kind } = recorded;
    const order = taken.get(kind) ?? 0;
    taken.set(kind, order + 1);
    const ofKind = planned.filter(({ step }) => step.node.step === kind);
    const isOnly = record.steps.filter((one) => one.kind === kind).length === 1;
    const plan = isOnly && ofKind.length > 1 ? together(ofKind) : ofKind[order];
    return figuresOf(formula, record, recorded, plan);
  });
}

function figuresOf(formula: ResolvedFormula, record: BakeRecord, { kind, place, minutes, celsius, volumePct }: RecordedStep, plan: PlannedStep | undefined): readonly Finding[] {
  const day = conditionsOf(record);
  const bulk = kind === 'bulk' && Object.keys(day).length > 0 ? bulkMinutesUnder(formula, day) : null;
  const common = { place, step: kind };
  return [
    ...(minutes === null ? [] : [{ ...common, what: 'length' as const, unit: 'min' as const, planned: plan?.minutes ?? null, was: minutes, expected: bulk }]),
    ...(celsius === null ? [] : [{ ...common, what: 'temperature' as const, unit: 'C' as const, planned: exact(plan?.celsius ?? null), was: celsius }]),
    ...(volumePct === null ? [] : [{ ...common, what: 'volume' as const, unit: '%' as const, planned: exact(plan?.volumePct ?? null), was: volumePct }]),
  ];
}

/** The steps that a record may speak of: of the preferments, of the dough, of the method, refining ones after theirs. */
function plannedSteps(formula: ResolvedFormula): readonly PlannedStep[] {
  const parts = formula.parts.flatMap((part, index) => part.steps.map((step) => planOf(step, ambientOf(step, index === formula.dough ? undefined : part, formula, undefined))));
  return [...parts, ...formula.method.map((step) => planOf(step, ambientOf(step, undefined, formula, undefined)))];
}

function planOf(step: PlacedStep, celsius: number | null): PlannedStep {
  const { duration, details } = step.node;
  const volume = details.find((detail) => detail.kind === 'until-volume');
  return {
    step,
    minutes: duration === undefined ? null : { low: Math.min(duration.lowMinutes, duration.highMinutes), high: Math.max(duration.lowMinutes, duration.highMinutes) },
    celsius,
    volumePct: volume?.percent.value ?? null,
  };
}

/** Several steps of a kind that the record puts into one line: their lengths add up, and of an oven that falls nothing is compared. */
function together(steps: readonly PlannedStep[]): PlannedStep | undefined {
  const [first] = steps;
  if (first === undefined) return undefined;
  const minutes = steps.reduce<Plan>((sum, one) => (sum && one.minutes ? { low: sum.low + one.minutes.low, high: sum.high + one.minutes.high } : null), { low: 0, high: 0 });
  const celsius = isOven(first.step.node.step) || steps.some((one) => one.celsius !== first.celsius) ? null : first.celsius;
  return { step: first.step, minutes, celsius, volumePct: steps.at(-1)?.volumePct ?? null };
}

/** The comparisons of one line of a record: those at its place. */
export function comparisonsAt({ comparisons }: ComparedRecord, { start, end }: Pick<Place, 'start' | 'end'>): readonly Comparison[] {
  return comparisons.filter(({ place }) => place.start === start && place.end === end);
}
