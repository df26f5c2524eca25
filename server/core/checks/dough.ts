/** What the checks on the moisture and the salt of a dough share. */
import type { Span, Temperature } from '../../../grammar';
import type { Place, ResolvedFormula } from '../formula/model';
import type { CheckContext } from './check';
import { styleOf } from './limits';
import { placeOf } from './walk';
import { percent } from './words';

/** ` (the water alone is 40 %)` where milk, eggs and the like bring the rest, so that nobody takes one number for the other. */
export function madeUpOf({ totals }: CheckContext): string {
  const effective = totals?.effective_hydration_pct ?? null;
  const water = totals?.hydration_pct ?? null;
  const same = effective === null || water === null || Math.abs(effective - water) < 1;
  return same ? '' : ` (the water alone is ${percent(water)})`;
}

/** A dough that is poured. */
export function isBatter({ formula }: CheckContext): boolean {
  return formula?.dough !== undefined && formula.parts[formula.dough]?.kind === 'batter';
}

/** Moisture that no dough has: a slip, which has its own finding. */
export function isImpossible(context: CheckContext, moisturePct: number): boolean {
  const { limits, totals } = context;
  if (isBatter(context)) {
    return false;
  }
  // The fat of a shortcrust binds it: how little water is too little, nobody can say there.
  const tooDry = moisturePct < limits.get('hydration-impossible', 'leastPct') && (totals?.fat_pct ?? 0) < 20;
  return tooDry || moisturePct > limits.get('hydration-impossible', 'mostPct');
}

/**
 * A tart case, a scone, a cake in a pan: fat or sugar and no yeast, and no style that calls it bread. What is said of bread does not
 * hold for it: its fat binds it, and it is salted and browned as a sweet.
 */
export function isPastry(context: CheckContext): boolean {
  const { formula, totals, reports } = context;
  const isRich = isBatter(context) || (totals?.fat_pct ?? 0) >= 20 || (totals?.sugar_pct ?? 0) >= 20;
  return isRich && (reports.culture()?.organism ?? null) === null && formula?.styles.every(({ text }) => styleOf(text) === undefined) === true;
}

/** The head of what ends in the oven; undefined in a dish, which has no flour base. */
export function doughPlace({ formula }: CheckContext): Place | undefined {
  return formula?.kind !== 'formula' || formula.dough === undefined ? undefined : formula.parts[formula.dough]?.place;
}

/** The amount of the dough's largest salt line; the head of the dough where it has none. */
export function saltPlace({ formula }: CheckContext): Place | undefined {
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  if (formula === undefined || dough === undefined) {
    return undefined;
  }
  const [largest] = formula.parts
    .flatMap((part) => part.lines)
    .filter((line) => line.role === 'salt' && line.inDough && line.grams !== null)
    .sort((a, b) => (b.grams ?? 0) - (a.grams ?? 0));
  return largest?.amountPlace ?? dough.place;
}

export interface Degrees {
  /** The middle of a range. */
  readonly celsius: number;
  readonly unit: 'C' | 'F';
  readonly span: Span;
}

/** A temperature in degrees; undefined for `room`, `fridge` and none. */
export function degreesOf(temperature: Temperature | undefined): Degrees | undefined {
  return temperature?.kind === 'degrees'
    ? { celsius: (temperature.lowCelsius + temperature.highCelsius) / 2, unit: temperature.unit, span: temperature }
    : undefined;
}

/** What the head of the dough asks for, and where it says so. */
export function headTemperature({ formula, section }: CheckContext): { readonly celsius: number; readonly place: Place } | undefined {
  const part = formula?.kind !== 'formula' || formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const head = part && section.blocks[part.block]?.head.node;
  const heat = head?.kind === 'part' ? degreesOf(head.temperature) : undefined;
  return part === undefined || heat === undefined ? undefined : { celsius: heat.celsius, place: placeOf(part.block, heat.span) };
}

/** Rolls of 50 g take 10 min, loaves of 900 g 42 min: by the root of the weight. Common practice, no source. */
const MINUTES_BY_ROOT_GRAM = 1.4;

/** About how long a piece of this weight bakes; undefined where its weight is not known, or an unlikely one. */
export function usualBakeMinutes(formula: ResolvedFormula | undefined): { readonly minutes: number; readonly pieceGrams: number } | undefined {
  const { pieceGrams = null, pieces = null } = formula?.yield ?? {};
  // A dough of 2 kg that nobody divides on paper may be any number of pieces.
  return pieceGrams === null || pieces === null || pieceGrams <= 0 ? undefined : { minutes: MINUTES_BY_ROOT_GRAM * Math.sqrt(pieceGrams), pieceGrams };
}
