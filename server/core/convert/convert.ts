/**
 * Somebody else's text as a draft in the language: a plain list, a page, or data of schema.org. What is sure is data; what is
 * doubtful stands at its place as a comment `# to decide: …`; everything else is kept as a note or a comment. No line is lost.
 */
import { parseTree, printParseErrorCode, type ParseError } from 'jsonc-parser';
import type { Catalogue } from '../ingredients/model';
import { hasWords, tidyLines } from './characters';
import { draftOf } from './draft';
import { looksLikeHtml, readPage } from './html';
import { cardOf, recipesIn } from './json-ld';
import type { Card, Draft, Outcome, PlacedLine } from './model';
import { placeLines } from './place';
import { writeDrafts } from './write';

export interface ConvertOptions {
  readonly catalogue: Catalogue;
  /** What the formula is called, whatever the text says. Only where there is one. */
  readonly name?: string | undefined;
}

export interface Converted {
  readonly kind: 'drafted';
  /** The draft, laid out. */
  readonly text: string;
  readonly drafts: readonly Draft[];
  /** What the reader should know about the source, in sentences. */
  readonly notices: readonly string[];
}

export interface NotConverted {
  readonly kind: 'nothing';
  /** Why, in a sentence or two. */
  readonly message: string;
}

/** A card has fewer lines; a longer text is no card. */
export const MOST_LINES = 2_000;
/** A saved page may be large; what is read of it is not. */
export const MOST_CHARACTERS = 5_000_000;

/** The draft of a text, or why there is none. Never throws, whatever the text. */
export function convert(text: string, { catalogue, name }: ConvertOptions): Converted | NotConverted {
  if (text.length > MOST_CHARACTERS) return nothing(`This is more than ${String(MOST_CHARACTERS / 1_000_000)} million characters, which no recipe has. Convert a part of it.`);
  if (!hasWords(text)) return nothing('There are no words in it, so there is nothing to convert.');
  const { cards, notices, failed } = cardsOf(text);
  if (cards.length === 0) return nothing(failed ?? 'There is no recipe in it.');
  if (name !== undefined && cards.length > 1) return nothing(`There are ${String(cards.length)} recipes in it, and one name is for one of them. Leave the name out.`);
  const drafts = apart(cards.map((card) => draftOf(card, catalogue, name)));
  return { kind: 'drafted', text: writeDrafts(drafts), drafts, notices: [...notices, ...drafts.flatMap(languageNotice), ...drafts.flatMap(emptyNotice)] };
}

function nothing(message: string): NotConverted {
  return { kind: 'nothing', message };
}

interface Cards {
  readonly cards: readonly Card[];
  readonly notices: readonly string[];
  /** Why there is no card. */
  readonly failed?: string;
}

function cardsOf(text: string): Cards {
  if (looksLikeJson(text)) {
    const read = readJson(text, { line: 1, column: 1 });
    if (read.kind === 'not-json') return { cards: [], notices: [], failed: `${read.sentence} Mend it, or save the page again.` };
    const cards = recipesIn(read.value).map(cardOf);
    return cards.length > 0 ? { cards, notices: [] } : { cards, notices: [], failed: 'It is JSON, but there is no Recipe of schema.org in it.' };
  }
  return looksLikeHtml(text) ? cardsOfPage(text) : cardsOfText(tidyLines(text), []);
}

function cardsOfPage(html: string): Cards {
  const page = readPage(html);
  const reads = page.scripts.map((script) => readJson(script.text, script));
  const broken = reads.flatMap((read) => (read.kind === 'not-json' ? [read.sentence] : []));
  const cards = recipesIn(reads.flatMap((read) => (read.kind === 'json' ? [read.value] : []))).map(cardOf);
  if (cards.length > 0) return { cards, notices: broken };
  if (broken.length > 0) return { cards: [], notices: [], failed: `${broken.join(' ')} No other recipe was found in the page; copy its words and convert them as plain text.` };
  if (!hasWords(page.text)) return { cards: [], notices: [], failed: 'The page has no words and no recipe data in it.' };
  const notice = 'There is no recipe data (JSON-LD) in the page, so its words were read as a plain list; menus, forms and footers were left out.';
  return cardsOfText(page.text.split('\n'), [notice], page.title);
}

