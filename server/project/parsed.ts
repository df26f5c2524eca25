/**
 * A text, parsed and put into sections, with as much as possible kept from what was parsed before: a block whose text is
 * the same is the same block, and a section of the same blocks is the same section. All remembering rests on that.
 *
 * After an edit only what lies between the first and the last changed character is cut into blocks again, with the block
 * above it, which it may have become a part of.
 */
import { parseBlock, splitBlocksFrom } from '../../grammar';
import type { Block, PlacedBlock, Text, Tree } from '../../grammar';
import type { Place, Section } from '../core/formula/model';
import { sectionsOf } from '../core/formula/sections';
import { basedOnOf } from '../core/variant/write-out';
import { differenceOf } from './difference';
import { LARGEST_TEXT } from './file';
import type { LoadedFile, SectionInFile } from './file';
import { lineIndexOf } from './lines';
import type { LineIndex } from './lines';
import { markdownPageOf } from './markdown';

/** What `parsing` ends in. */
export interface Parsed extends LoadedFile {
  /** What was parsed: a Markdown page, or the same as `text`. */
  readonly source: string;
  /** `use` lines that name a path. */
  readonly usePaths: readonly { readonly block: number; readonly path: Text }[];
  readonly ingredientBlocks: readonly Block[];
  /** Blocks by their text, those of the tree and some that it had. Handed on from one state to the next. */
  readonly known: Map<string, Block>;
}

/** Blocks that an edit put in the place of others. */
interface Recut {
  /** The first of them, by index. */
  readonly first: number;
  /** The first block after them: by its index before the edit. */
  readonly oldNext: number;
  readonly texts: readonly { readonly offset: number; readonly text: string }[];
  /** How far what follows has moved, characters. */
  readonly shift: number;
}

/**
 * Parses a file, or the fences of a Markdown page, and stops after each block that was not known, so that a caller can give way to other work and come
 * back. Run to its end with `parsed`.
 *
 * @param lineIndex of `source`, where it is known already
 */
export function* parsing(uri: string, source: string, isMarkdown: boolean, previous: Parsed | undefined, lineIndex?: LineIndex): Generator<void, Parsed> {
  const page = isMarkdown ? markdownPageOf(source) : undefined;
  const text = page?.text ?? source;
  const tooLarge = text.length > LARGEST_TEXT;
  const before = previous?.tooLarge === false ? previous : undefined;
  const recut = recutOf(before, tooLarge ? '' : text);
  const known = before?.known ?? new Map<string, Block>();

  const made: PlacedBlock[] = [];
  for (const { offset, text: blockText } of recut.texts) {
    let block = known.get(blockText);
    if (block === undefined) {
      const own = apart(blockText);
      block = parseBlock(own);
      known.set(own, block);
      yield;
    }
    made.push({ block, offset });
  }
  const old = before?.tree.blocks ?? [];
  const kept = old.slice(recut.oldNext);
  const moved = recut.shift === 0 ? kept : kept.map(({ block, offset }) => ({ block, offset: offset + recut.shift }));
  const tree: Tree = { blocks: [...old.slice(0, recut.first), ...made, ...moved] };
  if (known.size > tree.blocks.length + MOST_UNUSED) {
    known.clear();
    for (const { block } of tree.blocks) known.set(block.text, block);
  }
  const lists = made.some(isListed) || old.slice(recut.first, recut.oldNext).some(isListed) || before === undefined || made.length !== recut.oldNext - recut.first
    ? listsOf(tree) : { usePaths: before.usePaths, ingredientBlocks: before.ingredientBlocks };
  return {
    uri, source, text, page, tree, tooLarge, known, ...lists,
    lineIndex: page?.lineIndex ?? lineIndex ?? lineIndexOf(text),
    sections: sectionsAfter(before, tree, recut, made.length),
  };
}

/** Texts of blocks that are remembered beyond those of the tree: what is undone or moved elsewhere is not parsed again. */
const MOST_UNUSED = 100;

