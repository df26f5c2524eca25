/** What the two checks on tins share. */
import type { Place } from '../formula/model';
import { TIN_FACTORS } from '../scaling/tin-factors';
import { tinKindOf } from '../scaling/tins';
import type { CheckContext } from './check';
import { soundTotals } from './define';

export interface FilledTin {
  /** The `makes` line. */
  readonly place: Place;
  readonly pieceGrams: number;
  readonly millilitres: number;
  readonly mlPerGram: number;
  /** What such a tin usually takes, g. */
  readonly usualGrams: number;
  /** The names of its limits begin so: `leastMlPerGram`, `leastLiddedMlPerGram`. */
  readonly limit: '' | 'Lidded' | 'Batter';
}

/** The tin of the `makes` line and the dough for it, where the formula's own weights say both. */
export function filledTin(context: CheckContext): FilledTin | undefined {
  const { formula } = context;
  const place = formula?.makes?.place;
  if (formula === undefined || place === undefined || soundTotals(context) === undefined) {
    return undefined;
  }
  const { tinFactor, tinFactorAssumed, tinMillilitres, pieceGrams, noun } = formula.yield;
  if (tinFactor === null || tinFactorAssumed || tinMillilitres === null || pieceGrams === null) {
    return undefined;
  }
  const kind = tinKindOf({
    styles: formula.styles.map(({ text }) => text), noun, isBatter: formula.dough !== undefined && formula.parts[formula.dough]?.kind === 'batter',
  });
  return {
    place,
    pieceGrams,
    millilitres: tinMillilitres,
    mlPerGram: tinFactor,
    usualGrams: tinMillilitres / TIN_FACTORS[kind].usualMlPerGram,
    limit: kind === 'lidded' ? 'Lidded' : kind === 'batter' ? 'Batter' : '',
  };
}
