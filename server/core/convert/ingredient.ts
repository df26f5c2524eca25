/** A line of ingredients as people write it, as a line of the language: what is sure as data, the rest as words. */
import type { Catalogue } from '../ingredients/model';
import { amountAt, type ReadAmount, type ReadTemperature } from './amounts';
import { chooseAmount, isConverted, type ChosenAmount } from './chosen-amount';
import { hydrationIn, isSameName, purposeIn, readAt, readName, type ReadName } from './names';
import { segmentsOf, wordsOf, type Segment } from './segments';
import { isWord, sliceOf, tokensOf, type Token } from './tokens';
import { measureOf } from './units';

/** A part that lines may take in, by the name that they call it by. */
export interface KnownPart {
  readonly name: string;
  readonly aliases: readonly string[];
}

export interface IngredientReading {
  /** `450 g`; undefined where nobody says how much. */
  readonly amount: string | undefined;
  /** What so many pieces weigh: `220 g` of `4 eggs (220 g)`. */
  readonly weight?: string | undefined;
  readonly name: string;
  readonly at?: string | undefined;
  readonly hydration?: string | undefined;
  readonly purpose?: string | undefined;
  readonly notes: readonly string[];
  readonly decide: readonly string[];
  readonly known: boolean;
  readonly nearest: readonly string[];
  /** It takes in a part of the formula. */
  readonly isPart: boolean;
  /** What is added to the same line: `1 cup plus 2 tbsp flour`. */
  readonly more: readonly string[];
}

/** Names are shorter; a line with a longer one is prose. */
const LONGEST_NAME = 80;
const MOST_TOKENS = 80;

/** The reading of a line; undefined where it names nothing, or is prose. */
export function readIngredient(line: string, catalogue: Catalogue, parts: readonly KnownPart[] = []): IngredientReading | undefined {
  const tokens = tokensOf(line);
  if (tokens.length > MOST_TOKENS || tokens.length === 0) return undefined;
  const plus = plusOf(tokens);
  const segments = segmentsOf(plus.rest);
  const isTable = segments.some(({ kind }) => kind === 'cell');
  const named = segments.findIndex(({ words, kind }) => words.length > 0 && kind !== 'bracket' && hasLetters(words));
  const main = segments[named];
  if (main === undefined) return undefined;

  const container = containerOf(segments, named, main);
  const read = readName(line, container === undefined ? main.words : main.words.slice(1), catalogue);
  const amounts: ReadAmount[] = [];
  const temperatures: ReadTemperature[] = [];
  const notes: string[] = [];
  let [at, hydration, purpose] = [read.at, read.hydration, read.purpose];
  segments.forEach((segment, index) => {
    for (const one of [...segment.leading, ...segment.trailing]) {
      // A percentage of hydration, or a number in a sentence, is no amount of the line.
      if (index !== named && segment.words.length > 0) continue;
      // Of `2 (8-ounce) packages` the 2 counts packages.
      if (one.kind === 'amount') amounts.push(container !== undefined && one.measure === undefined ? { ...one, measure: { kind: 'piece', holds: true } } : one);
      else temperatures.push(one);
    }
    if (index === named || segment.words.length === 0) return;
    const aside = readAside(line, segment, plus.rest);
    if (aside.hydration !== undefined && hydration === undefined) hydration = aside.hydration;
    else if (aside.purpose !== undefined && purpose === undefined) purpose = aside.purpose;
    else if (aside.at !== undefined && at === undefined) at = aside.at;
    else notes.push(aside.words);
    if (aside.note !== '') notes.push(aside.note);
  });
  if (container !== undefined) notes.push(container);
  at ??= temperatures[0]?.bake;
  notes.push(...temperatures.filter(({ bake }) => bake !== at).map(({ from, to }) => line.slice(from, to)));

  const wanted = amounts.filter((one) => !isTable || one.measure !== undefined || amounts.length === 1);
  const chosen = chooseAmount(wanted);
  return assembled(line, { read: { ...read, at, hydration, purpose }, notes, amounts, chosen, more: plus.more }, parts);
}

interface Found {
  readonly read: ReadName;
  readonly notes: readonly string[];
  readonly amounts: readonly ReadAmount[];
  readonly chosen: ChosenAmount | undefined;
  readonly more: readonly string[];
}

function assembled(line: string, { read, notes, amounts, chosen, more }: Found, parts: readonly KnownPart[]): IngredientReading | undefined {
  const part = parts.find(({ name, aliases }) => [name, ...aliases].some((alias) => isSameName(alias, read.name)));
  const isAll = part !== undefined && chosen === undefined;
  const name = part?.name ?? read.name;
  if (name === '' || name.length > LONGEST_NAME) return undefined;
  const said = (amount: ReadAmount): string => line.slice(amount.from, amount.to).trim();
  const used = amounts.filter((amount) => chosen !== undefined && !chosen.others.includes(amount));
  const kept = [
    ...(part === undefined ? [] : [wordsBeside(read.name, part.name)]),
    ...used.filter(isConverted).map(said),
    ...(chosen?.others ?? []).map(said),
    ...used.filter((amount) => !isConverted(amount) && amount.vague.length > 0).map(said),
  ];
  return {
    amount: isAll ? 'all' : chosen?.bake, weight: chosen?.weight,
    name: read.known && part === undefined ? uncapped(name) : name, at: read.at, hydration: read.hydration, purpose: read.purpose,
    notes: [...kept, ...read.notes, ...notes].map((note) => note.trim()).filter((note) => note !== ''),
    decide: [...(chosen?.decide ?? []), ...(read.hasChoice ? ['which of the two is it?'] : [])],
    known: read.known || part !== undefined,
    nearest: part === undefined ? read.nearest : [],
    isPart: part !== undefined,
    more,
  };
}

