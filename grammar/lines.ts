/** Which rule reads a line: chosen by the kind of its block and the words that open it. */
import { tokenMatcher, type IToken } from 'chevrotain';
import { belowZero, describeError } from './messages';
import { nearest } from './near';
import { parser, type Reading } from './parser';
import * as t from './tokens';
import type { BlockKind, BodyNode, PartKind, Problem, ProblemCode, PropertyKey, PropertyValue, Span, StepKind } from './tree';
import { LINE_WORDS, PROPERTY_WORDS, STEP_WORDS, type LineWord, type VocabularyWord } from './vocabulary';
import { shorten } from './words';

/** The block around a line. */
export interface Surroundings {
  readonly block: BlockKind;
  readonly part: PartKind | undefined;
}

/** What a line says, without its comment. */
export interface LineReading {
  readonly node: BodyNode;
  readonly problems: readonly Problem[];
}

type Meaning =
  | { readonly kind: 'property'; readonly key: PropertyKey; readonly word: VocabularyWord }
  | { readonly kind: 'line'; readonly key: LineWord; readonly word: VocabularyWord }
  | { readonly kind: 'step'; readonly key: StepKind; readonly word: VocabularyWord };

/** What each word that opens a line means; more than one meaning where blocks differ. */
const meanings = new Map<string, Meaning[]>();
for (const meaning of [
  ...LINE_WORDS.map((word): Meaning => ({ kind: 'line', key: word.label, word })),
  ...STEP_WORDS.map((word): Meaning => ({ kind: 'step', key: word.label, word })),
  ...PROPERTY_WORDS.map((word): Meaning => ({ kind: 'property', key: word.label, word })),
]) {
  meanings.set(meaning.word.label, [...(meanings.get(meaning.word.label) ?? []), meaning]);
}

/** The further words of keywords that have more than one, by their first. */
const FURTHER_WORDS = new Map<string, readonly string[]>([
  ['based', ['on']], ['coil', ['fold']], ['stretch', ['and', 'fold']], ['old', ['dough']], ['total', ['formula']],
]);

export interface Opening {
  readonly keyword: IToken;
  /** The keyword in small letters with single spaces. */
  readonly label: string;
  readonly rest: IToken[];
}

/** The keyword that opens a line, as one token, with the tokens behind it. */
export function takeKeyword(text: string, tokens: readonly IToken[]): Opening | undefined {
  const first = tokens[0];
  if (first === undefined || !tokenMatcher(first, t.AnyWord)) return undefined;
  const label = first.image.toLowerCase();
  const further = FURTHER_WORDS.get(label);
  const last = further === undefined ? undefined : tokens[further.length];
  if (further !== undefined && last !== undefined && further.every((word, index) => tokens[index + 1]?.image.toLowerCase() === word)) {
    const keyword = t.joinTokens(text, first, last, t.Word);
    return { keyword, label: [label, ...further].join(' '), rest: tokens.slice(further.length + 1) };
  }
  return { keyword: first, label, rest: tokens.slice(1) };
}

/** Reads the tokens of an indented line. There must be at least one. */
export function readLine(text: string, tokens: IToken[], around: Surroundings): LineReading {
  const span = { start: tokens[0]?.startOffset ?? 0, end: lastEnd(tokens) };
  if (opensAmount(tokens)) return readAmountLine(text, tokens, span, around);
  const opening = takeKeyword(text, tokens);
  const known = opening === undefined ? undefined : meanings.get(opening.label);
  if (opening === undefined || known === undefined) return unknownLine(text, tokens, span, around);
  if (opening.label === 'add' && (around.block === 'steps' || around.block === 'record')) return addAlone(text, span);
  const here = known.find((meaning) => meaning.word.allowedIn.includes(around.block));
  // `salt 18 g` in a dough is an ingredient with its amount in the wrong place, whatever `salt` means elsewhere.
  if (here === undefined && around.block === 'part' && amountAtEnd(tokens) !== undefined) return unknownLine(text, tokens, span, around);
  const meaning = here ?? known[0];
  if (meaning === undefined) return unknownLine(text, tokens, span, around);
  const reading = readKnown(text, meaning, opening.keyword, opening.rest, span, around);
  if (here !== undefined || reading.node.kind === 'bad') return reading;
  return withProblem(reading, 'out-of-place', span, outOfPlace(meaning));
}

