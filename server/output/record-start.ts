/**
 * The beginning of a record: its head, and under it what the formula plans, as comments. A line counts once its `#` is taken off, so
 * that nothing which was only planned is ever taken for measured; where nothing is planned, dots stand for the number.
 */
import type { StepKind, StepLine } from '../../grammar';
import { bakingReport } from '../core/baking';
import { journeyOf } from '../core/fermentation';
import type { ResolvedFormula } from '../core/formula/model';
import { decimals, minutesRange } from './numbers';

/** Steps whose length is worth writing down, in the order of a bake. */
const TIMED: readonly StepKind[] = ['ripen', 'bulk', 'proof', 'retard', 'bake'];

const UNKNOWN = '…';
/** As wide as the formatter makes the first column of a block. */
const COLUMN = 10;

/** Lines without their ends: the head of the record, and those under it, indented. `date` is `2027-03-13`. */
export function recordStart(formula: ResolvedFormula, date: string): readonly string[] {
  const rows = [
    ['room', degrees(formula.roomCelsius)],
    ['dough', degrees(doughCelsius(formula))],
    ...TIMED.flatMap((kind) => stepRow(formula, kind)),
    ['core', degrees(coreCelsius(formula))],
    ['weighed', weighed(formula)],
    ['note', `"${UNKNOWN}"`],
  ] as const;
  return [
    `record ${date}`,
    '  # As planned. Take the # off a line and write what you measured.',
    ...rows.map(([name, value]) => `  # ${name.padEnd(COLUMN - 1)} ${value}`),
  ];
}

function degrees(celsius: number | null): string {
  return `${celsius === null ? UNKNOWN : decimals(celsius, 1)} C`;
}

/** What the dough is wanted at; null where its head says nothing. */
function doughCelsius(formula: ResolvedFormula): number | null {
  const { startBy, startCelsius } = journeyOf(formula);
  return startBy === 'room' ? null : startCelsius;
}

function coreCelsius(formula: ResolvedFormula): number | null {
  return bakingReport(formula).bakes.reduce<number | null>((last, bake) => bake.coreCelsius ?? last, null);
}

/** All steps of a kind as one line: a record that has one line for several of them is set against their sum. */
function stepRow({ parts, method }: ResolvedFormula, kind: StepKind): readonly (readonly [string, string])[] {
  const steps = [...parts.flatMap((part) => part.steps), ...method].map(({ node }) => node).filter(({ step }) => step === kind);
  if (steps.length === 0) return [];
  const oven = kind === 'bake';
  const volume = kind === 'bulk' ? `, volume ${volumePct(steps) ?? UNKNOWN} %` : '';
  return [[kind, `${length(steps)}${oven ? '' : place(steps)}${volume}`]];
}

function length(steps: readonly StepLine[]): string {
  let [low, high] = [0, 0];
  for (const { duration } of steps) {
    if (duration === undefined) return `${UNKNOWN} min`;
    low += Math.min(duration.lowMinutes, duration.highMinutes);
    high += Math.max(duration.lowMinutes, duration.highMinutes);
  }
  return minutesRange(low, high);
}

/** ` at 24 C`, where they all say the same. */
function place(steps: readonly StepLine[]): string {
  const places = new Set(steps.map(({ temperature }) => {
    if (temperature === undefined) return '';
    if (temperature.kind !== 'degrees') return ` at ${temperature.kind}`;
    return ` at ${decimals((temperature.lowCelsius + temperature.highCelsius) / 2, 1)} C`;
  }));
  const [only] = places;
  return places.size === 1 && only !== undefined ? only : '';
}

function volumePct(steps: readonly StepLine[]): string | undefined {
  const asked = steps.flatMap(({ details }) => details).findLast((detail) => detail.kind === 'until-volume');
  return asked === undefined ? undefined : decimals(asked.percent.value, 1);
}

/** The loaves as they should come out of the oven. */
function weighed({ yield: { pieces, noun, pieceGrams }, ovenLoss, ovenLossSaid }: ResolvedFormula): string {
  const grams = pieces !== null && pieceGrams !== null && ovenLossSaid ? decimals(pieces * pieceGrams * (1 - ovenLoss), 0) : UNKNOWN;
  return `${grams} g${pieces === null ? '' : `, ${decimals(pieces, 2)} ${noun}`}`;
}
