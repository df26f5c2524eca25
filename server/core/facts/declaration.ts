/**
 * The ingredients of a bread in the order and with the emphasis of a label: a draft, for a market stall to begin from.
 *
 * By Regulation (EU) 1169/2011, articles 18 and 21 and Annex VII, part A (from memory): in descending order of weight as they
 * went in, water by what is left of it after the oven, the substance of Annex II set off in the list. By United States law
 * (21 CFR 101.4 and the act of 2004 on food allergens, from memory): in descending order of weight as they went in, the
 * allergen by its common name.
 */
import { BESIDE_KINDS } from '../formula/gather';
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { eatenOf, rawGrams, type Eaten } from './eaten';
import { lawWords } from './law-words';
import { ovenLossOf } from './nutrition';

export type LawList = 'eu' | 'us' | 'both';

export interface Declared {
  /** As the formula names it; of a compound, its own name: `filling`, `Country loaf`. */
  readonly name: string;
  /** g as it went in, all of one ingredient together; null where a weight is not known. */
  readonly grams: number | null;
  /** What the law wants set off, in its words and in capitals: `WHEAT`. */
  readonly allergens: readonly string[];
  /** What a compound is made of, in the same order. Empty for a plain ingredient. */
  readonly inside: readonly Declared[];
  /** The ingredient in the list, allergens in capitals: `dark RYE flour`, `bread flour (WHEAT)`, `filling (butter (MILK), sugar)`. */
  readonly text: string;
}

/** Heaviest first; what has no known weight comes last, in the order of the formula. Dusting and the grease of a tin are left out. */
export function declarationOf(formula: ResolvedFormula, list: LawList): readonly Declared[] {
  const raw = rawGrams(formula);
  const lostGrams = list === 'us' || raw === null ? 0 : raw * ovenLossOf(formula).loss;
  return inOrder(merged(eatenOf(formula), list), lostGrams);
}

function merged(eaten: readonly Eaten[], list: LawList): readonly Declared[] {
  const groups = new Map<string, Eaten[]>();
  for (const one of eaten) {
    if (one.grams === 0) continue;
    const key = isBeside(one.part) ? `part ${one.part.key}` : keyOf(one.line);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    if (isBeside(first.part)) return [compound(first.part.name, gramsOf(group), inOrder(merged(group.map((one) => ({ ...one, part: undefined })), list), 0))];
    return [declared(first.line, gramsOf(group), list)];
  });
}

function declared(line: ResolvedLine, grams: number | null, list: LawList): Declared {
  if (line.uses) return compound(line.uses.name, grams, declarationOf(line.uses, list));
  // Which flour feeds a culture nobody has written.
  if (line.starterHydrationPct !== undefined) return compound('sourdough culture', grams, [plainOne('flour', null, []), plainOne('water', null, [])]);
  const { eu = [], us = [] } = line.ingredient?.allergens ?? {};
  const ids = list === 'eu' ? eu : list === 'us' ? us : [...eu, ...us];
  return plainOne(line.ingredient?.isWater === true ? 'water' : line.name, grams, ids);
}

function plainOne(name: string, grams: number | null, ids: readonly string[]): Declared {
  const { text, allergens } = lawWords(name, ids);
  return { name, grams, allergens, inside: [], text };
}

function compound(name: string, grams: number | null, inside: readonly Declared[]): Declared {
  const allergens = [...new Set(inside.flatMap((one) => one.allergens))];
  return { name, grams, allergens, inside, text: inside.length === 0 ? name : `${name} (${inside.map(({ text }) => text).join(', ')})` };
}

/** @param lostGrams water gone in the oven, which no longer counts for its place */
function inOrder(list: readonly Declared[], lostGrams: number): readonly Declared[] {
  const weightOf = ({ name, grams }: Declared): number => (grams === null ? -1 : name === 'water' ? Math.max(0, grams - lostGrams) : grams);
  return [...list].sort((a, b) => weightOf(b) - weightOf(a));
}

function gramsOf(eaten: readonly Eaten[]): number | null {
  return eaten.reduce<number | null>((sum, { grams }) => (sum === null || grams === null ? null : sum + grams), 0);
}

function keyOf(line: ResolvedLine): string {
  if (line.starterHydrationPct !== undefined) return 'culture';
  return line.ingredient?.isWater === true ? 'water' : line.key;
}

/** A filling, a glaze and the like are foods of their own, and listed so. */
function isBeside(part: ResolvedPart | undefined): part is ResolvedPart {
  return part !== undefined && BESIDE_KINDS.has(part.kind);
}
