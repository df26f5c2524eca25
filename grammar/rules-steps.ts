/** Parser rules for the lines of a method: `bake 25 min at 240 C, lid on, until core 97 C`. */
import { tokenMatcher, type IToken } from 'chevrotain';
import { ask, nothing } from './rules-base';
import { LineRules } from './rules-lines';
import * as t from './tokens';
import type { Duration, Num, Portion, StepDetail, StepKind, StepLine, Temperature, Text } from './tree';
import { shorten } from './words';

/** A step while it is read. */
interface StepDraft {
  readonly kind: StepKind;
  label?: Text;
  duration?: Duration;
  temperature?: Temperature;
  readonly details: StepDetail[];
}

const freshDraft = (kind: StepKind): StepDraft => ({ kind, details: [] });

export class StepRules extends LineRules {
  step = this.RULE('step', (kind: StepKind, keyword: IToken): StepLine | undefined => {
    const draft = freshDraft(kind);
    this.MANY({
      GATE: () => !this.is(1, t.Comma),
      DEF: () => this.SUBRULE(this.headItem, { ARGS: [draft] }),
    });
    this.MANY2(() => {
      this.CONSUME(t.Comma);
      this.SUBRULE(this.detail, { ARGS: [draft, true] });
    });
    return this.ACTION(() => {
      const { label, duration, temperature, details } = draft;
      if (kind === 'do' && label === undefined) {
        this.report('incomplete', this.spanOf(keyword), 'Say what to do, in quotes: do "brush with butter" 5 min.');
      }
      return {
        ...this.since(keyword), kind: 'step', step: kind, keyword: this.spanOf(keyword),
        ...(label && { label }), ...(duration && { duration }), ...(temperature && { temperature }), details,
      };
    });
  }, nothing);

  /** What stands before the first comma: the duration, the temperature, when in a bulk; or a detail that lacks its comma. */
  private headItem = this.RULE('headItem', (draft: StepDraft): void => {
    this.OR({
      IGNORE_AMBIGUITIES: true,
      DEF: [
        {
          GATE: () => draft.kind === 'do' && draft.label === undefined && (this.is(1, t.Quoted) || this.nameStarts('step')),
          ALT: () => {
            const name = this.SUBRULE(this.name, { ARGS: ['step'] });
            this.ACTION(() => {
              if (name !== undefined) draft.label = name;
            });
          },
        },
        {
          GATE: () => draft.duration === undefined && this.is(1, t.For) && this.timeAt(2),
          ALT: () => {
            this.CONSUME(t.For);
            this.SUBRULE(this.stepDuration, { ARGS: [draft] });
          },
        },
        {
          GATE: () => draft.duration === undefined && !this.is(this.behindNumbers(1), t.Times),
          ALT: () => this.SUBRULE2(this.stepDuration, { ARGS: [draft] }),
        },
        { GATE: () => this.opensTiming(draft), ALT: () => this.SUBRULE(this.timing, { ARGS: [draft] }) },
        {
          GATE: () => this.opensDetail(),
          ALT: () => {
            const first = this.LA(1);
            this.SUBRULE(this.detail, { ARGS: [draft, false] });
            this.ACTION(() => this.missingComma(first));
          },
        },
        { ALT: () => this.SUBRULE(this.skipped, { ARGS: [draft] }) },
      ],
    });
  });

  private stepDuration = this.RULE('stepDuration', (draft: StepDraft): void => {
    const duration = this.SUBRULE(this.duration);
    this.ACTION(() => {
      if (duration !== undefined) draft.duration = duration;
    });
  }, nothing);

  private opensTiming(draft: StepDraft): boolean {
    if (this.is(1, t.At)) return this.timeAt(2) || draft.temperature === undefined;
    return this.is(1, t.Every) || (this.is(1, t.NumberToken) && this.is(2, t.Times));
  }

