/** The timeline for a terminal or the bakery's wall: a heading a day, a line a step, what needs hands marked by a sign. */
import type { Place } from '../core/formula/model';
import { formatInstant } from '../core/timeline/clock';
import type { Timeline, TimelineStep } from '../core/timeline/model';
import { holderOf } from '../core/variant/places';
import { titleOf } from './entry';
import { plain, type Paint } from './paint';
import type { ScheduledEntry } from './schedule-json';
import {
  ASSUMED, clockRange, dayName, handMoments, handPhrase, lengthText, nightsOf, partName, slackText, stepWords, type Entry, type Placed,
} from './schedule-words';
import { table, type Cells, type Column } from './table';
import { printable, widthOf, wrap } from './width';

export interface ScheduleTextOptions {
  readonly width: number;
  readonly paint: Paint;
}

const HANDS_ON = '•';
const A_HAND = '◦';

/** One timeline, with a line end after every line. */
export function scheduleText(scheduled: ScheduledEntry, options: ScheduleTextOptions = { width: 100, paint: plain }): string {
  const { entry, timeline } = scheduled;
  const title = options.paint.strong(printable(titleOf(entry.formula)));
  const lines = ((): readonly string[] => {
    switch (timeline.kind) {
      case 'placed':
        return [title, ...headLines(timeline, options), ...placed(scheduled, timeline, options)];
      case 'empty':
        return [title, 'No steps to place: write a "steps" block.'];
      case 'conflict':
        return [title, ...conflictLines(entry, timeline, options)];
    }
  })();
  return lines.map((line) => `${line}\n`).join('');
}

/** What keeps the steps from being placed, line by line, and what would help. */
export function conflictLines(entry: Entry, timeline: Extract<Timeline, { readonly kind: 'conflict' }>, { width }: ScheduleTextOptions): readonly string[] {
  const facts = timeline.facts.map(({ text, place }): Cells => [place === undefined ? 'asked' : whereIn(entry, place), printable(text)]);
  const waysOut = timeline.waysOut.flatMap(({ text, place }) => {
    const where = place === undefined ? '' : ` (${whereIn(entry, place)})`;
    return wrap(printable(`${text}${where}`), width - 4).map((line, index) => `  ${index === 0 ? '-' : ' '} ${line}`);
  });
  return [
    ...wrap(printable(timeline.message), width),
    ...table([{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }], facts),
    ...(waysOut.length > 0 ? ['Ways out:', ...waysOut] : []),
  ];
}

/** Its line in the file; of what a base gives to a variant, whose it is, for that is where it can be changed. */
function whereIn({ section, lineOf }: Entry, place: Place): string {
  const holder = holderOf(section, place);
  return holder === section ? `line ${String(lineOf(place))}` : `in "${holder.name}"`;
}

/** When it begins and ends, and what to know before the first step. */
export function headLines(timeline: Placed, { width, paint }: ScheduleTextOptions): readonly string[] {
  const { zone, startMs, readyMs, steps } = timeline;
  // What is said of one step stands under that step.
  const notes = timeline.notes.filter((note) => !steps.some(({ adapted }) => adapted?.why === note));
  const [start, ready] = [formatInstant(startMs, zone), formatInstant(readyMs, zone)];
  const lines = [
    `start  ${dayName(startMs, zone)}, ${start.time}`,
    `ready  ${dayName(readyMs, zone)}, ${ready.time}   ${paint.quiet(`(${zone})`)}`,
  ];
  for (const note of notes) lines.push(...wrap(printable(note), width));
  if (start.offset !== ready.offset) {
    const note = `The clocks change on the way, from UTC${start.offset} to UTC${ready.offset}. Lengths are true; times are those on the wall.`;
    lines.push(...wrap(note, width));
  }
  return lines;
}

/** One line of the table, or one across it. */
interface Row {
  /** The moment whose day it stands under; undefined for what goes on from the line above. */
  readonly ms: number | undefined;
  readonly cells: Cells;
  /** Stands across the table. */
  readonly across?: string;
}