/** `Flour` in a list is flour in a dough; `T55 flour` stays. */
function uncapped(name: string): string {
  return /^\p{Lu}\p{Ll}+(?![\p{L}\p{N}])/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/** What is said of a part besides its name: `from above`. */
function wordsBeside(said: string, name: string): string {
  const own = new Set([...name.toLowerCase().split(' '), 'all', 'of', 'the', 'it']);
  return said.split(' ').filter((word) => !own.has(word.toLowerCase())).join(' ');
}

/** `1 cup plus 2 tbsp flour`: what stands between `plus` and the name is a line of its own. */
function plusOf(tokens: readonly Token[]): { readonly rest: readonly Token[]; readonly more: readonly string[] } {
  const at = tokens.findIndex((token, index) => index > 0 && index < 8 && (isWord(token, 'plus', 'and') || (token.kind === 'sign' && token.text === '+')));
  const before = at < 0 ? [] : segmentsOf(tokens.slice(0, at));
  // `2 pounds and 8 ounces` is one amount.
  if ((amountAt(tokens, 0)?.next ?? 0) > at) return { rest: tokens, more: [] };
  if (at < 0 || before.some(({ words }) => words.length > 0) || before.length === 0) return { rest: tokens, more: [] };
  const [after] = segmentsOf(tokens.slice(at + 1));
  const amount = after?.leading.find((one) => one.kind === 'amount');
  if (after === undefined || amount?.measure === undefined || after.leading.length !== 1) return { rest: tokens, more: [] };
  const chosen = chooseAmount([amount]);
  if (chosen === undefined) return { rest: tokens, more: [] };
  const rest = tokens.filter((token, index) => index < at || token.start >= amount.to);
  return { rest, more: [chosen.bake] };
}

/** `package` of `1 (8-ounce) package cream cheese`, which is what the number counts and no part of the name. */
function containerOf(segments: readonly Segment[], named: number, main: Segment): string | undefined {
  const [word] = main.words;
  const isBehindBracket = segments[named - 1]?.kind === 'bracket' || main.leading.some((one) => one.kind === 'amount' && one.measure?.kind === 'mass');
  const measure = word?.kind === 'word' ? measureOf(word.text) : undefined;
  return isBehindBracket && main.words.length > 1 && (measure?.kind === 'piece' || measure?.kind === 'packet' || measure?.kind === 'stick') ? word?.text : undefined;
}

interface Aside {
  readonly at?: string;
  readonly hydration?: string;
  readonly purpose?: string;
  /** As the source has it. */
  readonly words: string;
  /** What is left of it once the rest is data. */
  readonly note: string;
}

/** A piece of the line that is not its name: what the ingredient is like, how warm, what for; or words. */
function readAside(line: string, segment: Segment, tokens: readonly Token[]): Aside {
  const words = asWritten(line, segment, tokens);
  const piece = tokensOf(words);
  const hydration = hydrationIn(piece);
  if (hydration !== undefined) return { hydration, words, note: '' };
  const purpose = segment.leading.length === 0 ? purposeIn(wordsOf(line, segment)) : undefined;
  if (purpose !== undefined) return { purpose, words, note: '' };
  if (isWord(piece[0], 'at')) {
    const read = readAt(words, piece.slice(1));
    if (read?.at !== undefined) return { at: read.at, words, note: read.note };
  }
  return { words, note: '' };
}

/** The whole piece, amounts in it included. */
function asWritten(line: string, { leading, words, trailing }: Segment, tokens: readonly Token[]): string {
  const starts = [...leading.map(({ from }) => from), ...words.map(({ start }) => start), ...trailing.map(({ from }) => from)];
  const ends = [...leading.map(({ to }) => to), ...words.map(({ end }) => end), ...trailing.map(({ to }) => to)];
  const [from, to] = [Math.min(...starts), Math.max(...ends)];
  return sliceOf(line, tokens.filter(({ start, end }) => start >= from && end <= to));
}

function hasLetters(tokens: readonly Token[]): boolean {
  return tokens.some(({ kind, text }) => kind === 'word' && /\p{L}/u.test(text));
}

/** Whether a line begins or ends with an amount, as a line of ingredients does and a sentence does not. */
export function hasAmount(line: string): { readonly leads: boolean; readonly trails: boolean } {
  const tokens = tokensOf(line);
  if (tokens.length > MOST_TOKENS) return { leads: false, trails: false };
  const segments = segmentsOf(tokens);
  const amounts = segments.flatMap(({ leading, words, trailing, kind }, index) => (
    index === 0 || words.length === 0 ? leading : []).map((one) => ({ one, kind, index })).concat(trailing.map((one) => ({ one, kind, index }))));
  const isAmount = ({ one }: (typeof amounts)[number]): boolean => one.kind === 'amount';
  const leads = (segments[0]?.leading ?? []).some(({ kind }) => kind === 'amount') || (segments[0]?.kind === 'bracket' && segments[1]?.leading[0]?.kind === 'amount');
  return { leads, trails: !leads && amounts.some((each) => isAmount(each) && each.one.kind === 'amount' && each.one.measure !== undefined) };
}
