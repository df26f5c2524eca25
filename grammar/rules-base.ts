/**
 * What all parser rules need: looking ahead, places in the text, and reporting what an action finds wrong.
 *
 * How the rules are written: `ACTION` and gates hold the code that must not run while Chevrotain records the grammar.
 * A rule that fails gives `undefined`, the error is kept, and the caller goes on behind the part that was not read.
 */
import { EmbeddedActionsParser, tokenMatcher, type IToken, type TokenType } from 'chevrotain';
import type { Ask } from './messages';
import { readNumber, withoutComma } from './numbers';
import * as t from './tokens';
import type { Num, Problem, ProblemCode, Span, Text } from './tree';
import { shorten } from './words';

/** What an error in a rule is about: the key of a sentence in `messages.ts`. */
export const ask = (key: Ask): { ERR_MSG: Ask } => ({ ERR_MSG: key });

/** For a rule that may fail alone: it gives nothing, and its caller goes on behind what was not read. */
export const nothing = { recoveryValueFunc: () => undefined };

/** For a rule that the rule around it cannot do without: it fails with it. */
export const strict = { resyncEnabled: false };

/** Where a name ends: in a variant also before `in` and `to`, in a step also before `every` and `overnight`. */
export type NameMode = 'plain' | 'delta' | 'step';

/** What stands behind a number that is not part of a name. */
const BEHIND_NUMBERS = [t.MassUnitToken, t.VolumeUnitToken, t.TimeUnitToken, t.TempUnitToken, t.Degree, t.RangeSign, t.Times];

export class RuleBase extends EmbeddedActionsParser {
  /** The text the tokens come from, and the problems that actions find in it. */
  protected text = '';
  protected found: Problem[] = [];

  // --- helpers for actions and gates ---

  protected is(ahead: number, type: TokenType): boolean {
    return tokenMatcher(this.LA(ahead), type);
  }

  protected report(code: ProblemCode, span: Span, message: string, title?: string, newText?: string): void {
    const { start, end } = span;
    this.found.push(
      title === undefined || newText === undefined
        ? { code, start, end, message }
        : { code, start, end, message, fix: { title, edits: [{ start, end, newText }] } },
    );
  }

  protected slice(span: Span): string {
    return this.text.slice(span.start, span.end);
  }

  /** From a token to the last one that was consumed, or only that token when nothing was consumed behind it. */
  protected since(first: IToken | Span): Span {
    const { start, end } = 'image' in first ? this.spanOf(first) : first;
    const last = t.tokenEnd(this.LA(0));
    return { start, end: last > end ? last : end };
  }

  protected spanOf(token: IToken): Span {
    return { start: token.startOffset, end: t.tokenEnd(token) };
  }

  /** Words or a quoted text, from a token to the last one consumed. */
  protected textSince(first: IToken): Text {
    const span = this.since(first);
    const quoted = span.end === t.tokenEnd(first) && tokenMatcher(first, t.Quoted);
    return { ...span, quoted, text: quoted ? unquote(first) : this.slice(span) };
  }

  /** Whether a number stands at `ahead`, with a minus in front or not. */
  protected numberAt(ahead: number): boolean {
    return this.is(ahead, t.NumberToken) || (this.is(ahead, t.Dash) && this.is(ahead + 1, t.NumberToken));
  }

  /** The place behind a number or a range of two, counted from `ahead`. */
  protected behindNumbers(ahead: number): number {
    let at = ahead;
    for (let numbers = 0; numbers < 2; numbers += 1) {
      if (this.is(at, t.Dash) && this.is(at + 1, t.NumberToken)) at += 1;
      if (!this.is(at, t.NumberToken)) break;
      at += 1;
      if (numbers === 1 || !this.is(at, t.RangeSign)) break;
      at += 1;
    }
    return at;
  }

  /** Whether numbers with a unit of time stand at `ahead`. */
  protected timeAt(ahead: number): boolean {
    if (this.is(ahead, t.Overnight)) return true;
    return this.is(ahead, t.NumberToken) && this.is(this.behindNumbers(ahead), t.TimeUnitToken);
  }

  /** Whether `at` opens a temperature, a share or a time rather than being part of a name. */
  protected atOpensValue(ahead: number): boolean {
    if (!this.is(ahead, t.At)) return false;
    const behind = this.LA(ahead + 1);
    // At the end of a line, the value is still to be typed.
    if (behind.image === '') return true;
    return this.numberAt(ahead + 1) || [t.Room, t.Fridge, t.Overnight, t.Comma].some((type) => tokenMatcher(behind, type));
  }

  protected num(token: IToken): Num {
    const span = this.spanOf(token);
    const { value, comma, readable } = readNumber(token.image);
    if (!readable) {
      const message = `${shorten(token.image)} is not a number that can be weighed or counted: write one up to a billion, such as 12, 0.5 or 1 1/2.`;
      this.report('not-understood', span, message);
    } else if (comma) {
      const better = withoutComma(token.image);
      const how = better.includes('.') ? 'a point' : 'no comma';
      this.report('comma-decimal', span, `Write ${better} with ${how}: a comma starts a note.`, `Write ${better}`, better);
    }
    return { start: span.start, end: span.end, value, comma, text: token.image };
  }

  /** A range with a dash, or one that runs backwards, is read and reported. */
  protected range(low: Num, sign: IToken, high: Num): void {
    const span = { start: low.start, end: high.end };
    if (tokenMatcher(sign, t.Dash)) {
      const better = `${low.text} to ${high.text}`;
      this.report('not-understood', span, `A range is written with "to": ${better}.`, `Write ${better}`, better);
    } else if (high.value < low.value) {
      const better = `${high.text} to ${low.text}`;
      this.report('not-understood', span, `This range runs backwards: write ${better}.`, `Write ${better}`, better);
    }
  }

  /** Whether a name starts here. One that starts with a number or a sign must at least have a word behind it. */
  protected nameStarts(mode: NameMode): boolean {
    if (!this.nameGoesOn(mode)) return false;
    return this.is(1, t.AnyWord) || this.is(2, t.AnyWord) || (this.is(2, t.Percent) && this.is(3, t.AnyWord));
  }

  /** Whether the next token is part of a name. Numbers and signs are, by mistake, unless they start something else. */
  protected nameGoesOn(mode: NameMode): boolean {
    const next = this.LA(1);
    if (tokenMatcher(next, t.AnyWord)) {
      if (tokenMatcher(next, t.At)) return !this.atOpensValue(1);
      if (tokenMatcher(next, t.As) || tokenMatcher(next, t.For)) return false;
      if (mode === 'delta') return !(tokenMatcher(next, t.In) || tokenMatcher(next, t.To));
      return mode === 'plain' || !(tokenMatcher(next, t.Every) || tokenMatcher(next, t.Overnight));
    }
    if (!tokenMatcher(next, t.NamePart)) return false;
    if (!tokenMatcher(next, t.NumberToken)) return true;
    return !this.isMeasure(2);
  }

  /** Whether a unit stands at `ahead`, so that the number before it is an amount, a time or a temperature. */
  protected isMeasure(ahead: number): boolean {
    const unit = this.LA(ahead);
    if (tokenMatcher(unit, t.Percent)) return !this.is(ahead + 1, t.AnyWord);
    return BEHIND_NUMBERS.some((type) => tokenMatcher(unit, type));
  }
}

/** The inside of a quoted token, whether it is closed or not. */
export function unquote(token: IToken): string {
  return tokenMatcher(token, t.OpenQuote) ? token.image.slice(1).trimEnd() : token.image.slice(1, -1);
}
