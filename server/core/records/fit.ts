/** The pace of a kitchen, fitted to what its records say of the bulk. */
import { interpolate } from '../estimate';
import type { PlacedStep, ResolvedFormula } from '../formula/model';
import { ambientOf } from '../timeline/ambient';
import { bulkMinutesUnder } from '../timeline/conditions';
import { conditionsOf } from './compare';
import { LEAST_BAKES, LIKE_RISE, ONE_TEMPERATURE, STUDENT_T } from './constants';
import type { BakeRecord, FittedPace } from './model';

/**
 * One number: how much quicker this kitchen ferments than the formula says, by least squares on the logarithm of the time, which is
 * their mean there. Each bake is set against the length that the model gives in its room, with its dough and up to its rise.
 *
 * Refused, with the reason, for a bulk that says no length or no rise, and for fewer than three bakes that tell how long the bulk
 * took, how far it rose and how warm it was.
 */
export function fitPace(formula: ResolvedFormula, records: readonly BakeRecord[]): FittedPace {
  const plan = bulkOf(formula);
  if (plan === undefined) return { reason: 'This formula has no bulk, so its records tell no pace.' };
  if (plan.node.duration === undefined) return { reason: 'The bulk of this formula says no length to compare with. Write one: `bulk 4 h at 25 C`.' };
  const askedPct = volumeOf(plan);
  if (askedPct === null) return { reason: 'The bulk of this formula does not say how far it should rise, so its bakes cannot be compared. Write it on that line: `until volume 75 %`.' };
  if (ambientOf(plan, undefined, formula, undefined) === null) {
    return { reason: 'Nothing says how warm it was for the length of the bulk, so its bakes cannot be compared. Write its temperature on that line: `bulk 4 h at 25 C`.' };
  }
  const bakes = records.flatMap((record) => bakeOf(formula, record, askedPct) ?? []);
  if (bakes.length < LEAST_BAKES.value) {
    return {
      reason: `A pace of your own takes ${LEAST_BAKES.value} bakes that tell how long the bulk took, how far it rose (between half and twice of what is asked) and how warm the room or the dough was; ${countOf(bakes.length)}.`,
    };
  }
  const mean = bakes.reduce((sum, { logPace }) => sum + logPace, 0) / bakes.length;
  const deviation = Math.sqrt(bakes.reduce((sum, { logPace }) => sum + (logPace - mean) ** 2, 0) / (bakes.length - 1));
  const reach = (interpolate(STUDENT_T.points, bakes.length - 1) * deviation) / Math.sqrt(bakes.length);
  return {
    pace: Math.exp(mean),
    low: Math.exp(mean - reach),
    high: Math.exp(mean + reach),
    bakes: bakes.length,
    residualPct: 100 * Math.expm1(deviation),
    notes: [slopeNote(bakes.map(({ celsius }) => celsius))],
  };
}

/** A bake that tells a pace, as the logarithm of how much quicker it was than the model. */
interface Bake {
  readonly logPace: number;
  /** Where the bulk stood, else the dough, C. */
  readonly celsius: number;
}

function bakeOf(formula: ResolvedFormula, record: BakeRecord, askedPct: number): Bake | undefined {
  const bulk = record.steps.find(({ kind }) => kind === 'bulk');
  const celsius = bulk?.celsius ?? record.roomCelsius?.value ?? record.doughCelsius?.value ?? null;
  if (bulk === undefined || celsius === null || !bulk.minutes || !bulk.volumePct) return undefined;
  const rise = bulk.volumePct / askedPct;
  const expected = bulkMinutesUnder(formula, conditionsOf(record));
  if (expected === null || rise < LIKE_RISE.from || rise > LIKE_RISE.to) return undefined;
  const minutes = ((expected.low + expected.high) / 2) * rise;
  return minutes > 0 ? { logPace: Math.log(minutes / bulk.minutes), celsius } : undefined;
}

function bulkOf(formula: ResolvedFormula): PlacedStep | undefined {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  return [...(dough?.steps ?? []), ...formula.method].find(({ node }) => node.step === 'bulk');
}

function volumeOf(step: PlacedStep): number | null {
  const asked = step.node.details.find((detail) => detail.kind === 'until-volume')?.percent.value;
  return asked === undefined || asked <= 0 ? null : asked;
}

function countOf(bakes: number): string {
  return bakes === 0 ? 'none here does' : bakes === 1 ? 'one here does' : `${String(bakes)} here do`;
}

function slopeNote(celsius: readonly number[]): string {
  const isOne = Math.max(...celsius) - Math.min(...celsius) < ONE_TEMPERATURE.value;
  return isOne
    ? 'These bakes were all about as warm, so they say nothing of what another room does: for that the published rates are used as they are.'
    : 'Only the pace is fitted: what a warmer or a cooler room does is left to the published rates.';
}