/** In a method, `add` is a detail of a step. */
function addAlone(text: string, span: Span): LineReading {
  const message = `What goes in is said behind a step, after a comma: mix 5 min, ${shorten(text.slice(span.start, span.end))}.`;
  return { node: { kind: 'bad', ...span }, problems: [{ code: 'not-understood', ...span, message }] };
}

function lastEnd(tokens: readonly IToken[]): number {
  const last = tokens[tokens.length - 1];
  return last === undefined ? 0 : t.tokenEnd(last);
}

function withProblem(reading: LineReading, code: ProblemCode, span: Span, message: string): LineReading {
  return { node: reading.node, problems: [...reading.problems, { code, start: span.start, end: span.end, message }] };
}

function outOfPlace({ kind, word }: Meaning): string {
  if (kind === 'step') return `The step ${word.label} means nothing here: put it under steps.`;
  const places = word.allowedIn.map((block) => (block === 'ingredient' ? 'an ingredient' : `a ${block}`));
  return `The line ${word.label} belongs in ${places.join(' or ')}: it means nothing here.`;
}

// --- lines that open with an amount ---------------------------------------------------------------------------------

function opensAmount(tokens: readonly IToken[]): boolean {
  const [first, second] = tokens;
  if (first === undefined) return false;
  if (tokenMatcher(first, t.NumberToken) || tokenMatcher(first, t.All) || tokenMatcher(first, t.Pinch)) return true;
  return tokenMatcher(first, t.Article) && second !== undefined && tokenMatcher(second, t.Pinch);
}

/** Whether the line is `15 % of flour in …`, with a range or without. */
function isFlourShare(tokens: readonly IToken[]): boolean {
  const percent = tokens.findIndex((token) => tokenMatcher(token, t.Percent));
  if (percent !== 1 && percent !== 3) return false;
  const [of, flour, inWord] = tokens.slice(percent + 1, percent + 4);
  return (
    of !== undefined && tokenMatcher(of, t.Of) && flour?.image.toLowerCase() === 'flour' &&
    inWord !== undefined && tokenMatcher(inWord, t.In)
  );
}

function readAmountLine(text: string, tokens: IToken[], span: Span, around: Surroundings): LineReading {
  if (isFlourShare(tokens)) {
    const share = finish(text, span, parser().run(text, tokens, () => parser().flourShare()), '15 % of flour in levain', false);
    if (around.part === 'total formula' || share.node.kind === 'bad') return share;
    const message = 'How much of the flour a part holds is said in a total formula only: here, weigh the part or take all of it.';
    return withProblem(share, 'out-of-place', span, message);
  }
  const reading = finish(text, span, parser().run(text, tokens, () => parser().ingredient('plain')), '700 g bread flour', true);
  if (around.block === 'part' || reading.node.kind === 'bad') return reading;
  return withProblem(reading, 'out-of-place', span, 'An ingredient belongs in a part: open one above this line, for example dough.');
}

// --- lines that open with a known word ------------------------------------------------------------------------------

