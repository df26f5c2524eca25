/**
 * The timeline as a picture: a lane for each part and one for the method, time running to the right, nights shaded. Work
 * is a filled bar, waiting a hollow one. Horizontal places are per cents, so the picture fits any width without scaling
 * its letters. The list of steps under it says the same in words; the picture itself is one image to a screen reader.
 */
import type { StepKind } from '../../../grammar';
import type { ResolvedFormula } from '../../core/formula/model';
import { formatInstant } from '../../core/timeline/clock';
import type { Timeline, TimelineStep } from '../../core/timeline/model';
import { html, lineAttribute, type Markup, toLine } from './html';
import { places } from './make-up';
import type { PreviewInput } from './preview';
import { capital } from './sheet';
import { dayLabel, lengthOf, ticksOf, type Ticks } from './ticks';

type Placed = Extract<Timeline, { kind: 'placed' }>;

export function timelinePicture(input: PreviewInput): Markup | undefined {
  const { timeline } = input;
  if (timeline === undefined || timeline.kind === 'empty') return undefined;
  return html`<section id="timeline" class="timeline" aria-labelledby="timeline-name"><h2 id="timeline-name">Timeline</h2>
${anchorField(input)}${timeline.kind === 'placed' ? picture(input.formula, timeline, input.lineOf) : conflict(timeline, input.lineOf)}</section>`;
}

/** When it is to be ready, or begun. The page's script listens to both fields; nothing is written to the file. */
function anchorField({ request: { anchor, zone } }: PreviewInput): Markup {
  const { date, time } = formatInstant(anchor.epochMs, zone);
  const option = (kind: 'ready' | 'start', words: string): Markup =>
    html`<option value="${kind}"${anchor.kind === kind && html` selected`}>${words}</option>`;
  return html`<p class="anchor"><select id="anchor-kind" aria-label="What the time is for">${option('ready', 'Ready by')}${option('start', 'Begun at')}</select>
<input id="anchor-time" type="datetime-local" aria-label="Date and time" value="${date}T${time}"> <span class="zone">${zone}</span></p>`;
}

function conflict({ message, facts }: Extract<Timeline, { kind: 'conflict' }>, lineOf: PreviewInput['lineOf']): Markup {
  return html`<p class="conflict">${message}</p><ul class="facts">${facts.map(({ text, place }) => html`<li>${place === undefined ? text : toLine(lineOf(place), text)}</li>`)}</ul>`;
}

function picture(formula: ResolvedFormula, timeline: Placed, lineOf: PreviewInput['lineOf']): Markup {
  const { startMs, readyMs, zone } = timeline;
  const toMs = Math.max(readyMs, startMs + 60_000, ...timeline.steps.map(({ endMs }) => endMs));
  const scale: Scale = { startMs, toMs, ticks: ticksOf(startMs, toMs, zone) };
  const from = formatInstant(startMs, zone);
  const ready = formatInstant(readyMs, zone);
  const words = `Begun ${dayLabel(from.date, from.weekday)} ${from.time}, ready ${dayLabel(ready.date, ready.weekday)} ${ready.time}, ${lengthOf(readyMs - startMs)} in all.`;
  const handsOnMs = timeline.steps.filter(({ handsOn }) => handsOn).reduce((sum, step) => sum + step.endMs - step.startMs, 0);
  return html`<p class="span">${words} Hands at work for ${lengthOf(handsOnMs)} of it.</p>
<figure><div class="lanes" role="img" aria-label="Timeline. ${words} Every step with its time is in the list below.">
${axis(scale)}${lanesOf(formula, timeline.steps).map((lane) => drawLane(lane, scale, lineOf))}</div>
<figcaption><svg class="key" aria-hidden="true" width="22" height="12"><rect class="hands-on" x="1" y="1" width="20" height="10"/></svg> hands at work
<svg class="key" aria-hidden="true" width="22" height="12"><rect class="waiting" x="1" y="1" width="20" height="10"/></svg> by itself
${scale.ticks.nights.length > 0 && html`<svg class="key" aria-hidden="true" width="22" height="12"><rect class="night" width="22" height="12"/></svg> night`}</figcaption></figure>`;
}

