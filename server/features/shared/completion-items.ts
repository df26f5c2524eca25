/** Items of completion, by what they are. Each replaces what is typed of it and is sorted by how likely it is. */
import type { CompletionItem, Range } from 'vscode-languageserver';
import { BLOCK_WORDS, DETAIL_WORDS, ROLE_WORDS, UNIT_WORDS, VOCABULARY } from '../../../grammar';
import type { BlockKind, VocabularyWord } from '../../../grammar';
import { checks } from '../../core/checks';
import { trimmed, writtenName } from '../../core/checks/words';
import { nameKey } from '../../core/formula/draft';
import type { Section } from '../../core/formula/model';
import { zoneNames } from '../../core/timeline/zone-names';
import { everyLine, sectionOfBlock } from '../../project/file';
import type { ProjectFile } from '../../project/file';
import { addedSoFar, bestNext, linesWritten, takenIn } from './completion-left';
import type { Cursor } from './cursor';
import { baseOf, partOwners } from './named';
import { CompletionItemKind, InsertTextFormat, MarkupKind } from './protocol';

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

const USUAL_DETAILS: readonly (readonly [RegExp, readonly string[]])[] = [
  [/fold|^laminate/i, ['at', 'every', 'add']],
  [/^(?:mix|knead|whisk)/i, ['by hand', 'by mixer', 'add']],
  [/^(?:bulk|proof)/i, ['until volume', 'until', 'add']],
  [/^(?:bake|boil|fry|steam)/i, ['lid on', 'lid off', 'with steam', 'until core', 'until']],
];

/** Cardinals of sorting: parts still to be taken in, the baker's own, what the formula already names, all the rest, what is there already. */
const SOONEST = '0';
const OWN = '1';
const LATER = '2';
const LAST = '3';

/** Lines that a block usually opens with. */
const OPENS_BLOCK: ReadonlySet<string> = new Set(['makes', 'serves', 'like', 'ready']);

/** Lines of which a block has as many as it needs. */
const REPEATED: ReadonlySet<string> = new Set([
  'loses', 'note', 'asleep', 'away', 'oven', 'fridge', 'mixer', 'bake', 'make', 'uses', 'swap', 'set', 'add', 'drop', 'all', 'pinch',
]);