function readKnown(text: string, meaning: Meaning, keyword: IToken, rest: IToken[], span: Span, around: Surroundings): LineReading {
  const { example } = meaning.word;
  switch (meaning.kind) {
    case 'step':
      return finish(text, span, parser().run(text, rest, () => parser().step(meaning.key, keyword)), example, false);
    case 'line': {
      const takesNote = meaning.key === 'add' || meaning.key === 'uses';
      return finish(text, span, parser().run(text, rest, () => lineRule(meaning.key, keyword)), example, takesNote);
    }
    case 'property': {
      const inPlan = around.block === 'plan' && meaning.word.allowedIn.includes('plan');
      const reading = parser().run(text, rest, () => valueRule(meaning.key, inPlan));
      const value: PropertyValue = reading.value ?? { kind: 'missing' };
      const end = reading.value === undefined ? span.end : Math.min(span.end, valueEnd(reading, rest, keyword));
      const node: BodyNode = {
        kind: 'property', start: span.start, end, key: meaning.key,
        keyword: { start: keyword.startOffset, end: t.tokenEnd(keyword) }, value,
      };
      return { node, problems: problemsOf(text, span, reading, example, false) };
    }
  }
}

/** The end of what a value rule read: the whole line, or up to the tail that it did not. */
function valueEnd(reading: Reading<unknown>, rest: readonly IToken[], keyword: IToken): number {
  const tail = reading.errors.find((error) => error.message === 'tail');
  if (tail === undefined) return lastEnd(rest);
  const index = rest.indexOf(tail.token);
  return index > 0 ? lastEnd(rest.slice(0, index)) : t.tokenEnd(keyword);
}

function lineRule(key: LineWord, keyword: IToken): BodyNode | undefined {
  switch (key) {
    case 'makes': return parser().makes(keyword);
    case 'uses': return parser().uses(keyword);
    case 'based on': return parser().basedOn(keyword);
    case 'swap': return parser().swap(keyword);
    case 'set': return parser().set(keyword);
    case 'add': return parser().addLine(keyword);
    case 'drop': return parser().drop(keyword);
  }
}

function valueRule(key: PropertyKey, inPlan: boolean): PropertyValue | undefined {
  switch (key) {
    case 'style': case 'contains': return parser().listValue();
    case 'room': case 'flour': case 'dough': case 'core': return parser().temperatureValue();
    case 'fridge': return inPlan ? parser().capacityValue() : parser().temperatureValue();
    case 'friction': return parser().differenceValue();
    case 'loses': return parser().lossValue();
    case 'altitude': return parser().altitudeValue();
    case 'note': case 'source': case 'author': case 'version': return parser().textValue();
    case 'serves': return parser().servesValue();
    case 'keep': case 'yields': case 'each': return parser().massValue();
    case 'like': return parser().nameValue();
    case 'water': case 'protein': case 'fat': case 'sugar': case 'salt': case 'fibre': return parser().shareValue();
    case 'absorbs': return parser().absorbsValue();
    case 'density': return parser().densityValue();
    case 'costs': return parser().costValue();
    case 'role': return parser().roleValue();
    case 'weighed': return parser().weighedValue();
    case 'ph': return parser().numberValue();
    case 'ready': case 'start': return parser().instantValue();
    case 'asleep': case 'away': return parser().clockRangeValue();
    case 'oven': case 'mixer': case 'hands': case 'pots': return parser().capacityValue();
    case 'bake': case 'make': return parser().orderValue();
  }
}

function finish(text: string, span: Span, reading: Reading<BodyNode | undefined>, example: string, takesNote: boolean): LineReading {
  const problems = problemsOf(text, span, reading, example, takesNote);
  if (reading.value !== undefined) return { node: reading.value, problems };
  const fallback: Problem = { code: 'not-understood', ...span, message: `This line is not understood: write it like ${example}.` };
  return { node: { kind: 'bad', ...span }, problems: problems.length > 0 ? problems : [fallback] };
}

/** All that a rule found wrong. */
function problemsOf(text: string, line: Span, reading: Reading<unknown>, example: string, takesNote: boolean): readonly Problem[] {
  if (reading.errors.length === 0) return reading.found;
  const described = firstAtEachPlace(reading.errors).map((error) => describeError(error, { text, line, example, takesNote }));
  // One complaint about one place is enough.
  const other = reading.found.filter((found) => !described.some((error) => found.start < error.end && error.start < found.end));
  return [...other, ...described];
}

