/**
 * One line of a tree as canonical text, in two pieces: what stands in the first column (an amount, a key, a kind of step)
 * and the rest. Times and temperatures are printed from the words that they were read from, so that `1/2 h` stays `1/2 h`.
 */
import { tokenMatcher, type IToken } from 'chevrotain';
import * as t from './tokens';
import type {
  Amount, BodyNode, DayRange, DeltaLine, Head, Holding, IngredientLine, MakesLine, Name, PropertyLine, Quantity, Span, StepDetail, StepLine, Text,
  UsesLine,
} from './tree';

/** The two pieces of a line. `rest` may be empty. */
export interface Pieces {
  readonly key: string;
  readonly rest: string;
}

/** The pieces of a line that was read without a problem; undefined for a line that has none, such as a comment. */
export function printNode(text: string, node: BodyNode): Pieces | undefined {
  switch (node.kind) {
    case 'ingredient': return ingredient(text, node);
    case 'flour-share': return { key: amount(node.amount), rest: `of flour in ${name(node.part)}` };
    case 'uses': return { key: 'uses', rest: uses(text, node) };
    case 'makes': return { key: 'makes', rest: makes(node) };
    case 'step': return { key: node.step, rest: step(text, node) };
    case 'property': return { key: node.key, rest: property(text, node) };
    case 'based-on': case 'swap': case 'set': case 'add': case 'drop': return delta(text, node);
    case 'blank': case 'comment': case 'bad': return undefined;
  }
}

/** Where the first piece of a line ends in the text, for a line that is kept as it was written. */
export function keyEnd(node: BodyNode): number {
  switch (node.kind) {
    case 'ingredient': case 'flour-share': return node.amount.end;
    case 'makes': case 'step': case 'property': case 'based-on': case 'swap': case 'set': case 'add': case 'drop': return node.keyword.end;
    case 'uses': return node.start + 'uses'.length;
    case 'blank': case 'comment': case 'bad': return node.start;
  }
}

/** A head that was read without a problem. */
export function printHead(text: string, head: Head): string {
  switch (head.kind) {
    case 'use': return head.path === undefined ? 'use' : `use ${words(text, head.path)}`;
    case 'formula': case 'dish': case 'plan': case 'ingredient': return joined(head.kind, head.name && name(head.name));
    case 'part': return joined(head.part, head.name && name(head.name), head.temperature && `at ${canonical(text, head.temperature)}`);
    case 'steps': return 'steps';
    case 'record': return joined('record', head.date);
    case 'unknown': return text.slice(head.start, head.end);
    case 'none': return '';
  }
}

function joined(...pieces: readonly (string | undefined)[]): string {
  return pieces.filter((piece) => piece !== undefined && piece !== '').join(' ');
}

function name({ text, quoted }: Name): string {
  return quoted ? `"${text}"` : text;
}

/** Free words as they were written; quotes become straight ones, unless one stands inside. */
function words(text: string, { text: inner, quoted, start, end }: Text): string {
  if (!quoted) return inner;
  return inner.includes('"') ? text.slice(start, end) : `"${inner}"`;
}

function quantity({ low, high }: Quantity): string {
  return high === undefined ? low.text : `${low.text} to ${high.text}`;
}

function bareAmount(of: Amount): string {
  switch (of.kind) {
    case 'mass': return `${quantity(of.quantity)} ${of.unit}`;
    // A cup is a word, not a sign, so it has a plural; the other units have none in print.
    case 'volume': return `${quantity(of.quantity)} ${of.unit === 'cup' && (of.quantity.high ?? of.quantity.low).value > 1 ? 'cups' : of.unit}`;
    case 'count': return quantity(of.quantity);
    case 'share': return `${quantity(of.quantity)} %`;
    case 'all': return 'all';
    case 'pinch': {
      if (of.quantity === undefined) return 'pinch';
      const one = of.quantity.high === undefined && of.quantity.low.value <= 1;
      return `${quantity(of.quantity)} ${one ? 'pinch' : 'pinches'}`;
    }
  }
}

