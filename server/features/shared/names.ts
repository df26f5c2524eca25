/**
 * Which names stand where, and which of them mean the same thing: a part of a formula, an ingredient, a formula, or a
 * file. Definition, references, highlights and hover all ask here, so that they agree.
 */
import type { Block, BodyNode, Name, Span } from '../../../grammar';
import type { Environment } from '../../core/analyse';
import { nameKey } from '../../core/formula/draft';
import type { Section } from '../../core/formula/model';
import { everyLine } from '../../project/file';
import type { LoadedFile, SectionInFile } from '../../project/file';

/** What a name stands for. Two names mean the same thing when `sameThing` says so. */
export type Named =
  /** `owner` is the section whose block makes the part: for a variant, often the section of its base. */
  | { readonly kind: 'part'; readonly key: string; readonly owner: Section }
  | { readonly kind: 'ingredient'; readonly key: string }
  | { readonly kind: 'formula'; readonly key: string; readonly section: Section | undefined }
  | { readonly kind: 'file'; readonly block: number };

export interface Occurrence {
  readonly named: Named;
  /** True where the thing is made: the head of a part, a formula, an `ingredient` block. */
  readonly defines: boolean;
  /** File offsets of the name, its quotes left out. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly section: SectionInFile;
  /** Index in `tree.blocks`. */
  readonly block: number;
}

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

/** Every name in a file, in the order of the text. `environment` is what the file has around it. */
export function namesIn(file: LoadedFile, environment: Environment): readonly Occurrence[] {
  return file.sections.flatMap(section => namesInSection(file, section, environment));
}

export function namesInSection(file: LoadedFile, section: SectionInFile, environment: Environment): readonly Occurrence[] {
  const parts = partOwners(section.section, environment);
  const found: Occurrence[] = [];
  section.section.blocks.forEach((block, index) => {
    const blockIndex = section.firstBlock + index;
    const offset = file.tree.blocks[blockIndex]?.offset ?? 0;
    const take = (named: Named, span: Span & { readonly text: string; readonly quoted?: boolean }, defines = false): void => {
      const inner = withoutQuotes(block, span);
      found.push({ named, defines, start: offset + inner.start, end: offset + inner.end, text: span.text, section, block: blockIndex });
    };
    const formula = (name: Name, defines = false): void => {
      const key = name.text.toLowerCase();
      take({ kind: 'formula', key, section: defines ? section.section : environment.formulas.get(key) }, name, defines);
    };
    const part = (name: Name): void => {
      const owner = parts.get(nameKey(name.text));
      if (owner !== undefined) take({ kind: 'part', key: nameKey(name.text), owner }, name);
    };
    const ingredient = (name: Name, defines = false): void => take(ingredientOf(name.text, environment), name, defines);
    /** Where both can stand, a part of the formula is meant first. */
    const partOrIngredient = (name: Name): void => (parts.has(nameKey(name.text)) ? part(name) : ingredient(name));

    headNames(block, section.section, { take, formula, ingredient, blockIndex });
    for (const { node } of everyLine(block)) lineNames(node, { formula, part, ingredient, partOrIngredient });
  });
  return found;
}

/** The name under the cursor, the place just after its last letter counted in. */
export function nameAt(file: LoadedFile & { readonly sections: readonly SectionInFile[] }, environment: Environment, offset: number): Occurrence | undefined {
  // An offset between two sections may belong to the end of the first.
  for (const section of file.sections) {
    const first = file.tree.blocks[section.firstBlock];
    const last = file.tree.blocks[section.firstBlock + section.section.blocks.length - 1];
    if (first === undefined || last === undefined || offset < first.offset || offset > last.offset + last.block.text.length) continue;
    const found = namesInSection(file, section, environment).find(name => offset >= name.start && offset <= name.end);
    if (found !== undefined) return found;
  }
  return undefined;
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

interface HeadVisitor {
  readonly take: (named: Named, span: Span & { readonly text: string; readonly quoted?: boolean }, defines?: boolean) => void;
  readonly formula: (name: Name, defines?: boolean) => void;
  readonly ingredient: (name: Name, defines?: boolean) => void;
  readonly blockIndex: number;
}

function headNames({ head: { node }, text }: Block, section: Section, { take, formula, ingredient, blockIndex }: HeadVisitor): void {
  switch (node.kind) {
    case 'formula':
    case 'dish':
      if (node.name !== undefined) formula(node.name, true);
      return;
    case 'ingredient':
      if (node.name !== undefined) ingredient(node.name, true);
      return;
    case 'part': {
      const { start, end } = node.keyword;
      const name = node.name ?? { start, end, text: text.slice(start, end), quoted: false };
      take({ kind: 'part', key: nameKey(node.name?.text ?? node.part), owner: section }, name, true);
      return;
    }
    case 'use':
      if (node.path !== undefined) take({ kind: 'file', block: blockIndex }, node.path);
      return;
    case 'plan':
    case 'steps':
    case 'record':
    case 'unknown':
    case 'none':
      return;
  }
}

interface LineVisitor {
  readonly formula: (name: Name) => void;
  readonly part: (name: Name) => void;
  readonly ingredient: (name: Name) => void;
  readonly partOrIngredient: (name: Name) => void;
}

function lineNames(node: BodyNode, { formula, part, ingredient, partOrIngredient }: LineVisitor): void {
  switch (node.kind) {
    case 'ingredient':
      return partOrIngredient(node.name);
    case 'flour-share':
      return part(node.part);
    case 'uses':
      return formula(node.formula);
    case 'step':
      for (const detail of node.details) if (detail.kind === 'add') partOrIngredient(detail.name);
      return;
    case 'property':
      if (node.value.kind === 'name') ingredient(node.value.name);
      else if (node.value.kind === 'order') formula(node.value.formula);
      return;
    case 'based-on':
      return formula(node.base);
    case 'swap':
      partOrIngredient(node.from);
      partOrIngredient(node.to);
      if (node.part !== undefined) part(node.part);
      return;
    case 'set':
    case 'drop':
      partOrIngredient(node.name);
      if (node.part !== undefined) part(node.part);
      return;
    case 'add':
      partOrIngredient(node.line.name);
      if (node.part !== undefined) part(node.part);
      return;
    case 'makes':
    case 'blank':
    case 'comment':
    case 'bad':
      return;
  }
}

/** Two spellings of one ingredient are the same thing: `plain flour`, `all-purpose flour`. */
export function ingredientOf(name: string, environment: Environment): Named {
  return { kind: 'ingredient', key: environment.catalogue.find(name)?.key ?? `?${nameKey(name)}` };
}

function withoutQuotes(block: Block, span: Span & { readonly quoted?: boolean }): Span {
  if (span.quoted !== true) return span;
  const closed = /["“”„‟«»]$/.test(block.text.slice(span.start + 1, span.end));
  return { start: span.start + 1, end: closed ? span.end - 1 : span.end };
}
