/** The method of a card: what is done with each part in the order made, then with the dough, in words a newcomer can follow. */
import type { StepDetail, StepKind } from '../../../grammar';
import type { PlacedStep, ResolvedFormula, ResolvedLine, ResolvedPart } from '../../core/formula/model';
import { formatInstant } from '../../core/timeline/clock';
import type { Timeline, TimelineStep } from '../../core/timeline/model';
import type { FormulaEntry } from '../entry';
import { named } from '../facts/words';
import { decimals, minutesRange, weight } from '../numbers';
import { additionsOf, type Addition } from '../schedule-amounts';
import { clockOn, type Placed } from '../schedule-words';
import { printable } from '../width';
import { temperatureWords } from './degrees';
import { capital } from './ingredients';
import type { MethodSection, MethodStep } from './model';

/** Where all goes in that no step adds. */
const MIXING: readonly StepKind[] = ['mix', 'knead', 'whisk'];

interface Method {
  readonly entry: FormulaEntry;
  /** The timeline that steps have their clock times and changed lengths from. */
  readonly timeline: Timeline | undefined;
  /** Clock times were asked for. */
  readonly isClocked: boolean;
  readonly additions: readonly Addition[];
}

/** @param order indexes of the parts as they are made */
export function methodOf(entry: FormulaEntry, timeline: Timeline | undefined, isClocked: boolean, order: readonly number[]): readonly MethodSection[] {
  const { formula } = entry;
  const { parts, dough, method } = formula;
  const own = dough === undefined ? undefined : parts[dough];
  const whole = [...(own?.steps ?? []), ...method];
  const additions = parts.flatMap((part, index) => (
    additionsOf(part, index === dough ? whole : [...part.steps, ...(own === undefined ? method : [])], formula, entry.factor)
  ));
  const input: Method = { entry, timeline, isClocked, additions };
  const sections = order.flatMap((index): readonly MethodSection[] => {
    const part = parts[index];
    if (part === undefined || index === dough) return [];
    const steps = [...buildsOf(input, index), ...part.steps.map((step) => stepOf(input, step))];
    return steps.length === 0 ? [] : [{ name: capital(printable(part.name)), steps }];
  });
  if (whole.length === 0) return sections;
  const first = whole.find(({ node }) => MIXING.includes(node.step));
  const steps = whole.map((step) => stepOf(input, step, own === undefined ? [] : atMixing(own, step, first, whole, additions)));
  return [...sections, { name: own === undefined ? 'Method' : own.kind === 'batter' ? 'Batter' : 'Dough', steps }];
}

/** Putting a part together, which nobody writes and somebody must do. */
function buildsOf({ timeline, isClocked }: Method, part: number): readonly MethodStep[] {
  if (timeline?.kind !== 'placed') return [];
  return timeline.steps.filter((step) => step.part === part && step.step === undefined).map((step) => ({
    name: capital(printable(step.label)), takes: '', words: '', clock: isClocked ? clockOf(step, timeline) : undefined, inside: [],
  }));
}

function stepOf(input: Method, step: PlacedStep, more: readonly string[] = []): MethodStep {
  const { entry: { formula }, timeline, isClocked } = input;
  const { node } = step;
  const timed = timeline?.kind === 'placed' ? timeline.steps.find((one) => one.step === step) : undefined;
  const label = node.step === 'do' ? node.label?.text ?? 'do' : node.step;
  const details = node.details.flatMap((detail) => detailWords(detail, input, step));
  const length = [takes(step, timed), node.details.flatMap(whenWords).join(', '), node.temperature === undefined ? '' : temperatureWords(node.temperature, formula)];
  return {
    name: capital(printable(label)),
    takes: length.filter((words) => words !== '').join(' '),
    words: [...details, ...more].join(', '),
    clock: isClocked && timed !== undefined && timeline?.kind === 'placed' ? clockOf(timed, timeline) : undefined,
    inside: step.children.map((child) => stepOf(input, child)),
  };
}

/** As written; where the room of the day changes it, what it takes then. A usual length that nobody wrote is left out. */
function takes({ node: { duration } }: PlacedStep, timed: TimelineStep | undefined): string {
  if (timed?.adapted !== undefined) return minutesRange(timed.lowMinutes, timed.highMinutes);
  if (duration === undefined) return '';
  const length = minutesRange(duration.lowMinutes, duration.highMinutes);
  return duration.vague ? `overnight, ${length}` : length;
}