/** What is left of a name behind the cursor, up to what ends a name. */
const REST_OF_NAME = /^[^\s,(#"“”„«»]*(?: (?!(?:at|as|for|in|to|of)(?: |$))[^\s,(#"“”„«»]+)*/i;
const REST_OF_WORD = /^[\p{L}\p{M}\p{N}'’_/.-]*/u;

export class Items {
  readonly #file: ProjectFile;
  readonly #cursor: Cursor;
  readonly #options: CompletionOptions;
  readonly #items: CompletionItem[] = [];
  readonly #seen = new Set<string>();
  /** Only names that may stand in quotes are asked for; the quote that is open is part of what they replace. */
  readonly #inQuotes: boolean;

  constructor(file: ProjectFile, cursor: Cursor, options: CompletionOptions, inQuotes = false) {
    this.#inQuotes = inQuotes;
    this.#file = file;
    this.#cursor = cursor;
    this.#options = options;
  }

  list(): CompletionItem[] {
    return this.#items;
  }

  blocks(typed: string): void {
    BLOCK_WORDS.forEach((word, index) => this.#word(typed, word, BLOCK_SNIPPETS[word.label], CompletionItemKind.Class, '', ranked(SOONEST, index)));
  }

  /** Words that may open a line of a block of this kind. */
  words(typed: string, block: BlockKind, kinds: readonly VocabularyWord['kind'][]): void {
    const written = linesWritten(this.#cursor, this.#file.text);
    const next = bestNext(written);
    const labels = new Set<string>();
    VOCABULARY.forEach((word, index) => {
      if (!kinds.includes(word.kind) || !word.allowedIn.includes(block) || labels.has(word.label)) return;
      labels.add(word.label);
      const snippet = word.label === 'do' ? 'do "${1:what}" ${2:5} min' : undefined;
      const isStep = word.kind === 'step';
      const isSpent = isStep ? !next.has(word.label) : written.includes(word.label) && !REPEATED.has(word.label);
      const place = OPENS_BLOCK.has(word.label) ? 0 : word.label === 'note' ? VOCABULARY.length : index + 1;
      this.#word(typed, word, snippet, isStep ? CompletionItemKind.Event : CompletionItemKind.Property, ' ', ranked(isSpent ? LAST : isStep ? LATER : SOONEST, place));
    });
  }

  word(typed: string, label: string, block: BlockKind): void {
    const word = VOCABULARY.find(one => one.label === label && one.allowedIn.includes(block));
    if (word !== undefined) this.#word(typed, word, undefined, CompletionItemKind.Keyword, ' ', `${SOONEST} ${label}`);
  }

  /** What may be said of a step; what is usual for one of its kind first. */
  details(typed: string): void {
    const usual = USUAL_DETAILS.find(([step]) => step.test(this.#cursor.before))?.[1] ?? [];
    DETAIL_WORDS.forEach((word, index) => {
      const snippet = DETAIL_SNIPPETS[word.label];
      const place = usual.indexOf(word.label);
      const sortText = place < 0 ? ranked(LATER, index) : ranked(SOONEST, place);
      if (word.label !== 'times') this.#word(typed, word, snippet, CompletionItemKind.Keyword, snippet === undefined ? '' : ' ', sortText);
    });
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
    ROLE_WORDS.forEach(({ label, doc }, index) => this.#add(typed, { label, kind: CompletionItemKind.EnumMember, detail: doc, sortText: ranked(SOONEST, index) }));
  }

  plain(typed: string, labels: readonly string[], detail: string): void {
    labels.forEach((label, index) => this.#add(typed, { label, kind: CompletionItemKind.Value, detail, sortText: ranked(SOONEST, index) }));
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
    const { block } = this.#cursor;
    const base = (block && sectionOfBlock(this.#file, block.index))?.analysis.section.variant?.base ?? (section && baseOf(section, this.#file.environment));
    if (base !== undefined) this.#lineNames(typed, base);
  }

  /** What goes into this formula: the names that a step can add. Those that are all in already come last. */
  weighedIn(typed: string): void {
    const section = this.#section();
    if (section !== undefined) this.#lineNames(typed, section, this.#added(section));
  }

  /** `half of`, and the rest of what some step has added a portion of. */
  portions(typed: string): void {
    const section = this.#section();
    for (const [key, { name, share }] of section === undefined ? [] : this.#added(section)) {
      if (share >= 1) continue;
      const left = `${trimmed((1 - share) * 100, 0)} % of it is left`;
      this.#add(typed, { label: `rest of ${name}`, kind: CompletionItemKind.Variable, detail: left, sortText: `${SOONEST} ${key}` }, `rest of ${writtenName(name)}`);
    }
    this.plain(typed, ['half of', 'rest of'], 'A portion; the portions must come to the whole.');
  }

  #added(section: Section) {
    return addedSoFar(section, this.#cursor);
  }

  /** Names of checks, those that find something on this line or the next one first. */
  codes(typed: string): void {
    const { block, offset } = this.#cursor;
    const section = block && sectionOfBlock(this.#file, block.index);
    const { line } = this.#file.lineIndex.positionAt(offset);
    const here = new Set(section?.analysis.findings.flatMap(({ code, place }) => {
      const found = this.#file.lineIndex.positionAt(section.offsetsOf(place).start).line;
      return (found === line || found === line + 1) && !code.startsWith('accept-') ? [code] : [];
    }));
    for (const { code, title } of checks) {
      this.#add(typed, { label: code, kind: CompletionItemKind.EnumMember, detail: title, sortText: (here.has(code) ? SOONEST : LATER) + code }, `${code}: `);
    }
  }

  zones(typed: string): void {
    for (const zone of zoneNames()) this.#add(typed, { label: zone, kind: CompletionItemKind.Value, sortText: (zone === this.#file.zone ? SOONEST : LATER) + zone });
  }

  /** Currencies by their ISO 4217 codes; those that this file has a price in first. */
  currencies(typed: string): void {
    const own = new Set([...this.#file.text.matchAll(/^\s+costs\s+\S+\s+([A-Z]{3})\b/gm)].map(([, code]) => code));
    CURRENCIES.forEach(([label, detail], index) => {
      this.#add(typed, { label, kind: CompletionItemKind.Value, detail, sortText: ranked(own.has(label) ? SOONEST : LATER, index) });
    });
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
  formulas(typed: string, inQuotes: boolean, first?: Section['kind']): void {
    const self = this.#section();
    for (const section of this.#file.environment.formulas.values()) {
      if (section === self) continue;
      const label = section.name.replaceAll('"', '');
      const text = inQuotes ? label + this.#closingQuote() : `"${label}"`;
      const sortText = (first === undefined || section.kind === first ? SOONEST : LATER) + label;
      this.#add(typed, { label, kind: CompletionItemKind.Class, detail: section.kind, sortText }, text, { rest: REST_IN_QUOTES });
    }
  }

  paths(typed: string): void {
    for (const path of this.#options.paths) this.#add(typed, { label: path, kind: CompletionItemKind.File }, path + this.#closingQuote(), { rest: REST_IN_QUOTES });
  }

  #closingQuote(): string {
    return /^[^"“”„«»,#]*["”“»]/.test(this.#cursor.after) ? '' : '"';
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

  #lineNames(typed: string, section: Section, added: ReadonlyMap<string, { readonly share: number }> = new Map()): void {
    const seen = new Set<string>();
    for (const block of section.blocks) {
      if (block.head.node.kind !== 'part' && block.head.node.kind !== 'dish') continue;
      for (const { node } of everyLine(block)) {
        if (node.kind !== 'ingredient' || node.name.text === '' || seen.has(nameKey(node.name.text))) continue;
        seen.add(nameKey(node.name.text));
        const share = added.get(nameKey(node.name.text))?.share ?? 0;
        this.#name(typed, node.name.text, CompletionItemKind.Variable, share >= 1 ? 'all of it is in already' : undefined, share >= 1 ? LAST : OWN);
      }
    }
  }

  #word(typed: string, word: VocabularyWord, snippet: string | undefined, kind: CompletionItemKind, tail = '', sortText?: string): void {
    // A space that is there already is not written again, nor is a form filled in over what follows.
    const isAlone = this.#cursor.after.replace(REST_OF_WORD, '').trim() === '';
    const written = isAlone ? tail : '';
    this.#add(typed, {
      label: word.label,
      kind,
      detail: word.doc,
      ...(sortText !== undefined && { sortText }),
      documentation: { kind: MarkupKind.Markdown, value: `\`${word.example}\`` },
    }, this.#options.snippets ? (isAlone ? snippet : undefined) ?? escapedSnippet(word.label) + written : word.label + written, { isSnippet: this.#options.snippets });
  }

  #name(typed: string, name: string, kind: CompletionItemKind, detail: string | undefined, sort: string, data?: { readonly ingredient: string }): void {
    this.#add(typed, { label: name, kind, ...(detail !== undefined && { detail }), sortText: sort + name.toLowerCase(), ...(data && { data: { ...data, uri: this.#file.uri } }) }, writtenName(name), { rest: REST_OF_NAME, isName: true });
  }

  #add(typed: string, item: CompletionItem, newText: string = item.label, { rest = REST_OF_WORD, isName = false, isSnippet = false }: Placing = {}): void {
    if (this.#inQuotes && !isName) return;
    // Of two things by one name the first is the likelier.
    const key = `${item.kind ?? 0} ${item.label}`;
    if (this.#seen.has(key)) return;
    this.#seen.add(key);
    const { offset, after } = this.#cursor;
    const open = this.#inQuotes ? 1 : 0;
    const behind = this.#inQuotes ? /^[^"“”„«»,#]*["”“»]?/.exec(after)?.[0] ?? '' : rest.exec(after)?.[0] ?? '';
    const range: Range = this.#file.lineIndex.rangeOf(offset - typed.length - open, offset + behind.length);
    // What is typed is looked for in it, and that is with the quote.
    const filterText = this.#inQuotes ? `"${item.label}` : undefined;
    this.#items.push({
      ...item,
      ...(filterText !== undefined && { filterText }),
      ...(isSnippet && { insertTextFormat: InsertTextFormat.Snippet }),
      textEdit: { range, newText },
    });
  }
}

interface Placing {
  /** How much of what stands behind the cursor is replaced. */
  readonly rest?: RegExp;
  readonly isName?: boolean;
  readonly isSnippet?: boolean;
}

/** To the quote that closes, if there is one. */
const REST_IN_QUOTES = /^(?:[^"“”„«»,#]*(?=["”“»])|[\p{L}\p{M}\p{N}'’_/.-]*)/u;

/** Currencies in daily use, with those of most people first. */
const CURRENCIES = [
  ['EUR', 'Euro.'], ['USD', 'US dollar.'], ['GBP', 'Pound sterling.'], ['CHF', 'Swiss franc.'], ['CAD', 'Canadian dollar.'], ['AUD', 'Australian dollar.'],
  ['NZD', 'New Zealand dollar.'], ['SEK', 'Swedish krona.'], ['NOK', 'Norwegian krone.'], ['DKK', 'Danish krone.'], ['PLN', 'Polish zloty.'], ['CZK', 'Czech koruna.'],
  ['HUF', 'Hungarian forint.'], ['RON', 'Romanian leu.'], ['UAH', 'Ukrainian hryvnia.'], ['TRY', 'Turkish lira.'], ['BRL', 'Brazilian real.'], ['MXN', 'Mexican peso.'],
  ['JPY', 'Japanese yen.'], ['CNY', 'Chinese yuan.'], ['KRW', 'South Korean won.'], ['INR', 'Indian rupee.'], ['ZAR', 'South African rand.'],
] as const;

function ranked(cardinal: string, index: number): string {
  return cardinal + String(index).padStart(3, '0');
}

function escapedSnippet(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