function bracketOf(of: Amount): string | undefined {
  return 'bracket' in of && of.bracket !== undefined ? `(${bareAmount(of.bracket)})` : undefined;
}

function amount(of: Amount): string {
  return joined(bareAmount(of), bracketOf(of));
}

function ingredient(text: string, line: IngredientLine): Pieces {
  const behind = isBehind(line.amount, line.name);
  const rest = joined(
    name(line.name),
    behind ? bracketOf(line.amount) : undefined,
    line.temperature && `at ${canonical(text, line.temperature)}`,
    line.hydrationPct && `at ${line.hydrationPct.text} % hydration`,
    line.role && `as ${line.role.role}`,
    line.purpose && `for ${line.purpose.text}`,
  );
  return { key: behind ? bareAmount(line.amount) : amount(line.amount), rest: withNote(text, rest, line.note) };
}

/** `4 eggs (220 g)`: the bracket stays behind the name when it was written there. */
function isBehind(of: Amount, named: Span): boolean {
  return 'bracket' in of && of.bracket !== undefined && of.bracket.start > named.start;
}

function withNote(text: string, before: string, note: Text | undefined): string {
  return note === undefined ? before : `${before}, ${words(text, note)}`;
}

function uses(text: string, { amount: of, noun, formula, note }: UsesLine): string {
  const behind = noun !== undefined && isBehind(of, noun);
  const much = joined(behind ? bareAmount(of) : amount(of), noun?.text, behind ? bracketOf(of) : undefined);
  return withNote(text, joined(much, of.kind === 'count' ? 'of' : undefined, name(formula)), note);
}

function makes({ pieces, noun, each }: MakesLine): string {
  if (pieces === undefined) return each === undefined ? '' : bareAmount(each);
  return joined(quantity(pieces), noun?.text, each && `of ${bareAmount(each)}`);
}

function delta(text: string, line: DeltaLine): Pieces {
  const place = line.kind === 'based-on' || line.part === undefined ? undefined : `in ${name(line.part)}`;
  switch (line.kind) {
    case 'based-on': return { key: 'based on', rest: name(line.base) };
    case 'swap': return { key: 'swap', rest: joined(name(line.from), 'for', name(line.to), place) };
    case 'set': return { key: 'set', rest: joined(name(line.name), 'to', amount(line.amount), place) };
    case 'add': {
      const { key, rest } = ingredient(text, line.line);
      return { key: 'add', rest: joined(key, rest, place) };
    }
    case 'drop': return { key: 'drop', rest: joined(name(line.name), place) };
  }
}

// --- steps ----------------------------------------------------------------------------------------------------------

function step(text: string, { label, duration, temperature, details }: StepLine): string {
  const [first, ...others] = details;
  const timing = first !== undefined && (first.kind === 'at' || first.kind === 'every' || first.kind === 'times') ? first : undefined;
  const head = joined(
    label && words(text, label),
    duration && canonical(text, duration),
    temperature && `at ${canonical(text, temperature)}`,
    timing && detail(text, timing),
  );
  const behind = (timing === undefined ? details : others).map((one) => `, ${detail(text, one)}`).join('');
  return head + behind;
}

function detail(text: string, of: StepDetail): string {
  switch (of.kind) {
    case 'lid': return of.on ? 'lid on' : 'lid off';
    case 'steam': return 'with steam';
    case 'by': return `by ${of.how}`;
    case 'until-core': case 'until-volume': return canonical(text, of);
    case 'until': return `until ${words(text, of.text)}`;
    case 'add': return joined(canonical(text, { start: of.start, end: of.name.start }), name(of.name));
    case 'at': return `at ${canonical(text, of.offset)}`;
    case 'every': return `every ${canonical(text, of.interval)}`;
    case 'times': return `${of.count.text} times`;
    case 'attended': return of.attended ? 'attended' : 'unattended';
    case 'note': return words(text, of.text);
  }
}

