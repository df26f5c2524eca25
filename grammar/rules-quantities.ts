/**
 * Parser rules for what a line is made of: numbers, ranges, amounts, durations, temperatures and names.
 *
 * How the rules are written: `ACTION` and gates hold the code that must not run while Chevrotain records the grammar.
 * A rule that fails gives `undefined`, the error is kept, and the caller goes on behind the part that was not read.
 */
import { EmbeddedActionsParser, tokenMatcher, type IToken, type TokenType } from 'chevrotain';
import type { Ask } from './messages';
import { readNumber, withoutComma } from './numbers';
import * as t from './tokens';
import type {
  Amount, Duration, MassAmount, Name, Num, Problem, ProblemCode, Quantity, Span, Temperature, Text, VolumeAmount,
} from './tree';

/** What an error in a rule is about: the key of a sentence in `messages.ts`. */
export const ask = (key: Ask): { ERR_MSG: Ask } => ({ ERR_MSG: key });

/** For a rule that may fail alone: it gives nothing, and its caller goes on behind what was not read. */
export const nothing = { recoveryValueFunc: () => undefined };

/** For a rule that the rule around it cannot do without: it fails with it. */
export const strict = { resyncEnabled: false };

/** Where a name ends: in a variant also before `in` and `to`, in a step also before `every` and `overnight`. */
export type NameMode = 'plain' | 'delta' | 'step';

const MINUTES = { s: 1 / 60, min: 1, h: 60, d: 1440 } as const;
const OVERNIGHT = { lowMinutes: 480, highMinutes: 840 };

/** Temperatures in Fahrenheit come with the decimals of the conversion; a hundredth of a degree is more than enough. */
function celsius(value: number, unit: 'C' | 'F'): number {
  return unit === 'C' ? value : Math.round(((value - 32) * 5 * 100) / 9) / 100;
}

