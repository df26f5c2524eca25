import type { Block } from '../../../grammar';
import type { Section } from './model';

/**
 * Groups the blocks of a file into sections: a formula, dish or plan with everything up to the next one; before the
 * first of these, each `use` and `ingredient` alone. Parts and steps that no formula opens stay together as a formula
 * without a name, so that a half-typed head does not take their numbers away.
 */
export function sectionsOf(blocks: readonly Block[]): readonly { readonly first: number; readonly section: Section }[] {
  const starts: number[] = [];
  let open: 'none' | 'formula' | 'loose' = 'none';
  blocks.forEach((block, index) => {
    switch (block.head.node.kind) {
      case 'formula':
      case 'dish':
      case 'plan':
        starts.push(index);
        open = 'formula';
        return;
      case 'use':
      case 'ingredient':
        if (open !== 'formula') {
          starts.push(index);
          open = 'none';
        }
        return;
      case 'part':
      case 'steps':
      case 'record':
      case 'unknown':
      case 'none':
        if (open === 'none') {
          starts.push(index);
          open = 'loose';
        }
    }
  });
  return starts.map((first, i) => {
    const own = blocks.slice(first, starts[i + 1] ?? blocks.length);
    return { first, section: sectionOf(own) };
  });
}

function sectionOf(blocks: readonly Block[]): Section {
  const head = blocks[0]?.head.node;
  const name = head && 'name' in head ? (head.name?.text ?? '') : '';
  if (!head) return { kind: 'stray', name, blocks };
  switch (head.kind) {
    case 'formula':
    case 'dish':
    case 'plan':
    case 'ingredient':
    case 'use':
      return { kind: head.kind, name, blocks };
    case 'part':
    case 'steps':
    case 'record':
    case 'unknown':
    case 'none':
      return { kind: blocks.some((block) => block.head.node.kind === 'part') ? 'formula' : 'stray', name: '', blocks };
  }
}

/** True for a formula section that no `formula "name"` opens. */
export function isHeadless(section: Section): boolean {
  return section.kind === 'formula' && section.blocks[0]?.head.node.kind !== 'formula';
}
