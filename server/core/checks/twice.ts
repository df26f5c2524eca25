/** What the checks on names that stand twice share. */
import type { Block } from '../../../grammar';
import type { Place } from '../formula/model';
import type { Finding } from './check';
import { placeOf } from './walk';

/** The name in the head of a block, quotes included. */
export function headNamePlace(block: Block, index: number): Place {
  const { node } = block.head;
  return placeOf(index, 'name' in node && node.name !== undefined ? node.name : block.head);
}

/** The heads of other blocks, each once: one that stands several times is found wherever it stands. */
export function namesakesRelated(blocks: readonly Block[]): Finding['related'] {
  return [...new Set(blocks)].map((block) => {
    const { start, end } = headNamePlace(block, 0);
    return { elsewhere: block, start, end, message: 'The same name here.' };
  });
}
