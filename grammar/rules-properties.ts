/** Parser rules for the values behind a key: `room 23 C`, `loses 12 % in the oven`, `ready 2026-03-14 08:00 Europe/Lisbon`. */
import { tokenMatcher, type IToken } from 'chevrotain';
import { ask, nothing, strict, unquote } from './rules-base';
import { StepRules } from './rules-steps';
import * as t from './tokens';
import type { DayRange, Duration, Holding, OrderTime, PropertyValue, Quantity, Text } from './tree';
import { oneSpaced } from './words';

const METRES_PER_FOOT = 0.3048;

type Value = PropertyValue | undefined;

/** Whether `YYYY-MM-DD` names a day of the calendar; gives it with two-digit month and day. */
export function readDate(image: string): string | undefined {
  const [year = 0, month = 0, day = 0] = image.split('-').map(Number);
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  if (year === 0 || day < 1 || day > days) return undefined;
  return [String(year).padStart(4, '0'), String(month).padStart(2, '0'), String(day).padStart(2, '0')].join('-');
}

/** A clock time as `HH:MM`, if there is such a time. */
function readClock(image: string): string | undefined {
  const [hours = 24, minutes = 60] = image.split(':').map(Number);
  return hours < 24 && minutes < 60 ? `${String(hours).padStart(2, '0')}:${String(minutes).padStart(2, '0')}` : undefined;
}

/** Each rule here starts behind the key; `keyword` is the key's token. */
export class PropertyRules extends StepRules {
  textValue = this.RULE('textValue', (): Value => {
    const first = this.LA(1);
    this.AT_LEAST_ONE(() => this.CONSUME(t.Any));
    return this.ACTION(() => ({ kind: 'text', text: this.textSince(first) }));
  }, nothing);

