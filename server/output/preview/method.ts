/**
 * The method as a list: with a timeline every step of all parts in the order of the clock, day by day; without one the
 * steps in the order written. It is also what the timeline's picture says in words.
 */
import type { PlacedStep, ResolvedFormula, Section } from '../../core/formula/model';
import { formatInstant } from '../../core/timeline/clock';
import type { TimelineStep } from '../../core/timeline/model';
import { minutesRange } from '../numbers';
import { clockOn, handMoments, type Placed } from '../schedule-words';
import { html, type Markup, toLine } from './html';
import type { PreviewInput } from './preview';
import { capital } from './sheet';
import { otherScales } from './temperatures';
import { dayLabel, lengthOf } from './ticks';

export function method(input: PreviewInput): Markup | undefined {
  const list = input.timeline?.kind === 'placed' ? byTheClock(input, input.timeline) : asWritten(input);
  return list && html`<section id="method" class="method" aria-labelledby="method-name"><h2 id="method-name">Method</h2>${list}</section>`;
}

function byTheClock(input: PreviewInput, timeline: Placed): Markup | undefined {
  const { steps, zone } = timeline;
  if (steps.length === 0) return undefined;
  const days = new Map<string, Markup[]>();
  for (const step of [...steps].sort((a, b) => a.startMs - b.startMs || Number(a.part === undefined) - Number(b.part === undefined))) {
    const { date, weekday } = formatInstant(step.startMs, zone);
    const day = dayLabel(date, weekday);
    days.set(day, [...(days.get(day) ?? []), timedStep(input, timeline, step)]);
  }
  return html`${[...days].map(([day, items]) => html`<h3>${day}</h3><ol>${items}</ol>`)}`;
}

function timedStep({ formula, section, lineOf }: PreviewInput, timeline: Placed, timed: TimelineStep): Markup {
  const { date, time } = formatInstant(timed.startMs, timeline.zone);
  const { label, handsOn, step, startMs, endMs, lowMinutes, highMinutes, assumed, adapted, part } = timed;
  const lane = part === undefined ? undefined : formula.parts[part]?.name;
  const chosen = lengthOf(endMs - startMs);
  const said = step === undefined ? '' : detailsOf(section, step, formula);
  // What is written says how long; where that is a range, or nothing is written, the time taken is said beside it.
  const taken = assumed || step === undefined ? `about ${chosen}` : adapted !== undefined ? '' : highMinutes > lowMinutes ? `here ${chosen}` : '';
  const moments = handMoments(timeline, timed).flatMap(({ epochMs, text }) => (text === undefined ? [] : [`${text} ${clockOn(epochMs, date, timeline.zone)}`]));
  const changed = adapted && `here ${minutesRange(lowMinutes, highMinutes)}: ${adapted.why}`;
  return html`<li${handsOn && html` class="hands-on"`}><time datetime="${date}T${time}">${time}</time>
<span class="mark" aria-hidden="true"></span><span class="what"><b>${toLine(lineOf(timed.place), label)}</b>${handsOn && html`<span class="unseen"> (hands at work)</span>`} ${said}
${taken !== '' && html`<span class="taken">${taken}</span>`} ${changed !== undefined && html`<span class="taken">${changed}</span>`} ${moments.length > 0 && html`<span class="taken">${moments.join(', ')}</span>`} ${lane !== undefined && !label.includes(lane) && html`<span class="lane-of">${lane}</span>`}</span></li>`;
}

function asWritten(input: PreviewInput): Markup | undefined {
  const { formula } = input;
  const groups = [
    ...formula.parts.map(({ name, steps }) => ({ name: capital(name), steps })),
    { name: '', steps: formula.method },
  ].filter(({ steps }) => steps.length > 0);
  if (groups.length === 0) return undefined;
  return html`${groups.map(({ name, steps }) => html`${name !== '' && groups.length > 1 && html`<h3>${name}</h3>`}${writtenSteps(input, steps)}`)}`;
}

function writtenSteps(input: PreviewInput, steps: readonly PlacedStep[]): Markup {
  return html`<ol class="written">${steps.map(
    (step) =>
      html`<li><span class="what"><b>${toLine(input.lineOf(step.place), step.node.label?.text ?? step.node.step)}</b> ${detailsOf(input.section, step, input.formula)}${step.children.length > 0 && writtenSteps(input, step.children)}</span></li>`,
  )}</ol>`;
}

/**
 * What stands after the step's word, as the author wrote it, spaces evened out, each temperature in the other scale too. The
 * words of a `do` are its label.
 */
function detailsOf(section: Section, step: PlacedStep, formula: ResolvedFormula): string {
  const { place: { block }, node } = step;
  let at = Math.max(node.keyword.end, node.label?.end ?? 0);
  let text = '';
  for (const { at: next, text: added } of otherScales(step, formula)) {
    if (next < at) continue;
    text += (section.blocks[block]?.text.slice(at, next) ?? '') + added;
    at = next;
  }
  return (text + (section.blocks[block]?.text.slice(at, node.end) ?? '')).replace(/\s+/g, ' ').trim().replace(/^,\s*/, '');
}
