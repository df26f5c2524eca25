/** The one factor by which most weights of a formula grew or shrank. */
import { LEAST_SCALE, LEAST_SCALED_WEIGHTS, MOST_FACTORS, SAME_SHARE, scaleTolerance } from './thresholds';

/** The weights of one ingredient in one part, before and after, g; both known and more than nothing. */
export interface WeightPair {
  readonly before: number;
  readonly after: number;
  /** It is written another way, say as a share and then in grams, so that rounding is no change. */
  readonly rewritten: boolean;
}

/** How a weight stands to the one before it times a factor. */
export type Grade = 'same' | 'rounded' | 'other';

/** What was scaled, or written another way, may be off by what a scale cannot show. A weight in grams that is another now was changed by somebody. */
export function gradeOf({ before, after, rewritten }: WeightPair, factor: number): Grade {
  if (isSame(before * factor, after) || (isSameSize(factor) && isSame(before, after))) return 'same';
  const mayBeRounded = rewritten || !isSameSize(factor);
  return mayBeRounded && Math.abs(after - before * factor) <= scaleTolerance(before, after, factor) + 1e-9 ? 'rounded' : 'other';
}

export function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_SHARE * Math.max(Math.abs(a), Math.abs(b));
}

/**
 * The factor that most of the pairs follow, to what a scale shows. It is 1 where half of them are what they were, and where no
 * other has two pairs and half of them all. Of factors with as many, the one that more follow exactly, then the one nearer to 1.
 * Linear in the pairs.
 */
export function factorOf(pairs: readonly WeightPair[]): number {
  if (follow(pairs, 1).all * 2 >= pairs.length) return 1;
  let best = { factor: 1, all: 0, exactly: 0 };
  for (const factor of likelyFactors(pairs)) {
    const { all, exactly } = follow(pairs, factor);
    if (all < LEAST_SCALED_WEIGHTS || all * 2 < pairs.length || all < best.all) continue;
    const isNearer = Math.abs(Math.log(factor)) < Math.abs(Math.log(best.factor));
    if (all > best.all || exactly > best.exactly || (exactly === best.exactly && isNearer)) best = { factor, all, exactly };
  }
  return best.factor;
}

/** True for a factor that nobody would call another size. */
export function isSameSize(factor: number): boolean {
  return Math.abs(factor - 1) < LEAST_SCALE;
}

function follow(pairs: readonly WeightPair[], factor: number): { readonly all: number; readonly exactly: number } {
  const grades = pairs.map((pair) => gradeOf(pair, factor));
  return { all: grades.filter((grade) => grade !== 'other').length, exactly: grades.filter((grade) => grade === 'same').length };
}

/** Ratios of the pairs, the commonest first. Those within half a per cent are counted as one, and the heaviest pair's stands for them: it is the least rounded. */
function likelyFactors(pairs: readonly WeightPair[]): readonly number[] {
  const groups = new Map<number, { count: number; ratio: number; heaviest: number }>();
  for (const { before, after } of pairs) {
    const ratio = after / before;
    const key = Math.round(Math.log(ratio) / LEAST_SCALE);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { count: 1, ratio, heaviest: before });
    else {
      group.count += 1;
      if (before > group.heaviest) [group.ratio, group.heaviest] = [ratio, before];
    }
  }
  return [...groups.values()].sort((a, b) => b.count - a.count || b.heaviest - a.heaviest).slice(0, MOST_FACTORS).map(({ ratio }) => ratio);
}
