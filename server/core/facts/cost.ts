/** What a batch costs, from the `costs` lines of the baker's own ingredients. */
import { breadFrom } from '../baking';
import type { ResolvedFormula, ResolvedLine } from '../formula/model';
import { rawGrams } from './eaten';
import { ovenLossOf } from './nutrition';

export interface Cost {
  /** Of all that is weighed, what is kept and left over included; null where a price or a weight is not known, or currencies differ. */
  readonly amount: number | null;
  readonly currency: string | null;
}

export interface CostReport extends Cost {
  readonly perPiece: number | null;
  /** Names of what has no price. */
  readonly unpriced: readonly string[];
}

const UNKNOWN: Cost = { amount: null, currency: null };

/**
 * The sum of every line in one currency. Water from the tap is free unless it has a price; a culture costs what its flour
 * does, at the price of the formula's other flours.
 */
export function costOf(formula: ResolvedFormula): Cost {
  const { amount, currency } = costReport(formula);
  return { amount, currency };
}

/** The same with the cost of a piece, and what keeps it from being known. */
export function costReport(formula: ResolvedFormula): CostReport {
  const lines = formula.parts.flatMap((part) => part.lines).filter((line) => line.part === undefined);
  const priced = lines.map((line) => ({ line, price: priceOf(line, lines) }));
  const without = priced.filter(({ price }) => price === null).map(({ line }) => line);
  // A culture has no price because a flour has none: it is the flour that is named.
  const named = without.some((line) => line.starterHydrationPct === undefined) ? without.filter((line) => line.starterHydrationPct === undefined) : without;
  const unpriced = [...new Set(named.map(({ name }) => name))];
  const currencies = new Set(priced.flatMap(({ price }) => (price === null || price === 'free' ? [] : [price.currency])));
  const [currency] = currencies;
  if (unpriced.length > 0 || currencies.size > 1 || currency === undefined) return { ...UNKNOWN, perPiece: null, unpriced };
  const amount = priced.reduce((sum, { price }) => sum + (price === null || price === 'free' ? 0 : price.amount), 0);
  const { pieces } = formula.yield;
  return { amount, currency, perPiece: pieces === null || pieces <= 0 ? null : amount / pieces, unpriced };
}

interface Price {
  readonly amount: number;
  readonly currency: string;
}

function priceOf(line: ResolvedLine, all: readonly ResolvedLine[]): Price | 'free' | null {
  const { grams, ingredient } = line;
  if (line.starterHydrationPct !== undefined) return cultureOf(line, all);
  if (line.uses) return usedOf(line.uses, grams);
  const cost = ingredient?.cost ?? null;
  if (cost === null) return ingredient?.isWater === true ? 'free' : null;
  return grams === null ? null : { amount: (grams * cost.amount) / cost.perGrams, currency: cost.currency };
}

function cultureOf(line: ResolvedLine, all: readonly ResolvedLine[]): Price | null {
  const flours = all.filter(({ role, grams }) => role === 'flour' && grams !== 0);
  let grams = 0;
  let amount = 0;
  let currency: string | undefined;
  for (const flour of flours) {
    const cost = flour.ingredient?.cost ?? null;
    if (cost === null || flour.grams === null || (currency !== undefined && currency !== cost.currency)) return null;
    currency = cost.currency;
    grams += flour.grams;
    amount += (flour.grams * cost.amount) / cost.perGrams;
  }
  return currency === undefined || line.grams === null || grams <= 0 ? null : { amount: (amount / grams) * line.flourGrams, currency };
}

/** So many grams of another formula's bread, by its baked weight. */
function usedOf(uses: ResolvedFormula, grams: number | null): Price | null {
  const { amount, currency } = costOf(uses);
  const raw = rawGrams(uses);
  if (amount === null || currency === null || grams === null || raw === null) return null;
  const baked = breadFrom(raw * (1 - uses.benchLoss), ovenLossOf(uses).loss);
  return baked > 0 ? { amount: (amount * grams) / baked, currency } : null;
}
