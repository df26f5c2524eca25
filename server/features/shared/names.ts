/**
 * Which names stand where, and which of them mean the same thing: a part of a formula, an ingredient, a formula, or a
 * file. Definition, references, highlights, rename and hover all ask here, so that they agree.
 */
import type { Block, BodyNode, IngredientLine, Name, Span } from '../../../grammar';
import type { Environment } from '../../core/analyse';
import { nameKey } from '../../core/formula/draft';
import { STARTER_NAMES } from '../../core/formula/gather';
import type { Section } from '../../core/formula/model';
import { foldName } from '../../core/ingredients/names';
import { ownName } from '../../core/ingredients/own';
import { everyLine } from '../../project/file';
import type { LoadedFile, SectionInFile } from '../../project/file';
import { addedNames } from './added-names';
import { builtInOf, ingredientOf, ownIngredientOf, partOwners } from './named';
import type { Named } from './named';

export interface Occurrence {
  readonly named: Named;
  /** True where the thing is made: the head of a part, a formula, an `ingredient` block. */
  readonly defines: boolean;
  /** File offsets of the name, its quotes left out; of a part without a name, of its kind. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** The whole name with its quotes, as file offsets: `figs and walnuts` around `figs`. Undefined for a part that has none. */
  readonly whole: (Span & { readonly quoted: boolean }) | undefined;
  /** A shorter word for it, as only steps have them: `add seeds` for `stall seed mix`, `add soaker` for the only soaker. */
  readonly loose: boolean;
  readonly section: SectionInFile;
  /** Index in `tree.blocks`. */
  readonly block: number;
}

/** Every name in a file, in the order of the text. `environment` is what the file has around it. */
export function namesIn(file: LoadedFile, environment: Environment): readonly Occurrence[] {
  return file.sections.flatMap(section => namesInSection(file, section, environment));
}

export function namesInSection(file: LoadedFile, section: SectionInFile, environment: Environment): readonly Occurrence[] {
  const parts = partOwners(section.section, environment);
  const added = addedNames(section.section, environment, parts);
  const found: Occurrence[] = [];
  section.section.blocks.forEach((block, index) => {
    const blockIndex = section.firstBlock + index;
    const offset = file.tree.blocks[blockIndex]?.offset ?? 0;
    const take = (named: Named, name: Name, { defines = false, loose = false, piece }: Taken = {}): void => {
      const { start, end } = piece ?? withoutQuotes(block.text, name);
      const whole = { start: offset + name.start, end: offset + name.end, quoted: name.quoted };
      const text = piece?.text ?? name.text;
      found.push({ named, defines, loose, whole, start: offset + start, end: offset + end, text, section, block: blockIndex });
    };
    const formula = (name: Name, defines = false): void => {
      const key = name.text.toLowerCase();
      take({ kind: 'formula', key, section: defines ? section.section : environment.formulas.get(key) }, name, { defines });
    };
    const part = (name: Name): void => {
      const owner = parts.get(nameKey(name.text));
      if (owner !== undefined) take({ kind: 'part', key: nameKey(name.text), owner }, name);
    };
    const ingredient = (name: Name): void => take(ingredientOf(name.text, environment), name);
    /** Where both can stand, a part of the formula is meant first. */
    const partOrIngredient = (name: Name): void => (parts.has(nameKey(name.text)) ? part(name) : ingredient(name));

    const { node } = block.head;
    switch (node.kind) {
      case 'formula':
      case 'dish':
        if (node.name !== undefined) formula(node.name, true);
        break;
      case 'ingredient':
        if (node.name !== undefined) take(ownIngredientOf(node.name.text, environment), node.name, { defines: true });
        break;
      case 'part': {
        const named: Named = { kind: 'part', key: nameKey(node.name?.text ?? node.part), owner: section.section };
        if (node.name !== undefined) take(named, node.name, { defines: true });
        else {
          const { start, end } = node.keyword;
          const text = block.text.slice(start, end);
          found.push({ named, defines: true, loose: false, whole: undefined, start: offset + start, end: offset + end, text, section, block: blockIndex });
        }
        break;
      }
      case 'use':
        if (node.path !== undefined) take({ kind: 'file', block: blockIndex }, node.path);
        break;
      case 'plan':
      case 'steps':
      case 'record':
      case 'unknown':
      case 'none':
        break;
    }
    for (const { node: line } of everyLine(block)) {
      lineNames(line, {
        formula, part, partOrIngredient,
        takenIn: written => (isPartTakenIn(written, section.section, index, environment, parts) ? part(written.name) : ingredient(written.name)),
        like: name => (isItself(name, block) ? take(builtInOf(name.text), name) : ingredient(name)),
        added: name => {
          for (const { named, loose, piece } of added(name, withoutQuotes(block.text, name))) take(named, name, { loose, ...(piece && { piece }) });
        },
      });
    }
  });
  return found;
}

interface Taken {
  readonly defines?: boolean;
  readonly loose?: boolean;
  /** Where in the block the name stands that is meant, if the words hold several. */
  readonly piece?: Span & { readonly text: string };
}

/** As the core has it: a line takes in a part made above; one made below only if no ingredient has its name; never its own. */
function isPartTakenIn({ name, amount }: IngredientLine, section: Section, block: number, environment: Environment, owners: ReadonlyMap<string, Section>): boolean {
  const key = nameKey(name.text);
  if (!owners.has(key)) return false;
  const makes = (at: Block): boolean => at.head.node.kind === 'part' && nameKey(at.head.node.name?.text ?? at.head.node.part) === key;
  // A part of the base is made before anything that its variant says.
  if (section.blocks.slice(0, block).some(makes) || !section.blocks.some(makes)) return true;
  if (!section.blocks.some((at, index) => index > block && makes(at))) return false;
  return amount.kind === 'all' || !(STARTER_NAMES.has(key) || environment.catalogue.find(name.text) !== undefined);
}

/** An ingredient may be like the one of the table that it is called by. */
function isItself(name: Name, block: Block): boolean {
  const own = ownName(block);
  return own !== undefined && foldName(own) === foldName(name.text);
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

interface LineVisitor {
  readonly formula: (name: Name) => void;
  readonly part: (name: Name) => void;
  readonly partOrIngredient: (name: Name) => void;
  readonly takenIn: (line: IngredientLine) => void;
  readonly like: (name: Name) => void;
  readonly added: (name: Name) => void;
}

function lineNames(node: BodyNode, { formula, part, partOrIngredient, takenIn, like, added }: LineVisitor): void {
  switch (node.kind) {
    case 'ingredient':
      return takenIn(node);
    case 'flour-share':
      return part(node.part);
    case 'uses':
      return formula(node.formula);
    case 'step':
      for (const detail of node.details) if (detail.kind === 'add') added(detail.name);
      return;
    case 'property':
      if (node.value.kind === 'name') like(node.value.name);
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

/** The place of a name or path without its quotes, of which the last may be missing. `text` is what the span is a span of. */
export function withoutQuotes(text: string, span: Span & { readonly quoted: boolean }): Span {
  if (!span.quoted) return { start: span.start, end: span.end };
  const closed = /["“”„‟«»]$/.test(text.slice(span.start + 1, span.end));
  return { start: span.start + 1, end: closed ? span.end - 1 : span.end };
}