/** `14:05`; on another day than the first, `Sat 05:20`. */
function clockOf(step: TimelineStep, { startMs, zone }: Placed): string {
  return clockOn(step.startMs, formatInstant(startMs, zone).date, zone);
}

/** When in its bulk a fold is. */
function whenWords(detail: StepDetail): readonly string[] {
  switch (detail.kind) {
    case 'at':
      return [`after ${minutesRange(detail.offset.lowMinutes, detail.offset.highMinutes)}`];
    case 'every':
      return [`every ${minutesRange(detail.interval.lowMinutes, detail.interval.highMinutes)}`];
    case 'times':
      return [detail.count.value === 1 ? 'once' : `${decimals(detail.count.value, 0)} times`];
    case 'lid': case 'steam': case 'by': case 'until-core': case 'until-volume': case 'until': case 'add': case 'attended': case 'note':
      return [];
  }
}

function detailWords(detail: StepDetail, { entry: { formula }, additions }: Method, step: PlacedStep): readonly string[] {
  switch (detail.kind) {
    case 'lid':
      return [detail.on ? 'lid on' : 'lid off'];
    case 'steam':
      return ['with steam'];
    case 'by':
      return [`by ${detail.how}`];
    case 'until-core':
      return [`until the middle is ${temperatureWords(detail.temperature, formula)}`];
    case 'until-volume':
      return [`until it has grown by ${decimals(detail.percent.value, 1)} %`];
    case 'until':
      return [`until ${printable(detail.text.text)}`];
    case 'add':
      return [addWords(detail, additions.find((one) => one.step === step && one.add === detail))];
    case 'at': case 'every': case 'times':
      return [];
    case 'attended':
      return detail.attended ? ['stay with it'] : [];
    case 'note':
      return [printable(detail.text.text)];
  }
}

/** `add half of the seeds (125 g)`: the weight where it is not the whole, which the list above has. */
function addWords({ portion, name }: Extract<StepDetail, { readonly kind: 'add' }>, found: Addition | undefined): string {
  const what = printable(name.text);
  const grams = found?.grams ?? null;
  const weighed = grams === null ? '' : ` (${weight(grams)})`;
  switch (portion.kind) {
    case 'whole':
      return `add the ${what}`;
    case 'rest':
      return `add the rest of the ${what}${weighed}`;
    case 'fraction':
      return `add ${fractionWords(portion.fraction)} of the ${what}${weighed}`;
    case 'amount':
      return grams === null ? `add ${what}` : `add ${weight(grams)} of the ${what}`;
  }
}

const FRACTION_WORDS: readonly (readonly [number, string])[] = [[1 / 4, 'a quarter'], [1 / 3, 'a third'], [1 / 2, 'half'], [2 / 3, 'two thirds'], [3 / 4, 'three quarters']];

function fractionWords(fraction: number): string {
  return FRACTION_WORDS.find(([value]) => Math.abs(value - fraction) < 0.005)?.[1] ?? `${decimals(100 * fraction, 1)} %`;
}

/** What to know at an autolyse and at the first mixing: what goes in, and what waits. */
function atMixing(
  dough: ResolvedPart, step: PlacedStep, mixing: PlacedStep | undefined, whole: readonly PlacedStep[], additions: readonly Addition[],
): readonly string[] {
  if (mixing === undefined) return [];
  const isLater = whole.indexOf(step) < whole.indexOf(mixing);
  if (step.node.step === 'autolyse' && isLater) {
    const isFirst = ({ role, part, inDough }: ResolvedLine): boolean => inDough && part === undefined && (role === 'flour' || role === 'liquid');
    const names = [...new Set(dough.lines.filter(isFirst).map(({ name }) => printable(name)))];
    return names.length === 0 ? [] : [`only ${named(names, 8)}`];
  }
  if (step !== mixing) return [];
  const waits = [...new Set(dough.lines.filter((line) => additions.some((one) => one.step !== step && one.lines.includes(line))).map(({ name }) => printable(name)))];
  return waits.length === 0 ? [] : [`without the ${named(waits, 8)} for now`];
}

/** Oven temperatures, tools and the like are read off the written steps: all of them, folds after their bulk. */
export function stepsOf({ parts, method }: ResolvedFormula): readonly PlacedStep[] {
  const withInside = (step: PlacedStep): readonly PlacedStep[] => [step, ...step.children.flatMap(withInside)];
  return [...parts.flatMap(({ steps }) => steps), ...method].flatMap(withInside);
}
