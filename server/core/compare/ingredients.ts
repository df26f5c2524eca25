/** What is weighed: added, dropped, swapped, moved to another part, more or less of it, and the parts themselves. */
import type { Ingredient } from '../ingredients/model';
import { foldName } from '../ingredients/names';
import type { Entry, Weighed } from './entries';
import { factorOf, gradeOf, isSame, isSameSize, type WeightPair } from './factor';
import type { Paired } from './likeness';
import type { Change, Fact } from './model';
import { MOST_SWAP_RATIO, ROUNDING_WORTH_TELLING, SAME_SHARE_OF_SIZE } from './thresholds';
import { amountWords } from './words';

interface Placed {
  readonly part: number;
  readonly entry: Entry;
}

/** The two versions of one thing that is weighed. */
interface Match {
  readonly before: Placed;
  readonly after: Placed;
}

export interface Weights {
  readonly factor: number;
  readonly changes: readonly Change[];
  /** Names of before, folded, that are another name now: of swaps and renames. */
  readonly renamed: ReadonlyMap<string, string>;
}

/** Changes of all parts and what is in them. The parts have been paired. */
export function compareWeights(before: Weighed, after: Weighed, paired: Paired): Weights {
  const partAfter = new Map(paired.pairs);
  const idBefore = ({ taken, id, purpose }: Entry): string => (
    taken === undefined ? id : `part ${String(partAfter.get(taken) ?? `gone ${String(taken)}`)}${purpose === undefined ? '' : ` for ${purpose}`}`
  );
  const matches: Match[] = [];
  const dropped: Placed[] = [];
  const added: Placed[] = [];
  for (const [i, j] of paired.pairs) {
    const there = new Map((after.entries[j] ?? []).map((entry) => [entry.id, entry]));
    for (const entry of before.entries[i] ?? []) {
      const now = there.get(idBefore(entry));
      if (now === undefined) dropped.push({ part: i, entry });
      else matches.push({ before: { part: i, entry }, after: { part: j, entry: now } });
      there.delete(idBefore(entry));
    }
    for (const entry of there.values()) added.push({ part: j, entry });
  }
  for (const part of paired.onlyBefore) for (const entry of before.entries[part] ?? []) dropped.push({ part, entry });
  for (const part of paired.onlyAfter) for (const entry of after.entries[part] ?? []) added.push({ part, entry });

  const factor = factorOf(matches.flatMap(weightPair));
  const facts = new Facts(before, after);
  const renamed = new Map<string, string>();
  const changes: Change[] = [...partChanges(before, after, paired, facts)];

  // A part that went takes its line in the dough along, and one that came brings it.
  const isOwn = ({ entry: { taken } }: Placed, gone: readonly number[]): boolean => taken === undefined || !gone.includes(taken);
  const left = pairLeft(
    dropped.filter((one) => isOwn(one, paired.onlyBefore)), added.filter((one) => isOwn(one, paired.onlyAfter)),
    factor, ({ part }) => partAfter.get(part), idBefore,
  );
  const scaledParts = new Set<number>();
  for (const [i, j] of paired.pairs) {
    const own = matches.filter((match) => match.after.part === j);
    const isWhole = own.length === (before.entries[i] ?? []).length && own.length === (after.entries[j] ?? []).length;
    const times = isWhole ? partFactor(own, factor) : undefined;
    if (times === undefined) continue;
    scaledParts.add(j);
    changes.push({ what: 'part-scaled', before: facts.part('before', i), after: facts.part('after', j) });
  }
  for (const match of matches) {
    if (!scaledParts.has(match.after.part)) changes.push(...amountChanges(before, after, match, factor, facts, scaledParts));
    changes.push(...detailChanges(match, facts));
  }
  for (const { what, from, to } of left.pairs) {
    if (what !== 'ingredient-moved' && what !== 'ingredient-detail') renamed.set(foldName(from.entry.name), foldName(to.entry.name));
    changes.push({ what, before: facts.entry('before', from), after: facts.entry('after', to) });
    if (what === 'ingredient-name' || what === 'ingredient-detail') changes.push(...amountChanges(before, after, { before: from, after: to }, factor, facts, scaledParts));
  }
  for (const one of left.dropped) changes.push({ what: 'ingredient', before: facts.entry('before', one), after: undefined });
  for (const one of left.added) changes.push({ what: 'ingredient', before: undefined, after: facts.entry('after', one) });
  for (const [i, j] of paired.pairs) {
    const [was, is] = [before.formula.parts[i], after.formula.parts[j]];
    if (was !== undefined && is !== undefined) renamed.set(foldName(was.name), foldName(is.name));
  }
  return { factor, changes, renamed };
}