// --- properties -----------------------------------------------------------------------------------------------------

function property(text: string, { value, keyword, end }: PropertyLine): string {
  switch (value.kind) {
    case 'text': return words(text, value.text);
    case 'list': return value.items.map((item) => words(text, item)).join(', ');
    case 'name': return name(value.name);
    case 'temperature': return canonical(text, value.temperature);
    case 'weighed': {
      const pieces = value.pieces && joined(quantity(value.pieces), value.noun?.text);
      const after = value.after && `after ${canonical(text, value.after)}`;
      return [bareAmount(value.mass), pieces, after].filter((piece) => piece !== undefined).join(', ');
    }
    case 'instant': return joined(value.date, value.time, value.zone);
    case 'clock-range': return joined(`${value.from} to ${value.to}`, value.days && `on ${value.days.map(dayRange).join(', ')}`);
    case 'capacity': {
      const holds = /^\s*holds?(?!\p{L})/iu.test(text.slice(value.name?.end ?? keyword.end, end)) ? 'holds' : undefined;
      const rooms = value.holds.map(holding).join(' or ');
      return joined(value.name && name(value.name), holds, value.decks && `${holding(value.decks)} of`, rooms);
    }
    case 'order': {
      const of = value.unit !== undefined || value.noun !== undefined || !value.formula.quoted ? 'of' : undefined;
      const much = joined(quantity(value.quantity), value.unit, value.noun?.text, of, name(value.formula));
      return value.ready === undefined ? much : `${much}, ${joined('ready', value.ready.date, value.ready.time)}`;
    }
    case 'amount': return amount(value.amount);
    case 'missing': return text.slice(keyword.end, end).trim();
    case 'number': case 'difference': case 'loss': case 'altitude': case 'density': case 'cost':
      return canonical(text, { start: keyword.end, end });
  }
}

const WEEK_DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

function dayRange({ from, to }: DayRange): string {
  const [first, last] = [from, to].map((day) => WEEK_DAYS[day - 1] ?? '');
  return from === to ? `${first}` : `${first} to ${last}`;
}

function holding({ quantity: of, unit, noun }: Holding): string {
  return joined(quantity(of), unit, unit && noun && 'of', noun?.text);
}

// --- words as they were written, with one spelling for each unit -----------------------------------------------------

/** The words of a span that holds no name and no note. */
function canonical(text: string, { start, end }: Span): string {
  let out = '';
  let before: IToken | undefined;
  for (const token of t.tokenizeLine(text, start, end).tokens) {
    const image = spelling(token, before);
    const glued = out === '' || out.endsWith('-');
    if (image !== '') out += glued ? image : ` ${image}`;
    before = token;
  }
  return out;
}

function spelling(token: IToken, before: IToken | undefined): string {
  const is = (type: typeof t.Word): boolean => tokenMatcher(token, type);
  if (is(t.NumberToken) || is(t.Zone)) return token.image;
  if (is(t.TempUnitToken)) return t.temperatureUnit(token.image);
  if (is(t.Degree) || is(t.TemperatureWord)) return '';
  if (is(t.MassUnitToken)) return t.massUnit(token.image);
  if (is(t.VolumeUnitToken)) return t.volumeUnit(token.image);
  if (is(t.TimeUnitToken)) return t.timeUnit(token.image);
  if (is(t.LengthUnitToken)) return t.lengthUnit(token.image);
  if (is(t.Percent)) return '%';
  if (is(t.Dash)) return '-';
  if (is(t.Slash)) return 'per';
  // The only unknown word in such a span is a currency.
  if (token.tokenType === t.Word && before !== undefined && tokenMatcher(before, t.NumberToken)) return token.image.toUpperCase();
  return token.image.toLowerCase();
}