interface Scale {
  readonly startMs: number;
  readonly toMs: number;
  readonly ticks: Ticks;
}

/** Per cent of the width from the left. */
function x(ms: number, { startMs, toMs }: Scale): number {
  return (100 * (ms - startMs)) / (toMs - startMs);
}

interface Lane {
  readonly name: string;
  /** Rows of steps that do not overlap, the steps that go on inside another (folds) apart. */
  readonly rows: readonly (readonly TimelineStep[])[];
  readonly inside: readonly { readonly step: TimelineStep; readonly row: number }[];
}

function lanesOf(formula: ResolvedFormula, steps: readonly TimelineStep[]): readonly Lane[] {
  const byPart = new Map<number | undefined, TimelineStep[]>();
  for (const step of steps) byPart.set(step.part, [...(byPart.get(step.part) ?? []), step]);
  const lanes = [...byPart].map(([part, own]) => {
    const sorted = [...own].sort((a, b) => a.startMs - b.startMs || b.endMs - a.endMs);
    const isInside = (step: TimelineStep): TimelineStep | undefined => own.find((other) => other !== step && step.id.startsWith(`${other.id}/`));
    const rows: TimelineStep[][] = [];
    for (const step of sorted) {
      if (isInside(step) !== undefined) continue;
      const free = rows.find((row) => row.every(({ endMs }) => endMs <= step.startMs));
      if (free === undefined) rows.push([step]);
      else free.push(step);
    }
    const inside = sorted.flatMap((step) => {
      const outer = isInside(step);
      return outer === undefined ? [] : [{ step, row: rows.findIndex((row) => row.includes(outer)) }];
    });
    const name = part === undefined ? 'Method' : capital(formula.parts[part]?.name ?? '');
    return { part, firstMs: sorted[0]?.startMs ?? 0, lane: { name, rows, inside } };
  });
  return lanes
    .sort((a, b) => Number(a.part === undefined) - Number(b.part === undefined) || a.firstMs - b.firstMs)
    .map(({ lane }) => lane);
}

const LABEL_HEIGHT = 14;
const BAR_HEIGHT = 18;
const ROW_HEIGHT = LABEL_HEIGHT + BAR_HEIGHT + 6;
/** Width of a letter as a share of a picture about 500 px wide, which is what a panel beside the text has. */
const LETTER_PCT = 1.25;
/** Steps that are named in the picture before others when there is no room for all. */
const FIRST_TO_NAME: readonly StepKind[] = ['bake', 'mix', 'shape', 'boil', 'fry', 'retard', 'proof', 'bulk', 'divide'];

function drawLane({ name, rows, inside }: Lane, scale: Scale, lineOf: PreviewInput['lineOf']): Markup {
  const height = rows.length * ROW_HEIGHT + 2;
  return html`<div class="lane-name">${name}</div><svg class="lane" width="100%" height="${height}">${backdrop(scale, height)}
${rows.flatMap((row, at) => drawRow(row, at * ROW_HEIGHT, scale, lineOf))}
${inside.map(({ step, row }) => drawInside(step, row * ROW_HEIGHT + LABEL_HEIGHT, scale, lineOf))}</svg>`;
}

function drawRow(row: readonly TimelineStep[], top: number, scale: Scale, lineOf: PreviewInput['lineOf']): Markup[] {
  const above = labelsAbove(row, scale);
  return row.map((step, index) => {
    const [left, right] = [x(step.startMs, scale), x(step.endMs, scale)];
    const name = fits(step, scale) && html`<text x="5" y="${BAR_HEIGHT / 2}">${step.label}</text>`;
    const before = row[index - 1];
    const seam = step.handsOn && before?.handsOn && before.endMs === step.startMs && html`<line class="seam" y2="${BAR_HEIGHT}"/>`;
    return html`${labelAbove(step, above.get(step), top + LABEL_HEIGHT - 4)}
<svg class="step ${step.handsOn ? 'hands-on' : 'waiting'}" x="${places(left)}%" y="${top + LABEL_HEIGHT}" width="${places(Math.max(right - left, 0.4))}%" height="${BAR_HEIGHT}"${lineAttribute(lineOf(step.place))}><title>${titleOf(step)}</title><rect width="100%" height="100%"/>${seam}${name}</svg>`;
  });
}