/** Parses a file in one go. */
export function parsed(uri: string, source: string, isMarkdown: boolean, previous: Parsed | undefined, lineIndex?: LineIndex): Parsed {
  const work = parsing(uri, source, isMarkdown, previous, lineIndex);
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

/** A piece of a text that does not keep the whole of it in memory. */
function apart(piece: string): string {
  return JSON.parse(JSON.stringify(piece)) as string;
}

function isListed({ block: { head: { node: { kind } } } }: PlacedBlock): boolean {
  return kind === 'use' || kind === 'ingredient';
}

function listsOf({ blocks }: Tree): Pick<Parsed, 'usePaths' | 'ingredientBlocks'> {
  return {
    usePaths: blocks.flatMap(({ block: { head: { node } } }, block) => (node.kind === 'use' && node.path !== undefined ? [{ block, path: node.path }] : [])),
    ingredientBlocks: blocks.map(({ block }) => block).filter(({ head }) => head.node.kind === 'ingredient'),
  };
}

/** Cuts again what an edit may have changed. */
function recutOf(previous: Parsed | undefined, text: string): Recut {
  const old = previous?.tree.blocks ?? [];
  const { start, oldEnd, newEnd } = differenceOf(previous?.text ?? '', text);
  const shift = newEnd - oldEnd;
  if (shift === 0 && start === newEnd && previous !== undefined) return { first: old.length, oldNext: old.length, texts: [], shift };
  const touched = firstWhere(old.length, index => (old[index]?.offset ?? 0) > start) - 1;
  const first = Math.max(0, touched - 1);
  // What stands first in a file does so for reasons of its own: it may have no head, or a byte-order mark.
  let oldNext = Math.max(1, firstWhere(old.length, index => (old[index]?.offset ?? 0) >= oldEnd));
  const { blocks: texts, end } = splitBlocksFrom(text, old[first]?.offset ?? 0, at => {
    if (at < newEnd) return false;
    while (oldNext < old.length && (old[oldNext]?.offset ?? 0) + shift < at) oldNext++;
    return (old[oldNext]?.offset ?? NaN) + shift === at;
  });
  return { first, oldNext: end === text.length ? old.length : oldNext, texts, shift };
}

/** The first of so many indexes for which something holds that holds for all after it; their number when it holds for none. */
function firstWhere(count: number, holds: (index: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Groups blocks into sections where the edit may have changed the grouping, and keeps the others, moved. */
function sectionsAfter(previous: Parsed | undefined, tree: Tree, { first, oldNext }: Recut, made: number): readonly SectionInFile[] {
  const old = previous?.sections ?? [];
  const shift = first + made - oldNext;
  // The section that holds the first new block, and the one above it: without its head, a section becomes a part of that.
  const from = Math.max(0, firstWhere(old.length, index => (old[index]?.firstBlock ?? 0) > first) - 2);
  // What follows is as it was from the first section on that begins by itself, whatever stands above it.
  let next = firstWhere(old.length, index => (old[index]?.firstBlock ?? 0) >= oldNext);
  while (next < old.length && !opensAlways(old[next]?.section)) next++;
  const fromBlock = old[from]?.firstBlock ?? 0;
  const lastBlock = next < old.length ? (old[next]?.firstBlock ?? 0) + shift : tree.blocks.length;
  const changed = sectionsOf(tree.blocks.slice(fromBlock, lastBlock).map(({ block }) => block));
  const keptOf = keeping(old.slice(from, next).map(({ section }) => section));
  return [
    ...old.slice(0, from).map(({ section, firstBlock }) => new SectionInTree(section, firstBlock, tree)),
    ...changed.map(({ first: at, section }) => new SectionInTree(keptOf(section), fromBlock + at, tree)),
    ...old.slice(next).map(({ section, firstBlock }) => new SectionInTree(section, firstBlock + shift, tree)),
  ];
}

function opensAlways(section: Section | undefined): boolean {
  const kind = section?.blocks[0]?.head.node.kind;
  return kind === 'formula' || kind === 'dish' || kind === 'plan';
}

/** For a section, the one of `old` that is the same, each once: two formulas that read alike are two. */
function keeping(old: readonly Section[]): (section: Section) => Section {
  const byFirst = new Map<Block | undefined, Section[]>();
  for (const section of old) {
    const alike = byFirst.get(section.blocks[0]);
    if (alike === undefined) byFirst.set(section.blocks[0], [section]);
    else alike.push(section);
  }
  return section => {
    const alike = byFirst.get(section.blocks[0]) ?? [];
    const at = alike.findIndex(one => sameSection(one, section));
    return at < 0 ? section : alike.splice(at, 1)[0] ?? section;
  };
}

function sameSection(a: Section, b: Section): boolean {
  return a.kind === b.kind && a.name === b.name && a.blocks.length === b.blocks.length
    && a.blocks.every((block, i) => block === b.blocks[i]);
}

class SectionInTree implements SectionInFile {
  readonly section: Section;
  readonly firstBlock: number;
  readonly #tree: Tree;

  constructor(section: Section, firstBlock: number, tree: Tree) {
    this.section = section;
    this.firstBlock = firstBlock;
    this.#tree = tree;
  }

  offsetsOf(place: Place): { readonly start: number; readonly end: number } {
    const { block, start, end } = place.block < this.section.blocks.length ? place : inheritedPlace(this.section);
    const offset = this.#tree.blocks[this.firstBlock + block]?.offset ?? 0;
    return { start: offset + start, end: offset + end };
  }
}

/** For what a variant has from its base, where nobody knows which of its lines brought it: the line that names the base. */
function inheritedPlace(section: Section): Place {
  const basedOn = basedOnOf(section);
  return basedOn === undefined ? { block: 0, start: 0, end: 0 } : { block: basedOn.block, start: basedOn.node.start, end: basedOn.node.end };
}