function cardsOfText(lines: readonly string[], notices: readonly string[], title?: string): Cards {
  const filled = lines.filter(hasWords).length;
  if (filled > MOST_LINES) {
    return { cards: [], notices, failed: `There are ${String(filled)} lines in it, and at most ${String(MOST_LINES)} are read at once, since no recipe is that long. Convert a part of it.` };
  }
  const placed = placeLines(lines);
  return { cards: [{ lines: title === undefined ? placed : titled(placed, title) }], notices };
}

/** The heading of a page is what it is called, whatever stands above it. */
function titled(placed: readonly PlacedLine[], title: string): readonly PlacedLine[] {
  const at = placed.findIndex(({ text }) => text === title);
  return at < 0 ? placed : placed.map((line, index) => (index === at ? { ...line, kind: 'title' } : line.kind === 'title' ? { ...line, kind: 'note' } : line));
}

// --- JSON -----------------------------------------------------------------------------------------------------------

function looksLikeJson(text: string): boolean {
  return /^[\s\ufeff]{0,1000}(?:\{\s{0,1000}["}]|\[\s{0,1000}[{["])/.test(text.slice(0, 2100));
}

type ReadJson = { readonly kind: 'json'; readonly value: unknown } | { readonly kind: 'not-json'; readonly sentence: string };

interface Start {
  readonly line: number;
  readonly column: number;
}

/** @param start where the text begins in the source, from 1 */
function readJson(text: string, start: Start): ReadJson {
  try {
    return { kind: 'json', value: JSON.parse(text.replace(/^\ufeff/, '')) as unknown };
  } catch {
    return { kind: 'not-json', sentence: placeOfFault(text, start) };
  }
}

/** The engine says it in words of its own, which differ; so the place is looked for anew. */
function placeOfFault(text: string, start: Start): string {
  const errors: ParseError[] = [];
  try {
    parseTree(text, errors, { disallowComments: true });
  } catch {
    return `The recipe data from line ${String(start.line)} on is nested too deep to be read.`;
  }
  const [first] = errors;
  const offset = first?.offset ?? text.length;
  const before = text.slice(0, offset).split('\n');
  const column = (before.at(-1) ?? '').length + (before.length === 1 ? start.column : 1);
  const place = `line ${String(start.line + before.length - 1)}, column ${String(column)}`;
  const what = first === undefined ? 'a character that may not stand there' : spaced(printParseErrorCode(first.error));
  return `The recipe data is not valid JSON: ${what} at ${place}.`;
}

/** `PropertyNameExpected` as `property name expected`. */
function spaced(code: string): string {
  return code.replace(/(?<=[a-z])(?=[A-Z])/g, ' ').toLowerCase();
}

// --- what is said about it ------------------------------------------------------------------------------------------

/** Two formulas of one name could not be told apart. */
function apart(drafts: readonly Draft[]): readonly Draft[] {
  const taken = new Set<string>();
  return drafts.map((draft) => {
    let name = draft.name;
    for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = `${draft.name} ${String(number)}`;
    taken.add(name.toLowerCase());
    return { ...draft, name };
  });
}

const FEWEST_NAMES = 4;
const LEAST_KNOWN = 0.5;

/** Names that nobody knows are another language as a rule; it is not translated. */
function languageNotice({ names: { known, all }, outcomes, name }: Draft): readonly string[] {
  const steps = outcomes.filter(({ reading }) => reading === 'understood').length;
  if (all < FEWEST_NAMES || known / all >= LEAST_KNOWN || steps / outcomes.length > 0.7) return [];
  return [`Of ${String(all)} ingredients of "${name}" ${String(known)} ${known === 1 ? 'is' : 'are'} known by name. If it is in another language: nothing is translated. Amounts are read, names and method are kept as they are.`];
}

/** A paragraph that lists its ingredients is kept as words: that nothing of it is weighed must be said. */
function emptyNotice({ names: { all }, name }: Draft): readonly string[] {
  return all > 0 ? [] : [`No ingredient of "${name}" was found. Write each on a line of its own, with its amount and unit (500 g flour), and the method below them.`];
}

export interface Tally {
  readonly lines: number;
  readonly understood: number;
  readonly doubtful: number;
  readonly text: number;
}

/** How many lines were understood, have something left to decide, and were kept as text. */
export function tallyOf(drafts: readonly Draft[]): Tally {
  const outcomes: readonly Outcome[] = drafts.flatMap((draft) => draft.outcomes);
  const count = (reading: Outcome['reading']): number => outcomes.filter((outcome) => outcome.reading === reading).length;
  return { lines: outcomes.length, understood: count('understood'), doubtful: count('doubtful'), text: count('text') };
}
