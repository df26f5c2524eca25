/** Parser rules for lines that hold an ingredient, and for the lines of a variant. */
import { tokenMatcher, type IToken } from 'chevrotain';
import { nearest } from './near';
import { ask, nothing, strict, unquote, type NameMode } from './rules-base';
import { QuantityRules } from './rules-quantities';
import * as t from './tokens';
import { ROLES } from './tree';
import type {
  Amount, DeltaLine, FlourShareLine, IngredientLine, MakesLine, MassAmount, Name, Num, Purpose, Role, Span, Temperature, Text,
  UsesLine,
} from './tree';

/** What may follow the name of an ingredient, in any order, each once. */
interface Extras {
  temperature?: Temperature;
  hydrationPct?: Num;
  role?: Span & { readonly role: Role };
  purpose?: Purpose;
  bracket?: MassAmount;
}

const SMALL_LITRES = new Map([['dl', 100], ['cl', 10]]);

export class LineRules extends QuantityRules {
  ingredient = this.RULE('ingredient', (mode: NameMode = 'plain'): IngredientLine | undefined => {
    const amount = this.SUBRULE(this.amount);
    this.OPTION({ GATE: () => this.is(2, t.NamePart) || this.is(2, t.Quoted), DEF: () => this.CONSUME(t.Of) });
    const name = this.SUBRULE(this.name, { ARGS: [mode] });
    const extras: Extras = {};
    this.MANY({ GATE: () => this.opensExtra(extras), DEF: () => this.SUBRULE(this.extra, { ARGS: [extras, mode] }) });
    const note = this.OPTION2(() => {
      this.CONSUME(t.Comma);
      return this.SUBRULE(this.note, { ARGS: [mode] });
    });
    return this.ACTION(() => {
      if (amount === undefined || name === undefined) return undefined;
      this.checkSmallLitres(amount, name);
      const { bracket, temperature, hydrationPct, role, purpose } = extras;
      return {
        ...this.since(amount), kind: 'ingredient', amount: this.withBracketBehind(amount, bracket), name, ...(temperature && { temperature }),
        ...(hydrationPct && { hydrationPct }), ...(role && { role }), ...(purpose && { purpose }), ...(note && { note }),
      };
    });
  }, nothing);

  /** A bracket behind the name, as in `4 eggs (220 g)`, stands outside the amount's own span. */
  private withBracketBehind(amount: Amount, bracket: MassAmount | undefined): Amount {
    return bracket === undefined ? amount : { ...this.withBracket(amount, bracket), start: amount.start, end: amount.end };
  }

  /** Decilitres and centilitres are read nowhere else, and must not pass for a count of something called `dl milk`. */
  private checkSmallLitres(amount: Amount, name: Name): void {
    const [unit = ''] = name.text.split(' ');
    const millilitres = name.quoted ? undefined : SMALL_LITRES.get(unit.toLowerCase());
    if (amount.kind !== 'count' || millilitres === undefined || amount.quantity.high !== undefined) return;
    const better = `${Number((amount.quantity.low.value * millilitres).toFixed(3))} ml`;
    const span = { start: amount.start, end: name.start + unit.length };
    this.report('not-understood', span, `${unit} is not read as a unit: write ${better}.`, `Write ${better}`, better);
  }

  /** Each extra comes once: a second one is not understood. */
  private opensExtra(got: Extras): boolean {
    if (this.is(1, t.At)) return got.temperature === undefined && got.hydrationPct === undefined;
    if (this.is(1, t.As)) return got.role === undefined;
    if (this.is(1, t.For)) return got.purpose === undefined;
    return got.bracket === undefined && this.is(2, t.NumberToken);
  }

  private extra = this.RULE('extra', (into: Extras, mode: NameMode): void => {
    this.OR([
      {
        ALT: () => {
          this.CONSUME(t.At);
          this.SUBRULE(this.heatOrHydration, { ARGS: [into] });
        },
      },
      {
        ALT: () => {
          const as = this.CONSUME(t.As);
          const word = this.CONSUME(t.AnyWord, ask('role'));
          this.ACTION(() => {
            const role = this.roleOf(word);
            if (role !== undefined) into.role = { start: as.startOffset, end: t.tokenEnd(word), role };
          });
        },
      },
      {
        ALT: () => {
          const opening = this.CONSUME(t.For);
          const first = this.LA(1);
          this.AT_LEAST_ONE({
            ...ask('purpose'),
            GATE: () => this.purposeGoesOn(mode),
            DEF: () => this.CONSUME2(t.AnyWord),
          });
          this.ACTION(() => {
            into.purpose = { ...this.since(opening), text: this.slice(this.since(first)).replace(/\s+/g, ' ') };
          });
        },
      },
      {
        ALT: () => {
          const bracket = this.SUBRULE(this.bracket);
          this.ACTION(() => {
            if (bracket !== undefined) into.bracket = bracket;
          });
        },
      },
    ]);
  });

