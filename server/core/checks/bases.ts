/** What a variant starts from, and whether that leads back to it. */
import type { Name, Span } from '../../../grammar';
import { nameKey } from '../formula/draft';
import type { Section } from '../formula/model';
import type { CheckContext } from './check';

/** The formula that a section is based on, and where it says so. */
export function baseOf({ blocks }: Section): { readonly name: Name & Span; readonly block: number } | undefined {
  for (const [block, { lines }] of blocks.entries()) {
    for (const { node } of lines) {
      if (node.kind === 'based-on') {
        return { name: node.base, block };
      }
    }
  }
  return undefined;
}

/** The names from a formula over its bases back to itself; undefined where the way ends, or leads into a ring of others. */
export function wayRound({ section, formulaNamed }: CheckContext): readonly string[] | undefined {
  const way = [section.name];
  const seen = new Set([nameKey(section.name)]);
  for (let next = baseOf(section); next !== undefined; ) {
    const key = nameKey(next.name.text);
    if (key === nameKey(section.name)) {
      return way;
    }
    const base = formulaNamed(key);
    if (base === undefined || seen.has(key)) {
      return undefined;
    }
    seen.add(key);
    way.push(base.name);
    next = baseOf(base);
  }
  return undefined;
}