function placed({ entry, hoursOff }: ScheduledEntry, timeline: Placed, { width, paint }: ScheduleTextOptions): readonly string[] {
  const { zone } = timeline;
  const steps = timeline.steps.map((step) => ({ step, cells: cellsOf(entry, timeline, step) }));
  const widest = (cell: (cells: StepCells) => string): number => Math.max(0, ...steps.map(({ cells }) => widthOf(cell(cells))));
  const columns: readonly Column[] = [
    { align: 'left', gap: 0 }, // hands
    { align: 'left', gap: 1 }, // clock times
    { align: 'left', gap: 3 }, // length
    { align: 'left', gap: 3, width: 4 }, // part
    { align: 'left', gap: 3 },
  ];
  const fixed = columns.reduce((sum, { gap }) => sum + gap, 1) + widest(({ times }) => times) + widest(({ length }) => length) + Math.max(4, widest(({ part }) => part));
  const room = Math.max(20, width - fixed);

  const rows: Row[] = [];
  let nights = nightsOf(timeline, hoursOff ?? []);
  const nightsUntil = (ms: number): void => {
    for (const { startMs, text } of nights.filter((night) => night.startMs <= ms)) rows.push({ ms: startMs, cells: [], across: paint.quiet(`  ── ${text} ──`) });
    nights = nights.filter((night) => night.startMs > ms);
  };
  for (const { step, cells: { sign, times, length, part, what, more } } of steps) {
    nightsUntil(step.startMs);
    const lines = [what, ...more].flatMap((line) => wrap(line, room));
    rows.push({ ms: step.startMs, cells: [sign, times, length, part, lines[0] ?? ''] });
    for (const line of lines.slice(1)) rows.push({ ms: undefined, cells: [' ', '', '', '', line] });
  }
  nightsUntil(timeline.readyMs);

  const printed: string[] = [];
  let day = '';
  table(columns, rows.map(({ cells }) => cells)).forEach((line, index) => {
    const row = rows[index];
    // What a night begins before the first step stands under the day of that step.
    const next = row?.ms === undefined ? day : dayName(Math.max(row.ms, timeline.startMs), zone);
    if (next !== day) {
      printed.push('', paint.strong(next));
      day = next;
    }
    printed.push(row?.across ?? line);
  });
  const signs = legend(timeline);
  if (signs.length === 0) return printed;
  const inOne = signs.join('   ');
  return [...printed, '', ...(widthOf(inOne) <= width ? [inOne] : signs).map((line) => paint.quiet(line))];
}

function legend(timeline: Placed): readonly string[] {
  const { steps } = timeline;
  return [
    ...(steps.some((step) => step.handsOn) ? [`${HANDS_ON} needs hands`] : []),
    ...(steps.some((step) => handMoments(timeline, step).length > 0) ? [`${A_HAND} needs a hand as it begins or ends`] : []),
    ...(steps.some((step) => step.assumed) ? [`${ASSUMED} length not written, a usual one taken`] : []),
  ];
}

interface StepCells {
  readonly sign: string;
  readonly times: string;
  readonly length: string;
  readonly part: string;
  readonly what: string;
  /** Lines under it. */
  readonly more: readonly string[];
}

function cellsOf(entry: Entry, timeline: Placed, step: TimelineStep): StepCells {
  const slack = slackText(timeline, step);
  return {
    sign: step.handsOn ? HANDS_ON : handMoments(timeline, step).length > 0 ? A_HAND : ' ',
    times: clockRange(step.startMs, step.endMs, timeline.zone),
    length: lengthText(step),
    part: partName(entry, step),
    what: [stepWords(entry, step), handPhrase(timeline, step)].filter((words) => words !== '').join(', '),
    more: [...(step.adapted === undefined ? [] : [printable(step.adapted.why)]), ...(slack === undefined ? [] : [slack])],
  };
}