  private heatOrHydration = this.RULE('heatOrHydration', (into: Extras): void => {
    this.OR({
      IGNORE_AMBIGUITIES: true,
      DEF: [
        {
          GATE: () => this.is(2, t.Percent),
          ALT: () => {
            const number = this.CONSUME(t.NumberToken);
            const percent = this.CONSUME(t.Percent);
            const word = this.OPTION(() => this.CONSUME(t.Hydration));
            this.ACTION(() => {
              into.hydrationPct = this.num(number);
              if (word === undefined) {
                const span = { start: number.startOffset, end: t.tokenEnd(percent) };
                const better = `${number.image} % hydration`;
                this.report('incomplete', span, `Say what this share is: at ${better}.`, `Write ${better}`, better);
              }
            });
          },
        },
        {
          ALT: () => {
            const temperature = this.SUBRULE(this.temperature);
            this.ACTION(() => {
              if (temperature !== undefined) into.temperature = temperature;
            });
          },
        },
      ],
    });
  });

  private purposeGoesOn(mode: NameMode): boolean {
    if (this.is(1, t.As) || this.atOpensValue(1)) return false;
    return mode !== 'delta' || !this.is(1, t.In);
  }

  protected roleOf(word: IToken): Role | undefined {
    const typed = word.image.toLowerCase();
    const role = ROLES.find((known) => known === typed);
    if (role === undefined) {
      const close = nearest(typed, ROLES);
      const message = `${word.image} is no role: it is one of ${ROLES.slice(0, -1).join(', ')} or ${ROLES[ROLES.length - 1]}.`;
      if (close === undefined) this.report('not-understood', this.spanOf(word), message);
      else this.report('not-understood', this.spanOf(word), message, `Write ${close}`, close);
    }
    return role;
  }

  /** All the rest of the line. In a variant it ends before a last `in PART`, which belongs to the variant's line. */
  private note = this.RULE('note', (mode: NameMode): Text | undefined => {
    const first = this.LA(1);
    this.AT_LEAST_ONE({
      ...ask('note'),
      GATE: () => mode !== 'delta' || !this.isLastIn(),
      DEF: () => this.CONSUME(t.Any),
    });
    return this.ACTION(() => this.textSince(first));
  }, nothing);

  /** `in` with a quoted name behind it that ends the line: words alone may well be part of the note. */
  private isLastIn(): boolean {
    return this.is(1, t.In) && this.is(2, t.Quoted) && this.LA(3).image === '';
  }

  /** `15 % of flour in levain`. */
  flourShare = this.RULE('flourShare', (): FlourShareLine | undefined => {
    const quantity = this.SUBRULE(this.quantity);
    const percent = this.CONSUME(t.Percent);
    this.CONSUME(t.Of);
    this.CONSUME(t.AnyWord);
    this.CONSUME(t.In);
    const part = this.SUBRULE(this.name);
    return this.ACTION(() => part === undefined ? undefined : {
      ...this.since(quantity),
      kind: 'flour-share',
      amount: { start: quantity.start, end: t.tokenEnd(percent), kind: 'share', quantity },
      part,
    });
  }, nothing);

  /** `8 slices of "Country rye"`, `8 slices (360 g) of "Country rye"`, `300 g "Country rye"`. */
  uses = this.RULE('uses', (keyword: IToken): UsesLine | undefined => {
    const amount = this.SUBRULE(this.amount);
    const noun = this.OPTION({ GATE: () => amount?.kind === 'count', DEF: () => this.SUBRULE(this.noun) });
    const bracket = this.OPTION4({ GATE: () => this.is(2, t.NumberToken), DEF: () => this.SUBRULE(this.bracket) });
    this.OPTION2(() => this.CONSUME(t.Of));
    const formula = this.SUBRULE(this.name);
    const note = this.OPTION3(() => {
      this.CONSUME(t.Comma);
      return this.SUBRULE(this.note, { ARGS: ['plain'] });
    });
    return this.ACTION(() => amount === undefined || formula === undefined ? undefined : {
      ...this.since(keyword), kind: 'uses', amount: this.withBracketBehind(amount, bracket), ...(noun && { noun }), formula, ...(note && { note }),
    });
  }, nothing);

  /** What is counted: `loaves`, `small tins`; words up to `of`, a comma or the end. */
  protected noun = this.RULE('noun', (): Text => {
    const first = this.LA(1);
    this.AT_LEAST_ONE({
      GATE: () => !this.is(1, t.Of) && !this.is(1, t.After),
      DEF: () => this.CONSUME(t.AnyWord),
    });
    return this.ACTION(() => {
      const span = this.since(first);
      return { ...span, quoted: false, text: this.slice(span).replace(/\s+/g, ' ') };
    });
  }, strict);

