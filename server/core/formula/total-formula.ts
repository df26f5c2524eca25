/** From a total formula to its final dough: what each preferment already carries is taken out, line by line. */
import { makingOrder } from './order';
import type { ResolvedLine, ResolvedPart, Trouble } from './model';

interface Taken {
  readonly finalDough: ResolvedPart;
  readonly troubles: readonly Trouble[];
}

/** Less than this is binary dust, g per g. */
const DUST = 1e-9;

/**
 * @param parts all parts, the total formula as written among them
 * @param total index of the total formula
 * @param producersFirst the parts in the order of making
 * @returns the total formula as the final dough: the list's lines with what is left to weigh (`listed` keeps what the
 *   list says), then a line for each part taken in. Something that a part uses and the list does not hold, or not enough
 *   of it, is a trouble; nothing ever goes below zero.
 */
export function takeOutPreferments(parts: readonly ResolvedPart[], total: number, producersFirst: readonly number[]): Taken {
  const list = parts[total];
  if (!list) throw new RangeError(`no part ${total}`);
  const troubles: Trouble[] = [];
  const listed = list.lines.filter((line) => line.part === undefined);
  const takenIn = list.lines.filter((line) => line.part !== undefined);
  const left = listed.map((line) => line.grams);
  const inside = contentsOfParts(parts, producersFirst);

  for (const taking of takenIn) {
    const part = taking.part === undefined ? undefined : parts[taking.part];
    if (!part || taking.grams === null || !part.yieldGrams) continue;
    for (const need of listedNeeds(scaled(inside[taking.part ?? 0] ?? [], taking.grams / part.yieldGrams), listed)) {
      const missing = takeFrom(listed, left, need);
      if (missing <= DUST * Math.max(1, need.grams)) continue;
      const line = listed.find(({ key, inDough }) => key === need.key && inDough);
      troubles.push({
        kind: 'total-leaves-out',
        place: taking.namePlace,
        part: part.name,
        ingredient: need.name,
        neededGrams: need.grams,
        listedGrams: need.grams - missing,
        listed: line?.amountPlace,
      });
    }
  }

  const flour = listed.reduce((sum, line, i) => sum + (line.inDough && line.role === 'flour' ? (left[i] ?? 0) : 0), 0);
  const pctOf = (grams: number | null) => (grams === null || flour <= 0 ? null : (grams / flour) * 100);
  const weighed = listed.map((line, i): ResolvedLine => {
    const grams = left[i] ?? null;
    const share = line.grams ? (grams ?? 0) / line.grams : 0;
    return {
      ...line,
      grams,
      pct: line.inDough ? pctOf(grams) : line.pct,
      listed: { grams: line.grams, pct: line.pct },
      flourGrams: line.flourGrams * share,
      waterGrams: line.waterGrams * share,
    };
  });
  const rows = takenIn.map((line): ResolvedLine => ({ ...line, pct: pctOf(line.grams) }));
  const flourKnown = listed.every((line) => line.role !== 'flour' || line.grams !== null);
  const lines = [...weighed, ...rows];
  return {
    finalDough: { ...list, lines, grams: sumOf(lines.filter((line) => line.inDough)), flourGrams: flourKnown ? flour : null },
    troubles,
  };
}

/** What a total list has to hold for so many grams of a part: something for each ingredient, a starter by its name only where the list names it. */
export function needsOf(parts: readonly ResolvedPart[], part: number, grams: number, listed: readonly Listed[]): readonly Need[] {
  const { producersFirst } = makingOrder(parts.map(({ lines }) => lines.map((line) => line.part)));
  const made = parts[part]?.yieldGrams;
  return made ? listedNeeds(scaled(contentsOfParts(parts, producersFirst)[part] ?? [], grams / made), listed) : [];
}

function listedNeeds(needs: readonly Need[], listed: readonly Listed[]): readonly Need[] {
  return merge(needs.flatMap((need) => asListed(need, listed, needs)));
}

/** A line of a total list, as far as it counts what it is of. */
export type Listed = Pick<ResolvedLine, 'key' | 'name' | 'role' | 'inDough'>;

export interface Need {
  readonly key: string;
  readonly name: string;
  readonly grams: number;
  readonly isFlour: boolean;
  readonly starterFlourGrams: number;
}

/** Everything weighed into each part as a whole, the parts inside it opened up: one need per ingredient. */
function contentsOfParts(parts: readonly ResolvedPart[], producersFirst: readonly number[]): readonly (readonly Need[])[] {
  const inside: (readonly Need[])[] = parts.map(() => []);
  for (const p of producersFirst) {
    inside[p] = merge((parts[p]?.lines ?? []).flatMap((line): readonly Need[] => {
      if (!line.inDough || line.grams === null) return [];
      if (line.part !== undefined) {
        const made = parts[line.part]?.yieldGrams;
        return made ? scaled(inside[line.part] ?? [], line.grams / made) : [];
      }
      const starter = line.starterHydrationPct !== undefined;
      return [{ key: line.key, name: line.name, grams: line.grams, isFlour: line.role === 'flour', starterFlourGrams: starter ? line.flourGrams : 0 }];
    }));
  }
  return inside;
}

function scaled(needs: readonly Need[], factor: number): readonly Need[] {
  return needs.map((need) => ({ ...need, grams: need.grams * factor, starterFlourGrams: need.starterFlourGrams * factor }));
}

/**
 * A starter that the list does not name counts as the flour and water that it is: its flour as the flour that the part
 * uses most of among those listed, else the list's first.
 */
function asListed(need: Need, listed: readonly Listed[], siblings: readonly Need[]): readonly Need[] {
  if (need.key !== 'starter' || listed.some((line) => line.key === 'starter' && line.inDough)) return [need];
  const flours = listed.filter((line) => line.role === 'flour' && line.inDough);
  const used = siblings
    .filter((other) => other.isFlour && flours.some((line) => line.key === other.key))
    .reduce<Need | undefined>((most, other) => (most && most.grams >= other.grams ? most : other), undefined);
  const flour = flours.find((line) => line.key === used?.key) ?? flours[0];
  const water = need.grams - need.starterFlourGrams;
  const plain = { isFlour: false, starterFlourGrams: 0 };
  return [
    { ...plain, key: flour?.key ?? 'flour', name: flour?.name ?? 'flour', grams: need.starterFlourGrams, isFlour: true },
    { ...plain, key: 'water', name: 'water', grams: water },
  ];
}

function merge(needs: readonly Need[]): readonly Need[] {
  const byKey = new Map<string, Need>();
  for (const need of needs) {
    const before = byKey.get(need.key);
    byKey.set(need.key, before ? { ...before, grams: before.grams + need.grams, starterFlourGrams: before.starterFlourGrams + need.starterFlourGrams } : need);
  }
  return [...byKey.values()];
}

/** Takes a need out of the lines that list it, in order; returns what they lack. */
function takeFrom(listed: readonly ResolvedLine[], left: (number | null)[], need: Need): number {
  let wanted = need.grams;
  listed.forEach((line, i) => {
    const have = left[i];
    if (line.key !== need.key || !line.inDough || have === undefined) return;
    if (have === null) {
      wanted = 0; // Its weight is not known, which is said elsewhere; whether it is enough cannot be.
      return;
    }
    const taken = Math.min(have, wanted);
    left[i] = have - taken <= DUST * Math.max(1, have) ? 0 : have - taken;
    wanted -= taken;
  });
  return wanted;
}

function sumOf(lines: readonly ResolvedLine[]): number | null {
  return lines.reduce<number | null>((sum, line) => (sum === null || line.grams === null ? null : sum + line.grams), 0);
}
