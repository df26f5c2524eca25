/**
 * The preview of a plan: the bake day as a picture with a lane for each dough and each oven, everything that takes a hand by the
 * clock, what each oven holds, and what to buy. A piece of HTML like the preview of a formula.
 */
import type { Severity } from '../../core/checks/check';
import type { Place } from '../../core/formula/model';
import { shoppingOf } from '../../core/plan/lists';
import type { DaySchedule, DayStep, OvenLoad, ScheduledBatch, ScheduledBuild, ScheduledDay } from '../../core/plan/schedule-model';
import { formatInstant } from '../../core/timeline/clock';
import { windowsOf } from '../../core/timeline/windows';
import { counted, gapText, momentsOf, takers, tasksOf, type DayEntry, type DayTask } from '../day-words';
import { ovenCelsius, weight } from '../numbers';
import { clockRange } from '../schedule-words';
import { html, type Markup, said, toLine } from './html';
import { lanesPicture, type Bar, type Lane } from './lanes';
import { findingsList, hidden, type Preview } from './page';
import { capital } from './sheet';
import { dayLabel, lengthOf } from './ticks';

export interface DayPreviewInput extends DayEntry {
  /** Line in the plan's file, from 1, of a place in the plan. */
  readonly lineOf: (place: Place) => number;
  /** Worst first. */
  readonly findings: readonly { readonly severity: Severity; readonly message: string; readonly line: number }[];
  /** A better day is still being looked for. */
  readonly isProvisional: boolean;
  /** A sentence when its time has gone by. */
  readonly past?: string;
}

/** The preview of a plan; never throws on an unfinished one. */
export function renderDay(input: DayPreviewInput): Preview {
  const { day, schedule, lineOf } = input;
  const title = day.name === '' ? 'Plan without a name' : day.name;
  const page = html`<header><h1>${toLine(lineOf(day.place), title)}</h1>${input.past !== undefined && html`<p class="quiet">${said(input.past)}</p>`}${summary(input)}</header>
${findingsList(input.findings) ?? hidden('findings')}${body(input, schedule)}`;
  return { title, html: page.markup };
}

function summary({ schedule, anchor, isProvisional }: DayPreviewInput): Markup | undefined {
  if (schedule.kind !== 'scheduled') return undefined;
  const { startMs, readyMs, zone, notes } = schedule;
  return html`<p class="in-words">Begun ${at(startMs, zone)}, ready ${at(readyMs, zone)}, ${lengthOf(readyMs - startMs)} in all.</p>
<p class="quiet">${isProvisional ? 'A better day is being looked for.' : gapText(schedule, anchor)} <span class="zone">${zone}</span></p>${notes.map((note) => html`<p class="quiet">${said(note)}</p>`)}`;
}

function body(input: DayPreviewInput, schedule: DaySchedule): Markup {
  switch (schedule.kind) {
    case 'scheduled':
      return html`${picture(input, schedule)}<div class="beside">${byTheClock(input, schedule)}${ovens(schedule)}</div>${shopping(input)}`;
    case 'empty':
      return html`<section id="timeline"><p>Nothing to schedule: no formula that this plan bakes has steps.</p></section>`;
    case 'conflict':
      return conflict(input, schedule);
  }
}

function conflict(input: DayPreviewInput, { message, facts, waysOut }: Extract<DaySchedule, { readonly kind: 'conflict' }>): Markup {
  const item = (fact: (typeof facts)[number]): Markup => (
    html`<li>${toLine(lineOf(input, fact), said(`${fact.text}${fact.formula === undefined ? '' : `, ${fact.formula}`}`))}</li>`
  );
  return html`<section id="timeline" aria-label="Timeline"><p class="conflict">${said(message)}</p>
${facts.length > 0 && html`<p class="quiet">These cannot all hold:</p><ul class="facts">${facts.map(item)}</ul>`}
${waysOut.length > 0 && html`<p class="quiet">Any one of these would do:</p><ul class="facts">${waysOut.map(item)}</ul>`}</section>`;
}