/** At the right edge a name ends there, so that no width of letters cuts it off. */
function labelAbove(step: TimelineStep, at: number | undefined, y: number): Markup | undefined {
  if (at === undefined) return undefined;
  const isLast = at + labelPct(step) > 97;
  return html`<text class="above" x="${isLast ? 100 : places(at)}%" y="${y}" text-anchor="${isLast ? 'end' : 'start'}">${step.label}</text>`;
}

function labelPct({ label }: TimelineStep): number {
  return (label.length + 1) * LETTER_PCT;
}

function fits(step: TimelineStep, scale: Scale): boolean {
  return x(step.endMs, scale) - x(step.startMs, scale) >= labelPct(step);
}

/**
 * Where the names of bars too short for them stand, above the bars; those that a baker looks for get their place first.
 * What finds none is named in the list below the picture, as every step is.
 */
function labelsAbove(row: readonly TimelineStep[], scale: Scale): ReadonlyMap<TimelineStep, number> {
  const rank = ({ kind }: TimelineStep): number => {
    const found = FIRST_TO_NAME.indexOf(kind);
    return found < 0 ? FIRST_TO_NAME.length : found;
  };
  const placed = new Map<TimelineStep, number>();
  for (const step of [...row].filter((candidate) => !fits(candidate, scale)).sort((a, b) => rank(a) - rank(b) || a.startMs - b.startMs)) {
    const at = Math.max(0, Math.min(x(step.startMs, scale), 100 - labelPct(step)));
    const isFree = [...placed].every(([other, from]) => at + labelPct(step) <= from || at >= from + labelPct(other));
    if (isFree) placed.set(step, at);
  }
  return placed;
}

/** A fold inside its bulk: a filled mark on the bar's lower edge, where it leaves the bar's name alone. */
function drawInside(step: TimelineStep, top: number, scale: Scale, lineOf: PreviewInput['lineOf']): Markup {
  const at = x(step.startMs, scale);
  return html`<g class="inside"${lineAttribute(lineOf(step.place))}><title>${titleOf(step)}</title><circle cx="${places(at)}%" cy="${top + BAR_HEIGHT - 1}" r="3.5"/></g>`;
}

function titleOf({ label, startMs, endMs, handsOn }: TimelineStep): string {
  return `${label}, ${lengthOf(endMs - startMs)}${handsOn ? ', hands at work' : ''}`;
}

/** Nights and hour lines behind a lane. */
function backdrop(scale: Scale, height: number): Markup {
  const nights = scale.ticks.nights.map(
    ({ fromMs, toMs }) => html`<rect class="night" x="${places(x(fromMs, scale))}%" width="${places(x(toMs, scale) - x(fromMs, scale))}%" height="${height}"/>`,
  );
  const hours = scale.ticks.hours.map(({ ms }) => html`<line class="hour" x1="${places(x(ms, scale))}%" x2="${places(x(ms, scale))}%" y2="${height}"/>`);
  return html`${nights}${hours}`;
}

/** Days and hours above the lanes. */
function axis(scale: Scale): Markup {
  const anchorOf = (at: number): string => (at < 4 ? 'start' : at > 96 ? 'end' : 'middle');
  const hours = scale.ticks.hours.map(({ ms, label }) => {
    const at = x(ms, scale);
    return html`<text class="hour-label" x="${places(at)}%" y="28" text-anchor="${anchorOf(at)}">${label}</text>`;
  });
  // A first day that is nearly over leaves no room for its name before the next one's.
  const days = scale.ticks.days.filter(({ ms }, at, all) => {
    const next = all[at + 1];
    return next === undefined || x(next.ms, scale) - x(ms, scale) >= 11 * LETTER_PCT;
  });
  const names = days.map(({ ms, label }) => {
    const at = x(ms, scale);
    const late = at > 100 - 11 * LETTER_PCT;
    return html`<text class="day-label" x="${places(at)}%" y="12" text-anchor="${late ? 'end' : 'start'}">${label}</text>`;
  });
  return html`<div class="lane-name"></div><svg class="axis" width="100%" height="32">${names}${hours}</svg>`;
}
