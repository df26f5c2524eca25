/**
 * Which lines of the base the lines of a variant mean. They are read from top to bottom, each against what those above have
 * left: after `swap walnuts for pistachios` comes `set pistachios to 90 g`.
 */
import { nameKey } from '../formula/draft';
import type { Place, Section } from '../formula/model';
import type { Catalogue } from '../ingredients/model';
import { calledLike, mainPart, partNamed, type Called, type ListedLine, type ListedPart } from './lines';
import type { Change, ChangeLine, VariantTrouble } from './model';

/** A line of the base, or one that the variant adds, and what the variant's lines have done to it. By indexes in `Variant.changes`. */
export interface WorkLine extends Called {
  readonly part: ListedPart;
  /** Undefined for an added one. */
  readonly listed: ListedLine | undefined;
  name: string;
  names: string[];
  renamed: number | undefined;
  amounted: number | undefined;
  dropped: number | undefined;
  readonly added: number | undefined;
}

export interface PlacedChanges {
  readonly changes: readonly Change[];
  readonly lines: readonly WorkLine[];
  /** Blocks of parts that nothing takes in any more. */
  readonly goneParts: readonly number[];
  readonly troubles: readonly VariantTrouble[];
}

/**
 * @param parts of the base, without those that the variant has itself
 * @param ownParts names of the variant's own parts, lower case
 * @param left a change, by its index, that is not applied
 */
export function placedChanges(section: Section, parts: readonly ListedPart[], ownParts: ReadonlySet<string>, catalogue: Catalogue, left: number | undefined): PlacedChanges {
  const lines: WorkLine[] = parts.flatMap((part) => part.lines.map((listed) => ({
    part, listed, name: listed.name.text, names: [listed.name.text], renamed: undefined, amounted: undefined, dropped: undefined, added: undefined,
  })));
  const troubles: VariantTrouble[] = [];
  const changes: Change[] = [];
  for (const { node, place } of changeLinesIn(section)) {
    const change = changes.length;
    const at = (span: { readonly start: number; readonly end: number }): Place => ({ block: place.block, start: span.start, end: span.end });
    const part = targetOf(node, change, at, { parts, ownParts, troubles });
    const met = part === undefined || change === left ? [] : applied(node, change, at, part, { lines, troubles, catalogue });
    changes.push({ node, place, lines: met.flatMap(({ listed }) => (listed === undefined ? [] : [{ block: listed.block, start: listed.node.start, end: listed.node.end }])), part: part?.block });
  }
  return { changes, lines, goneParts: goneParts(section, parts, lines), troubles };
}

/** The lines of a section that change another, in the order of the text. */
export function changeLinesIn({ blocks }: Section): readonly { readonly node: ChangeLine; readonly place: Place }[] {
  return blocks.flatMap(({ head, lines }, block) => (head.node.kind !== 'formula' && head.node.kind !== 'dish' ? [] : lines.flatMap(({ node }) => (
    node.kind === 'swap' || node.kind === 'set' || node.kind === 'add' || node.kind === 'drop' ? [{ node, place: { block, start: node.start, end: node.end } }] : []
  ))));
}

interface Targets {
  readonly parts: readonly ListedPart[];
  readonly ownParts: ReadonlySet<string>;
  readonly troubles: VariantTrouble[];
}

/** The part that a line changes. */
function targetOf(node: ChangeLine, change: number, at: (span: { start: number; end: number }) => Place, { parts, ownParts, troubles }: Targets): ListedPart | undefined {
  const found = node.part === undefined ? mainPart(parts) : partNamed(parts, node.part.text);
  if (found !== undefined) return found;
  troubles.push({
    kind: 'part-missing', change, place: at(node.part ?? node.keyword), name: node.part?.text ?? '', isOwn: ownParts.has(nameKey(node.part?.text ?? 'dough')), parts: parts.map(({ name }) => name),
  });
  return undefined;
}

interface Scene {
  readonly lines: WorkLine[];
  readonly troubles: VariantTrouble[];
  readonly catalogue: Catalogue;
}

