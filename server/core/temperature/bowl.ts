/** What is in the bowl while the dough is mixed, and what comes in later: butter rolled in, seeds folded in, a filling. */
import type { PartKind, StepDetail, StepKind } from '../../../grammar';
import { sumKnown } from '../formula/contents';
import type { PlacedStep, ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { linesNamed } from '../formula/named';
import { toGrams } from '../units/mass';

type Add = Extract<StepDetail, { readonly kind: 'add' }>;

const MIXES: ReadonlySet<StepKind> = new Set<StepKind>(['mix', 'knead', 'whisk']);
/** From here on the dough is made, whatever is worked into it later. */
const AFTER_MIXING: ReadonlySet<StepKind> = new Set<StepKind>([
  'bulk', 'ripen', 'proof', 'retard', 'laminate', 'divide', 'preshape', 'shape', 'fill', 'bake', 'boil', 'steam', 'fry', 'cool',
]);
/** In a method that does not say when it mixes, these go before it. */
const BEFORE_MIXING: ReadonlySet<StepKind> = new Set<StepKind>(['autolyse', 'do']);
/** Parts that go into or onto the shaped piece, whoever takes them in. A custard may well be mixed in. */
const ON_THE_PIECE: ReadonlySet<PartKind> = new Set<PartKind>(['filling', 'topping', 'glaze', 'wash']);

/**
 * The steps of the dough and of the method up to the last that mixes it, and those after it. Mixing ends with the first
 * step that ferments, rolls out or divides: dough that is mixed once more after its bulk is another dough.
 */
export function aroundMixing(formula: ResolvedFormula): { readonly mixing: readonly PlacedStep[]; readonly later: readonly PlacedStep[] } {
  const steps = [...(doughOf(formula)?.steps ?? []), ...formula.method];
  const made = steps.findIndex(({ node }) => AFTER_MIXING.has(node.step));
  const before = made < 0 ? steps : steps.slice(0, made);
  const lastMix = before.findLastIndex(({ node }) => MIXES.has(node.step));
  const firstOther = before.findIndex(({ node }) => !BEFORE_MIXING.has(node.step));
  const end = lastMix >= 0 ? lastMix + 1 : firstOther < 0 ? before.length : firstOther;
  return { mixing: steps.slice(0, end), later: steps.slice(end) };
}

/**
 * The share of each line of the dough that is in the bowl when mixing ends, 0 to 1. What no step adds is in it, but for a
 * filling or the like, and for the part of fat alone that a `laminate` step without an `add` can only mean.
 */
export function sharesInBowl(formula: ResolvedFormula): ReadonlyMap<ResolvedLine, number> {
  const dough = doughOf(formula);
  if (dough === undefined) return new Map();
  const { mixing, later } = aroundMixing(formula);
  const late = additionsIn(later);
  const rolledIn = later.some(({ node }) => node.step === 'laminate') && late.length === 0;
  const additions = [...additionsIn(mixing), ...late].map((add, index, all): Addition => (
    { add, isLate: index >= all.length - late.length, lines: linesNamed(add.name.text, dough.lines, formula.parts) }
  ));
  return new Map(dough.lines.map((line) => {
    const meant = additions.filter(({ lines }) => lines.includes(line));
    if (meant.length > 0) return [line, 1 - lateShare(meant)];
    const part = line.part === undefined ? undefined : formula.parts[line.part];
    const besides = part !== undefined && (ON_THE_PIECE.has(part.kind) || (rolledIn && isFat(part)));
    return [line, besides ? 0 : 1];
  }));
}

interface Addition {
  readonly add: Add;
  readonly isLate: boolean;
  /** What it may mean; two lines of one name are one ingredient. */
  readonly lines: readonly ResolvedLine[];
}

function lateShare(additions: readonly Addition[]): number {
  let added = 0;
  let late = 0;
  for (const { add, isLate, lines } of additions) {
    const share = Math.min(1 - added, shareOf(add, sumKnown(lines, ({ grams }) => grams)) ?? 1 - added);
    added += share;
    if (isLate) late += share;
  }
  return late;
}

/** 0 to 1 of the whole; null for what is left of it, and for a weight of a whole that is not known. */
function shareOf({ portion }: Add, whole: number | null): number | null {
  switch (portion.kind) {
    case 'whole':
      return 1;
    case 'rest':
      return null;
    case 'fraction':
      return portion.fraction;
    case 'amount': {
      const { amount } = portion;
      if (amount.kind === 'share') return amount.quantity.low.value / 100;
      const mass = amount.kind === 'mass' ? amount : 'bracket' in amount ? amount.bracket : undefined;
      return mass === undefined || whole === null || whole <= 0 ? null : toGrams(mass) / whole;
    }
  }
}

/** In order, those of refining steps after those of the step they refine. Not recursive: a garbled file may nest deep. */
function additionsIn(steps: readonly PlacedStep[]): readonly Add[] {
  const found: Add[] = [];
  const waiting = [...steps].reverse();
  for (let step = waiting.pop(); step !== undefined; step = waiting.pop()) {
    found.push(...step.node.details.filter((detail): detail is Add => detail.kind === 'add'));
    waiting.push(...[...step.children].reverse());
  }
  return found;
}

function isFat({ lines }: ResolvedPart): boolean {
  const inside = lines.filter(({ inDough }) => inDough);
  return inside.length > 0 && inside.every(({ role }) => role === 'fat');
}

function doughOf({ dough, parts }: ResolvedFormula): ResolvedPart | undefined {
  return dough === undefined ? undefined : parts[dough];
}
