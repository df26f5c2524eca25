/** What makes a formula's dough rise. */
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { leavesOf, sumKnown } from '../formula/contents';
import type { Organism } from './growth';
import { YEAST_LEADS } from './constants';
import { yeastAs, type YeastKind } from './factors';

/** Kinds of yeast by ingredient key. */
const YEASTS: Readonly<Record<string, YeastKind>> = {
  'yeast-fresh': 'fresh',
  'yeast-dry-active': 'active dry',
  'yeast-instant': 'instant',
  'yeast-osmotolerant': 'instant',
};

export interface Culture {
  /** Who sets the pace; null for a dough with neither yeast nor starter. */
  readonly organism: Organism | null;
  readonly hasStarter: boolean;
  /** All yeast, as fresh yeast in % of all flour; null where it is not known. */
  readonly freshYeastPct: number | null;
  readonly osmotolerant: boolean;
}

/** Of the whole dough, what its preferments bring included. With both a levain and yeast, yeast leads from a small amount on. */
export function cultureOf(formula: ResolvedFormula): Culture {
  const leaves = leavesOf(formula);
  const flour = sumKnown(leaves, ({ line, fraction }) => (line.grams === null || fraction === null ? null : line.flourGrams * fraction));
  const yeast = sumKnown(leaves.filter(({ line }) => yeastKind(line) !== undefined), ({ line, grams }) => freshOf(line, grams));
  const freshYeastPct = flour === null || yeast === null || flour <= 0 ? null : (100 * yeast) / flour;
  const hasStarter = leaves.some(({ line }) => line.starterHydrationPct !== undefined && line.grams !== 0);
  const hasYeast = leaves.some(({ line }) => yeastKind(line) !== undefined && line.grams !== 0);
  const yeastLeads = hasYeast && (!hasStarter || (freshYeastPct ?? 0) >= YEAST_LEADS.value);
  return {
    organism: yeastLeads ? "baker's yeast" : hasStarter ? 'sourdough yeast' : null,
    hasStarter,
    freshYeastPct,
    osmotolerant: leaves.some(({ line }) => line.key === 'yeast-osmotolerant'),
  };
}

/**
 * Who sets the pace in a preferment by itself: its own starter or yeast, by the same rule as in a dough, else the culture of a
 * preferment that it takes in. Null where nothing ferments it.
 */
export function organismOf(formula: ResolvedFormula, part: ResolvedPart, seen: ReadonlySet<ResolvedPart> = new Set()): Organism | null {
  const inside = part.lines.filter((line) => line.inDough && line.grams !== 0);
  const hasStarter = inside.some((line) => line.starterHydrationPct !== undefined);
  const hasYeast = inside.some((line) => yeastKind(line) !== undefined);
  if (hasYeast && (!hasStarter || (freshYeastPctOf(part) ?? 0) >= YEAST_LEADS.value)) return "baker's yeast";
  if (hasStarter) return 'sourdough yeast';
  for (const line of inside) {
    const taken = line.part === undefined ? undefined : formula.parts[line.part];
    const organism = taken === undefined || seen.has(taken) ? null : organismOf(formula, taken, new Set([...seen, part]));
    if (organism !== null) return organism;
  }
  return null;
}

export function yeastKind(line: ResolvedLine): YeastKind | undefined {
  return Object.hasOwn(YEASTS, line.key) ? YEASTS[line.key] : undefined;
}

/** The yeast weighed into one part, as fresh yeast in % of its flour; 0 for none, null where it is not known. */
export function freshYeastPctOf(part: ResolvedPart): number | null {
  const yeast = sumKnown(part.lines.filter((line) => line.inDough && yeastKind(line) !== undefined), (line) => freshOf(line, line.grams));
  return yeast === null || part.flourGrams === null || part.flourGrams <= 0 ? null : (100 * yeast) / part.flourGrams;
}

function freshOf(line: ResolvedLine, grams: number | null): number | null {
  const kind = yeastKind(line);
  return grams === null || kind === undefined ? null : yeastAs(grams, kind, 'fresh');
}
