/** Items of completion, by what they are. Each replaces what is typed of it and is sorted by how likely it is. */
import { CompletionItemKind, InsertTextFormat, MarkupKind } from 'vscode-languageserver';
import type { CompletionItem, Range } from 'vscode-languageserver';
import { BLOCK_WORDS, DETAIL_WORDS, ROLE_WORDS, UNIT_WORDS, VOCABULARY } from '../../../grammar';
import type { BlockKind, VocabularyWord } from '../../../grammar';
import { writtenName } from '../../core/checks/words';
import { nameKey } from '../../core/formula/draft';
import type { Section } from '../../core/formula/model';
import { everyLine, sectionOfBlock } from '../../project/file';
import type { ProjectFile } from '../../project/file';
import type { Cursor } from './cursor';
import { baseOf, partOwners } from './named';

export interface CompletionOptions {
  /** The editor can fill in places in what is inserted. */
  readonly snippets: boolean;
  /** Paths of other files as a `use` line in this one would write them. */
  readonly paths: readonly string[];
  /** The letter that made the editor ask by itself. */
  readonly trigger?: string;
}

/** What is inserted for a block, with the places to fill in. Without an entry: the word, and a line under it. */
const BLOCK_SNIPPETS: Readonly<Record<string, string>> = {
  use: 'use "${1}"',
  formula: 'formula "${1:name}"\n  makes     ${2:2} ${3:loaves} of ${4:900} g\n',
  dish: 'dish "${1:name}"\n  serves    ${2:4}\n',
  dough: 'dough at ${1:25} C\n  ',
  soaker: 'soaker "${1:seeds}"\n  ',
  part: 'part "${1:name}"\n  ',
  ingredient: 'ingredient "${1:name}"\n  like      ${2:bread flour}\n',
  record: 'record ${1:2026-03-14}\n  ',
  plan: 'plan "${1:name}"\n  ready     ${2:2026-03-14 08:00 Europe/Lisbon}\n',
};

const DETAIL_SNIPPETS: Readonly<Record<string, string>> = {
  'until core': 'until core ${1:97} C',
  'until volume': 'until volume ${1:75} %',
  until: 'until "${1}"',
  add: 'add ${1}',
  at: 'at ${1:30} min',
  every: 'every ${1:30} min, ${2:4} times',
};

/** Cardinals of sorting: parts still to be taken in, the baker's own, what the formula already names, all the rest. */
const SOONEST = '0';
const OWN = '1';
const LATER = '2';

export class Items {
  readonly #file: ProjectFile;
  readonly #cursor: Cursor;
  readonly #options: CompletionOptions;
  readonly #items: CompletionItem[] = [];

  constructor(file: ProjectFile, cursor: Cursor, options: CompletionOptions) {
    this.#file = file;
    this.#cursor = cursor;
    this.#options = options;
  }

  list(): CompletionItem[] {
    return this.#items;
  }

  blocks(typed: string): void {
    for (const word of BLOCK_WORDS) this.#word(typed, word, BLOCK_SNIPPETS[word.label], CompletionItemKind.Class);
  }

  /** Words that may open a line of a block of this kind. */
  words(typed: string, block: BlockKind, kinds: readonly VocabularyWord['kind'][]): void {
    const labels = new Set<string>();
    for (const word of VOCABULARY) {
      if (!kinds.includes(word.kind) || !word.allowedIn.includes(block) || labels.has(word.label)) continue;
      labels.add(word.label);
      const snippet = word.label === 'do' ? 'do "${1:what}" ${2:5} min' : undefined;
      this.#word(typed, word, snippet, word.kind === 'step' ? CompletionItemKind.Event : CompletionItemKind.Property, ' ');
    }
  }

  word(typed: string, label: string, block: BlockKind): void {
    const word = VOCABULARY.find(one => one.label === label && one.allowedIn.includes(block));
    if (word !== undefined) this.#word(typed, word, undefined, CompletionItemKind.Keyword, ' ');
  }

  details(typed: string): void {
    for (const word of DETAIL_WORDS) if (word.label !== 'times') this.#word(typed, word, DETAIL_SNIPPETS[word.label], CompletionItemKind.Keyword);
  }

