/** What mixing adds to the temperature of a formula's dough. */
import type { PlacedStep, ResolvedFormula } from '../formula/model';
import { mapRange, rangeOf, type Range } from '../estimate';
import { MIXER_RISE_PER_MINUTE, MIXING_RISE, type MixingMethod } from './constants';

export interface Mixing {
  readonly method: MixingMethod;
  /** True when a mixing step says so. */
  readonly methodSaid: boolean;
  /** Minutes of mixing by that method as written; null where no length is. */
  readonly minutes: number | null;
  /** True rise of the dough, Celsius degrees, by the table: for where no friction was measured. */
  readonly rise: Range;
}

/**
 * By the `mix` and `knead` steps of the dough and of the method. `by mixer` with minutes goes by the minute, otherwise by the
 * table; where nothing is said, by hand.
 */
export function mixingOf(formula: ResolvedFormula): Mixing {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const mixes = [...(dough?.steps ?? []), ...formula.method].filter(({ node }) => node.step === 'mix' || node.step === 'knead');
  const byMixer = mixes.filter((step) => isBy(step, 'mixer'));
  const byHand = mixes.filter((step) => isBy(step, 'hand'));
  const chosen = byMixer.length > 0 ? byMixer : byHand.length > 0 ? byHand : mixes;
  const minutes = chosen.reduce((sum, { node }) => sum + ((node.duration?.lowMinutes ?? 0) + (node.duration?.highMinutes ?? 0)) / 2, 0);
  const method: MixingMethod = byMixer.length > 0 ? 'by mixer' : 'by hand';
  return {
    method,
    methodSaid: byMixer.length + byHand.length > 0,
    minutes: minutes > 0 ? minutes : null,
    rise: method === 'by mixer' && minutes > 0 ? mapRange(rangeOf(MIXER_RISE_PER_MINUTE), (perMinute) => perMinute * minutes) : rangeOf(MIXING_RISE[method]),
  };
}

function isBy({ node }: PlacedStep, how: 'hand' | 'mixer'): boolean {
  return node.details.some((detail) => detail.kind === 'by' && detail.how === how);
}