  /** `at 240 C`, `at 30 min`, `every 30 min`, `4 times`. */
  private timing = this.RULE('timing', (draft: StepDraft): void => {
    this.OR({
      IGNORE_AMBIGUITIES: true,
      DEF: [
        {
          GATE: () => this.timeAt(2),
          ALT: () => {
            const at = this.CONSUME(t.At);
            const offset = this.SUBRULE(this.duration);
            this.ACTION(() => {
              if (offset !== undefined) draft.details.push({ ...this.since(at), kind: 'at', offset });
            });
          },
        },
        {
          ALT: () => {
            this.CONSUME2(t.At);
            const temperature = this.SUBRULE(this.temperature);
            this.ACTION(() => {
              if (temperature !== undefined) draft.temperature = temperature;
            });
          },
        },
        {
          ALT: () => {
            const every = this.CONSUME(t.Every);
            const interval = this.SUBRULE2(this.duration);
            this.ACTION(() => {
              if (interval !== undefined) draft.details.push({ ...this.since(every), kind: 'every', interval });
            });
          },
        },
        {
          ALT: () => {
            const number = this.CONSUME(t.NumberToken);
            this.CONSUME(t.Times);
            this.ACTION(() => draft.details.push({ ...this.since(number), kind: 'times', count: this.num(number) }));
          },
        },
      ],
    });
  }, nothing);

  private opensDetail(): boolean {
    return [t.Lid, t.With, t.By, t.Until, t.Add, t.Attended, t.Unattended].some((type) => this.is(1, type));
  }

  private missingComma(first: IToken): void {
    const before = { start: first.startOffset, end: first.startOffset };
    const words = shorten(this.slice(this.since(first)));
    // The comma goes right behind the word before it, so the space between them goes first.
    let start = first.startOffset;
    while (start > 0 && /\s/.test(this.text.charAt(start - 1))) start -= 1;
    this.found.push({
      code: 'not-understood',
      ...this.since(first),
      message: `Expected a comma before ${words}: write , ${words}.`,
      fix: { title: 'Put a comma before it', edits: [{ start, end: before.end, newText: ', ' }] },
    });
  }

  private opensKnown(draft: StepDraft): boolean {
    return this.opensTiming(draft) || this.opensDetail() || (draft.duration === undefined && this.timeAt(1));
  }

  /** Words before the first comma that mean nothing there, up to where something known begins. */
  private skipped = this.RULE('skipped', (draft: StepDraft): void => {
    const first = this.CONSUME(t.Any);
    this.MANY({
      GATE: () => !this.is(1, t.Comma) && !this.opensKnown(draft),
      DEF: () => this.CONSUME2(t.Any),
    });
    this.ACTION(() => {
      const span = this.since(first);
      const words = shorten(this.slice(span));
      if (tokenMatcher(first, t.NumberToken) && span.end === t.tokenEnd(first)) {
        this.report('incomplete', span, `Expected a unit after ${words}: write ${words} min or ${words} h.`);
      } else {
        const message = `Expected a time or a temperature here, such as 30 min at 24 C. Put a note after a comma: , ${words}.`;
        this.report('not-understood', span, message);
      }
    });
  });

