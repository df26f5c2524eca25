/**
 * Two versions of a file or of a folder, compared by what they mean. Pure: two lists of analysed files in, a list of changes out.
 *
 *   compareFiles(before, after)   every formula, dish, plan and ingredient that differs
 *   sidesOfConflict(text)         the two texts that a merge left in one file
 */
import { nameKey } from '../formula/draft';
import { compareSections, onlyOneSide } from './formula';
import { bestPairs, likenessOf } from './likeness';
import { flipped, type ComparedFile, type ComparedSection, type SectionChanges } from './model';
import { LEAST_LIKENESS } from './thresholds';

export { hasConflict, sidesOfConflict, type ConflictSides } from './conflict';
export { stepLine } from './steps';
export * from './model';

interface Item {
  readonly path: string;
  /** Where it comes among all of its version. */
  readonly at: number;
  readonly one: ComparedSection;
}

/**
 * Every section that differs, in the order of the later version; what went away comes last. The answer for two versions the other way
 * round is the same with the sides swapped: they are always compared in one order, so that each choice between equals falls alike.
 */
export function compareFiles(before: readonly ComparedFile[], after: readonly ComparedFile[]): readonly SectionChanges[] {
  const [was, is] = [itemsOf(before), itemsOf(after)];
  const isTurned = textOf(was) > textOf(is);
  const found = isTurned ? compareItems(is, was).map(({ changes, from, to }) => ({ changes: flipped(changes), from: to, to: from })) : compareItems(was, is);
  return found
    .sort((a, b) => (a.to ?? Number.POSITIVE_INFINITY) - (b.to ?? Number.POSITIVE_INFINITY) || (a.from ?? 0) - (b.from ?? 0))
    .map(({ changes }) => changes)
    .filter(({ changes }) => changes.length > 0);
}

interface Found {
  readonly changes: SectionChanges;
  readonly from: number | undefined;
  readonly to: number | undefined;
}

function compareItems(before: readonly Item[], after: readonly Item[]): Found[] {
  const takenBefore = new Set<Item>();
  const takenAfter = new Set<Item>();
  const found: Found[] = [];
  const pair = (a: Item, b: Item): void => {
    takenBefore.add(a);
    takenAfter.add(b);
    found.push({ changes: compareSections(a.one, b.one, { before: a.path, after: b.path }), from: a.at, to: b.at });
  };
  const byKey = (keyOf: (item: Item) => string | undefined): void => {
    const there = new Map<string, Item[]>();
    for (const item of after) {
      const key = takenAfter.has(item) ? undefined : keyOf(item);
      if (key === undefined) continue;
      const group = there.get(key);
      if (group === undefined) there.set(key, [item]);
      else group.push(item);
    }
    for (const item of before) {
      const key = takenBefore.has(item) ? undefined : keyOf(item);
      const other = key === undefined ? undefined : there.get(key)?.shift();
      if (other !== undefined) pair(item, other);
    }
  };
  // By name in the same file; by name in another; what says exactly the same under another name; the only one without a name.
  byKey((item) => `${item.path}\n${nameIn(item)}`);
  byKey((item) => (item.one.section.name === '' ? undefined : nameIn(item)));
  byKey(({ path, one: { section } }) => (section.kind === 'stray' ? path : undefined));
  byKey(({ one: { section } }) => (section.kind === 'use' ? undefined : section.blocks.slice(1).map(({ text }) => text).join('').trim() || undefined));
  const left = (items: readonly Item[], taken: ReadonlySet<Item>): readonly Item[] => items.filter((item) => !taken.has(item) && isFormula(item));
  const contents = new Map<Item, Contents>();
  const contentsOf = (item: Item): Contents => {
    const known = contents.get(item) ?? contentsIn(item);
    contents.set(item, known);
    return known;
  };
  for (const [a, b] of bestPairs(left(before, takenBefore), left(after, takenAfter), LEAST_LIKENESS, (x, y) => formulaLikeness(contentsOf(x), contentsOf(y)))) pair(a, b);
  // A file with one formula is the story of that formula, and whoever names two such files wants the two compared.
  const [only, more] = before.filter(isFormula);
  const [other, others] = after.filter(isFormula);
  if (only !== undefined && other !== undefined && more === undefined && others === undefined && !takenBefore.has(only) && !takenAfter.has(other)) pair(only, other);
  for (const item of before) if (!takenBefore.has(item)) found.push({ changes: onlyOneSide(item.one, item.path, 'before'), from: item.at, to: undefined });
  for (const item of after) if (!takenAfter.has(item)) found.push({ changes: onlyOneSide(item.one, item.path, 'after'), from: undefined, to: item.at });
  return found;
}

function itemsOf(files: readonly ComparedFile[]): readonly Item[] {
  return files.flatMap(({ path, sections }) => sections.map((one) => ({ path, one }))).map((item, at) => ({ ...item, at }));
}

function textOf(items: readonly Item[]): string {
  return items.map(({ path, one }) => `${path}\n${one.section.blocks.map(({ text }) => text).join('')}`).join('\n');
}

/** Formulas and dishes are named alike; what a `use` brings in is its name. */
function nameIn({ one: { section } }: Item): string {
  const kind = section.kind === 'dish' ? 'formula' : section.kind;
  const head = section.blocks[0]?.head.node;
  return `${kind} ${nameKey(head?.kind === 'use' ? (head.path?.text ?? '') : section.name)}`;
}

function isFormula({ one: { section } }: Item): boolean {
  return section.kind === 'formula' || section.kind === 'dish';
}

// --- renamed formulas -------------------------------------------------------------------------------------------------

interface Contents {
  /** Ingredients by key, and % of the flour, or grams of a dish. */
  readonly amounts: ReadonlyMap<string, number>;
  readonly things: ReadonlySet<string>;
  readonly steps: ReadonlySet<string>;
}

function contentsIn({ one: { analysis } }: Item): Contents {
  const rows = analysis.sheet?.rows ?? [];
  const { parts = [], method = [] } = analysis.formula ?? {};
  return {
    amounts: new Map(rows.map(({ key, pct, grams }) => [key, pct ?? grams ?? 0])),
    things: new Set([...parts.map(({ kind }) => kind), ...parts.flatMap(({ lines }) => lines.map(({ key, part }) => (part === undefined ? key : 'part')))]),
    steps: new Set(method.map(({ node: { step, duration } }) => `${step} ${String(duration?.lowMinutes)} ${String(duration?.highMinutes)}`)),
  };
}

/** 0 to 1: half by what is in it, half by how much of each; the method counts where both have one. */
function formulaLikeness(a: Contents, b: Contents): number {
  let [least, most] = [0, 0];
  for (const key of new Set([...a.amounts.keys(), ...b.amounts.keys()])) {
    const [x, y] = [a.amounts.get(key) ?? 0, b.amounts.get(key) ?? 0];
    least += Math.min(x, y);
    most += Math.max(x, y);
  }
  const things = likenessOf(a.things, b.things);
  const weights = (things + (most > 0 ? least / most : things)) / 2;
  return a.steps.size === 0 || b.steps.size === 0 ? weights : weights * 0.75 + likenessOf(a.steps, b.steps) * 0.25;
}
