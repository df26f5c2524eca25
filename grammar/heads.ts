/** The first-column line that opens a block. */
import { tokenMatcher, type IToken } from 'chevrotain';
import { firstAtEachPlace, readLine, takeKeyword } from './lines';
import { describeError } from './messages';
import { nearest } from './near';
import { parser, type Reading } from './parser';
import * as t from './tokens';
import type { BlockKind, Head, Name, PartKind, Problem, Span } from './tree';
import { BLOCK_WORDS, isPartWord } from './vocabulary';
import { shorten } from './words';

export interface HeadReading {
  readonly head: Head;
  readonly problems: readonly Problem[];
}

const LABELS = BLOCK_WORDS.map((word) => word.label);
const EXAMPLES = new Map(BLOCK_WORDS.map((word) => [word.label, word.example]));

const BLOCK_KINDS: readonly BlockKind[] = ['part', 'steps', 'formula', 'dish', 'ingredient', 'record', 'plan'];

/** Words that other notebooks use for the same thing. */
const SAME_THING = new Map([
  ['recipe', 'formula'], ['method', 'steps'], ['directions', 'steps'], ['process', 'steps'], ['preferment', 'levain'],
  ['include', 'use'], ['import', 'use'], ['schedule', 'plan'], ['log', 'record'], ['total', 'total formula'], ['old', 'old dough'],
]);

/** Reads the tokens of a head line. There must be at least one. */
export function readHead(text: string, tokens: IToken[]): HeadReading {
  const last = tokens[tokens.length - 1];
  const span = { start: tokens[0]?.startOffset ?? 0, end: last === undefined ? 0 : t.tokenEnd(last) };
  const opening = takeKeyword(text, tokens);
  if (opening === undefined) return unknownHead(text, tokens, span);
  const { keyword: word, label, rest } = opening;
  const keyword = { start: word.startOffset, end: t.tokenEnd(word) };
  const example = EXAMPLES.get(label) ?? label;
  const problems = (reading: Reading<unknown>): readonly Problem[] => [
    ...reading.found,
    ...firstAtEachPlace(reading.errors).map((error) => describeError(error, { text, line: span, example, takesNote: false })),
  ];
  switch (label) {
    case 'use': {
      const reading = parser().run(text, rest, () => parser().usePath());
      const path = reading.value;
      const empty = path?.text.trim() === '' ? [missing(span, `Expected a path in quotes after use: write ${example}.`)] : [];
      return { head: { kind: 'use', ...span, keyword, ...(path && { path }) }, problems: [...problems(reading), ...empty] };
    }
    case 'formula':
    case 'dish':
    case 'plan':
    case 'ingredient': {
      const reading = parser().run(text, rest, () => parser().headRest(false));
      const name = reading.value?.name;
      return {
        head: { kind: label, ...span, keyword, ...(name && { name }) },
        problems: [...problems(reading), ...nameProblems(label, label === 'ingredient', name, keyword, example)],
      };
    }
    case 'steps': {
      const reading = parser().run(text, rest, () => parser().nothingMore());
      return { head: { kind: 'steps', ...span, keyword }, problems: problems(reading) };
    }
    case 'record': {
      const reading = parser().run(text, rest, () => parser().dateValue());
      const date = reading.value;
      return { head: { kind: 'record', ...span, keyword, ...(date !== undefined && { date }) }, problems: problems(reading) };
    }
    default: {
      if (!isPartWord(label)) return unknownHead(text, tokens, span);
      const reading = parser().run(text, rest, () => parser().headRest(true));
      const { name, temperature } = reading.value ?? {};
      const part: PartKind = label;
      return {
        head: { kind: 'part', ...span, keyword, part, ...(name && { name }), ...(temperature && { temperature }) },
        problems: [
          ...problems(reading),
          ...(name === undefined && part !== 'part' ? [] : nameProblems(label, false, name, keyword, example)),
        ],
      };
    }
  }
}

function missing(span: Span, message: string): Problem {
  return { code: 'incomplete', start: span.start, end: span.end, message };
}

/** A block is called by a name in quotes; an ingredient's name may go without, as in any other line. */
function nameProblems(label: string, bare: boolean, name: Name | undefined, keyword: Span, example: string): readonly Problem[] {
  if (name === undefined) return [missing(keyword, `Expected a name in quotes after ${label}: write ${example}.`)];
  if (name.text === '') return [missing(name, `Expected a name between the quotes: write ${example}.`)];
  if (name.quoted || bare) return [];
  const better = `"${name.text}"`;
  return [{
    ...missing(name, `Put the name in quotes: ${label} ${better}.`),
    fix: { title: 'Put the name in quotes', edits: [{ start: name.start, end: name.end, newText: better }] },
  }];
}

function unknownHead(text: string, tokens: readonly IToken[], span: Span): HeadReading {
  return { head: { kind: 'unknown', ...span }, problems: [unknownProblem(text, tokens, span)] };
}

function unknownProblem(text: string, tokens: readonly IToken[], span: Span): Problem {
  const code = 'unknown-block';
  const first = tokens[0];
  const words = shorten(text.slice(span.start, span.end));
  // A line that would be good in some block has lost its indent; which block it stands under is not known here.
  const place = BLOCK_KINDS.find((block) => readLine(text, [...tokens], { block, part: undefined }).problems.length === 0);
  if (place !== undefined || (first !== undefined && tokenMatcher(first, t.NumberToken))) {
    const message = `A line in the first column opens a block. If ${words} belongs to the block above, put two spaces before it.`;
    if (place === undefined) return { code, ...span, message };
    const edits = [{ start: span.start, end: span.start, newText: '  ' }];
    return { code, ...span, message, fix: { title: 'Indent the line', edits } };
  }
  const typed = first !== undefined && tokenMatcher(first, t.AnyWord) ? first : undefined;
  const second = tokens[1];
  const two = typed === undefined || second === undefined
    ? undefined
    : nearest(`${typed.image} ${second.image}`, ['old dough', 'total formula']);
  const known = typed && (two ?? SAME_THING.get(typed.image.toLowerCase()) ?? nearest(typed.image, LABELS));
  if (typed === undefined || known === undefined) {
    const message = `${words} opens no block: a line in the first column starts with a word such as formula, dough or steps.`;
    return { code, ...span, message };
  }
  const end = two === undefined ? t.tokenEnd(typed) : t.tokenEnd(second ?? typed);
  return {
    code, ...span,
    message: `${shorten(text.slice(typed.startOffset, end))} opens no block: did you mean ${known}?`,
    fix: { title: `Write ${known}`, edits: [{ start: typed.startOffset, end, newText: known }] },
  };
}
