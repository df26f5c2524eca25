/** Preferments of a bake day: those of the same make are put together once and divided among the doughs. */
import type { Role } from '../../../grammar';
import type { ResolvedFormula, ResolvedPart } from '../formula/model';
import type { Ingredient } from '../ingredients/model';
import type { Batch } from './batches';

export interface Build {
  /** `levain`, or the name that all its formulas give it. */
  readonly name: string;
  /** What goes to the doughs and what is kept, g. */
  readonly totalGrams: number | null;
  /** Held back to feed the culture, once: the most that one of the formulas keeps. */
  readonly keepGrams: number;
  readonly lines: readonly BuildLine[];
  readonly portions: readonly Portion[];
}

export interface BuildLine {
  readonly name: string;
  readonly key: string;
  readonly role: Role;
  readonly ingredient: Ingredient | undefined;
  readonly isStarter: boolean;
  readonly grams: number | null;
}

export interface Portion {
  /** Index into the batches. */
  readonly batch: number;
  /** Index into that formula's parts. */
  readonly part: number;
  readonly grams: number | null;
}

export interface Built {
  readonly builds: readonly Build[];
  /** Why some that look alike are built apart; sentences. */
  readonly notes: readonly string[];
}

/**
 * The builds of a day's batches. Two preferments are the same when the same ingredients stand in them in the same shares, to a
 * tenth of a per cent, and they ripen for as long in the same warmth; whatever they are called. A preferment that
 * takes in another, or goes into another, stays with its formula.
 */
export function buildsOf(batches: readonly Batch[]): Built {
  const groups = new Map<string, Portion[]>();
  const makes = new Map<string, Map<string, Set<string>>>();
  batches.forEach((batch, index) => {
    for (const part of prefermentsOf(batch.scaled)) {
      const resolved = batch.scaled.parts[part];
      if (!resolved) continue;
      const make = makeOf(resolved);
      groups.set(make, [...(groups.get(make) ?? []), { batch: index, part, grams: resolved.calledForGrams }]);
      const called = resolved.name.toLowerCase();
      const ofName = makes.get(called) ?? new Map<string, Set<string>>();
      makes.set(called, ofName.set(make, (ofName.get(make) ?? new Set()).add(batch.formula.name)));
    }
  });
  const notes = [...makes].flatMap(([name, different]) =>
    different.size > 1 ? [`There are ${different.size} makes of ${name}, each built by itself: ${[...different.values()].map((formulas) => `for ${[...formulas].join(' and ')}`).join('; ')}.`] : []);
  return { builds: [...groups.values()].map((portions) => buildFor(portions, batches)), notes };
}

/** The build that makes so many portions of one make. */
export function buildFor(portions: readonly Portion[], batches: readonly Batch[]): Build {
  const parts = portions.flatMap(({ batch, part }) => {
    const of = batches[batch];
    const [scaled, written] = [of?.scaled.parts[part], of?.formula.parts[part]];
    return scaled && written ? [{ scaled, written }] : [];
  });
  const names = new Set(parts.map(({ scaled }) => scaled.name));
  const [first] = parts;
  const keepGrams = parts.reduce((most, { written }) => Math.max(most, written.keepGrams), 0);
  const called = portions.reduce<number | null>((sum, { grams }) => (sum === null || grams === null ? null : sum + grams), 0);
  const totalGrams = called === null ? null : called + keepGrams;
  const madeGrams = first?.scaled.yieldGrams ?? null;
  const scale = totalGrams === null || madeGrams === null || madeGrams <= 0 ? null : totalGrams / madeGrams;
  return {
    name: names.size === 1 ? (first?.scaled.name ?? '') : (first?.scaled.kind ?? ''),
    totalGrams, keepGrams, portions,
    lines: (first?.scaled.lines ?? []).map(({ name, key, role, ingredient, grams, starterHydrationPct }) => ({
      name, key, role, ingredient, isStarter: starterHydrationPct !== undefined, grams: grams === null || scale === null ? null : grams * scale,
    })),
  };
}

/** Indices of the preferments that go into the dough alone and take in no other part. */
export function prefermentsOf(formula: ResolvedFormula): readonly number[] {
  return formula.parts.flatMap((part, index) => {
    if (!part.isPreferment || index === formula.dough || part.lines.some((line) => line.part !== undefined)) return [];
    const takers = formula.parts.filter((other) => other.lines.some((line) => line.part === index));
    return takers.length === 1 && takers[0] === formula.parts[formula.dough ?? -1] ? [index] : [];
  });
}

/** What two parts must have in common to be built as one. */
function makeOf({ lines, grams, steps, yieldGrams }: ResolvedPart): string {
  const share = (part: number | null): string => (part === null || grams === null || grams <= 0 ? '?' : (Math.round((1000 * part) / grams) / 10).toFixed(1));
  const ingredients = lines.map((line) => `${line.key} ${share(line.grams)} ${line.starterHydrationPct ?? ''}`).sort();
  const ripening = steps.map(({ node: { step, duration, temperature } }) =>
    `${step} ${duration?.lowMinutes ?? ''} ${duration?.highMinutes ?? ''} ${temperature?.kind === 'degrees' ? `${temperature.lowCelsius} ${temperature.highCelsius}` : (temperature?.kind ?? '')}`);
  return JSON.stringify([ingredients, ripening, share(yieldGrams)]);
}
