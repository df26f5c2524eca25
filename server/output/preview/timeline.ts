/** The timeline of a formula in its preview: when it is ready, the picture of its steps, or why they cannot be placed and what would help. */
import type { StepKind } from '../../../grammar';
import type { ResolvedFormula } from '../../core/formula/model';
import { formatInstant } from '../../core/timeline/clock';
import type { Timeline, TimelineRequest, TimelineStep } from '../../core/timeline/model';
import { windowsOf } from '../../core/timeline/windows';
import { clockOn, clockRange, handMoments, type Placed } from '../schedule-words';
import { html, type Markup, said, toLine } from './html';
import { lanesPicture, type Bar, type Lane } from './lanes';
import type { PreviewInput } from './preview';
import { capital } from './sheet';
import { action } from './size';
import { dayLabel, lengthOf } from './ticks';

export function timelinePicture(input: PreviewInput): Markup | undefined {
  const { timeline } = input;
  if (timeline === undefined || timeline.kind === 'empty') return undefined;
  return html`<section id="timeline" class="timeline" aria-labelledby="timeline-name"><h2 id="timeline-name">Timeline</h2>
${input.timeBy === undefined ? anchorField(input) : planWords(input.request, input.timeBy)}${timeline.kind === 'placed' ? picture(input, timeline) : conflict(timeline, input.lineOf)}</section>`;
}

/** When it is to be ready, or begun. The page's script listens to both fields; nothing is written to the file but by the button that says so. */
function anchorField({ formula, request: { anchor, zone }, isChosen = false }: PreviewInput): Markup {
  const { date, time } = formatInstant(anchor.epochMs, zone);
  const option = (kind: 'ready' | 'start', words: string): Markup =>
    html`<option value="${kind}"${anchor.kind === kind && html` selected`}>${words}</option>`;
  return html`<p class="anchor"><select id="anchor-kind" aria-label="What the time is for">${option('ready', 'Ready by')}${option('start', 'Begun at')}</select>
<input id="anchor-time" type="datetime-local" aria-label="Date and time on the clock of ${zone}" value="${date}T${time}"> <span class="zone">${zone}</span>
${isChosen && action('time-forget', 'Forget this time')} ${formula.name !== '' && action('time-plan', 'Write as a plan')}</p>`;
}

/** The time is a plan's: it is changed there. */
function planWords({ anchor, zone }: TimelineRequest, { name, line }: NonNullable<PreviewInput['timeBy']>): Markup {
  const { date, weekday, time } = formatInstant(anchor.epochMs, zone);
  const plan = html`the plan “${name}”`;
  return html`<p class="anchor">${anchor.kind === 'ready' ? 'Ready by' : 'Begun at'} ${dayLabel(date, weekday)} ${time}, as ${toLine(line, plan)} has it. <span class="zone">${zone}</span></p>`;
}

function conflict({ message, facts, waysOut }: Extract<Timeline, { kind: 'conflict' }>, lineOf: PreviewInput['lineOf']): Markup {
  const item = ({ text, place }: { readonly text: string; readonly place: Parameters<typeof lineOf>[0] | undefined }): Markup => (
    html`<li>${toLine(place && lineOf(place), said(text))}</li>`
  );
  return html`<p class="conflict">${said(message)}</p>${facts.length > 0 && html`<p class="quiet">These cannot all hold:</p><ul class="facts">${facts.map(item)}</ul>`}
${waysOut.length > 0 && html`<p class="quiet">Any one of these would do:</p><ul class="facts">${waysOut.map(item)}</ul>`}`;
}

function picture({ formula, request, lineOf }: PreviewInput, timeline: Placed): Markup {
  const { startMs, readyMs, zone, notes } = timeline;
  const endMs = Math.max(readyMs, startMs + 60_000, ...timeline.steps.map((step) => step.endMs));
  const from = formatInstant(startMs, zone);
  const ready = formatInstant(readyMs, zone);
  const words = `Begun ${dayLabel(from.date, from.weekday)} ${from.time}, ready ${dayLabel(ready.date, ready.weekday)} ${ready.time}, ${lengthOf(readyMs - startMs)} in all.`;
  const handsOnMs = timeline.steps.filter(({ handsOn }) => handsOn).reduce((sum, step) => sum + step.endMs - step.startMs, 0);
  return html`<p class="span">${words} Hands at work for ${lengthOf(handsOnMs)} of it.</p>${notes.map((note) => html`<p class="span">${said(note)}</p>`)}
${lanesPicture({
    lanes: lanesOf(formula, timeline, lineOf), startMs, endMs, zone,
    off: windowsOf(request.hoursOff ?? [], zone, startMs, endMs),
    words: `Timeline. ${words} Every step with its time is in the list below.`,
  })}`;
}

