/** What mixing adds to the temperature of a formula's dough. */
import type { PlacedStep, ResolvedFormula } from '../formula/model';
import { rangeOf, type Range } from '../estimate';
import { aroundMixing } from './bowl';
import { MIXER_HEAT_MINUTES, MIXER_RISE_PER_MINUTE, MIXING_RISE, type MixingMethod } from './constants';
import { timeConstantHours } from './relaxation';

export interface Mixing {
  readonly method: MixingMethod;
  /** True when a mixing step says so. */
  readonly methodSaid: boolean;
  /** Minutes of mixing by that method as written; null where no length is. */
  readonly minutes: number | null;
  /** True when the dough stands for a while between two lengths of mixing by machine. */
  readonly rests: boolean;
  /** True rise of the dough, Celsius degrees, by the table: for where no friction was measured. */
  readonly rise: Range;
}

type MixerSpeed = keyof typeof MIXER_RISE_PER_MINUTE;

/** A length of mixing by machine, or of standing between two. */
interface Stretch {
  readonly minutes: number;
  /** Undefined while the dough stands. */
  readonly speed: MixerSpeed | undefined;
}

const ONE_KILOGRAM = 1000;

/**
 * By the `mix` and `knead` steps of the dough and of the method, up to the bulk. `by mixer` with minutes goes by the minute
 * and by the speed that the step says, otherwise by the table; where nothing is said, by hand.
 */
export function mixingOf(formula: ResolvedFormula): Mixing {
  const { mixing } = aroundMixing(formula);
  const mixes = mixing.filter(isMix);
  const byMixer = mixes.filter((step) => isBy(step, 'mixer'));
  const byHand = mixes.filter((step) => isBy(step, 'hand'));
  const inProcessor = mixes.some((step) => says(step, /\bfood processor\b/i));
  const chosen = byMixer.length > 0 ? byMixer : byHand.length > 0 ? byHand : mixes;
  const minutes = chosen.reduce((sum, step) => sum + minutesOf(step), 0);
  const method: MixingMethod = inProcessor ? 'by food processor' : byMixer.length > 0 ? 'by mixer' : 'by hand';
  const stretches = stretchesOf(mixing);
  const byTheMinute = method === 'by mixer' && minutes > 0;
  return {
    method,
    methodSaid: inProcessor || byMixer.length + byHand.length > 0,
    minutes: minutes > 0 ? minutes : null,
    rests: byTheMinute && stretches.some(({ speed, minutes: standing }) => speed === undefined && standing > 0),
    rise: byTheMinute ? mixerRise(stretches, doughGrams(formula)) : rangeOf(MIXING_RISE[method]),
  };
}

/**
 * While the machine runs, the dough warms by the minute, and gives off the more to bowl and air the warmer it has become; while
 * it stands, it gives that off as slowly as any dough of its weight. Only what mixing has added is followed: the dough itself
 * is taken to be near the room.
 */
function mixerRise(stretches: readonly Stretch[], grams: number): Range {
  const standing = timeConstantHours(grams);
  const follow = (end: 'low' | 'mid' | 'high'): number =>
    stretches.reduce((rise, { minutes, speed }) => {
      if (speed === undefined) return rise * Math.exp(-minutes / (60 * standing[end]));
      const slow = rangeOf(MIXER_HEAT_MINUTES)[end];
      const most = rangeOf(MIXER_RISE_PER_MINUTE[speed])[end] * slow;
      return most + (rise - most) * Math.exp(-minutes / slow);
    }, 0);
  return { low: follow('low'), mid: follow('mid'), high: follow('high') };
}

/** From the first step by machine to the last. Steps of mixing by hand in between neither warm nor rest it. */
function stretchesOf(mixing: readonly PlacedStep[]): readonly Stretch[] {
  const isByMixer = (step: PlacedStep): boolean => isMix(step) && isBy(step, 'mixer');
  return mixing.slice(mixing.findIndex(isByMixer), mixing.findLastIndex(isByMixer) + 1)
    .filter((step) => isByMixer(step) || !isMix(step))
    .map((step): Stretch => ({ minutes: minutesOf(step), speed: isByMixer(step) ? speedOf(step) : undefined }));
}

/** `slow`, `low speed`, `first speed`; `fast`, `high speed`, `second speed`. A number from 2 up means another speed on every machine. */
function speedOf(step: PlacedStep): MixerSpeed {
  const slow = says(step, /\b(slow(ly)?|low(est)?|gently?|first (speed|gear)|speed (1|one))\b/i);
  const fast = says(step, /\b(fast|high(est)?|quick(ly)?|intensive(ly)?|second (speed|gear))\b/i);
  return slow === fast ? 'not said' : slow ? 'slow' : 'fast';
}

function isMix({ node }: PlacedStep): boolean {
  return node.step === 'mix' || node.step === 'knead';
}

function minutesOf({ node: { duration } }: PlacedStep): number {
  return duration === undefined ? 0 : (duration.lowMinutes + duration.highMinutes) / 2;
}

function isBy({ node }: PlacedStep, how: 'hand' | 'mixer'): boolean {
  return node.details.some((detail) => detail.kind === 'by' && detail.how === how);
}

function says({ node }: PlacedStep, what: RegExp): boolean {
  return node.details.some((detail) => detail.kind === 'note' && what.test(detail.text.text));
}

function doughGrams({ dough, parts }: ResolvedFormula): number {
  return (dough === undefined ? null : parts[dough]?.grams) ?? ONE_KILOGRAM;
}