export class QuantityRules extends EmbeddedActionsParser {
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
      this.report('not-understood', span, `${shorten(token.image)} is not a number that can be weighed or counted: write one such as 12, 0.5 or 1 1/2.`);
    } else if (comma) {
      const better = withoutComma(token.image);
      const how = better.includes('.') ? 'a point' : 'no comma';
      this.report('decimal-comma', span, `Write ${better} with ${how}: a comma starts a note.`, `Write ${better}`, better);
    }
    return { ...span, value, comma, text: token.image };
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

  // --- rules ---

  quantity = this.RULE('quantity', (): Quantity => {
    const first = this.CONSUME(t.NumberToken, ask('number'));
    const low = this.ACTION(() => this.num(first));
    const high = this.OPTION(() => {
      const sign = this.CONSUME(t.RangeSign);
      const second = this.CONSUME2(t.NumberToken, ask('range-end'));
      return this.ACTION(() => {
        const num = this.num(second);
        this.range(low, sign, num);
        return num;
      });
    });
    return this.ACTION(() => ({ ...this.since(first), low, high }));
  }, strict);

  mass = this.RULE('mass', (): MassAmount | undefined => {
    const quantity = this.SUBRULE(this.quantity);
    const unit = this.CONSUME(t.MassUnitToken, ask('mass-unit'));
    return this.ACTION(() => ({ ...this.since(quantity), kind: 'mass', quantity, unit: t.massUnit(unit.image) }));
  }, nothing);

  massOrVolume = this.RULE('massOrVolume', (): MassAmount | VolumeAmount | undefined => {
    const quantity = this.SUBRULE(this.quantity);
    return this.OR({
      ...ask('mass-unit'),
      DEF: [
        {
          ALT: () => {
            const unit = this.CONSUME(t.MassUnitToken);
            return this.ACTION(() => ({ ...this.since(quantity), kind: 'mass' as const, quantity, unit: t.massUnit(unit.image) }));
          },
        },
        {
          ALT: () => {
            const unit = this.CONSUME(t.VolumeUnitToken);
            return this.ACTION(() => ({ ...this.since(quantity), kind: 'volume' as const, quantity, unit: t.volumeUnit(unit.image) }));
          },
        },
      ],
    });
  }, nothing);

  /** The weight in brackets: `(4.5 g)`. */
  bracket = this.RULE('bracket', (): MassAmount | undefined => {
    this.CONSUME(t.OpenBracket);
    const mass = this.SUBRULE(this.mass);
    this.CONSUME(t.CloseBracket, ask('close-bracket'));
    return mass;
  }, nothing);

  /** `720 g`, `2 tsp (9 g)`, `4`, `72 %`, `all`, `pinch`, `2 pinches`, `a pinch`. */
  amount = this.RULE('amount', (): Amount | undefined => {
    const amount = this.OR({
      ...ask('amount'),
      DEF: [
        {
          ALT: (): Amount => {
            const all = this.CONSUME(t.All);
            return this.ACTION(() => ({ ...this.spanOf(all), kind: 'all' }));
          },
        },
        { ALT: (): Amount => this.SUBRULE(this.barePinch) },
        { ALT: (): Amount => this.SUBRULE(this.measure) },
      ],
    });
    const bracket = this.OPTION({
      GATE: () => this.is(2, t.NumberToken),
      DEF: () => this.SUBRULE(this.bracket),
    });
    return this.ACTION(() => (bracket === undefined ? amount : this.withBracket(amount, bracket)));
  }, nothing);

  protected barePinch = this.RULE('barePinch', (): Amount => {
    const article = this.OPTION(() => this.CONSUME(t.Article));
    const pinch = this.CONSUME(t.Pinch, ask('amount'));
    return this.ACTION(() => ({ ...this.since(article ?? pinch), kind: 'pinch', quantity: undefined }));
  }, strict);

  protected measure = this.RULE('measure', (): Amount => {
    const quantity = this.SUBRULE(this.quantity);
    return this.OR([
      {
        ALT: (): Amount => {
          const unit = this.CONSUME(t.MassUnitToken);
          return this.ACTION(() => ({ ...this.since(quantity), kind: 'mass', quantity, unit: t.massUnit(unit.image) }));
        },
      },
      {
        ALT: (): Amount => {
          const unit = this.CONSUME(t.VolumeUnitToken);
          return this.ACTION(() => ({ ...this.since(quantity), kind: 'volume', quantity, unit: t.volumeUnit(unit.image) }));
        },
      },
      {
        ALT: (): Amount => {
          this.CONSUME(t.Percent);
          return this.ACTION(() => ({ ...this.since(quantity), kind: 'share', quantity }));
        },
      },
      {
        ALT: (): Amount => {
          this.CONSUME(t.Pinch);
          return this.ACTION(() => ({ ...this.since(quantity), kind: 'pinch', quantity }));
        },
      },
      { ALT: (): Amount => this.ACTION(() => ({ ...this.since(quantity), kind: 'count', quantity })) },
    ]);
  }, strict);

  /** Puts the weight in brackets to the amount. A weight or `all` needs none, so there the bracket is out of place. */
  protected withBracket(amount: Amount, bracket: MassAmount): Amount {
    switch (amount.kind) {
      case 'mass':
      case 'all':
        this.report('not-understood', bracket, 'A weight in brackets belongs to a volume, a count or a share: here the weight is already given.');
        return amount;
      case 'volume':
      case 'count':
      case 'share':
      case 'pinch':
        return { ...amount, end: Math.max(amount.end, t.tokenEnd(this.LA(0))), bracket };
    }
  }

  protected length = this.RULE('length', (): { readonly low: number; readonly high: number } => {
    const first = this.CONSUME(t.NumberToken, ask('time'));
    const low = this.ACTION(() => this.num(first));
    const high = this.OPTION(() => {
      const sign = this.CONSUME(t.RangeSign);
      const second = this.CONSUME2(t.NumberToken, ask('range-end'));
      return this.ACTION(() => {
        const num = this.num(second);
        this.range(low, sign, num);
        return num;
      });
    });
    const unit = this.CONSUME(t.TimeUnitToken, ask('time-unit'));
    return this.ACTION(() => {
      const minutes = MINUTES[t.timeUnit(unit.image)];
      return { low: low.value * minutes, high: (high ?? low).value * minutes };
    });
  }, strict);

  /** `30 min`, `1 h 30 min`, `10 to 16 h`, `1 h to 1 h 30 min`, `overnight`. */
  duration = this.RULE('duration', (): Duration | undefined => this.OR({
    ...ask('time'),
    DEF: [
      {
        ALT: (): Duration => {
          const word = this.CONSUME(t.Overnight);
          return this.ACTION(() => ({ ...this.spanOf(word), ...OVERNIGHT, vague: true }));
        },
      },
      {
        ALT: (): Duration => {
          const first = this.LA(1);
          const start = this.SUBRULE(this.chain);
          const end = this.OPTION({
            GATE: () => this.is(2, t.NumberToken) && this.is(3, t.TimeUnitToken),
            DEF: () => {
              this.CONSUME(t.To);
              return this.SUBRULE2(this.chain);
            },
          });
          return this.ACTION(() => {
            const span = this.since(first);
            const low = start.low;
            const high = end === undefined ? start.high : end.high;
            if (high < low) this.report('not-understood', span, 'This range runs backwards: put the shorter time first.');
            return { ...span, lowMinutes: Math.min(low, high), highMinutes: Math.max(low, high), vague: false };
          });
        },
      },
    ],
  }), nothing);

  protected chain = this.RULE('chain', (): { readonly low: number; readonly high: number } => {
    let { low, high } = this.SUBRULE(this.length);
    this.MANY({
      GATE: () => this.is(2, t.TimeUnitToken),
      DEF: () => {
        const more = this.SUBRULE2(this.length);
        this.ACTION(() => {
          low += more.low;
          high += more.high;
        });
      },
    });
    return { low, high };
  }, strict);

  /** `24 C`, `-18 C`, `75 F`, `240 to 250 C`, `room`, `fridge`. */
  temperature = this.RULE('temperature', (): Temperature | undefined => this.OR({
    ...ask('temperature'),
    DEF: [
      {
        ALT: (): Temperature => {
          const word = this.CONSUME(t.Room);
          this.OPTION(() => this.CONSUME(t.TemperatureWord));
          return this.ACTION(() => ({ ...this.since(word), kind: 'room' }));
        },
      },
      {
        ALT: (): Temperature => {
          const word = this.CONSUME(t.Fridge);
          this.OPTION2(() => this.CONSUME2(t.TemperatureWord));
          return this.ACTION(() => ({ ...this.since(word), kind: 'fridge' }));
        },
      },
      { ALT: (): Temperature => this.SUBRULE(this.degrees) },
    ],
  }), nothing);

  protected degrees = this.RULE('degrees', (): Temperature => {
    const first = this.LA(1);
    const low = this.SUBRULE(this.signedNumber);
    this.OPTION(() => this.SUBRULE(this.degreeUnit));
    const high = this.OPTION2(() => {
      const sign = this.CONSUME(t.RangeSign);
      const end = this.SUBRULE2(this.signedNumber);
      this.SUBRULE2(this.degreeUnit);
      return this.ACTION(() => {
        if (end.sign > 0) this.range(low.num, sign, end.num);
        return end.num.value * end.sign;
      });
    });
    return this.ACTION(() => {
      // The unit is the last thing consumed, or it is missing.
      const last = this.LA(0);
      const unit = tokenMatcher(last, t.TempUnitToken) ? t.temperatureUnit(last.image) : 'C';
      const span = this.since(first);
      if (!tokenMatcher(last, t.TempUnitToken)) this.missingDegreeUnit(span, last);
      const ends = [low.num.value * low.sign, high ?? low.num.value * low.sign].map((value) => celsius(value, unit));
      return { ...span, kind: 'degrees', lowCelsius: Math.min(...ends), highCelsius: Math.max(...ends), unit };
    });
  }, strict);

  private missingDegreeUnit(span: Span, last: IToken): void {
    const number = this.slice({ start: span.start, end: tokenMatcher(last, t.Degree) ? last.startOffset : span.end }).trim();
    this.report('incomplete', span, `Expected C or F after ${number}: write ${number} C or ${number} F.`);
  }

  protected signedNumber = this.RULE('signedNumber', (): { readonly num: Num; readonly sign: 1 | -1 } => {
    const minus = this.OPTION(() => this.CONSUME(t.Dash));
    const number = this.CONSUME(t.NumberToken, ask('temperature'));
    return this.ACTION(() => ({ num: this.num(number), sign: minus === undefined ? 1 : -1 }));
  }, strict);

  protected degreeUnit = this.RULE('degreeUnit', (): void => {
    this.OPTION(() => this.CONSUME(t.Degree));
    this.OPTION2(() => this.CONSUME(t.TempUnitToken));
  }, strict);

  /** A name of an ingredient, a part or a formula: words, or anything in quotes. */
  name = this.RULE('name', (mode: NameMode = 'plain'): Name | undefined => this.OR({
    ...ask('name'),
    DEF: [
      {
        ALT: (): Name => {
          const quoted = this.CONSUME(t.Quoted);
          return this.ACTION(() => ({ ...this.spanOf(quoted), quoted: true, text: oneSpaced(unquote(quoted)) }));
        },
      },
      {
        GATE: () => this.nameStarts(mode),
        ALT: (): Name => {
          const first = this.LA(1);
          let plain = true;
          this.AT_LEAST_ONE({
            GATE: () => this.nameGoesOn(mode),
            DEF: () => {
              const part = this.CONSUME(t.NamePart);
              this.ACTION(() => {
                plain &&= tokenMatcher(part, t.AnyWord);
              });
            },
          });
          return this.ACTION(() => {
            const span = this.since(first);
            const text = oneSpaced(this.slice(span));
            if (!plain) {
              this.report('not-understood', span, `A name that holds a number or a sign takes quotes: write "${text}".`, `Put ${text} in quotes`, `"${text}"`);
            }
            return { ...span, quoted: false, text };
          });
        },
      },
    ],
  }), nothing);

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
    return [t.MassUnitToken, t.VolumeUnitToken, t.TimeUnitToken, t.TempUnitToken, t.Degree, t.RangeSign, t.Times].some((type) => tokenMatcher(unit, type));
  }
}

/** The inside of a quoted token, whether it is closed or not. */
export function unquote(token: IToken): string {
  return tokenMatcher(token, t.OpenQuote) ? token.image.slice(1).trimEnd() : token.image.slice(1, -1);
}

export function oneSpaced(text: string): string {
  return text.trim().replace(/\s+/g, ' ');
}

/** A piece of the author's text that is short enough to stand in a message. */
export function shorten(text: string): string {
  return text.length <= 40 ? text : `${text.slice(0, 39)}…`;
}
