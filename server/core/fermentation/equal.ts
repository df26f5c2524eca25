/** Another length that ferments a dough as far, for a dough that warms or cools on its way. */
import { BAKERS_YEAST_VALID, MODEL_VALID } from './constants';
import { rateOf, type Organism } from './growth';
import { equivalentHours } from './path';

/** A dough in a place: how warm it goes in, and how warm it is around it. */
export interface Standing {
  readonly startCelsius: number;
  readonly ambientCelsius: number;
  /** How slowly the dough takes on the temperature around it, h; 0 for at once. */
  readonly timeConstantHours: number;
}

/** A length is looked for up to so many times the known one. */
const MOST_TIMES_AS_LONG = 100;
/** Halvings of the interval: to a billionth of the length. */
const HALVINGS = 40;

/**
 * Hours in `to` that ferment a dough as far as `hours` in `from` do, its own temperature followed all the way. Exactly `hours`
 * where nothing differs. Null where there is no rate to compare with, or no end is in sight.
 */
export function equalLength(organism: Organism, hours: number, from: Standing, to: Standing): number | null {
  const isSame = from.startCelsius === to.startCelsius && from.ambientCelsius === to.ambientCelsius && from.timeConstantHours === to.timeConstantHours;
  if (isSame || hours === 0) return hours;
  const rate = rateOf(organism);
  const reference = from.ambientCelsius;
  const workIn = (standing: Standing, length: number): number => equivalentHours(rate, reference, standing.startCelsius, [{ hours: length, ...standing }]).hours;
  const wanted = workIn(from, hours);
  if (!(wanted > 0)) return null;
  let most = hours;
  while (workIn(to, most) < wanted) {
    most *= 2;
    if (most > hours * MOST_TIMES_AS_LONG) return null;
  }
  let least = 0;
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (least + most) / 2;
    if (workIn(to, middle) < wanted) least = middle;
    else most = middle;
  }
  return (least + most) / 2;
}

/** Temperatures between which the pace of an organism is known well enough to plan by, C. */
export function plannedCelsius(organism: Organism): { readonly from: number; readonly to: number } {
  switch (organism) {
    case 'sourdough yeast':
      return MODEL_VALID.yeast;
    case 'sourdough bacteria':
      return MODEL_VALID.bacteria;
    case "baker's yeast":
      return BAKERS_YEAST_VALID;
  }
}
