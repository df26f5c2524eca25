/**
 * Words, numbers and signs of one line. Lexing never fails: what fits nothing else is an `Other` token.
 *
 * All words come out of one pattern and only then get their meaning from a table. That keeps the lexer to a dozen
 * patterns, makes keywords case-insensitive in any script, and lets every keyword still serve as part of a name.
 */
import { createToken, Lexer, type IToken, type TokenType } from 'chevrotain';
import type { MassUnit, Problem, Span, TimeUnit, VolumeUnit } from './tree';

// --- categories -----------------------------------------------------------------------------------------------------

/** Any token at all: for notes, and for what is skipped. */
export const Any = createToken({ name: 'Any', pattern: Lexer.NA });
/** Any token that can stand in a name, if only by mistake. */
export const NamePart = createToken({ name: 'NamePart', pattern: Lexer.NA, categories: [Any] });
/** Any word, keyword or not. */
export const AnyWord = createToken({ name: 'AnyWord', pattern: Lexer.NA, categories: [NamePart] });
/** Between the two ends of a range. */
export const RangeSign = createToken({ name: 'RangeSign', pattern: Lexer.NA, categories: [Any] });
export const TempUnitToken = createToken({ name: 'TempUnit', pattern: Lexer.NA, categories: [Any] });
export const Quoted = createToken({ name: 'Quoted', pattern: Lexer.NA, categories: [Any] });
export const Per = createToken({ name: 'Per', pattern: Lexer.NA, categories: [Any] });

// --- signs and literals ---------------------------------------------------------------------------------------------

/** Chevrotain picks patterns by first character in buckets of 255; one character of each bucket stands for all of it. */
const BEYOND_LATIN1 = Array.from({ length: 256 }, (_, bucket) => 256 + bucket * 255).filter((code) => code < 65536);
const ASCII_AND_LATIN1 = Array.from({ length: 256 }, (_, code) => code);
const LATIN1_LETTERS = ASCII_AND_LATIN1.filter((code) => /\p{L}/u.test(String.fromCharCode(code)));