/** The lines that a change was made to. */
function applied(node: ChangeLine, change: number, at: (span: { start: number; end: number }) => Place, part: ListedPart, scene: Scene): readonly WorkLine[] {
  const { lines, troubles, catalogue } = scene;
  if (node.kind === 'add') {
    const { name } = node.line;
    lines.push({ part, listed: undefined, name: name.text, names: [name.text], renamed: undefined, amounted: undefined, dropped: undefined, added: change });
    return [];
  }
  const name = node.kind === 'swap' ? node.from : node.name;
  const place = at(name);
  const inPart = lines.filter((line) => line.part === part);
  // Names that are there now go before those that were there.
  const now = inPart.filter((line) => line.dropped === undefined).map((line) => ({ line, names: [line.name] }));
  const were = inPart.map((line) => ({ line, names: line.names }));
  const matches = firstOf([() => calledLike(name.text, now, catalogue), () => calledLike(name.text, were, catalogue)]).map(({ line }) => line);
  const found = node.part === undefined && matches.length === 0 ? elsewhere(name.text, part, scene, false) : [];
  if (matches.length === 0) {
    const nearest = [...new Set(now.map(({ line }) => line.name))];
    troubles.push({ kind: 'no-match', change, place, name: name.text, part: part.name, nearest, elsewhere: [...new Set(found.map((line) => line.part.name))] });
    return [];
  }
  const candidates = [...new Set(matches.map((line) => nameKey(line.name)))];
  if (candidates.length > 1 || (node.kind === 'set' && matches.length > 1)) {
    const written = [...new Set(matches.map((line) => line.name))];
    troubles.push({ kind: 'unclear', change, place, name: name.text, part: part.name, candidates: written, lines: placesOf(matches) });
    return [];
  }
  const first = earlier(node, matches);
  if (first !== undefined) {
    troubles.push({ kind: 'twice', change, place, name: name.text, first });
    return [];
  }
  for (const line of matches) {
    if (node.kind === 'swap') Object.assign(line, { name: node.to.text, names: [...line.names, node.to.text], renamed: change });
    else if (node.kind === 'set') line.amounted = change;
    else line.dropped = change;
  }
  const others = node.part === undefined && node.kind !== 'set' ? elsewhere(name.text, part, scene, true) : [];
  if (others.length > 0) {
    troubles.push({ kind: 'elsewhere-too', change, place, name: name.text, part: part.name, parts: [...new Set(others.map((line) => line.part.name))], lines: placesOf(others) });
  }
  return matches;
}

/** The change that was made to a line already where another would undo it, or say it again. */
function earlier(node: Exclude<ChangeLine, { kind: 'add' }>, matches: readonly WorkLine[]): number | undefined {
  for (const { added, dropped, renamed, amounted } of matches) {
    const before = node.kind === 'swap' ? renamed : node.kind === 'set' ? amounted : (renamed ?? amounted);
    const found = added ?? dropped ?? before;
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Lines of that ingredient in the other parts. */
function elsewhere(name: string, part: ListedPart, { lines, catalogue }: Scene, inFull: boolean): readonly WorkLine[] {
  const others = lines.filter((line) => line.part !== part && line.listed !== undefined && line.dropped === undefined && line.renamed === undefined).map((line) => ({ line, names: [line.name] }));
  return calledLike(name, others, catalogue, inFull).map(({ line }) => line);
}

function placesOf(lines: readonly WorkLine[]): readonly Place[] {
  return lines.flatMap(({ listed }) => (listed === undefined ? [] : [{ block: listed.block, start: listed.node.start, end: listed.node.end }]));
}

function firstOf<T>(ways: readonly (() => readonly T[])[]): readonly T[] {
  for (const way of ways) {
    const found = way();
    if (found.length > 0) return found;
  }
  return [];
}

/** Parts that were taken in by lines that are dropped or swapped, and by no other; then those that only such parts took in. */
function goneParts(section: Section, parts: readonly ListedPart[], lines: readonly WorkLine[]): readonly number[] {
  const gone = new Set<ListedPart>();
  const ownLines = section.blocks.flatMap((block) => block.lines.flatMap(({ node }) => (node.kind === 'ingredient' ? [nameKey(node.name.text)] : [])));
  const takes = (name: string, part: ListedPart): boolean => nameKey(name) === part.key;
  for (;;) {
    const next = parts.find((part) => {
      if (gone.has(part)) return false;
      const was = lines.filter((line) => line.listed !== undefined && takes(line.listed.name.text, part));
      const isLeft = lines.some((line) => line.dropped === undefined && !gone.has(line.part) && takes(line.name, part)) || ownLines.includes(part.key);
      return was.length > 0 && !isLeft;
    });
    if (next === undefined) return [...gone].map(({ block }) => block);
    gone.add(next);
  }
}