// --- parts ------------------------------------------------------------------------------------------------------------

function partChanges(before: Weighed, after: Weighed, { pairs, onlyBefore, onlyAfter }: Paired, facts: Facts): readonly Change[] {
  const changes: Change[] = [];
  for (const [i, j] of pairs) {
    const [was, is] = [before.formula.parts[i], after.formula.parts[j]];
    if (was === undefined || is === undefined) continue;
    const both = { before: facts.part('before', i), after: facts.part('after', j) };
    const isDough = i === before.formula.dough && j === after.formula.dough;
    if (was.kind !== is.kind && !(isDough && (was.kind === 'total formula' || is.kind === 'total formula'))) changes.push({ what: 'part-kind', ...both });
    else if (was.key !== is.key && !isDough) changes.push({ what: 'part-name', ...both });
  }
  for (const i of onlyBefore) changes.push({ what: 'part', before: facts.part('before', i), after: undefined });
  for (const j of onlyAfter) changes.push({ what: 'part', before: undefined, after: facts.part('after', j) });
  return changes;
}

/** The factor of a part that is made larger or smaller as a whole, while the rest is not; undefined for any other part. */
function partFactor(matches: readonly Match[], factor: number): number | undefined {
  const pairs = matches.flatMap(weightPair);
  if (pairs.length < 2 || pairs.length < matches.length || pairs.some((pair) => gradeOf(pair, factor) !== 'other')) return undefined;
  const own = factorOf(pairs);
  return !isSameSize(own) && pairs.every((pair) => gradeOf(pair, own) !== 'other') ? own : undefined;
}

// --- amounts ----------------------------------------------------------------------------------------------------------

function weightPair({ before, after }: Match): readonly WeightPair[] {
  const [a, b] = [before.entry, after.entry];
  if (a.taken !== undefined || b.taken !== undefined || a.grams === null || b.grams === null || a.grams <= 0 || b.grams <= 0) return [];
  return [pairOf(a, b, a.grams, b.grams)];
}

function pairOf(a: Entry, b: Entry, before: number, after: number): WeightPair {
  const rewritten = a.writing !== b.writing;
  const isUntouched = !rewritten && isShare(a) && a.ownPct !== null && b.ownPct !== null && isSame(a.ownPct, b.ownPct);
  return { before, after: isUntouched && Math.abs(after / before - 1) < SAME_SHARE_OF_SIZE ? before : after, rewritten };
}

function isShare({ writing }: Entry): boolean {
  return writing.startsWith('share');
}

/** @param scaledParts parts that are told to be larger or smaller as a whole, so that nothing more is said where they are taken in */
function amountChanges(before: Weighed, after: Weighed, match: Match, factor: number, facts: Facts, scaledParts: ReadonlySet<number>): readonly Change[] {
  const [a, b] = [match.before.entry, match.after.entry];
  const both = { before: facts.entry('before', match.before), after: facts.entry('after', match.after) };
  if (a.taken !== undefined || b.taken !== undefined) {
    // What is in a part is told there. Here counts how much of it is taken.
    const [was, is] = [shareTaken(before, a), shareTaken(after, b)];
    const isEqual = was === null || is === null ? was === is : Math.abs(was - is) < 0.001;
    const isWeight = a.writing === 'mass' && b.writing === 'mass' && !scaledParts.has(b.taken ?? -1);
    const isAnother = isWeight && a.grams !== null && b.grams !== null && gradeOf({ before: a.grams, after: b.grams, rewritten: false }, factor) === 'other';
    return isEqual && !isAnother ? [] : [{ what: 'amount', ...both }];
  }
  if (a.grams === null || b.grams === null) {
    return a.grams === b.grams && writtenAmount(a) === writtenAmount(b) ? [] : [{ what: 'amount', ...both }];
  }
  if (a.grams === 0 || b.grams === 0) return a.grams === b.grams ? [] : [{ what: 'amount', ...both }];
  switch (gradeOf(pairOf(a, b, a.grams, b.grams), factor)) {
    case 'same':
      return [];
    case 'rounded':
      return Math.abs(b.grams / (a.grams * factor) - 1) > ROUNDING_WORTH_TELLING ? [{ what: 'amount-rounded', ...both }] : [];
    case 'other':
      // Another share elsewhere in a dough of a set size moves the grams of every line, and none of them was touched.
      return a.writing === b.writing && isShare(a) && a.pct !== null && b.pct !== null && isSame(a.pct, b.pct) ? [] : [{ what: 'amount', ...both }];
  }
}

