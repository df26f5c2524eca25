/** JSON with the place of everything in it; what is broken costs as little of the rest as can be. */
import { parseTree, printParseErrorCode, type Node, type ParseError } from 'jsonc-parser';
import type { Span } from '../../../grammar';

/** Characters: a file of settings that is larger is none. */
export const LARGEST_SETTINGS = 1_000_000;
/** Settings nest three deep. The parser calls itself, so deeper ones must not reach it. */
const DEEPEST = 50;

export interface Broken extends Span {
  readonly message: string;
}

/** The value of a text that may be broken, and where it is. No value: nothing of it can be read. Never throws. */
export function jsonTree(text: string): { readonly value: Node | undefined; readonly broken: readonly Broken[] } {
  const none = (message: string, { start, end }: Span) => ({ value: undefined, broken: [{ message, start, end }] });
  const whole = { start: 0, end: text.length };
  if (text.length > LARGEST_SETTINGS) return none('This file is too large for settings, so nothing in it counts.', { start: 0, end: 1 });
  if (text.trim() === '') return none('The file is empty. Settings stand in braces: {} are none at all.', whole);
  const deep = tooDeep(text);
  if (deep !== undefined) return none('Braces or brackets are nested too deeply for settings, so nothing in the file counts.', deep);
  const errors: ParseError[] = [];
  const value = parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  // What follows from a first mistake would only confuse: it shows when the first is mended.
  return { value, broken: errors.slice(0, 1).map((error) => brokenAt(text, error)) };
}

/** The first brace or bracket inside more others than settings have; those in quotes are text. A quote ends with its line. */
function tooDeep(text: string): Span | undefined {
  let depth = 0;
  for (const { 0: token, index } of text.matchAll(/"(?:[^"\\\r\n]|\\.)*"?|[{}[\]]/g)) {
    if (token === '{' || token === '[') depth += 1;
    if (token === '}' || token === ']') depth -= 1;
    if (depth > DEEPEST) return { start: index, end: index + 1 };
  }
  return undefined;
}

function brokenAt(text: string, { error, offset, length }: ParseError): Broken {
  const here = text[offset] ?? '';
  if (/\d,$/.test(text.slice(Math.max(0, offset - 2), offset)) && /\d/.test(here)) {
    return { start: offset - 2, end: offset + Math.max(length, 1), message: 'A number takes a decimal point: 2.5, not 2,5.' };
  }
  const start = Math.min(offset, text.length);
  return { start, end: Math.min(offset + Math.max(length, 1), text.length), message: sentenceOf(printParseErrorCode(error), here) };
}

function sentenceOf(error: string, here: string): string {
  switch (error) {
    case 'InvalidSymbol':
      return here === "'"
        ? 'JSON takes double quotes: "rye", not \'rye\'.'
        : 'This is not JSON. Names and words stand in double quotes; numbers, true and false stand without.';
    case 'InvalidNumberFormat':
    case 'UnexpectedEndOfNumber':
      return 'This is no number as JSON writes one: 2.5 or 0.5.';
    case 'PropertyNameExpected':
      return here === '}'
        ? 'Nothing follows the last comma. Take it out.'
        : 'A name in double quotes belongs here, then a colon and a value: "measures": "metric".';
    case 'ValueExpected':
      return here === '}' || here === ']' ? 'Something is missing before this.' : 'A value belongs here: a number, a word in double quotes, or more in braces.';
    case 'ColonExpected':
      return 'A colon belongs here, between the name and its value.';
    case 'CommaExpected':
      return 'A comma belongs here, before the next setting.';
    case 'CloseBraceExpected':
      return 'A closing brace } is missing.';
    case 'CloseBracketExpected':
      return 'A closing bracket ] is missing.';
    case 'EndOfFileExpected':
      return 'Nothing may follow the last closing brace.';
    case 'InvalidCommentToken':
    case 'UnexpectedEndOfComment':
      return 'JSON has no comments. Give reasons in a text file beside it.';
    case 'UnexpectedEndOfString':
      return 'The closing double quote is missing.';
    case 'InvalidUnicode':
    case 'InvalidEscapeCharacter':
      return 'A backslash in double quotes begins an escape, and this is none. Write two for one that stands for itself.';
    default:
      return 'This cannot stand in JSON.';
  }
}

export interface Entry {
  readonly name: string;
  readonly nameSpan: Span;
  /** Undefined while it is being typed. */
  readonly value: Node | undefined;
  /** The same name stands again further on, and that one counts. */
  readonly outdone: boolean;
}

/** What stands in a pair of braces, in order; undefined for any other value. */
export function entriesOf(node: Node): readonly Entry[] | undefined {
  if (node.type !== 'object') return undefined;
  const found = (node.children ?? []).flatMap(({ children: [name, value] = [] }): readonly Omit<Entry, 'outdone'>[] => {
    const text: unknown = name?.value;
    return name === undefined || typeof text !== 'string' ? [] : [{ name: text, nameSpan: spanOf(name), value }];
  });
  const last = new Map(found.map(({ name }, index) => [name, index]));
  return found.map((entry, index) => ({ ...entry, outdone: last.get(entry.name) !== index }));
}

export function spanOf({ offset, length }: Node): Span {
  return { start: offset, end: offset + length };
}

/** The word or number that a node is, a zero without a sign; undefined for anything else. */
export function scalarOf(node: Node): string | number | undefined {
  const value: unknown = node.value;
  if (node.type === 'number' && typeof value === 'number') return value === 0 ? 0 : value;
  return node.type === 'string' && typeof value === 'string' ? value : undefined;
}