  listValue = this.RULE('listValue', (): Value => {
    const items: Text[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: t.Comma,
      DEF: () => {
        const item = this.SUBRULE(this.listItem);
        this.ACTION(() => {
          if (item !== undefined) items.push(item);
        });
      },
    });
    return this.ACTION(() => ({ kind: 'list', items }));
  }, nothing);

  private listItem = this.RULE('listItem', (): Text | undefined => {
    const first = this.LA(1);
    this.AT_LEAST_ONE({ GATE: () => !this.is(1, t.Comma), DEF: () => this.CONSUME(t.Any) });
    return this.ACTION(() => this.textSince(first));
  }, nothing);

  temperatureValue = this.RULE('temperatureValue', (): Value => {
    this.OPTION(() => this.CONSUME(t.At));
    const temperature = this.SUBRULE(this.temperature);
    return this.ACTION(() => temperature && { kind: 'temperature', temperature });
  }, nothing);

  /** A difference of temperatures: 22 F of it is 12.2 C. */
  differenceValue = this.RULE('differenceValue', (): Value => {
    const quantity = this.SUBRULE(this.quantity);
    this.OPTION(() => this.CONSUME(t.Degree));
    const unit = this.CONSUME(t.TempUnitToken, ask('degree-unit'));
    return this.ACTION(() => {
      const middle = (quantity.low.value + (quantity.high ?? quantity.low).value) / 2;
      const celsius = t.temperatureUnit(unit.image) === 'C' ? middle : Math.round((middle * 5 * 100) / 9) / 100;
      return { kind: 'difference', celsius };
    });
  }, nothing);

  lossValue = this.RULE('lossValue', (): Value => {
    const number = this.CONSUME(t.NumberToken);
    this.CONSUME(t.Percent);
    this.OR([{ ALT: () => this.CONSUME(t.In) }, { ALT: () => this.CONSUME(t.At) }]);
    this.OPTION(() => this.CONSUME(t.The));
    const place = this.OR2([{ ALT: () => this.CONSUME(t.Oven) }, { ALT: () => this.CONSUME(t.Bench) }]);
    return this.ACTION(() => ({ kind: 'loss', percent: this.num(number), where: tokenMatcher(place, t.Oven) ? 'oven' : 'bench' }));
  }, nothing);

  /** An amount that is a weight. */
  massValue = this.RULE('massValue', (): Value => {
    const amount = this.SUBRULE(this.mass);
    return this.ACTION(() => amount && { kind: 'amount', amount });
  }, nothing);

  shareValue = this.RULE('shareValue', (): Value => {
    const quantity = this.SUBRULE(this.quantity);
    const percent = this.CONSUME(t.Percent);
    return this.ACTION(() => ({
      kind: 'amount', amount: { start: quantity.start, end: t.tokenEnd(percent), kind: 'share', quantity },
    }));
  }, nothing);

  numberValue = this.RULE('numberValue', (): Value => {
    const number = this.CONSUME(t.NumberToken);
    return this.ACTION(() => ({ kind: 'number', number: this.num(number) }));
  }, nothing);

  servesValue = this.RULE('servesValue', (): Value => {
    const { low, high } = this.SUBRULE(this.quantity);
    return this.ACTION(() => ({ kind: 'number', number: low, ...(high && { high }) }));
  }, nothing);

  /** `1.2 times its weight`; the number alone says the same. */
  absorbsValue = this.RULE('absorbsValue', (): Value => {
    const number = this.CONSUME(t.NumberToken);
    this.OPTION(() => {
      this.CONSUME(t.Times);
      this.OPTION2({ GATE: () => /^its$/i.test(this.LA(1).image), DEF: () => this.CONSUME(t.AnyWord) });
      this.OPTION3({ GATE: () => /^weight$/i.test(this.LA(1).image), DEF: () => this.CONSUME2(t.AnyWord) });
    });
    return this.ACTION(() => ({ kind: 'number', number: this.num(number) }));
  }, nothing);

  altitudeValue = this.RULE('altitudeValue', (): Value => {
    const number = this.CONSUME(t.NumberToken);
    const unit = this.CONSUME(t.LengthUnitToken);
    return this.ACTION(() => {
      const { value } = this.num(number);
      return { kind: 'altitude', metres: t.lengthUnit(unit.image) === 'm' ? value : Math.round(value * METRES_PER_FOOT * 10) / 10 };
    });
  }, nothing);

  densityValue = this.RULE('densityValue', (): Value => {
    const mass = this.SUBRULE(this.mass);
    this.CONSUME(t.Per);
    const unit = this.CONSUME(t.VolumeUnitToken);
    return this.ACTION(() => mass && { kind: 'density', mass, volume: t.volumeUnit(unit.image) });
  }, nothing);

  costValue = this.RULE('costValue', (): Value => {
    const number = this.CONSUME(t.NumberToken);
    const currency = this.CONSUME(t.AnyWord);
    this.OPTION(() => this.CONSUME(t.Per));
    const unit = this.OR([
      { ALT: () => this.CONSUME(t.MassUnitToken) },
      { ALT: () => this.CONSUME(t.VolumeUnitToken) },
      { ALT: () => this.CONSUME(t.Each) },
    ]);
    return this.ACTION(() => ({
      kind: 'cost',
      number: this.num(number),
      currency: currency.image.toUpperCase(),
      unit: tokenMatcher(unit, t.Each) ? 'each' : tokenMatcher(unit, t.MassUnitToken) ? t.massUnit(unit.image) : t.volumeUnit(unit.image),
    }));
  }, nothing);

  nameValue = this.RULE('nameValue', (): Value => {
    const name = this.SUBRULE(this.name);
    return this.ACTION(() => name && { kind: 'name', name });
  }, nothing);

  roleValue = this.RULE('roleValue', (): Value => {
    const word = this.CONSUME(t.AnyWord);
    return this.ACTION(() => {
      const role = this.roleOf(word);
      return { kind: 'text', text: { ...this.spanOf(word), quoted: false, text: role ?? word.image } };
    });
  }, nothing);

  /** `1512 g, 2 loaves, after 3 h`. */
  weighedValue = this.RULE('weighedValue', (): Value => {
    const mass = this.SUBRULE(this.mass);
    let pieces: Quantity | undefined;
    let noun: Text | undefined;
    let after: Duration | undefined;
    this.MANY(() => {
      this.OPTION(() => this.CONSUME(t.Comma));
      this.OR({
        ...ask('weighed-detail'),
        DEF: [
          {
            ALT: () => {
              const counted = this.SUBRULE2(this.quantity);
              const counting = this.OPTION2({ GATE: () => !this.is(1, t.After), DEF: () => this.SUBRULE(this.noun) });
              this.ACTION(() => {
                pieces = counted;
                noun = counting;
              });
            },
          },
          {
            ALT: () => {
              this.CONSUME(t.After);
              const duration = this.SUBRULE(this.duration);
              this.ACTION(() => {
                after = duration;
              });
            },
          },
        ],
      });
    });
    return this.ACTION(() => mass && {
      kind: 'weighed', mass, ...(pieces && { pieces }), ...(noun && { noun }), ...(after && { after }),
    });
  }, nothing);

  instantValue = this.RULE('instantValue', (): Value => {
    const day = this.CONSUME(t.DateToken);
    const clock = this.OPTION(() => this.CONSUME(t.ClockToken));
    const place = this.OPTION2(() => this.OR([{ ALT: () => this.CONSUME(t.Zone) }, { ALT: () => this.CONSUME(t.AnyWord) }]));
    return this.ACTION(() => {
      const date = this.date(day);
      const time = clock && this.clock(clock);
      if (date === undefined) return { kind: 'missing' };
      return { kind: 'instant', date, ...(time && { time }), ...(place && { zone: place.image }) };
    });
  }, nothing);

  dateValue = this.RULE('dateValue', (): string | undefined => {
    const day = this.CONSUME(t.DateToken, ask('date'));
    return this.ACTION(() => this.date(day));
  }, nothing);

  private date(token: IToken): string | undefined {
    const date = readDate(token.image);
    if (date === undefined) {
      const message = `${token.image} is not a day of the calendar: write year, month and day, as in 2026-03-14.`;
      this.report('not-understood', this.spanOf(token), message);
    }
    return date;
  }

  private clock(token: IToken): string | undefined {
    const time = readClock(token.image);
    if (time === undefined) {
      const message = `${token.image} is not a time of the day: write it from 00:00 to 23:59.`;
      this.report('not-understood', this.spanOf(token), message);
    }
    return time;
  }

  /** `22:30 to 05:30`, with the days on which it begins or for every day: `on Mon to Fri`. */
  clockRangeValue = this.RULE('clockRangeValue', (): Value => {
    const first = this.CONSUME(t.ClockToken);
    const sign = this.CONSUME(t.RangeSign);
    const second = this.CONSUME2(t.ClockToken);
    const clocks = this.ACTION(() => this.since(first));
    const days = this.OPTION(() => {
      this.CONSUME(t.On);
      return this.SUBRULE(this.days);
    });
    return this.ACTION(() => {
      const from = this.clock(first);
      const to = this.clock(second);
      if (tokenMatcher(sign, t.Dash)) {
        const better = `${first.image} to ${second.image}`;
        this.report('not-understood', clocks, `A range is written with "to": ${better}.`, `Write ${better}`, better);
      }
      return from === undefined || to === undefined ? { kind: 'missing' } : { kind: 'clock-range', from, to, ...(days && { days }) };
    });
  }, nothing);

  private days = this.RULE('days', (): readonly DayRange[] => {
    const ranges = [this.SUBRULE(this.dayRange)];
    this.MANY(() => {
      this.OR([{ ALT: () => this.CONSUME(t.Comma) }, { ALT: () => this.CONSUME(t.And) }]);
      const range = this.SUBRULE2(this.dayRange);
      this.ACTION(() => ranges.push(range));
    });
    return ranges;
  }, strict);

  private dayRange = this.RULE('dayRange', (): DayRange => {
    const first = this.CONSUME(t.WeekDayToken, ask('week-day'));
    const second = this.OPTION(() => {
      this.CONSUME(t.To);
      return this.CONSUME2(t.WeekDayToken, ask('week-day'));
    });
    return this.ACTION(() => ({ ...this.since(first), from: t.weekDay(first.image), to: t.weekDay((second ?? first).image) }));
  }, strict);

  /** `holds 4 loaves or 24 rolls`, `"deck" holds 3 decks of 4 loaves`, `2`. */
  capacityValue = this.RULE('capacityValue', (): Value => {
    const quoted = this.OPTION(() => this.CONSUME(t.Quoted));
    this.OPTION2(() => this.CONSUME(t.Holds));
    const first = this.SUBRULE(this.holding);
    const inside = this.OPTION3(() => {
      this.CONSUME(t.Of);
      return this.SUBRULE2(this.holding);
    });
    const holds = [inside ?? first];
    this.MANY(() => {
      this.CONSUME(t.Or);
      const other = this.SUBRULE3(this.holding);
      this.ACTION(() => holds.push(other));
    });
    return this.ACTION(() => {
      const name = quoted && { ...this.spanOf(quoted), quoted: true, text: oneSpaced(unquote(quoted)) };
      return { kind: 'capacity', ...(name && { name }), ...(inside && { decks: first }), holds };
    });
  }, nothing);

  private holding = this.RULE('holding', (): Holding => {
    const quantity = this.SUBRULE(this.quantity);
    const unit = this.OPTION(() => this.CONSUME(t.MassUnitToken));
    this.OPTION2({ GATE: () => unit !== undefined && !this.is(2, t.NumberToken), DEF: () => this.CONSUME(t.Of) });
    const noun = this.OPTION3({ GATE: () => this.goesOnHolding(), DEF: () => this.SUBRULE(this.held) });
    return this.ACTION(() => ({ ...this.since(quantity), quantity, ...(unit && { unit: t.massUnit(unit.image) }), ...(noun && { noun }) }));
  }, strict);

  private held = this.RULE('held', (): Text => {
    const first = this.LA(1);
    this.AT_LEAST_ONE({ GATE: () => this.goesOnHolding(), DEF: () => this.CONSUME(t.AnyWord) });
    return this.ACTION(() => this.textSince(first));
  }, strict);

  /** Words go on up to `of` or `or` with a number behind it. */
  private goesOnHolding(): boolean {
    return !((this.is(1, t.Of) || this.is(1, t.Or)) && this.is(2, t.NumberToken));
  }

  /** `6 loaves of "Country rye"`, `3 kg of "Country rye", ready 07:00`. */
  orderValue = this.RULE('orderValue', (): Value => {
    const quantity = this.SUBRULE(this.quantity);
    const unit = this.OPTION(() => this.CONSUME(t.MassUnitToken));
    const noun = this.OPTION2({ GATE: () => unit === undefined && !this.is(1, t.Of), DEF: () => this.SUBRULE(this.noun) });
    this.OPTION3(() => this.CONSUME(t.Of));
    const formula = this.SUBRULE(this.name);
    const ready = this.OPTION4(() => {
      this.CONSUME(t.Comma);
      this.CONSUME(t.Ready, ask('order-ready'));
      return this.SUBRULE(this.orderTime);
    });
    return this.ACTION(() => formula && {
      kind: 'order', quantity, ...(unit && { unit: t.massUnit(unit.image) }), ...(noun && { noun }), formula, ...(ready && { ready }),
    });
  }, nothing);

  private orderTime = this.RULE('orderTime', (): OrderTime | undefined => {
    const day = this.OPTION(() => this.CONSUME(t.DateToken));
    const clock = this.CONSUME(t.ClockToken, ask('clock'));
    return this.ACTION(() => {
      const date = day && this.date(day);
      const time = this.clock(clock);
      if (time === undefined || (day && date === undefined)) return undefined;
      return { ...this.since(day ?? clock), ...(date && { date }), time };
    });
  }, nothing);
}
