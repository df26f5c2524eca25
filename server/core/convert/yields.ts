/** How much a card says it makes. */
import { amountAt, numbersAt, type ReadAmount } from './amounts';
import { withoutEnd } from './characters';
import { written } from './chosen-amount';
import { isSign, isWord, sliceOf, tokensOf } from './tokens';

export interface YieldReading {
  /** `2 loaves`, `1.8 kg` */
  readonly makes: string | undefined;
  /** `4 to 6` */
  readonly serves: string | undefined;
  /** The weight of one, which may be that of the dough or of the loaf: `850 g`. */
  readonly each: string | undefined;
  /** Words that are in none of these. */
  readonly note: string | undefined;
}

const LEAD = /^(?:(?:this )?(?:recipe )?(?:makes|yields?|gives|serves|servings|portions|quantity|for)\b[:\s]*(?:about |approximately |approx\.? |ca\.? )?)+/i;
const PEOPLE = /^(?:servings?|people|persons?|portions?|serves)$/i;
const NOUN_ENDS = ['of', 'about', 'each', 'at', 'with', 'in', 'from', 'approximately', 'or', 'and', 'depending', 'for'];

/** Whether a line speaks of how much is made. */
export function isYield(line: string): boolean {
  return /^(?:this recipe )?(?:makes|yields?|serves|servings|portions|gives)\b/i.test(line) && /\d|\b(?:one|two|three|four|five|six|eight|ten|twelve|a|an)\b/i.test(line) && line.length <= 120;
}

export function readYield(line: string): YieldReading {
  const nothing: YieldReading = { makes: undefined, serves: undefined, each: undefined, note: line };
  const lead = LEAD.exec(line)?.[0] ?? '';
  const text = withoutEnd(line.slice(lead.length), '. ');
  const tokens = tokensOf(text);
  const weight = amountAt(tokens, 0);
  if (weight?.value.measure?.kind === 'mass') {
    const rest = sliceOf(text, tokens.slice(weight.next));
    return { ...nothing, makes: written(weight.value), note: rest === '' || /^(?:of )?(?:the )?(?:dough|bread)$/i.test(rest) ? undefined : line };
  }
  const numbers = numbersAt(tokens, 0);
  if (numbers === undefined) return nothing;
  const count = numbers.value.high === undefined ? numbers.value.low : `${numbers.value.low} to ${numbers.value.high}`;
  const isTimes = isSign(tokens[numbers.next], '×') || isWord(tokens[numbers.next], 'x');
  const each = isTimes ? amountAt(tokens, numbers.next + 1) : undefined;
  let at = each?.next ?? numbers.next;
  while (isSign(tokens[at], '(') || isSign(tokens[at], '[')) {
    const close = tokens.findIndex((token, index) => index > at && isSign(token, ')', ']'));
    if (close < 0) break;
    at = close + 1;
  }
  const from = at;
  while (tokens[at]?.kind === 'word' && !isWord(tokens[at], ...NOUN_ENDS)) at += 1;
  const noun = sliceOf(text, tokens.slice(from, at));
  if (PEOPLE.test(noun) || (noun === '' && /^serv|^portions/i.test(lead))) {
    return { ...nothing, serves: count, note: at < tokens.length || from > numbers.next ? line : undefined };
  }
  if (noun === '' || !/^[\p{L}\p{M}' -]+$/u.test(noun)) return nothing;
  const weightEach = each?.value ?? eachIn(text);
  const isAllSaid = at >= tokens.length && from <= (each?.next ?? numbers.next);
  const isOf = isWord(tokens[at], 'of') && weightEach !== undefined && amountAt(tokens, at + 1)?.next === tokens.length;
  return {
    makes: `${count} ${noun}`, serves: undefined,
    each: weightEach?.measure?.kind === 'mass' ? written(weightEach) : undefined,
    note: isAllSaid || isOf ? undefined : line,
  };
}

/** A weight further on: `2 loaves of 850 g`, `2 loaves (900 g each)`. */
function eachIn(text: string): ReadAmount | undefined {
  const tokens = tokensOf(text);
  for (let index = 1; index < tokens.length; index += 1) {
    const found = tokens[index]?.kind === 'number' ? amountAt(tokens, index) : undefined;
    if (found?.value.measure?.kind === 'mass') return found.value;
  }
  return undefined;
}
