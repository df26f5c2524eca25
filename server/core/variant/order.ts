/** In which order the blocks of a variant come, when it is written out in full. */
import type { Block } from '../../../grammar';
import { isDoughKind, nameKey } from '../formula/draft';
import type { Section } from '../formula/model';
import type { Origin } from './model';

/** A block that the base gives. */
export interface Taken {
  readonly block: Block;
  readonly origin: Origin;
}

/** Indexes of a section's blocks as a formula written out in full has them. */
export function blocksInOrder(section: Section): readonly number[] {
  return section.variant?.order ?? section.blocks.map((_, index) => index);
}

/** What a part is taken in by; undefined for other blocks. */
export function partKeyOf(block: Block | undefined): string | undefined {
  const node = block?.head.node;
  return node?.kind === 'part' ? nameKey(node.name?.text ?? node.part) : undefined;
}

/** Own head, the base's head, its parts with the own ones where they belong, steps, and all that follows. */
export function orderOf(section: Section, base: Section, taken: readonly Taken[]): readonly number[] {
  const own = section.blocks.map(({ head: { node } }, index) => ({ kind: node.kind, index, key: partKeyOf(section.blocks[index]) }));
  const behind = taken.map(({ block, origin }, i) => ({ kind: block.head.node.kind, index: section.blocks.length + i, from: origin.block }));
  const places = blocksInOrder(base);
  const rank = (key: string): number => {
    const at = places.findIndex((index) => partKeyOf(base.blocks[index]) === key);
    if (at >= 0) return at;
    // A part more is made before the dough.
    const dough = places.findLastIndex((index) => isDough(base.blocks[index]));
    return dough < 0 ? places.length : dough - 0.5;
  };
  const parts = [
    ...own.flatMap(({ index, key }) => (key === undefined ? [] : [{ index, rank: rank(key) }])),
    ...behind.flatMap(({ kind, index, from }) => (kind === 'part' ? [{ index, rank: places.indexOf(from) }] : [])),
  ].sort((a, b) => a.rank - b.rank);
  const isHead = ({ kind }: { readonly kind: string }): boolean => kind === 'formula' || kind === 'dish';
  const head = [...own.filter(isHead), ...behind.filter(isHead)].map(({ index }) => index);
  const steps = [...own, ...behind].filter(({ kind }) => kind === 'steps').map(({ index }) => index);
  const inIt = new Set([...head, ...parts.map(({ index }) => index), ...steps]);
  return [...head, ...parts.map(({ index }) => index), ...steps, ...own.map(({ index }) => index).filter((index) => !inIt.has(index))];
}

function isDough(block: Block | undefined): boolean {
  return block?.head.node.kind === 'part' && isDoughKind(block.head.node.part);
}

