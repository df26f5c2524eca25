/**
 * What a kind of step takes when nobody says: how long, and whether someone must be there.
 *
 * Common practice, no published source. A time from here is always marked `assumed`: it keeps a schedule whole while
 * the formula is being written, and is no advice. Fermentation above all cannot be guessed; its lengths here are those
 * of a plain wheat dough with a levain in a warm room.
 */
import type { StepKind } from '../../../grammar';

export interface StepDefault {
  readonly minutes: number;
  /** Someone works or watches all the while. `attended` and `unattended` on the line go before it. */
  readonly handsOn: boolean;
  /** Goes on by itself, but a hand puts it there, or takes it away, at that moment: the fridge, the oven. `unattended` frees it of both. */
  readonly handAt?: 'start' | 'both';
}

export const STEP_DEFAULTS: Readonly<Record<StepKind, StepDefault>> = {
  mix: { minutes: 10, handsOn: true },
  knead: { minutes: 10, handsOn: true },
  autolyse: { minutes: 30, handsOn: false },
  rest: { minutes: 20, handsOn: false },
  bulk: { minutes: 4 * 60, handsOn: false },
  fold: { minutes: 5, handsOn: true },
  'stretch and fold': { minutes: 5, handsOn: true },
  'coil fold': { minutes: 5, handsOn: true },
  laminate: { minutes: 10, handsOn: true },
  divide: { minutes: 10, handsOn: true },
  preshape: { minutes: 5, handsOn: true },
  shape: { minutes: 10, handsOn: true },
  proof: { minutes: 90, handsOn: false },
  retard: { minutes: 12 * 60, handsOn: false, handAt: 'both' },
  ripen: { minutes: 8 * 60, handsOn: false },
  soak: { minutes: 60, handsOn: false },
  chill: { minutes: 60, handsOn: false, handAt: 'both' },
  freeze: { minutes: 2 * 60, handsOn: false, handAt: 'both' },
  thaw: { minutes: 2 * 60, handsOn: false, handAt: 'both' },
  score: { minutes: 2, handsOn: true },
  preheat: { minutes: 45, handsOn: false, handAt: 'start' },
  // Nobody leaves a boiling pot or hot fat alone.
  boil: { minutes: 2, handsOn: true },
  fry: { minutes: 4, handsOn: true },
  steam: { minutes: 15, handsOn: false, handAt: 'both' },
  bake: { minutes: 40, handsOn: false, handAt: 'both' },
  cool: { minutes: 60, handsOn: false },
  slice: { minutes: 5, handsOn: true },
  glaze: { minutes: 5, handsOn: true },
  fill: { minutes: 10, handsOn: true },
  whisk: { minutes: 5, handsOn: true },
  serve: { minutes: 5, handsOn: true },
  do: { minutes: 10, handsOn: true },
};

/** Putting a part together, where its steps begin with waiting: feeding a levain, pouring water over fruit. */
export const BUILD_MINUTES = 5;

/** The oven may stand hot this much longer than its preheat asks for, minutes. Common practice, no source. */
export const HOT_OVEN_WAITS_MINUTES = 60;

/** Bread may be ready this long before it must be, when that is what it takes to leave the night alone, minutes. Common practice, no source. */
export const READY_EARLY_MINUTES = 2 * 60;

/** After these what was made may wait: it is no longer fermenting. Common practice, no source. */
export const MAY_WAIT_AFTER: readonly StepKind[] = ['cool', 'freeze'];

/**
 * Kinds that may take longer or shorter than written: by which share of their middle, and how much a baker minds. What only waits
 * minds little; what ferments, and then the taste and the crumb, more. Common practice, no source.
 */
export const MAY_GIVE: Partial<Readonly<Record<StepKind, { readonly share: number; readonly minds: number }>>> = {
  retard: { share: 0.5, minds: 1 },
  soak: { share: 1, minds: 0.5 },
  cool: { share: 0.5, minds: 1 },
  chill: { share: 0.5, minds: 1 },
  thaw: { share: 0.5, minds: 1 },
  rest: { share: 0.5, minds: 1 },
  autolyse: { share: 0.5, minds: 1 },
  ripen: { share: 0.3, minds: 2 },
  bulk: { share: 0.25, minds: 3 },
  proof: { share: 0.25, minds: 3 },
};
