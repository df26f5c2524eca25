/**
 * A text, parsed and put into sections, with as much as possible kept from what was parsed before: a block whose text is
 * the same is the same block, and a section of the same blocks is the same section. All remembering rests on that.
 */
import { parseBlock, splitBlocks } from '../../grammar';
import type { Block, PlacedBlock, Text, Tree } from '../../grammar';
import type { Place, Section } from '../core/formula/model';
import { sectionsOf } from '../core/formula/sections';
import { LARGEST_TEXT } from './file';
import type { LoadedFile, SectionInFile } from './file';
import { lineIndexOf } from './lines';
import { markdownPageOf } from './markdown';

/** What `parsing` ends in. */
export interface Parsed extends LoadedFile {
  /** What was parsed: a Markdown page, or the same as `text`. */
  readonly source: string;
  /** `use` lines that name a path. */
  readonly usePaths: readonly { readonly block: number; readonly path: Text }[];
  readonly ingredientBlocks: readonly Block[];
}

/**
 * Parses a file, or the fences of a Markdown page, and stops after each block that was not known, so that a caller can give way to other work and come
 * back. Run to its end with `parsed`.
 */
export function* parsing(uri: string, source: string, isMarkdown: boolean, previous: Parsed | undefined): Generator<void, Parsed> {
  const page = isMarkdown ? markdownPageOf(source) : undefined;
  const text = page?.text ?? source;
  const tooLarge = text.length > LARGEST_TEXT;
  const known = new Map<string, Block>();
  for (const { block } of previous?.tree.blocks ?? []) known.set(block.text, block);

  const blocks: PlacedBlock[] = [];
  for (const { offset, text: blockText } of tooLarge ? [] : splitBlocks(text)) {
    let block = known.get(blockText);
    if (block === undefined) {
      block = parseBlock(blockText);
      known.set(blockText, block);
      yield;
    }
    blocks.push({ block, offset });
  }
  const tree: Tree = { blocks };
  const bare = blocks.map(placed => placed.block);
  return {
    uri, source, text, page, tree, tooLarge,
    lineIndex: page?.lineIndex ?? lineIndexOf(text),
    sections: placeSections(tree, bare, previous),
    usePaths: bare.flatMap(({ head: { node } }, block) => (node.kind === 'use' && node.path !== undefined ? [{ block, path: node.path }] : [])),
    ingredientBlocks: bare.filter(block => block.head.node.kind === 'ingredient'),
  };
}

/** Parses a file in one go. */
export function parsed(uri: string, source: string, isMarkdown: boolean, previous: Parsed | undefined): Parsed {
  const work = parsing(uri, source, isMarkdown, previous);
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

function placeSections(tree: Tree, blocks: readonly Block[], previous: Parsed | undefined): readonly SectionInFile[] {
  const known = new Map<Block, Section[]>();
  for (const { section } of previous?.sections ?? []) {
    const first = section.blocks[0];
    if (first === undefined) continue;
    const same = known.get(first);
    if (same === undefined) known.set(first, [section]);
    else same.push(section);
  }
  return sectionsOf(blocks).map(({ first, section }) => {
    const head = section.blocks[0];
    const candidates = head === undefined ? undefined : known.get(head);
    const kept = candidates?.find(candidate => sameSection(candidate, section)) ?? section;
    return { section: kept, firstBlock: first, offsetsOf: place => offsetsIn(tree, first, place) };
  });
}

function sameSection(a: Section, b: Section): boolean {
  return a.kind === b.kind && a.name === b.name && a.blocks.length === b.blocks.length
    && a.blocks.every((block, i) => block === b.blocks[i]);
}

function offsetsIn(tree: Tree, firstBlock: number, place: Place): { readonly start: number; readonly end: number } {
  const offset = tree.blocks[firstBlock + place.block]?.offset ?? 0;
  return { start: offset + place.start, end: offset + place.end };
}
