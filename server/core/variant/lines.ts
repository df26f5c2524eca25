/** The lines of a formula's parts, as the lines of a variant look for them. */
import type { FlourShareLine, IngredientLine, Name, PartKind, UsesLine } from '../../../grammar';
import { isDoughKind, nameKey } from '../formula/draft';
import type { Section } from '../formula/model';
import type { Catalogue } from '../ingredients/model';
import { foldName } from '../ingredients/names';

export interface ListedLine {
  /** Index of its block in the section. */
  readonly block: number;
  readonly node: IngredientLine | FlourShareLine | UsesLine;
  readonly name: Name;
}

export interface ListedPart {
  /** By which other parts take it in. */
  readonly key: string;
  /** As written, or the kind when it has no name of its own. */
  readonly name: string;
  readonly kind: PartKind;
  readonly block: number;
  readonly lines: readonly ListedLine[];
}

/** The parts of a formula or dish in the order of their blocks; the head of a dish is one where it lists what goes in. */
export function partsIn(section: Section): readonly ListedPart[] {
  return section.blocks.flatMap(({ head: { node }, lines }, block): readonly ListedPart[] => {
    const listed = lines.flatMap(({ node: line }): readonly ListedLine[] => {
      switch (line.kind) {
        case 'ingredient': return [{ block, node: line, name: line.name }];
        case 'flour-share': return [{ block, node: line, name: line.part }];
        case 'uses': return [{ block, node: line, name: line.formula }];
        default: return [];
      }
    });
    if (node.kind === 'part') {
      const name = node.name?.text ?? node.part;
      return [{ key: nameKey(name), name, kind: node.part, block, lines: listed }];
    }
    const name = node.kind === 'dish' ? (node.name?.text ?? '') : '';
    return node.kind === 'dish' && listed.length > 0 ? [{ key: nameKey(name), name, kind: 'part', block, lines: listed }] : [];
  });
}

/** The part that is meant where none is named: the one that ends in the oven, or the only one. */
export function mainPart(parts: readonly ListedPart[]): ListedPart | undefined {
  return parts.findLast(({ kind }) => isDoughKind(kind)) ?? (parts.length === 1 ? parts[0] : undefined);
}

/** The part of a name; failing that the only one of a kind, such as `levain` for a levain with a name of its own. */
export function partNamed(parts: readonly ListedPart[], name: string): ListedPart | undefined {
  const key = nameKey(name);
  const named = parts.filter((part) => part.key === key);
  if (named.length > 0) return named.at(-1);
  const ofKind = parts.filter(({ kind }) => kind === key);
  const dough = key === 'dough' ? mainPart(parts) : undefined;
  return ofKind.length === 1 ? ofKind[0] : dough;
}

/** Something that has the names that a line of a variant may call it by. */
export interface Called {
  readonly names: readonly string[];
}

/**
 * Those of that very name; failing these of the same name in another number or spelling (`walnut`); failing these, of another
 * name for the same ingredient; failing these, those whose name holds all the words (`butter` for `unsalted butter`).
 *
 * @param inFull leaves the last of these out
 */
export function calledLike<T extends Called>(name: string, lines: readonly T[], catalogue: Catalogue, inFull = false): readonly T[] {
  const wanted = nameKey(name);
  const any = (test: (own: string) => boolean): readonly T[] => lines.filter(({ names }) => names.some(test));
  const exact = any((own) => nameKey(own) === wanted);
  if (exact.length > 0) return exact;
  const folded = foldName(name);
  const alike = any((own) => foldName(own) === folded);
  if (alike.length > 0) return alike;
  const ingredient = catalogue.find(name)?.key;
  const same = ingredient === undefined ? [] : any((own) => catalogue.find(own)?.key === ingredient);
  if (same.length > 0 || inFull) return same;
  const words = wanted.split(' ');
  return any((own) => {
    const has = nameKey(own).split(' ');
    return words.every((word) => has.includes(word));
  });
}