/** A line of this file; nothing for one of another. */
function lineOf({ whereOf }: DayEntry, fact: Parameters<DayEntry['whereOf']>[0]): number | undefined {
  const where = whereOf(fact);
  return where?.file === undefined ? where?.line : undefined;
}

// --- the picture ------------------------------------------------------------------------------------------------------

function picture(input: DayPreviewInput, schedule: ScheduledDay): Markup {
  const { startMs, readyMs, zone, batches, ovenLoads, heatings } = schedule;
  const endMs = Math.max(readyMs, startMs + 60_000);
  const ovenNames = [...new Set([...heatings, ...ovenLoads].map(({ oven }) => oven))];
  const lanes = [
    ...schedule.builds.map((build) => buildLane(schedule, build)),
    ...batches.map((batch) => batchLane(input, schedule, batch)),
    ...ovenNames.map((oven) => ovenLane(schedule, oven)),
  ];
  return html`<section id="timeline" class="timeline" aria-labelledby="timeline-name"><h2 id="timeline-name">Timeline</h2>
${lanesPicture({
    lanes, startMs, endMs, zone, off: windowsOf(input.hoursOff, zone, startMs, endMs),
    words: `Timeline. Begun ${at(startMs, zone)}, ready ${at(readyMs, zone)}. Everything that takes a hand is in the list below.`,
  })}</section>`;
}

function batchLane(input: DayPreviewInput, { zone }: ScheduledDay, batch: ScheduledBatch): Lane {
  const isInside = (step: DayStep): boolean => batch.steps.some((other) => other !== step && other.load === step.load && step.id.startsWith(`${other.id}/`));
  const bars = batch.steps.filter((step) => !isInside(step)).map((step) => stepBar(input, batch, step, zone));
  return { name: batch.label, rows: rowsOf(bars), dots: [] };
}

function stepBar(input: DayPreviewInput, batch: ScheduledBatch, step: DayStep, zone: string): Bar {
  const { label, startMs, endMs, handsOn, place, pieces, taken } = step;
  const moments = momentsOf(batch, step);
  const title = [
    label, lengthOf(endMs - startMs), ...(handsOn ? ['hands at work'] : []), `${formatInstant(startMs, zone).weekday} ${clockRange(startMs, endMs, zone)}`,
    ...(pieces === null ? [] : [counted(pieces, batch.noun)]), ...(taken === undefined ? [] : [taken.name]),
  ].join(', ');
  return {
    label, title, startMs, endMs, isWork: handsOn, rank: step.kind === 'bake' || step.kind === 'mix' ? 0 : 1,
    line: lineOf(input, { place, formula: batch.formula }), handMs: moments.map(({ epochMs }) => epochMs), slack: undefined,
  };
}

/** A preferment from its mixing until the last dough takes it. */
function buildLane({ zone, batches, builds }: ScheduledDay, { name, startMs, firstMs, lastMs, portions }: ScheduledBuild): Lane {
  const whose = [...new Set(portions.flatMap(({ batch }) => batches[batch]?.formula ?? []))].join(', ');
  const title = `${name} for ${whose}, mixed and ripe ${formatInstant(startMs, zone).weekday} ${clockRange(startMs, firstMs, zone)}`;
  // Of several levains, for which doughs each is.
  const isAlone = builds.filter((build) => build.name === name).length === 1;
  return { name: isAlone ? capital(name) : `${capital(name)} for ${takers({ batches }, portions)}`, rows: [[{ label: 'ripen', title, startMs, endMs: lastMs, isWork: false, rank: 1, line: undefined, handMs: [startMs], slack: undefined }]], dots: [] };
}

/** Hollow while it heats, filled while there is something in it. */
function ovenLane({ heatings, ovenLoads, zone }: ScheduledDay, oven: string): Lane {
  const bar = (label: string, startMs: number, endMs: number, isWork: boolean, words = label): Bar => ({
    label, title: `${oven}: ${words}, ${formatInstant(startMs, zone).weekday} ${clockRange(startMs, endMs, zone)}`, startMs, endMs, isWork, rank: isWork ? 0 : 1,
    line: undefined, handMs: [], slack: undefined,
  });
  const bars = [
    ...heatings.filter((heating) => heating.oven === oven).map(({ startMs, endMs }) => bar('heating', startMs, endMs, false)),
    ...ovenLoads.filter((load) => load.oven === oven).map((load) => bar(load.what.map(({ formula }) => formula).join(', '), load.startMs, load.endMs, true, loadWords(load))),
  ];
  return { name: oven, rows: rowsOf(bars), dots: [] };
}

