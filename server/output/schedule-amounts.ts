/** What goes in at each step, weighed: a part at the step that puts it together, the dough at its mixing, the rest where it is added. */
import type { StepDetail, StepKind } from '../../grammar';
import { sumKnown } from '../core/formula/contents';
import { nameKey } from '../core/formula/draft';
import type { PlacedStep, ResolvedFormula, ResolvedLine, ResolvedPart } from '../core/formula/model';
import { linesNamed } from '../core/formula/named';
import type { TimelineStep } from '../core/timeline/model';
import { toGrams } from '../core/units/mass';
import { celsius, weight } from './numbers';

type Add = Extract<StepDetail, { readonly kind: 'add' }>;

/** Where all goes in that no step adds. */
const MIXING: readonly StepKind[] = ['mix', 'knead', 'whisk'];

/** By the id of a step: `880 g bread flour`, `600 g water at 28 °C`, … in the order written. */
export function amountsByStep(formula: ResolvedFormula, steps: readonly TimelineStep[]): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  const put = (step: TimelineStep | undefined, texts: readonly string[]): void => {
    if (step !== undefined && texts.length > 0) found.set(step.id, [...(found.get(step.id) ?? []), ...texts]);
  };
  formula.parts.forEach((part, index) => {
    if (index === formula.dough) return;
    const own = steps.filter((step) => step.part === index);
    const added = additionsOf(part, part.steps, formula);
    put(firstOf(own), rest(part, added));
    for (const { step, text } of added) put(own.find((timed) => timed.step === step), [text]);
  });
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough !== undefined) {
    const own = steps.filter((step) => step.part === undefined || step.part === formula.dough);
    const added = additionsOf(dough, [...dough.steps, ...formula.method], formula);
    putDough(dough, added, own, put);
    for (const { step, text } of added) put(own.find((timed) => timed.step === step), [text]);
  }
  return found;
}

/** An autolyse is flour and water; whatever else the dough has waits for the mixing. */
function putDough(dough: ResolvedPart, added: readonly Addition[], steps: readonly TimelineStep[], put: (step: TimelineStep | undefined, texts: readonly string[]) => void): void {
  const mixing = steps.find(({ kind }) => MIXING.includes(kind)) ?? firstOf(steps);
  const autolyse = steps.find((step) => step.kind === 'autolyse' && mixing !== undefined && step.startMs < mixing.startMs);
  if (autolyse === undefined) return put(mixing, rest(dough, added));
  const isFirst = ({ role, part }: ResolvedLine): boolean => part === undefined && (role === 'flour' || role === 'liquid');
  put(autolyse, rest(dough, added, isFirst));
  put(mixing, rest(dough, added, (line) => !isFirst(line)));
}

/** The earliest; of those that begin together, the first written. */
function firstOf(steps: readonly TimelineStep[]): TimelineStep | undefined {
  return steps.reduce<TimelineStep | undefined>((first, step) => (first === undefined || step.startMs < first.startMs ? step : first), undefined);
}

// --- what steps add ---------------------------------------------------------------------------------------------------

export interface Addition {
  readonly step: PlacedStep;
  readonly add: Add;
  readonly lines: readonly ResolvedLine[];
  /** What goes in here, g. */
  readonly grams: number | null;
  readonly text: string;
}

/** What no step adds of a part, and is not kept out of the dough. */
function rest(part: ResolvedPart, added: readonly Addition[], belongs: (line: ResolvedLine) => boolean = () => true): readonly string[] {
  return part.lines.filter((line) => line.inDough && belongs(line) && !added.some(({ lines }) => lines.includes(line))).map((line) => lineText(line, line.grams));
}

function lineText({ name, celsius: at }: ResolvedLine, grams: number | null): string {
  return `${weight(grams)} ${name}${at === null ? '' : ` at ${celsius(at)}`}`;
}

/**
 * What the steps add of a part's lines, in order; of a part that the list does not take in, all it yields. `factor`: how many times
 * the size written the formula is, for the weights that steps say.
 */
export function additionsOf(list: ResolvedPart, steps: readonly PlacedStep[], { parts }: ResolvedFormula, factor = 1): readonly Addition[] {
  const left = new Map<string, number | null>();
  return addsIn(steps).map(({ step, add }): Addition => {
    const name = add.name.text;
    const lines = linesNamed(name, list.lines, parts);
    const [first] = lines;
    const part = parts.find(({ key }) => key === nameKey(name));
    const whole = first === undefined ? (part?.yieldGrams ?? null) : sumKnown(lines, ({ grams }) => grams);
    const key = first?.key ?? nameKey(name);
    const remaining = left.has(key) ? (left.get(key) ?? null) : whole;
    const grams = gramsOf(add, whole, remaining, factor);
    left.set(key, remaining === null || grams === null ? null : Math.max(0, remaining - grams));
    return { step, add, lines, grams, text: first === undefined ? `${weight(grams)} ${name}` : lineText(first, grams) };
  });
}

function gramsOf({ portion }: Add, whole: number | null, remaining: number | null, factor: number): number | null {
  switch (portion.kind) {
    case 'whole':
    case 'rest':
      return remaining;
    case 'fraction':
      return whole === null ? null : whole * portion.fraction;
    case 'amount': {
      const { amount } = portion;
      if (amount.kind === 'share') return whole === null ? null : (whole * amount.quantity.low.value) / 100;
      const mass = amount.kind === 'mass' ? amount : 'bracket' in amount ? amount.bracket : undefined;
      return mass === undefined ? null : toGrams(mass) * factor;
    }
  }
}

/** In the order of the text. Not recursive: a garbled file may nest deep. */
function addsIn(steps: readonly PlacedStep[]): readonly { readonly step: PlacedStep; readonly add: Add }[] {
  const found: { readonly step: PlacedStep; readonly add: Add }[] = [];
  const waiting = [...steps].reverse();
  for (let step = waiting.pop(); step !== undefined; step = waiting.pop()) {
    for (const detail of step.node.details) if (detail.kind === 'add') found.push({ step, add: detail });
    waiting.push(...[...step.children].reverse());
  }
  return found;
}