  /** `2 loaves of 970 g`, `2 loaves`, `1.8 kg`. */
  makes = this.RULE('makes', (keyword: IToken): MakesLine | undefined => this.OR({
    IGNORE_AMBIGUITIES: true,
    ...ask('makes'),
    DEF: [
      {
        GATE: () => this.isWeightOrVolume(this.behindNumbers(1)),
        ALT: (): MakesLine | undefined => {
          const each = this.SUBRULE(this.massOrVolume);
          return this.ACTION(() => ({
            ...this.since(keyword), kind: 'makes', keyword: this.spanOf(keyword), ...(each && { each }),
          }));
        },
      },
      {
        ALT: (): MakesLine | undefined => {
          const pieces = this.SUBRULE(this.quantity);
          const noun = this.OPTION({ GATE: () => !this.is(1, t.Of), DEF: () => this.SUBRULE(this.noun) });
          const each = this.OPTION2(() => {
            this.CONSUME(t.Of);
            return this.SUBRULE2(this.massOrVolume);
          });
          return this.ACTION(() => ({
            ...this.since(keyword), kind: 'makes', keyword: this.spanOf(keyword), pieces, ...(noun && { noun }), ...(each && { each }),
          }));
        },
      },
    ],
  }), nothing);

  private isWeightOrVolume(ahead: number): boolean {
    return this.is(ahead, t.MassUnitToken) || this.is(ahead, t.VolumeUnitToken);
  }

  // --- lines of a variant ---

  basedOn = this.RULE('basedOn', (keyword: IToken): DeltaLine | undefined => {
    const base = this.SUBRULE(this.name);
    return this.ACTION(() => base && { ...this.since(keyword), kind: 'based-on', keyword: this.spanOf(keyword), base });
  }, nothing);

  swap = this.RULE('swap', (keyword: IToken): DeltaLine | undefined => {
    const from = this.SUBRULE(this.name, { ARGS: ['delta'] });
    this.CONSUME(t.For, ask('swap-for'));
    const to = this.SUBRULE2(this.name, { ARGS: ['delta'] });
    const part = this.OPTION(() => this.SUBRULE(this.inPart));
    return this.ACTION(() => from && to && {
      ...this.since(keyword), kind: 'swap', keyword: this.spanOf(keyword), from, to, ...(part && { part }),
    });
  }, nothing);

  set = this.RULE('set', (keyword: IToken): DeltaLine | undefined => {
    const name = this.SUBRULE(this.name, { ARGS: ['delta'] });
    this.CONSUME(t.To, ask('set-to'));
    const amount = this.SUBRULE(this.amount);
    const part = this.OPTION(() => this.SUBRULE(this.inPart));
    return this.ACTION(() => name && amount && {
      ...this.since(keyword), kind: 'set', keyword: this.spanOf(keyword), name, amount, ...(part && { part }),
    });
  }, nothing);

  addLine = this.RULE('addLine', (keyword: IToken): DeltaLine | undefined => {
    const line = this.SUBRULE(this.ingredient, { ARGS: ['delta'] });
    const part = this.OPTION(() => this.SUBRULE(this.inPart));
    return this.ACTION(() => line && {
      ...this.since(keyword), kind: 'add', keyword: this.spanOf(keyword), line, ...(part && { part }),
    });
  }, nothing);

  drop = this.RULE('drop', (keyword: IToken): DeltaLine | undefined => {
    const name = this.SUBRULE(this.name, { ARGS: ['delta'] });
    const part = this.OPTION(() => this.SUBRULE(this.inPart));
    return this.ACTION(() => name && {
      ...this.since(keyword), kind: 'drop', keyword: this.spanOf(keyword), name, ...(part && { part }),
    });
  }, nothing);

  private inPart = this.RULE('inPart', (): Name | undefined => {
    this.CONSUME(t.In);
    return this.SUBRULE(this.name, { ARGS: ['delta'] });
  }, nothing);

  // --- heads ---

  /** What may follow the word that opens a block: a name and the temperature wanted. */
  headRest = this.RULE('headRest', (warm: boolean): { readonly name?: Name; readonly temperature?: Temperature } => {
    const name = this.OPTION({
      GATE: () => this.is(1, t.Quoted) || this.nameStarts('plain'),
      DEF: () => this.SUBRULE(this.name),
    });
    const temperature = this.OPTION2({
      GATE: () => warm,
      DEF: () => {
        this.CONSUME(t.At);
        return this.SUBRULE(this.temperature);
      },
    });
    return this.ACTION(() => ({ ...(name && { name }), ...(temperature && { temperature }) }));
  });

  /** For a head that stands alone. */
  nothingMore = this.RULE('nothingMore', (): void => {});

  /** The path after `use`, in quotes or by mistake without. */
  usePath = this.RULE('usePath', (): Text | undefined => {
    const first = this.LA(1);
    this.OR([
      { ALT: () => this.CONSUME(t.Quoted) },
      { GATE: () => this.LA(1).image !== '', ALT: () => this.AT_LEAST_ONE(() => this.CONSUME(t.Any)) },
    ]);
    return this.ACTION(() => {
      const path = this.textSince(first);
      if (tokenMatcher(first, t.Quoted)) return { ...path, text: unquote(first) };
      const quoted = /["“”„‟]/.test(path.text) ? undefined : `"${path.text}"`;
      this.report('incomplete', path, `Put the path in quotes: use ${quoted ?? '"pantry.bake"'}.`, 'Put the path in quotes', quoted);
      return path;
    });
  }, nothing);
}