/** Steps that are named in the picture before others when there is no room for all. */
const FIRST_TO_NAME: readonly StepKind[] = ['bake', 'mix', 'shape', 'boil', 'fry', 'retard', 'proof', 'bulk', 'divide'];
/** Less slack than this cannot be seen. */
const LEAST_SLACK_MS = 10 * 60_000;

/** A lane for each part and one for the method; in it rows of steps that do not overlap, those inside another (folds) apart. */
function lanesOf(formula: ResolvedFormula, timeline: Placed, lineOf: PreviewInput['lineOf']): readonly Lane[] {
  const byPart = new Map<number | undefined, TimelineStep[]>();
  for (const step of timeline.steps) byPart.set(step.part, [...(byPart.get(step.part) ?? []), step]);
  const lanes = [...byPart].map(([part, own]) => {
    const sorted = [...own].sort((a, b) => a.startMs - b.startMs || b.endMs - a.endMs);
    const outerOf = (step: TimelineStep): TimelineStep | undefined => own.find((other) => other !== step && step.id.startsWith(`${other.id}/`));
    const rows: TimelineStep[][] = [];
    for (const step of sorted) {
      if (outerOf(step) !== undefined) continue;
      const free = rows.find((row) => row.every(({ endMs }) => endMs <= step.startMs));
      if (free === undefined) rows.push([step]);
      else free.push(step);
    }
    const dots = sorted.flatMap((step) => {
      const outer = outerOf(step);
      if (outer === undefined) return [];
      return [{ title: titleOf(step, timeline), ms: step.startMs, line: lineOf(step.place), row: rows.findIndex((row) => row.includes(outer)) }];
    });
    const bars = rows.map((row) => row.map((step, at) => barOf(step, row[at - 1], timeline, lineOf)));
    const name = part === undefined ? 'Method' : capital(formula.parts[part]?.name ?? '');
    return { part, firstMs: sorted[0]?.startMs ?? 0, lane: { name, rows: bars, dots } };
  });
  return lanes
    .sort((a, b) => Number(a.part === undefined) - Number(b.part === undefined) || a.firstMs - b.firstMs)
    .map(({ lane }) => lane);
}

function barOf(step: TimelineStep, before: TimelineStep | undefined, timeline: Placed, lineOf: PreviewInput['lineOf']): Bar {
  const { kind, label, startMs, endMs, handsOn, earliestStartMs, latestStartMs, place } = step;
  const found = FIRST_TO_NAME.indexOf(kind);
  // Steps that follow one another at once move together: the first of them shows how far.
  const movesWithBefore = before?.endMs === startMs && before.latestStartMs - before.earliestStartMs === latestStartMs - earliestStartMs;
  return {
    label, title: titleOf(step, timeline), startMs, endMs, isWork: handsOn,
    rank: found < 0 ? FIRST_TO_NAME.length : found,
    line: lineOf(place),
    handMs: handMoments(timeline, step).map(({ epochMs }) => epochMs),
    slack: movesWithBefore || latestStartMs - earliestStartMs < LEAST_SLACK_MS ? undefined : { fromMs: earliestStartMs, toMs: latestStartMs },
  };
}

/** `retard, 10 h, Fri 16:15 – 02:15 Sat, into the fridge, can begin 12:05 to 18:15` */
function titleOf(step: TimelineStep, timeline: Placed): string {
  const { id, label, startMs, endMs, handsOn, earliestStartMs, latestStartMs } = step;
  // A fold moves with its bulk, and by itself not at all.
  const isInside = id.split('/').length > 2;
  const { date, weekday } = formatInstant(startMs, timeline.zone);
  const hands = handMoments(timeline, step).flatMap(({ text }) => text ?? []);
  return [
    label, lengthOf(endMs - startMs), ...(handsOn ? ['hands at work'] : []), `${weekday} ${clockRange(startMs, endMs, timeline.zone)}`, ...hands,
    ...(isInside || latestStartMs - earliestStartMs < LEAST_SLACK_MS ? [] : [`can begin ${clockOn(earliestStartMs, date, timeline.zone)} to ${clockOn(latestStartMs, date, timeline.zone)}`]),
  ].join(', ');
}