function rowsOf(bars: readonly Bar[]): readonly (readonly Bar[])[] {
  const rows: Bar[][] = [];
  for (const bar of [...bars].sort((a, b) => a.startMs - b.startMs || b.endMs - a.endMs)) {
    const free = rows.find((row) => row.every(({ endMs }) => endMs <= bar.startMs));
    if (free === undefined) rows.push([bar]);
    else free.push(bar);
  }
  return rows;
}

// --- the lists --------------------------------------------------------------------------------------------------------

function byTheClock(input: DayPreviewInput, schedule: ScheduledDay): Markup {
  const days = new Map<string, Markup[]>();
  for (const task of tasksOf(input, schedule)) {
    const { date, weekday } = formatInstant(task.startMs, schedule.zone);
    const day = dayLabel(date, weekday);
    days.set(day, [...(days.get(day) ?? []), taskItem(task, schedule.zone, input.day.hands > 1)]);
  }
  return html`<section id="method" class="method" aria-labelledby="method-name"><h2 id="method-name">By the clock</h2>${[...days].map(([day, items]) => html`<h3>${day}</h3><ol>${items}</ol>`)}</section>`;
}

function taskItem({ startMs, endMs, person, what, whose }: DayTask, zone: string, several: boolean): Markup {
  const { date, time } = formatInstant(startMs, zone);
  const isLong = endMs > startMs;
  return html`<li${isLong && html` class="hands-on"`}><time datetime="${date}T${time}">${time}</time><span class="mark" aria-hidden="true"></span><span class="what"><b>${what}</b>
${isLong && html`<span class="taken">${lengthOf(endMs - startMs)}</span>`} ${whose !== '' && html`<span class="lane-of">${whose}</span>`} ${several && person !== undefined && html`<span class="lane-of">person ${person}</span>`}</span></li>`;
}

function ovens({ ovenLoads, zone }: ScheduledDay): Markup {
  if (ovenLoads.length === 0) return hidden('ovens');
  const items = ovenLoads.map((load) => (
    html`<div><dt>${formatInstant(load.startMs, zone).weekday} ${clockRange(load.startMs, load.endMs, zone)}</dt><dd>${load.oven}: ${loadWords(load)}${load.startCelsius !== null && `, ${ovenCelsius(load.startCelsius)}`}</dd></div>`
  ));
  return html`<section id="ovens" aria-labelledby="ovens-name"><h2 id="ovens-name">In the oven</h2><dl class="said">${items}</dl></section>`;
}

function loadWords({ what }: OvenLoad): string {
  return what.map(({ formula, pieces, noun }) => (pieces === null ? formula : `${counted(pieces, noun)} of ${formula}`)).join(' and ');
}

function shopping({ work }: DayPreviewInput): Markup {
  const { rows, starterGrams } = shoppingOf(work);
  if (rows.length === 0) return hidden('shopping');
  return html`<section id="shopping" aria-labelledby="shopping-name"><h2 id="shopping-name">To have in the house</h2>
<div class="scroller" tabindex="0" role="group" aria-labelledby="shopping-name"><table><thead><tr><th scope="col">ingredient</th><th scope="col">weight</th></tr></thead>
<tbody>${rows.map(({ name, grams }) => html`<tr><th scope="row">${name}</th><td>${weight(grams)}</td></tr>`)}${starterGrams !== 0 && html`<tr><th scope="row">ripe starter</th><td>${weight(starterGrams)}</td></tr>`}</tbody></table></div></section>`;
}

/** `Sat 14 Mar 08:00` */
function at(epochMs: number, zone: string): string {
  const { date, weekday, time } = formatInstant(epochMs, zone);
  return `${dayLabel(date, weekday)} ${time}`;
}