function shareTaken({ formula }: Weighed, { taken, grams }: Entry): number | null {
  const whole = taken === undefined ? null : (formula.parts[taken]?.yieldGrams ?? null);
  return grams === null || whole === null || whole <= 0 ? null : grams / whole;
}

function writtenAmount({ lines }: Entry): string {
  return lines.map(({ source }) => (source?.kind === 'ingredient' || source?.kind === 'uses' ? amountWords(source.amount) : '')).join(' and ');
}

function detailChanges({ before, after }: Match, facts: Facts): readonly Change[] {
  const [a, b] = [before.entry, after.entry];
  const changes: Change[] = [];
  if (a.taken === undefined && b.taken === undefined && foldName(a.name) !== foldName(b.name)) {
    changes.push({ what: 'ingredient-name', before: facts.entry('before', before), after: facts.entry('after', after) });
  }
  if (a.details.join() !== b.details.join()) {
    changes.push({ what: 'ingredient-detail', before: facts.entry('before', before), after: facts.entry('after', after) });
  }
  return changes;
}

// --- what came and went -----------------------------------------------------------------------------------------------

interface Left {
  readonly pairs: readonly { readonly what: 'ingredient-moved' | 'ingredient-swapped' | 'ingredient-name' | 'ingredient-detail'; readonly from: Placed; readonly to: Placed }[];
  readonly dropped: readonly Placed[];
  readonly added: readonly Placed[];
}

/**
 * Pairs what went with what came: the same thing for another purpose, the same thing in another part, one thing for another of the same
 * role in the same part. Each look-up is by name or in an ordered list, so that long lists cost little more than short ones.
 */
function pairLeft(
  dropped: readonly Placed[], added: readonly Placed[], factor: number, partAfter: (one: Placed) => number | undefined, idBefore: (entry: Entry) => string,
): Left {
  const pairs: Left['pairs'][number][] = [];
  const takenBefore = new Set<Placed>();
  const takenAfter = new Set<Placed>();
  const pair = (what: Left['pairs'][number]['what'], from: Placed, to: Placed): void => {
    pairs.push({ what, from, to });
    takenBefore.add(from);
    takenAfter.add(to);
  };
  const byName = (keyBefore: (one: Placed) => string, keyAfter: (one: Placed) => string, what: Left['pairs'][number]['what']): void => {
    const there = groupedBy(added.filter((one) => !takenAfter.has(one)), keyAfter);
    for (const from of dropped) {
      const to = takenBefore.has(from) ? undefined : there.get(keyBefore(from))?.shift();
      if (to !== undefined) pair(what, from, to);
    }
  };
  const thing = (entry: Entry, id: string): string => (entry.taken === undefined ? entry.key : id.replace(/ for .*$/, ''));
  byName(
    (one) => `${String(partAfter(one) ?? 'gone')} ${thing(one.entry, idBefore(one.entry))}`,
    (one) => `${String(one.part)} ${thing(one.entry, one.entry.id)}`,
    'ingredient-detail',
  );
  byName(({ entry }) => idBefore(entry), ({ entry }) => entry.id, 'ingredient-moved');
  // One for another: of the same role, in the same part, for the same purpose, the nearest in weight first.
  const swapKey = (part: number, { role, purpose }: Entry): string => `${String(part)} ${role} ${purpose ?? '-'}`;
  const isThing = ({ entry }: Placed): boolean => entry.taken === undefined;
  const there = groupedBy(added.filter((one) => !takenAfter.has(one) && isThing(one)), ({ part, entry }) => swapKey(part, entry));
  const here = groupedBy(dropped.filter((one) => !takenBefore.has(one) && isThing(one) && partAfter(one) !== undefined), (one) => swapKey(partAfter(one) ?? -1, one.entry));
  for (const [key, went] of here) {
    for (const [from, to] of inOrderOfWeight(went, there.get(key) ?? [], factor)) {
      const isRename = sameThing(from.entry.ingredient, to.entry.ingredient) && isSameWeight(from.entry, to.entry, factor);
      pair(isRename ? 'ingredient-name' : 'ingredient-swapped', from, to);
    }
  }
  return { pairs, dropped: dropped.filter((one) => !takenBefore.has(one)), added: added.filter((one) => !takenAfter.has(one)) };
}

