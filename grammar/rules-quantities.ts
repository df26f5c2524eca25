/** Parser rules for what a line is made of: numbers, ranges, amounts, durations, temperatures and names. */
import { tokenMatcher, type IToken } from 'chevrotain';
import { ask, nothing, RuleBase, strict, unquote, type NameMode } from './rules-base';
import * as t from './tokens';
import type { Amount, Duration, MassAmount, Name, Num, Quantity, Span, Temperature, VolumeAmount } from './tree';
import { oneSpaced } from './words';

const MINUTES = { s: 1 / 60, min: 1, h: 60, d: 1440 } as const;
const OVERNIGHT = { lowMinutes: 480, highMinutes: 840 };

/** Temperatures in Fahrenheit come with the decimals of the conversion; a hundredth of a degree is more than enough. */
function celsius(value: number, unit: 'C' | 'F'): number {
  return unit === 'C' ? value : Math.round(((value - 32) * 5 * 100) / 9) / 100;
}

export class QuantityRules extends RuleBase {
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
        this.report(
          'not-understood', bracket, 'A weight in brackets belongs to a volume, a count or a share: here the weight is already given.',
        );
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
              const message = `A name that holds a number or a sign takes quotes: write "${text}".`;
              this.report('not-understood', span, message, `Put ${text} in quotes`, `"${text}"`);
            }
            return { ...span, quoted: false, text };
          });
        },
      },
    ],
  }), nothing);
}
