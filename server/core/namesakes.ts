/** Blocks that are called alike: two formulas between which a name cannot choose, two `ingredient` blocks of one name. */
import type { Block } from '../../grammar';
import { nameKey } from './formula/draft';
import type { Section } from './formula/model';
import { ownName } from './ingredients/own';
import { foldName } from './ingredients/names';

/** A file that a `use` line names, with all that it brings in. */
export interface Brought {
  readonly path: string;
  readonly sections: readonly Section[];
}

/** Blocks that are called like one, itself left out. A block that stands twice with the same text is one object, named as often as it stands. */
export interface Namesakes {
  /** For the head of a formula or dish: those of this file and of the files that it reaches. For an `ingredient`: those of this file. */
  of(block: Block): readonly Block[];
  /**
   * For a `use` line: names of formulas that it brings in, and another `use` line too while this file has none of its own,
   * with the heads of all of them. What one file reaches by itself is told there.
   */
  ofUse(path: string): readonly { readonly name: string; readonly blocks: readonly Block[] }[];
}

/** The answers are the same whatever order the files were read in. */
export function namesakesAmong(own: readonly Section[], brought: readonly Brought[]): Namesakes {
  const heads = headsOf(own);
  const reached = [...new Set(brought.flatMap(({ sections }) => headsOf(sections)))];
  const byName = groupedBy([...heads, ...reached], formulaKey);
  const ownNames = new Set(heads.map(formulaKey));
  const ingredients = groupedBy(own.flatMap(({ blocks }) => blocks), ingredientKey);
  return {
    of(block) {
      const formula = formulaKey(block);
      if (formula !== undefined) return withoutOne(byName.get(formula), block);
      const ingredient = ingredientKey(block);
      return ingredient === undefined ? [] : withoutOne(ingredients.get(ingredient), block);
    },
    ofUse(path) {
      const here = new Set(brought.filter((one) => one.path === path).flatMap(({ sections }) => headsOf(sections)));
      const names = new Set([...here].map(formulaKey).filter((name) => name !== undefined && !ownNames.has(name)));
      return [...names].flatMap((name) => {
        const blocks = name === undefined ? [] : (byName.get(name) ?? []);
        const clashes = blocks.some((block) => !here.has(block) && !brought.some(({ sections }) => seesBoth(sections, block, here)));
        const first = blocks[0];
        return clashes && first !== undefined ? [{ name: writtenName(first), blocks }] : [];
      });
    },
  };
}

/** Whether one file brings in the block and one of its namesakes among `here`. */
function seesBoth(sections: readonly Section[], block: Block, here: ReadonlySet<Block>): boolean {
  const heads = headsOf(sections);
  return heads.includes(block) && heads.some((other) => here.has(other) && formulaKey(other) === formulaKey(block));
}

function headsOf(sections: readonly Section[]): readonly Block[] {
  return sections.flatMap(({ blocks: [first] }) => (first !== undefined && formulaKey(first) !== undefined ? [first] : []));
}

/** What a formula or dish is found by; undefined for any other block, and without a name. */
function formulaKey({ head: { node } }: Block): string | undefined {
  const name = node.kind === 'formula' || node.kind === 'dish' ? node.name?.text : undefined;
  return (name === undefined ? '' : nameKey(name)) || undefined;
}

function ingredientKey(block: Block): string | undefined {
  const name = block.head.node.kind === 'ingredient' ? ownName(block) : undefined;
  return (name === undefined ? '' : foldName(name)) || undefined;
}

function writtenName({ head: { node } }: Block): string {
  return node.kind === 'formula' || node.kind === 'dish' ? (node.name?.text ?? '') : '';
}

function groupedBy(blocks: readonly Block[], keyOf: (block: Block) => string | undefined): ReadonlyMap<string, readonly Block[]> {
  const groups = new Map<string, Block[]>();
  for (const block of blocks) {
    const key = keyOf(block);
    if (key === undefined) continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [block]);
    else group.push(block);
  }
  return groups;
}

function withoutOne(blocks: readonly Block[] = [], block: Block): readonly Block[] {
  const at = blocks.indexOf(block);
  // A block that is tried out (a formula at another size) is in no file yet, and the one it stands for is no other.
  return at < 0 ? [] : blocks.filter((_, index) => index !== at);
}