const Space = createToken({
  name: 'Space',
  pattern: /[ \t\v\f\u00a0\u1680\u2000-\u200b\u2028\u2029\u202f\u205f\u3000\ufeff]+/,
  group: Lexer.SKIPPED,
  line_breaks: false,
});
const CommentToken = createToken({ name: 'Comment', pattern: /#[^\r\n]*/, line_breaks: false });
const QuotedText = createToken({
  name: 'QuotedText',
  pattern: /"[^"\r\n]*"|[“„”‟][^“„”‟\r\n]*[”“‟]|["“„”‟][^"“”„‟\r\n]*["“”‟]|«[^«»\r\n]*»/,
  categories: [Quoted],
  line_breaks: false,
});
/** A quote that is never closed takes the rest of the line. */
export const OpenQuote = createToken({ name: 'OpenQuote', pattern: /["“„”‟«][^\r\n]*/, categories: [Quoted], line_breaks: false });
export const DateToken = createToken({ name: 'Date', pattern: /\d{4}-\d{1,2}-\d{1,2}(?!\d)/, categories: [Any] });
export const ClockToken = createToken({ name: 'Clock', pattern: /\d{1,2}:\d{2}(?!\d)/, categories: [Any] });
export const NumberToken = createToken({
  name: 'Number',
  pattern:
    /\d+[ \t]+\d+[/⁄]\d+|\d+[/⁄]\d+|\d+[ \t]?[¼-¾⅐-⅞]|[¼-¾⅐-⅞]|\d{1,3}(?:,\d{3})+\.\d+|\d+(?:[.,]\d+)+|\d+|\.\d+/,
  categories: [NamePart],
  start_chars_hint: [...'0123456789.¼½¾⅐⅞'],
  line_breaks: false,
});
export const Zone = createToken({
  name: 'Zone',
  pattern: /[A-Z][A-Za-z_]{2,}(?:\/[A-Za-z0-9_+-]+)+/,
  categories: [NamePart],
});
export const Percent = createToken({ name: 'Percent', pattern: /[%٪]/, categories: [NamePart] });
export const Degree = createToken({ name: 'Degree', pattern: /[°º˚]/, categories: [Any] });
const DegreeLetter = createToken({ name: 'DegreeLetter', pattern: /[℃℉]/, categories: [TempUnitToken] });
export const Comma = createToken({ name: 'Comma', pattern: /[,،、，]/, categories: [Any] });
export const OpenBracket = createToken({ name: 'OpenBracket', pattern: '(', categories: [Any] });
export const CloseBracket = createToken({ name: 'CloseBracket', pattern: ')', categories: [Any] });
/** A hyphen or a dash on its own: a minus before a temperature, or a range written with a dash by mistake. */
export const Dash = createToken({ name: 'Dash', pattern: /[-‐-―−]/, categories: [RangeSign, NamePart] });
export const Slash = createToken({ name: 'Slash', pattern: /[/⁄]/, categories: [Per, NamePart] });
const WORD = /\p{L}[\p{L}\p{M}'’ʼ\u200c\u200d‐‑-]*/uy;
/** A function, because Chevrotain drops the flag of a pattern that knows the letters of all scripts. */
function matchWord(text: string, offset: number): RegExpExecArray | null {
  WORD.lastIndex = offset;
  return WORD.exec(text);
}
export const Word = createToken({
  name: 'Word',
  pattern: matchWord,
  categories: [AnyWord],
  start_chars_hint: [...LATIN1_LETTERS, ...BEYOND_LATIN1],
  line_breaks: false,
});
export const Other = createToken({
  name: 'Other',
  pattern: /[\ud800-\udbff][\udc00-\udfff]|[\s\S]/,
  categories: [NamePart],
  start_chars_hint: [...ASCII_AND_LATIN1, ...BEYOND_LATIN1],
  line_breaks: true,
});

// --- words with a meaning -------------------------------------------------------------------------------------------

const wordMeanings = new Map<string, TokenType>();

function keyword(name: string, words: readonly string[], categories: readonly TokenType[] = []): TokenType {
  const token = createToken({ name, pattern: Lexer.NA, categories: [AnyWord, ...categories] });
  for (const word of words) wordMeanings.set(word, token);
  return token;
}

export const At = keyword('At', ['at']);
export const As = keyword('As', ['as']);
export const For = keyword('For', ['for']);
export const In = keyword('In', ['in']);
export const To = keyword('To', ['to'], [RangeSign]);
export const Of = keyword('Of', ['of']);
export const The = keyword('The', ['the']);
export const Article = keyword('Article', ['a', 'an']);
export const PerWord = keyword('PerWord', ['per'], [Per]);
export const All = keyword('All', ['all']);
export const Half = keyword('Half', ['half']);
export const Rest = keyword('Rest', ['rest']);
export const Pinch = keyword('Pinch', ['pinch', 'pinches']);
export const Overnight = keyword('Overnight', ['overnight']);
export const Room = keyword('Room', ['room']);
export const Fridge = keyword('Fridge', ['fridge']);
export const TemperatureWord = keyword('TemperatureWord', ['temperature']);
export const DegreeWord = keyword('DegreeWord', ['degree', 'degrees', 'deg'], [Degree]);
export const Hydration = keyword('Hydration', ['hydration']);
export const Until = keyword('Until', ['until']);
export const Core = keyword('Core', ['core']);
export const Volume = keyword('Volume', ['volume']);
export const Add = keyword('Add', ['add']);
export const Every = keyword('Every', ['every']);
export const Times = keyword('Times', ['times', 'time']);
export const Lid = keyword('Lid', ['lid']);
export const On = keyword('On', ['on']);
export const Off = keyword('Off', ['off']);
export const With = keyword('With', ['with']);
export const Steam = keyword('Steam', ['steam']);
export const By = keyword('By', ['by']);
export const Hand = keyword('Hand', ['hand']);
export const Mixer = keyword('Mixer', ['mixer']);
export const Attended = keyword('Attended', ['attended']);
export const Unattended = keyword('Unattended', ['unattended']);
export const Holds = keyword('Holds', ['holds', 'hold']);
export const After = keyword('After', ['after']);
export const Each = keyword('Each', ['each']);
export const Oven = keyword('Oven', ['oven']);
export const Bench = keyword('Bench', ['bench']);
export const Or = keyword('Or', ['or']);
export const And = keyword('And', ['and']);
export const Ready = keyword('Ready', ['ready']);

const massUnits = new Map<string, MassUnit>(
  Object.entries({
    g: 'g', gram: 'g', grams: 'g', gramme: 'g', grammes: 'g', gr: 'g', gm: 'g',
    kg: 'kg', kgs: 'kg', kilo: 'kg', kilos: 'kg', kilogram: 'kg', kilograms: 'kg',
    mg: 'mg', milligram: 'mg', milligrams: 'mg',
    oz: 'oz', ounce: 'oz', ounces: 'oz', lb: 'lb', lbs: 'lb', pound: 'lb', pounds: 'lb',
  } as const),
);
const volumeUnits = new Map<string, VolumeUnit>(
  Object.entries({
    ml: 'ml', millilitre: 'ml', millilitres: 'ml', milliliter: 'ml', milliliters: 'ml',
    l: 'l', litre: 'l', litres: 'l', liter: 'l', liters: 'l',
    tsp: 'tsp', tsps: 'tsp', teaspoon: 'tsp', teaspoons: 'tsp',
    tbsp: 'tbsp', tbsps: 'tbsp', tbs: 'tbsp', tablespoon: 'tbsp', tablespoons: 'tbsp',
    cup: 'cup', cups: 'cup',
  } as const),
);
const timeUnits = new Map<string, TimeUnit>(
  Object.entries({
    s: 's', sec: 's', secs: 's', second: 's', seconds: 's',
    min: 'min', mins: 'min', minute: 'min', minutes: 'min',
    h: 'h', hr: 'h', hrs: 'h', hour: 'h', hours: 'h',
    d: 'd', day: 'd', days: 'd',
  } as const),
);
const lengthUnits = new Map<string, 'm' | 'ft'>(
  Object.entries({ m: 'm', metre: 'm', metres: 'm', meter: 'm', meters: 'm', ft: 'ft', foot: 'ft', feet: 'ft' } as const),
);

/** Days of the week by every word for them: 1 for Monday to 7 for Sunday. */
const weekDays = new Map<string, number>(
  [['mon', 'monday'], ['tue', 'tues', 'tuesday'], ['wed', 'weds', 'wednesday'], ['thu', 'thur', 'thurs', 'thursday'], ['fri', 'friday'],
    ['sat', 'saturday'], ['sun', 'sunday']].flatMap((words, index) => [...words, `${words.at(-1) ?? ''}s`].map((word) => [word, index + 1] as const)),
);
export const WeekDayToken = keyword('WeekDay', [...weekDays.keys()]);

export const MassUnitToken = keyword('MassUnit', [...massUnits.keys()]);
export const VolumeUnitToken = keyword('VolumeUnit', [...volumeUnits.keys()]);
export const TimeUnitToken = keyword('TimeUnit', [...timeUnits.keys()]);
export const LengthUnitToken = keyword('LengthUnit', [...lengthUnits.keys()]);
export const TempUnitWord = keyword('TempUnitWord', ['c', 'f', 'celsius', 'fahrenheit'], [TempUnitToken]);

export function massUnit(image: string): MassUnit {
  return massUnits.get(image.toLowerCase()) ?? 'g';
}

/** `fl oz` and its long forms come as one token, so anything else than a known volume word is that. */
export function volumeUnit(image: string): VolumeUnit {
  return volumeUnits.get(image.toLowerCase()) ?? 'fl oz';
}

export function timeUnit(image: string): TimeUnit {
  return timeUnits.get(image.toLowerCase()) ?? 'min';
}

export function lengthUnit(image: string): 'm' | 'ft' {
  return lengthUnits.get(image.toLowerCase()) ?? 'm';
}

/** 1 for Monday to 7 for Sunday. */
export function weekDay(image: string): number {
  return weekDays.get(image.toLowerCase()) ?? 1;
}

export function temperatureUnit(image: string): 'C' | 'F' {
  return /^[f℉]/i.test(image) ? 'F' : 'C';
}

// --- the lexer ------------------------------------------------------------------------------------------------------

/** Every token type, for the parser. */
export const tokenTypes: TokenType[] = [
  Any, NamePart, AnyWord, RangeSign, TempUnitToken, Quoted, Per,
  Space, CommentToken, QuotedText, OpenQuote, DateToken, ClockToken, NumberToken, Zone, Percent, Degree, DegreeLetter,
  Comma, OpenBracket, CloseBracket, Dash, Slash, Word, Other,
  ...new Set(wordMeanings.values()),
];

/** The patterns in the order in which they are tried. */
const patterns = [
  Space, Zone, Word, DateToken, ClockToken, NumberToken, Comma, Percent, CommentToken, QuotedText, OpenQuote, Degree, DegreeLetter,
  OpenBracket, CloseBracket, Dash, Slash, Other,
];

/** Checking the patterns takes a while and is left to the tests. */
export function createLexer(checkPatterns: boolean): Lexer {
  return new Lexer(patterns, { positionTracking: 'onlyOffset', ensureOptimizations: true, skipValidations: !checkPatterns });
}

let lexer: Lexer | undefined;

/** Made when the first line is read. */
function theLexer(): Lexer {
  return (lexer ??= createLexer(false));
}

/** The longest word that has a meaning; longer ones need no look-up. */
const LONGEST_MEANING = Math.max(...[...wordMeanings.keys()].map((word) => word.length));

export function tokenEnd(token: IToken): number {
  return token.startOffset + token.image.length;
}

/** Two or more tokens that are read as one, such as `fl oz` or `stretch and fold`. */
export function joinTokens(text: string, first: IToken, last: IToken, type: TokenType): IToken {
  const image = text.slice(first.startOffset, tokenEnd(last));
  return { image, startOffset: first.startOffset, tokenType: type, tokenTypeIdx: type.tokenTypeIdx ?? -1 };
}

/** The words of a line without its comment. Offsets are those of `text`. */
export interface LineTokens {
  readonly tokens: IToken[];
  readonly comment: Span | undefined;
  readonly problems: readonly Problem[];
}

const CLOSING_QUOTE = new Map([['“', '”'], ['„', '“'], ['«', '»']]);

/** Lexes `text` from `from` to `to`, which must hold no line end. */
export function tokenizeLine(text: string, from: number, to: number): LineTokens {
  const raw = theLexer().tokenize(text.slice(from, to)).tokens;
  const tokens: IToken[] = [];
  let comment: Span | undefined;
  let problems: Problem[] = [];
  for (const token of raw) {
    token.startOffset += from;
    if (token.tokenType === Word) {
      const meaning = token.image.length <= LONGEST_MEANING ? wordMeanings.get(token.image.toLowerCase()) : undefined;
      if (meaning !== undefined) {
        token.tokenType = meaning;
        token.tokenTypeIdx = meaning.tokenTypeIdx ?? -1;
        const before = tokens[tokens.length - 1];
        if (meaning === MassUnitToken && before !== undefined && isFluidOunce(before.image, token.image)) {
          tokens[tokens.length - 1] = joinTokens(text, before, token, VolumeUnitToken);
          continue;
        }
      }
    } else if (token.tokenType === CommentToken) {
      comment = { start: token.startOffset, end: tokenEnd(token) };
      break;
    } else if (token.tokenType === OpenQuote) {
      problems = [quoteOpen(token)];
    }
    tokens.push(token);
  }
  return { tokens, comment, problems };
}

function isFluidOunce(before: string, after: string): boolean {
  return /^(fl|fluid)$/i.test(before) && massUnits.get(after.toLowerCase()) === 'oz';
}

function quoteOpen(token: IToken): Problem {
  const end = tokenEnd(token);
  const close = CLOSING_QUOTE.get(token.image.charAt(0)) ?? '"';
  const words = token.image.trimEnd();
  const trimmed = token.startOffset + words.length;
  // With other quotes inside, nobody can say which of them is meant.
  const closes = theLexer().tokenize(words + close).tokens[0]?.tokenType !== OpenQuote;
  return {
    code: 'quote-open',
    start: token.startOffset,
    end,
    message: `This quote is not closed on its line: put ${close} where the quoted words end.`,
    ...(closes && { fix: { title: 'Close the quote at the end of the line', edits: [{ start: trimmed, end: trimmed, newText: close }] } }),
  };
}
