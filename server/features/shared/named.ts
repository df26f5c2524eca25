/** What names stand for, and when two of them stand for the same thing. */
import type { Environment } from '../../core/analyse';
import { nameKey } from '../../core/formula/draft';
import { STARTER_NAMES } from '../../core/formula/gather';
import type { Section } from '../../core/formula/model';
import { builtInCatalogue } from '../../core/ingredients/catalogue';

/** What a name stands for. Two names mean the same thing when `sameThing` says so. */
export type Named =
  /** `owner` is the section whose block makes the part: for a variant, often the section of its base. */
  | { readonly kind: 'part'; readonly key: string; readonly owner: Section }
  | { readonly kind: 'ingredient'; readonly key: string }
  | { readonly kind: 'formula'; readonly key: string; readonly section: Section | undefined }
  | { readonly kind: 'file'; readonly block: number };

export function sameThing(a: Named, b: Named): boolean {
  switch (a.kind) {
    case 'part':
      return b.kind === 'part' && a.key === b.key && a.owner === b.owner;
    case 'ingredient':
      return b.kind === 'ingredient' && a.key === b.key;
    case 'formula':
      return b.kind === 'formula' && a.key === b.key && a.section === b.section;
    case 'file':
      return b.kind === 'file' && a.block === b.block;
  }
}

/** The parts that can be named in a section, with the section that makes each: its own, then those of what it is based on. */
export function partOwners(section: Section, environment: Environment): ReadonlyMap<string, Section> {
  const owners = new Map<string, Section>();
  const seen = new Set<Section>();
  for (let at: Section | undefined = section; at !== undefined && !seen.has(at); at = baseOf(at, environment)) {
    seen.add(at);
    for (const { head: { node } } of at.blocks) {
      if (node.kind !== 'part') continue;
      const key = nameKey(node.name?.text ?? node.part);
      if (!owners.has(key)) owners.set(key, at);
    }
  }
  return owners;
}

/** The formula that a variant is based on. */
export function baseOf(section: Section, environment: Environment): Section | undefined {
  for (const { node } of section.blocks[0]?.lines ?? []) {
    if (node.kind === 'based-on') return environment.formulas.get(node.base.text.toLowerCase());
  }
  return undefined;
}

/** The block in which a section makes a part; index within the section. */
export function partBlock(section: Section, key: string): number | undefined {
  const index = section.blocks.findIndex(({ head: { node } }) => node.kind === 'part' && nameKey(node.name?.text ?? node.part) === key);
  return index < 0 ? undefined : index;
}

/** Two spellings of one ingredient are the same thing: `plain flour`, `all-purpose flour`. A starter is one whatever else is called so. */
export function ingredientOf(name: string, environment: Environment): Named {
  return STARTER_NAMES.has(nameKey(name)) ? { kind: 'ingredient', key: 'starter' } : ownIngredientOf(name, environment);
}

/** What the `ingredient` block of that name makes. */
export function ownIngredientOf(name: string, environment: Environment): Named {
  return { kind: 'ingredient', key: environment.catalogue.find(name)?.key ?? `?${nameKey(name)}` };
}

/** What it is in the table that ships. */
export function builtInOf(name: string): Named {
  return { kind: 'ingredient', key: builtInCatalogue.find(name)?.key ?? `?${nameKey(name)}` };
}
