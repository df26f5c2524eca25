/**
 * Parser errors in a baker's words: what was expected there, and a way out. The rules name a sentence by its key; what
 * stands before the mistake and an example of the line fill it in.
 */
import type { IParserErrorMessageProvider, IRecognitionException, IToken } from 'chevrotain';
import { tokenMatcher } from 'chevrotain';
import * as t from './tokens';
import type { Problem, Span } from './tree';
import { oneSpaced, shorten } from './words';

export type Ask =
  | 'number' | 'range-end' | 'mass-unit' | 'close-bracket' | 'amount' | 'time' | 'time-unit' | 'temperature' | 'name' | 'role'
  | 'purpose' | 'note' | 'makes' | 'swap-for' | 'set-to' | 'detail' | 'until' | 'volume-percent' | 'degree-unit'
  | 'weighed-detail' | 'date' | 'week-day' | 'order-ready' | 'clock' | 'value';

/** The line in which an error stands. */
export interface ErrorPlace {
  readonly text: string;
  /** The line without its comment. */
  readonly line: Span;
  /** A correct line of the same kind. */
  readonly example: string;
  /** Whether a comma and a note may end the line. */
  readonly takesNote: boolean;
}

const TAIL = 'tail';

/** Chevrotain asks this for the text of an error; what comes out is a key, which `describeError` turns into a sentence. */
export const keysForErrors: IParserErrorMessageProvider = {
  buildMismatchTokenMessage: () => 'value',
  buildNotAllInputParsedMessage: () => TAIL,
  buildNoViableAltMessage: ({ customUserDescription }) => customUserDescription ?? 'value',
  buildEarlyExitMessage: ({ customUserDescription }) => customUserDescription ?? 'value',
};

/** The problem that a parser error is, with its place in the block. */
export function describeError(error: IRecognitionException, place: ErrorPlace): Problem {
  const { text, line } = place;
  // At a comma, too, it is what stands before that breaks off.
  const broken = error.token.image === '' || (error.message !== TAIL && tokenMatcher(error.token, t.Comma));
  const start = error.token.image === '' ? line.end : error.token.startOffset;
  const last = error.resyncedTokens[error.resyncedTokens.length - 1];
  const end = error.message === TAIL ? line.end : Math.max(t.tokenEnd(last ?? error.token), start);
  const before = text.slice(line.start, start).trim();
  const below = error.message === TAIL ? undefined : belowZero(text, { start, end: line.end });
  if (below !== undefined) return below;
  if (error.message === TAIL) return describeTail(error, { start, end }, before, place);
  const previous = previousToken(error);
  const afterNumber = previous !== undefined && tokenMatcher(previous, t.NumberToken) ? previous.image : undefined;
  const message = sentence(error.message as Ask, shortTail(before), afterNumber, place.example);
  // Where the line breaks off there is nothing to mark but what stands before.
  const span = broken ? lastWord(text, { start: line.start, end: start }) : { start, end };
  return { code: broken ? 'incomplete' : 'not-understood', ...span, message };
}

/** An amount, a share or a price with a minus in front, where only a temperature may have one. */
export function belowZero(text: string, span: Span): Problem | undefined {
  const [written, number] = /^[-‐-―−][ \t]?([\d.,/½¼¾⅓⅔]*[\d½¼¾⅓⅔])/.exec(text.slice(span.start, span.end)) ?? [];
  if (written === undefined || number === undefined) return undefined;
  const message = `${shorten(written)} is below zero, which no amount can be: write ${shorten(number)}, or take the line out.`;
  return { code: 'not-understood', start: span.start, end: span.start + written.length, message };
}

/** Every error but the one about a left-over tail knows the token before it. */
function previousToken(error: IRecognitionException & { readonly previousToken?: IToken }): IToken | undefined {
  return error.previousToken;
}

