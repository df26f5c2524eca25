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
  retard: { minutes: 12 * 60, handsOn: false },
  ripen: { minutes: 8 * 60, handsOn: false },
  soak: { minutes: 60, handsOn: false },
  chill: { minutes: 60, handsOn: false },
  freeze: { minutes: 2 * 60, handsOn: false },
  thaw: { minutes: 2 * 60, handsOn: false },
  score: { minutes: 2, handsOn: true },
  preheat: { minutes: 45, handsOn: false },
  // Nobody leaves a boiling pot or hot fat alone.
  boil: { minutes: 2, handsOn: true },
  fry: { minutes: 4, handsOn: true },
  steam: { minutes: 15, handsOn: false },
  bake: { minutes: 40, handsOn: false },
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