  /** One detail, up to the next comma. `marked` is false when its comma is missing. */
  private detail = this.RULE('detail', (draft: StepDraft, marked: boolean): void => {
    const first = this.LA(1);
    this.OR({
      IGNORE_AMBIGUITIES: true,
      ...ask('detail'),
      DEF: [
        {
          GATE: () => this.is(2, t.On) || this.is(2, t.Off),
          ALT: () => {
            this.CONSUME(t.Lid);
            const word = this.OR2([{ ALT: () => this.CONSUME(t.On) }, { ALT: () => this.CONSUME(t.Off) }]);
            this.ACTION(() => draft.details.push({ ...this.since(first), kind: 'lid', on: tokenMatcher(word, t.On) }));
          },
        },
        {
          GATE: () => this.is(2, t.Steam),
          ALT: () => {
            this.CONSUME(t.With);
            this.CONSUME(t.Steam);
            this.ACTION(() => draft.details.push({ ...this.since(first), kind: 'steam' }));
          },
        },
        {
          GATE: () => this.is(2, t.Hand) || this.is(2, t.Mixer),
          ALT: () => {
            this.CONSUME(t.By);
            const word = this.OR3([{ ALT: () => this.CONSUME(t.Hand) }, { ALT: () => this.CONSUME(t.Mixer) }]);
            this.ACTION(() => draft.details.push({ ...this.since(first), kind: 'by', how: tokenMatcher(word, t.Hand) ? 'hand' : 'mixer' }));
          },
        },
        { ALT: () => this.SUBRULE(this.until, { ARGS: [draft] }) },
        { GATE: () => this.is(2, t.NumberToken), ALT: () => this.SUBRULE(this.reached, { ARGS: [draft, first] }) },
        { ALT: () => this.SUBRULE(this.add, { ARGS: [draft] }) },
        {
          ALT: () => {
            this.CONSUME(t.Attended);
            this.ACTION(() => draft.details.push({ ...this.since(first), kind: 'attended', attended: true }));
          },
        },
        {
          ALT: () => {
            this.CONSUME(t.Unattended);
            this.ACTION(() => draft.details.push({ ...this.since(first), kind: 'attended', attended: false }));
          },
        },
        {
          GATE: () => marked && (this.is(1, t.At) ? this.atOpensValue(1) : true) && this.opensTiming(draft),
          ALT: () => this.SUBRULE(this.timing, { ARGS: [draft] }),
        },
        {
          // `mix by hand, 8 min`: a time that stands alone is the step's time when it has no other.
          GATE: () => marked && draft.duration === undefined && this.isTimeAlone(),
          ALT: () => this.SUBRULE(this.stepDuration, { ARGS: [draft] }),
        },
        {
          GATE: () => marked && !this.is(1, t.Comma),
          ALT: () => {
            this.AT_LEAST_ONE({ GATE: () => !this.is(1, t.Comma), DEF: () => this.CONSUME(t.Any) });
            this.ACTION(() => {
              const text = this.textSince(first);
              draft.details.push({ start: text.start, end: text.end, kind: 'note', text });
            });
          },
        },
      ],
    });
    this.MANY({
      GATE: () => marked && !this.is(1, t.Comma),
      DEF: () => this.SUBRULE(this.tail, { ARGS: [first] }),
    });
  }, nothing);

  private isTimeAlone(): boolean {
    if (!this.timeAt(1)) return false;
    let at = 1;
    while (!this.is(at, t.Comma) && this.LA(at).image !== '') {
      const known = [t.NumberToken, t.TimeUnitToken, t.To, t.Overnight].some((type) => this.is(at, type));
      if (!known) return false;
      at += 1;
    }
    return true;
  }

  /** What is left of a detail up to its comma, after something that was understood. */
  private tail = this.RULE('tail', (detailStart: IToken): void => {
    const first = this.CONSUME(t.Any);
    this.MANY({ GATE: () => !this.is(1, t.Comma), DEF: () => this.CONSUME2(t.Any) });
    this.ACTION(() => {
      const understood = shorten(this.slice({ start: detailStart.startOffset, end: first.startOffset }).trim());
      const span = this.since(first);
      const words = shorten(this.slice(span));
      this.report('not-understood', span, `Expected a comma or the end of the line after ${understood}: write ${understood}, ${words}.`);
    });
  });

  private until = this.RULE('until', (draft: StepDraft): void => {
    const until = this.CONSUME(t.Until);
    this.OR({
      IGNORE_AMBIGUITIES: true,
      ...ask('until'),
      DEF: [
        { GATE: () => this.opensReached(), ALT: () => this.SUBRULE(this.reached, { ARGS: [draft, until] }) },
        {
          GATE: () => !this.is(1, t.Comma),
          ALT: () => {
            const first = this.LA(1);
            this.AT_LEAST_ONE({ GATE: () => !this.is(1, t.Comma), DEF: () => this.CONSUME(t.Any) });
            this.ACTION(() => draft.details.push({ ...this.since(until), kind: 'until', text: this.textSince(first) }));
          },
        },
      ],
    });
  }, nothing);

