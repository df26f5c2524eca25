/** What a figure of a record means to a baker, in one plain sentence each. */
import type { StepKind } from '../../../grammar';
import { formatDuration } from '../timeline/clock';
import { CLOSE, SOUR_PH } from './constants';
import type { Comparison } from './model';

type Figure = Omit<Comparison, 'meaning'>;
type Between = { readonly low: number; readonly high: number };

const OVEN: ReadonlySet<StepKind> = new Set<StepKind>(['preheat', 'bake', 'boil', 'steam', 'fry']);

/** Whether a step is done in heat and not in the room. */
export function isOven(step: StepKind): boolean {
  return OVEN.has(step);
}

/** What longer and shorter do, for the steps where it tells something. */
const LONGER: Partial<Readonly<Record<StepKind, string>>> = {
  proof: 'nearer to flat and sour', retard: 'more acid, and a softer dough', ripen: 'a sourer preferment, past its peak sooner',
  bake: 'a thicker crust and more loss', cool: 'a firmer crumb to cut',
};
const SHORTER: Partial<Readonly<Record<StepKind, string>>> = {
  proof: 'a tighter crumb', retard: 'a milder bread', ripen: 'a younger, milder preferment', bake: 'a paler, moister loaf', cool: 'a gummier cut',
};

/**
 * A figure that the formula has a plan for.
 *
 * @param expected of a bulk: how long it would have taken at the formula's pace in the room and with the dough of that day, min
 */
export function meaningOf(figure: Figure, expected: Between | null): string {
  const { what, was, planned, difference } = figure;
  const off = difference ?? 0;
  switch (what) {
    case 'room':
      return degreesOff(off, "the formula's room", { over: 'all that ferments there was quicker', under: 'all that ferments there was slower' });
    case 'fridge':
      return degreesOff(off, "the formula's fridge", { over: 'the dough fermented on for longer', under: 'the dough stood still sooner' });
    case 'dough':
      return degreesOff(off, 'the dough that was wanted', { over: 'a quicker bulk; take cooler water next time', under: 'a slower bulk; take warmer water next time' });
    case 'temperature':
      return degreesOff(off, 'planned', figure.step !== undefined && isOven(figure.step)
        ? { over: 'more colour in the same time', under: 'less colour in the same time' }
        : { over: 'a quicker fermentation', under: 'a slower fermentation' });
    case 'length':
      return figure.step === 'bulk' && expected !== null ? bulkAgainst(was, expected) : lengthOff(figure.step, off, planned);
    case 'volume':
      if (Math.abs(off) < CLOSE.volumePoints.value) return 'The rise that was asked for.';
      return off > 0 ? `It rose ${number(off)} points more than asked: nearer to too much.` : `It rose ${number(-off)} points less than asked: a tighter crumb.`;
    case 'core':
      if (Math.abs(off) < CLOSE.coreCelsius.value) return 'Baked through, as planned.';
      return off > 0 ? `${degrees(off)} over the plan: done, and drier with every minute more.` : `${degrees(-off)} under the plan: a moist, perhaps gummy crumb; bake it on next time.`;
    case 'loss':
      if (was < 0) return 'The loaves weigh more than their dough. Write how many were weighed: `weighed 1512 g, 2 loaves`.';
      if (Math.abs(off) < CLOSE.lossPoints.value) return 'The loss that was planned.';
      return off > 0
        ? `${number(off)} points more lost than planned: the loaves are lighter than the sheet says.`
        : `${number(-off)} points less lost than planned: the loaves are heavier, and moister, than the sheet says.`;
    case 'ph':
      return withoutPlan(figure);
  }
}

/** A figure that the formula has no plan for: what to write so that the next one can be compared. */
export function withoutPlan({ what, was, step }: Figure): string {
  switch (what) {
    case 'room':
      return `The formula names no room. Write \`room ${number(was)} C\` under its name if its times are meant for that.`;
    case 'fridge':
      return 'The formula names no fridge. Write `fridge 4 C` under its name to compare.';
    case 'dough':
      return 'The formula does not say how warm the dough should be. Write `dough at 25 C` to compare.';
    case 'volume':
      return `The formula does not say how far the ${step ?? 'dough'} should rise. Write \`until volume 75 %\` on that line to compare.`;
    case 'length':
      return `The formula says no length of ${step ?? 'this step'} to compare with.`;
    case 'temperature':
      return `The formula says no single temperature of ${step ?? 'this step'} to compare with.`;
    case 'core':
      return 'The formula bakes to no core. Write `until core 97 C` on its last bake to compare.';
    case 'loss':
      return was < 0
        ? 'The loaves weigh more than their dough. Write how many were weighed: `weighed 1512 g, 2 loaves`.'
        : `The formula says no loss. Write \`loses ${number(was)} % in the oven\` under its name, once a few bakes agree.`;
    case 'ph':
      return was <= SOUR_PH.value ? `Sour: at or under ${number(SOUR_PH.value)}, the most for sourdough bread by a French decree.` : `Mild: over ${number(SOUR_PH.value)}, the most for sourdough bread by a French decree.`;
  }
}

function degreesOff(off: number, than: string, { over, under }: { readonly over: string; readonly under: string }): string {
  if (Math.abs(off) < CLOSE.celsius.value) return 'As planned.';
  return off > 0 ? `${degrees(off)} warmer than ${than}: ${over}.` : `${degrees(-off)} cooler than ${than}: ${under}.`;
}

function bulkAgainst(was: number, { low, high }: Between): string {
  const expected = low === high ? formatDuration(rounded(low)) : `${formatDuration(rounded(low))} to ${formatDuration(rounded(high))}`;
  const day = `In that room and with that dough the formula's pace gives ${expected}`;
  if (was < low * (1 - CLOSE.time.value)) return `${day}: this dough was quicker, or was shaped younger.`;
  if (was > high * (1 + CLOSE.time.value)) return `${day}: this dough was slower, or was shaped older.`;
  return `${day}: this dough kept to it.`;
}

function lengthOff(step: StepKind | undefined, off: number, planned: Between | null): string {
  if (Math.abs(off) <= CLOSE.time.value * (planned?.high ?? 0)) return 'As planned.';
  const effect = step === undefined ? undefined : (off > 0 ? LONGER : SHORTER)[step];
  return `${formatDuration(Math.abs(off))} ${off > 0 ? 'longer' : 'shorter'} than planned${effect === undefined ? '' : `: ${effect}`}.`;
}

function rounded(minutes: number): number {
  return 5 * Math.round(minutes / 5);
}

function degrees(celsius: number): string {
  return `${number(celsius)} C`;
}

function number(value: number): string {
  return String(Number(value.toFixed(1)));
}