  units(typed: string, labels: readonly string[]): void {
    labels.forEach((label, index) => this.#add(typed, {
      label,
      kind: CompletionItemKind.Unit,
      detail: UNIT_WORDS.find(word => word.label === label)?.doc ?? '',
      sortText: SOONEST + String(index).padStart(2, '0'),
    }));
  }

  roles(typed: string): void {
    for (const { label, doc } of ROLE_WORDS) this.#add(typed, { label, kind: CompletionItemKind.EnumMember, detail: doc });
  }

  plain(typed: string, labels: readonly string[], detail: string): void {
    for (const label of labels) this.#add(typed, { label, kind: CompletionItemKind.Value, detail });
  }

  temperatures(typed: string, example: string): void {
    this.#add(typed, { label: 'room', kind: CompletionItemKind.Value, detail: 'The room, as the formula says it is.' });
    this.#add(typed, { label: 'fridge', kind: CompletionItemKind.Value, detail: 'The fridge, as the formula says it is.' });
    if (/^\d*$/.test(typed)) this.#add(typed, { label: example, kind: CompletionItemKind.Value, detail: 'Degrees Celsius.' });
  }

  /** Parts of this formula that this block can take in; those that nothing takes in yet come first. */
  parts(typed: string): void {
    const { block } = this.#cursor;
    const section = this.#section();
    if (block === undefined || section === undefined) return;
    const taken = takenIn(section);
    const self = block.block.head.node;
    const own = self.kind === 'part' ? nameKey(self.name?.text ?? self.part) : undefined;
    for (const { head: { node } } of section.blocks) {
      if (node.kind !== 'part' || node.part === 'dough' || node.part === 'batter' || node.part === 'total formula') continue;
      const name = node.name?.text ?? node.part;
      if (nameKey(name) === own || name === '') continue;
      const free = !taken.has(nameKey(name));
      this.#name(typed, name, CompletionItemKind.Module, free ? `${node.part}, not taken in yet` : node.part, free ? SOONEST : LATER);
    }
  }

  /** Parts of the formula that a variant changes. */
  baseParts(typed: string): void {
    const section = this.#section();
    if (section === undefined) return;
    for (const [key] of partOwners(section, this.#file.environment)) this.#name(typed, key, CompletionItemKind.Module, 'part', SOONEST);
  }

  /** Names of lines of the formula that a variant changes. */
  baseLines(typed: string): void {
    const section = this.#section();
    const base = section && baseOf(section, this.#file.environment);
    if (base !== undefined) this.#lineNames(typed, base);
  }

  /** What goes into this formula: the names that a step can add. */
  weighedIn(typed: string): void {
    const section = this.#section();
    if (section !== undefined) this.#lineNames(typed, section);
  }

  ingredients(typed: string): void {
    const own = new Set(this.#ownIngredients().map(nameKey));
    for (const { name } of this.#file.environment.catalogue.all) {
      const mine = own.has(nameKey(name));
      this.#name(typed, name, CompletionItemKind.Variable, mine ? 'your own' : undefined, mine ? OWN : LATER, { ingredient: name });
    }
  }

  /** Ingredients that are counted: eggs, vanilla pods. */
  counted(typed: string): void {
    for (const { name, ingredient } of this.#file.environment.catalogue.all) {
      if (ingredient.eachGrams !== null) this.#name(typed, name, CompletionItemKind.Variable, ingredient.eachOf || undefined, LATER, { ingredient: name });
    }
  }

  /** Formulas and dishes that can be named here, this one left out. */
  formulas(typed: string, inQuotes: boolean): void {
    const self = this.#section();
    for (const section of this.#file.environment.formulas.values()) {
      if (section === self) continue;
      const label = section.name.replaceAll('"', '');
      const text = inQuotes ? label + this.#closingQuote() : `"${label}"`;
      this.#add(typed, { label, kind: CompletionItemKind.Class, detail: section.kind, filterText: inQuotes ? label : text }, text);
    }
  }

  paths(typed: string): void {
    for (const path of this.#options.paths) this.#add(typed, { label: path, kind: CompletionItemKind.File }, path + this.#closingQuote());
  }

  #closingQuote(): string {
    return /^["”»]/.test(this.#cursor.after) ? '' : '"';
  }

  #section(): Section | undefined {
    const { block } = this.#cursor;
    return block && sectionOfBlock(this.#file, block.index)?.section;
  }

  #ownIngredients(): readonly string[] {
    return [this.#file, ...this.#file.visible].flatMap(({ tree }) => tree.blocks.flatMap(({ block: { head: { node } } }) => (
      node.kind === 'ingredient' && node.name !== undefined ? [node.name.text] : []
    )));
  }

  #lineNames(typed: string, section: Section): void {
    const seen = new Set<string>();
    for (const block of section.blocks) {
      if (block.head.node.kind !== 'part' && block.head.node.kind !== 'dish') continue;
      for (const { node } of everyLine(block)) {
        if (node.kind !== 'ingredient' || node.name.text === '' || seen.has(nameKey(node.name.text))) continue;
        seen.add(nameKey(node.name.text));
        this.#name(typed, node.name.text, CompletionItemKind.Variable, undefined, OWN);
      }
    }
  }

  #word(typed: string, word: VocabularyWord, snippet: string | undefined, kind: CompletionItemKind, tail = ''): void {
    this.#add(typed, {
      label: word.label,
      kind,
      detail: word.doc,
      documentation: { kind: MarkupKind.Markdown, value: `\`${word.example}\`` },
    }, this.#options.snippets ? snippet ?? escapedSnippet(word.label) + tail : word.label + tail, this.#options.snippets);
  }

  #name(typed: string, name: string, kind: CompletionItemKind, detail: string | undefined, sort: string, data?: { readonly ingredient: string }): void {
    this.#add(typed, { label: name, kind, ...(detail !== undefined && { detail }), sortText: sort + name, ...(data && { data: { ...data, uri: this.#file.uri } }) }, writtenName(name));
  }

  #add(typed: string, item: CompletionItem, newText: string = item.label, isSnippet = false): void {
    const { offset } = this.#cursor;
    const range: Range = this.#file.lineIndex.rangeOf(offset - typed.length, offset);
    // Of two things by one name the first is the likelier.
    if (this.#items.some(other => other.label === item.label && other.kind === item.kind)) return;
    this.#items.push({
      ...item,
      ...(isSnippet && { insertTextFormat: InsertTextFormat.Snippet }),
      textEdit: { range, newText },
    });
  }
}

/** Keys of the parts that some line of the section takes in. */
function takenIn(section: Section): ReadonlySet<string> {
  const taken = new Set<string>();
  for (const block of section.blocks) {
    if (block.head.node.kind !== 'part') continue;
    for (const { node } of everyLine(block)) if (node.kind === 'ingredient') taken.add(nameKey(node.name.text));
  }
  return taken;
}

function escapedSnippet(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