/** Both lists by weight, each with the next that is near enough. */
function inOrderOfWeight(went: readonly Placed[], came: readonly Placed[], factor: number): readonly (readonly [Placed, Placed])[] {
  const byWeight = (a: Placed, b: Placed): number => (a.entry.grams ?? 0) - (b.entry.grams ?? 0);
  const [from, to] = [[...went].sort(byWeight), [...came].sort(byWeight)];
  const pairs: (readonly [Placed, Placed])[] = [];
  for (let i = 0, j = 0; i < from.length && j < to.length;) {
    const [a, b] = [from[i], to[j]];
    if (a === undefined || b === undefined) break;
    const [was, is] = [(a.entry.grams ?? 0) * factor, b.entry.grams ?? 0];
    if (was * MOST_SWAP_RATIO < is) i += 1;
    else if (is * MOST_SWAP_RATIO < was) j += 1;
    else {
      pairs.push([a, b]);
      i += 1;
      j += 1;
    }
  }
  return pairs;
}

function isSameWeight(a: Entry, b: Entry, factor: number): boolean {
  return a.grams !== null && b.grams !== null && gradeOf({ before: a.grams, after: b.grams, rewritten: a.writing !== b.writing }, factor) !== 'other';
}

/** The same thing under two names: everything that counts in a dough and on a label is the same. */
function sameThing(a: Ingredient | undefined, b: Ingredient | undefined): boolean {
  if (a === undefined || b === undefined) return false;
  const meaning = ({ role, composition, allergens, absorbs, eachGrams, gramsPerMl, cost }: Ingredient): string => (
    JSON.stringify([role, composition, allergens, absorbs, eachGrams, gramsPerMl, cost])
  );
  return meaning(a) === meaning(b);
}

function groupedBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

// --- facts ------------------------------------------------------------------------------------------------------------

class Facts {
  readonly #sides: { readonly before: Weighed; readonly after: Weighed };

  constructor(before: Weighed, after: Weighed) {
    this.#sides = { before, after };
  }

  part(side: 'before' | 'after', index: number): Fact {
    const { formula, compared } = this.#sides[side];
    const part = formula.parts[index];
    return {
      name: part?.name ?? '', part: part?.name ?? '', text: part?.kind ?? '', grams: part?.yieldGrams ?? null,
      ...(part !== undefined && { line: compared.lineOf(part.place) }),
    };
  }

  entry(side: 'before' | 'after', { part, entry }: Placed): Fact {
    const { formula, compared } = this.#sides[side];
    const [first] = entry.lines;
    const words = [...(entry.grams === null ? [writtenAmount(entry)] : []), ...entry.details].filter((each) => each !== '').join(', ');
    return {
      name: entry.name, part: formula.parts[part]?.name ?? '', grams: entry.grams, pct: entry.pct,
      ...(words !== '' && { text: words }),
      ...(first !== undefined && { line: compared.lineOf(first.place) }),
    };
  }
}