function sentence(key: Ask, before: string, afterNumber: string | undefined, example: string): string {
  switch (key) {
    case 'number':
    case 'value':
    case 'makes':
    case 'weighed-detail':
      return `Expected something else after ${before}: write it like ${example}.`;
    case 'range-end':
      return `Expected a number after ${before}: a range has two, as in 10 to 16.`;
    case 'mass-unit':
      return afterNumber === undefined
        ? `Expected a weight after ${before}, as in ${example}.`
        : `Expected a unit of weight after ${afterNumber}: write ${afterNumber} g.`;
    case 'close-bracket':
      return `Expected ) after ${before}: brackets hold a weight, as in (4.5 g).`;
    case 'amount':
      return `Expected an amount after ${before}, such as 40 g: write it like ${example}.`;
    case 'time':
      return `Expected a time after ${before}, such as 30 min.`;
    case 'time-unit':
      return afterNumber === undefined
        ? `Expected a time after ${before}, such as 30 min.`
        : `Expected a unit of time after ${afterNumber}: write ${afterNumber} min or ${afterNumber} h.`;
    case 'temperature':
      return `Expected a temperature after ${before}, such as 24 C, room or fridge.`;
    case 'degree-unit':
      return afterNumber === undefined
        ? `Expected degrees after ${before}, as in ${example}.`
        : `Expected C or F after ${afterNumber}: write ${afterNumber} C or ${afterNumber} F.`;
    case 'name':
      return afterNumber === undefined
        ? `Expected a name after ${before}: write it like ${example}.`
        : `Expected a unit after ${afterNumber}: write ${afterNumber} g, ${afterNumber} % or ${afterNumber} ml.`;
    case 'role':
      return `Expected a role after ${before}, such as inclusion or flour.`;
    case 'purpose':
      return `Expected what it is for after ${before}: dusting, the pan or the top.`;
    case 'note':
      return `Expected a note after the comma: write one, or leave the comma out.`;
    case 'swap-for':
      return `Expected for after ${before}: write it like ${example}.`;
    case 'set-to':
      return `Expected to and an amount after ${before}: write it like ${example}.`;
    case 'detail':
      return `Expected a detail after the comma, such as lid on or until core 97 C: write one, or leave the comma out.`;
    case 'until':
      return `Expected a sign to look for after ${before}: core 97 C, volume 75 % or words in quotes.`;
    case 'volume-percent':
      return `Expected a share after ${before}: write it like until volume 75 %.`;
    case 'week-day':
      return `Expected a day of the week after ${before}, such as Sat or Mon to Fri.`;
    case 'order-ready':
      return 'Expected ready and a time after the comma, such as ready 07:00: write one, or leave the comma out.';
    case 'clock':
      return `Expected a time of the day after ${before}, such as 07:00.`;
    case 'date':
      return `Expected a date after ${before}: write year, month and day, as in ${example}.`;
  }
}

function describeTail(error: IRecognitionException, span: Span, before: string, place: ErrorPlace): Problem {
  const words = place.text.slice(span.start, span.end);
  const bracket = /^\(([^()]*)\)?$/.exec(words);
  const code = 'not-understood';
  if (place.takesNote && bracket?.[1] !== undefined && bracket[1].trim() !== '') {
    const note = `, ${bracket[1].trim()}`;
    let start = span.start;
    while (start > place.line.start && /\s/.test(place.text.charAt(start - 1))) start -= 1;
    return {
      code,
      ...span,
      message: `Brackets hold a weight, as in (120 g). Put a note after a comma: ${shortTail(before)}${shorten(note)}.`,
      fix: { title: 'Make it a note', edits: [{ start, end: span.end, newText: note }] },
    };
  }
  if (tokenMatcher(error.token, t.NumberToken) && words === error.token.image && !place.takesNote) {
    return { code, ...span, message: `The number ${words} has no place after ${shortTail(before)}: write it like ${place.example}.` };
  }
  const way = place.takesNote ? 'put a note after a comma' : `write it like ${place.example}`;
  return { code, ...span, message: `Expected the end of the line after ${shortTail(before)}: ${way}.` };
}

/** The last word before the end of the line, to mark when something is missing behind it. */
function lastWord(text: string, line: Span): Span {
  let end = line.end;
  while (end > line.start && /\s/.test(text.charAt(end - 1))) end -= 1;
  let start = end;
  while (start > line.start && !/\s/.test(text.charAt(start - 1))) start -= 1;
  return { start, end };
}

/** The last words of a text, enough to show the place. */
function shortTail(typed: string): string {
  const text = oneSpaced(typed);
  if (text.length <= 40) return text;
  const detail = text.slice(text.lastIndexOf(',') + 1).trim();
  if (detail !== '' && detail.length <= 40) return detail;
  const cut = text.slice(-40);
  return `…${cut.slice(cut.indexOf(' ') + 1)}`;
}
