/** What the checks on `use` lines share. */
import type { CheckContext } from './check';
import type { Found } from './define';
import { placeOf } from './walk';

type UseProblem = 'not-found' | 'outside' | 'itself' | 'not-bake';

/** `use` heads whose path has this problem. A `use` may stand behind a formula and is then a block of its section. */
export function badUses({ section, useProblem }: CheckContext, problem: UseProblem, message: (path: string) => string): readonly Found[] {
  return section.blocks.flatMap((block, index): readonly Found[] => {
    const head = block.head.node;
    if (head.kind !== 'use' || head.path === undefined || useProblem?.(head.path.text) !== problem) {
      return [];
    }
    return [{ place: placeOf(index, head.path), message: message(head.path.text) }];
  });
}