  /** `until core` at the end of a detail lacks its temperature; `until core is dry` are words. */
  private opensReached(): boolean {
    return this.numberAt(2) || this.is(2, t.Comma) || this.LA(2).image === '';
  }

  /** `core 97 C` and `volume 75 %`, after `until` or, in a record, alone. */
  private reached = this.RULE('reached', (draft: StepDraft, first: IToken): void => {
    this.OR([
      {
        ALT: () => {
          this.CONSUME(t.Core);
          const temperature = this.SUBRULE(this.temperature);
          this.ACTION(() => {
            if (temperature !== undefined) draft.details.push({ ...this.since(first), kind: 'until-core', temperature });
          });
        },
      },
      {
        ALT: () => {
          this.CONSUME(t.Volume);
          const number = this.CONSUME(t.NumberToken, ask('volume-percent'));
          this.CONSUME(t.Percent, ask('volume-percent'));
          this.ACTION(() => draft.details.push({ ...this.since(first), kind: 'until-volume', percent: this.num(number) }));
        },
      },
    ]);
  }, nothing);

  /** `add walnuts`, `add half of walnuts`, `add rest of walnuts`, `add 40 g of walnuts`. */
  private add = this.RULE('add', (draft: StepDraft): void => {
    const add = this.CONSUME(t.Add);
    this.OPTION({ GATE: () => this.is(2, t.Rest) && this.is(3, t.Of), DEF: () => this.CONSUME(t.The) });
    const portion = this.SUBRULE(this.portion);
    this.OPTION2({ GATE: () => this.is(2, t.AnyWord) || this.is(2, t.Quoted), DEF: () => this.CONSUME2(t.The) });
    const name = this.SUBRULE(this.name);
    this.ACTION(() => {
      if (portion !== undefined && name !== undefined) draft.details.push({ ...this.since(add), kind: 'add', portion, name });
    });
  }, nothing);

  private portion = this.RULE('portion', (): Portion | undefined => this.OR({
    IGNORE_AMBIGUITIES: true,
    DEF: [
      {
        GATE: () => this.is(2, t.Of),
        ALT: (): Portion => {
          this.CONSUME(t.Half);
          this.CONSUME(t.Of);
          return { kind: 'fraction', fraction: 0.5 };
        },
      },
      {
        GATE: () => this.is(2, t.Of),
        ALT: (): Portion => {
          this.CONSUME(t.Rest);
          this.CONSUME2(t.Of);
          return { kind: 'rest' };
        },
      },
      {
        ALT: (): Portion => {
          this.CONSUME(t.All);
          this.OPTION(() => this.CONSUME3(t.Of));
          return { kind: 'whole' };
        },
      },
      {
        GATE: () => !this.is(1, t.Article) || this.is(2, t.Pinch),
        ALT: (): Portion | undefined => {
          const amount = this.SUBRULE(this.amount);
          const of = this.OPTION2(() => this.CONSUME4(t.Of));
          return this.ACTION((): Portion | undefined => {
            if (amount === undefined) return undefined;
            const low = 'quantity' in amount ? amount.quantity : undefined;
            const single: Num | undefined = low !== undefined && low.high === undefined ? low.low : undefined;
            if (amount.kind === 'share' && single !== undefined) return { kind: 'fraction', fraction: single.value / 100 };
            if (amount.kind === 'count' && of !== undefined && single !== undefined && single.value <= 1) {
              return { kind: 'fraction', fraction: single.value };
            }
            return { kind: 'amount', amount };
          });
        },
      },
      { ALT: (): Portion => ({ kind: 'whole' }) },
    ],
  }), nothing);
}