/** Where a line breaks off, each rule around the place fails in turn; only the innermost knows what was expected. */
export function firstAtEachPlace(errors: Reading<unknown>['errors']): Reading<unknown>['errors'] {
  const seen = new Set<IToken | undefined>();
  return errors.filter(({ token }) => {
    const place = token.image === '' ? undefined : token;
    if (seen.has(place)) return false;
    seen.add(place);
    return true;
  });
}

// --- lines that open with nothing known -----------------------------------------------------------------------------

const EXPECTED: Readonly<Record<BlockKind, string>> = {
  formula: 'a line such as makes 2 loaves of 970 g or room 23 C',
  dish: 'a line such as serves 4 or uses 8 slices of "Country loaf"',
  part: 'an amount and a name, such as 700 g bread flour, or a step such as rest 1 h',
  steps: 'a step, such as bulk 4 h at 25 C',
  ingredient: 'a line such as like bread flour or water 14 %',
  record: 'a measure such as core 97 C, or a step as it went, such as bulk 4 h 10 min',
  plan: 'a line such as ready 2026-03-14 08:00 or bake 6 loaves of "Country loaf"',
};

function unknownLine(text: string, tokens: readonly IToken[], span: Span, around: Surroundings): LineReading {
  const node: BodyNode = { kind: 'bad', ...span };
  const last = around.block === 'part' ? amountAtEnd(tokens) : undefined;
  if (last !== undefined) {
    const name = text.slice(span.start, last.amount.start).trim();
    const better = `${text.slice(last.amount.start, last.amount.end)} ${name}`;
    return { node, problems: [{
      code: 'not-understood', start: span.start, end: last.amount.end, message: `The amount comes first: write ${better}.`,
      fix: { title: `Write ${better}`, edits: [{ start: span.start, end: last.amount.end, newText: better }] },
    }] };
  }
  const first = tokens[0];
  if (first === undefined || !tokenMatcher(first, t.AnyWord)) {
    const below = belowZero(text, span);
    if (below !== undefined) return { node, problems: [below] };
    return { node, problems: [{ code: 'not-understood', ...span, message: `Expected ${EXPECTED[around.block]}.` }] };
  }
  const labels = [...meanings].filter(([, all]) => all.some(({ word }) => word.allowedIn.includes(around.block))).map(([label]) => label);
  const close = nearest(first.image, labels);
  if (close !== undefined) {
    const at = { start: first.startOffset, end: t.tokenEnd(first) };
    return { node, problems: [{
      code: 'not-understood', ...at, message: `${shorten(first.image)} is not known here: did you mean ${close}?`,
      fix: { title: `Write ${close}`, edits: [{ ...at, newText: close }] },
    }] };
  }
  const words = shorten(text.slice(span.start, span.end));
  const way = around.block === 'steps' ? `; any other step is written do "${shorten(first.image)}"`
    : around.block === 'part' ? `; if this is an ingredient, write how much: 100 g ${words}` : '';
  return { node, problems: [{ code: 'not-understood', ...span, message: `Expected ${EXPECTED[around.block]}${way}.` }] };
}

/** The amount of a line that says `salt 18 g`: words, then a number and its unit, then the end or a comma. */
function amountAtEnd(tokens: readonly IToken[]): { readonly amount: Span } | undefined {
  const at = tokens.findIndex((token) => !tokenMatcher(token, t.AnyWord) && !tokenMatcher(token, t.Quoted));
  const [number, unit, behind] = tokens.slice(Math.max(at, 0));
  if (at < 1 || number === undefined || unit === undefined || !tokenMatcher(number, t.NumberToken)) return undefined;
  const isUnit = tokenMatcher(unit, t.MassUnitToken) || tokenMatcher(unit, t.VolumeUnitToken) || tokenMatcher(unit, t.Percent);
  if (!isUnit || (behind !== undefined && !tokenMatcher(behind, t.Comma))) return undefined;
  return { amount: { start: number.startOffset, end: t.tokenEnd(unit) } };
}
