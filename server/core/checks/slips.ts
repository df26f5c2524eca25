/** Amounts in a unit that cannot be meant: 18 kg of salt for 18 g, 700 mg of flour for 700 g. */
import type { Amount, MassUnit, Role } from '../../../grammar';
import { quantityMiddle } from '../../../grammar';
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { GRAMS_PER } from '../units/mass';

export interface Slip {
  readonly line: ResolvedLine;
  readonly part: ResolvedPart;
  readonly unit: MassUnit;
  /** The unit that was probably meant. */
  readonly meant: MassUnit;
}

/** More than this share of the rest of a part is no seasoning, leaven or spice. */
const MOST_SHARE: Partial<Record<Role, number>> = { salt: 0.2, spice: 0.2 };
const MOST_YEAST_SHARE = 0.25;
/** Less than this share of a part is not worth a line of flour or water. */
const LEAST_SHARE = 0.002;

const SMALLER: Partial<Record<MassUnit, MassUnit>> = { kg: 'g', lb: 'oz', g: 'mg' };
const LARGER: Partial<Record<MassUnit, MassUnit>> = { mg: 'g', oz: 'lb' };
/** Flour or water so many times the rest is not a dough: 700 kg of water to a kilo of flour. */
const MOST_BULK_SHARE = 50;

/** Only where the other unit makes a weight that somebody would use: else nobody can say what was meant. */
export function slipsIn(formula: ResolvedFormula): readonly Slip[] {
  return formula.parts.flatMap((part) => {
    const inDough = part.lines.reduce((sum, line) => (line.inDough ? sum + (line.grams ?? 0) : sum), 0);
    return part.lines.flatMap((line) => slipOf(line, part, inDough));
  });
}

/** `inDough` is all that the part brings into the dough, in grams. */
function slipOf(line: ResolvedLine, part: ResolvedPart, inDough: number): readonly Slip[] {
  const unit = unitOf(line);
  if (unit === undefined || line.grams === null || line.grams <= 0 || !line.inDough) {
    return [];
  }
  const rest = inDough - line.grams;
  if (rest <= 0) {
    return [];
  }
  const share = (grams: number) => grams / rest;
  const most = isYeast(line) ? MOST_YEAST_SHARE : MOST_SHARE[line.role];
  const smaller = SMALLER[unit];
  if (most !== undefined && smaller !== undefined && share(line.grams) > most) {
    const meantGrams = (line.grams * GRAMS_PER[smaller]) / GRAMS_PER[unit];
    return unit !== 'g' && share(meantGrams) <= most / 2 && share(meantGrams) >= 0.0005 ? [{ line, part, unit, meant: smaller }] : [];
  }
  const larger = LARGER[unit];
  const isBulk = line.role === 'flour' || line.role === 'liquid';
  if (isBulk && smaller !== undefined && unit !== 'g' && share(line.grams) > MOST_BULK_SHARE) {
    const meantGrams = (line.grams * GRAMS_PER[smaller]) / GRAMS_PER[unit];
    // Where the rest is in the same unit, it is the rest that is odd.
    const alike = part.lines.some((other) => other !== line && unitOf(other) === unit);
    return share(meantGrams) >= 0.02 && share(meantGrams) < 5 && !alike ? [{ line, part, unit, meant: smaller }] : [];
  }
  if (isBulk && larger !== undefined && share(line.grams) < LEAST_SHARE) {
    const meantGrams = (line.grams * GRAMS_PER[larger]) / GRAMS_PER[unit];
    return share(meantGrams) >= 0.02 && share(meantGrams) < 50 ? [{ line, part, unit, meant: larger }] : [];
  }
  return [];
}

function isYeast(line: ResolvedLine): boolean {
  return line.key.startsWith('yeast-');
}

/** Grams that the line means are in this unit; undefined for counts, volumes and shares. */
function unitOf({ source }: ResolvedLine): MassUnit | undefined {
  const amount: Amount | undefined = source?.kind === 'ingredient' ? source.amount : undefined;
  return amount?.kind === 'mass' && quantityMiddle(amount.quantity) > 0 ? amount.unit : undefined;
}
