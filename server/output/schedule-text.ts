/** The timeline for a terminal or the bakery's wall: a heading a day, a line a step, what needs hands marked by a sign. */
import type { StepDetail, StepKind } from '../../grammar';
import { formatInstant } from '../core/timeline/clock';
import type { Timeline, TimelineStep } from '../core/timeline/model';
import { textAt, titleOf } from './entry';
import { celsius, minutesRange, ovenCelsius } from './numbers';
import { plain, type Paint } from './paint';
import type { ScheduledEntry } from './schedule-json';
import { table, type Cells, type Column } from './table';
import { printable, widthOf, wrap } from './width';

export interface ScheduleTextOptions {
  readonly width: number;
  readonly paint: Paint;
}

const MONTHS = [
  'January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December',
] as const;
const HANDS_ON = '•';
const ASSUMED = '~';

type Placed = Extract<Timeline, { readonly kind: 'placed' }>;
type Entry = ScheduledEntry['entry'];

/** One timeline, with a line end after every line. */
export function scheduleText({ entry, timeline }: ScheduledEntry, options: ScheduleTextOptions = { width: 100, paint: plain }): string {
  const title = options.paint.strong(printable(titleOf(entry.formula)));
  const lines = ((): readonly string[] => {
    switch (timeline.kind) {
      case 'placed':
        return [title, ...placed(entry, timeline, options)];
      case 'empty':
        return [title, 'No steps to place: write a "steps" block.'];
      case 'conflict':
        return [title, ...conflict(entry, timeline, options)];
    }
  })();
  return lines.map((line) => `${line}\n`).join('');
}

function conflict(entry: Entry, timeline: Extract<Timeline, { readonly kind: 'conflict' }>, { width }: ScheduleTextOptions): readonly string[] {
  const facts = timeline.facts.map(({ text, place }): Cells => [place === undefined ? '' : `line ${String(entry.lineOf(place))}`, printable(text)]);
  return [...wrap(printable(timeline.message), width), ...table([{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }], facts)];
}

function placed(entry: Entry, timeline: Placed, { width, paint }: ScheduleTextOptions): readonly string[] {
  const { zone } = timeline;
  const at = (epochMs: number): ReturnType<typeof formatInstant> => formatInstant(epochMs, zone);
  const [start, ready] = [at(timeline.startMs), at(timeline.readyMs)];
  const lines = [
    `start  ${dayName(start)}, ${start.time}`,
    `ready  ${dayName(ready)}, ${ready.time}   ${paint.quiet(`(${zone})`)}`,
  ];
  if (start.offset !== ready.offset) {
    const note = `The clocks change on the way, from UTC${start.offset} to UTC${ready.offset}. Lengths are true; times are those on the wall.`;
    lines.push(...wrap(note, width));
  }

  const rows = timeline.steps.map((step) => ({ step, cells: cellsOf(entry, timeline, step) }));
  const partWidth = Math.max(4, ...rows.map(({ cells }) => widthOf(cells.part)));
  const columns: Column[] = [
    { align: 'left', gap: 0 }, // hands on
    { align: 'left', gap: 1 }, // clock times
    { align: 'left', gap: 3 }, // length
    { align: 'left', gap: 3, width: partWidth },
    { align: 'left', gap: 3 },
  ];
  const fixed = 1 + 1 + Math.max(0, ...rows.map(({ cells }) => widthOf(cells.times))) + 3 + Math.max(0, ...rows.map(({ cells }) => widthOf(cells.length))) + 6 + partWidth;
  const cells: Cells[] = [];
  const days: (string | undefined)[] = [];
  for (const { step, cells: { times, length, part, what } } of rows) {
    const [first = '', ...more] = wrap(what, Math.max(20, width - fixed));
    cells.push([step.handsOn ? HANDS_ON : ' ', times, length, part, first]);
    days.push(dayName(at(step.startMs)));
    for (const line of more) {
      cells.push([' ', '', '', '', line]);
      days.push(undefined);
    }
  }
  let day = '';
  table(columns, cells).forEach((line, index) => {
    const next = days[index];
    if (next !== undefined && next !== day) {
      lines.push('', paint.strong(next));
      day = next;
    }
    lines.push(line);
  });
  const signs = legend(timeline);
  return signs === '' ? lines : [...lines, '', paint.quiet(signs)];
}

function legend({ steps }: Placed): string {
  const signs = [
    steps.some((step) => step.handsOn) ? `${HANDS_ON} needs hands` : '',
    steps.some((step) => step.assumed) ? `${ASSUMED} length not written, a usual one taken` : '',
  ];
  return signs.filter((sign) => sign !== '').join('   ');
}

interface StepCells {
  readonly times: string;
  readonly length: string;
  readonly part: string;
  readonly what: string;
}

function cellsOf(entry: Entry, { zone }: Placed, step: TimelineStep): StepCells {
  const [start, end] = [formatInstant(step.startMs, zone), formatInstant(step.endMs, zone)];
  const length = step.endMs === step.startMs && step.highMinutes === 0 ? '' : minutesRange(step.lowMinutes, step.highMinutes);
  return {
    times: step.endMs === step.startMs ? start.time : `${start.time} – ${end.time}${start.date === end.date ? '' : ` ${end.weekday}`}`,
    length: `${step.assumed && length !== '' ? ASSUMED : ''}${length}`,
    part: printable(partName(entry, step)),
    what: printable([whatAt(step), ...details(entry, step)].join(', ')),
  };
}

function partName({ formula }: Entry, { part }: TimelineStep): string {
  if (part !== undefined) return formula.parts[part]?.name ?? '';
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined) return '';
  return dough.kind === 'total formula' ? 'dough' : dough.name;
}

/** The temperature is said where the author says it: that a loaf is shaped at room temperature goes without saying. */
function whatAt({ label, kind, step, ambientCelsius }: TimelineStep): string {
  if (ambientCelsius === null || step?.node.temperature === undefined) return label;
  return `${label} at ${isHot(kind) ? ovenCelsius(ambientCelsius) : celsius(ambientCelsius)}`;
}

/** Steps of the oven: their dial may be in either scale. */
function isHot(kind: StepKind): boolean {
  return kind === 'bake' || kind === 'preheat' || kind === 'fry' || kind === 'steam';
}

/** What the author said about a step, in the author's words; what its place in time says already is left out. */
function details({ section }: Entry, { step, place }: TimelineStep): readonly string[] {
  return (step?.node.details ?? []).filter(isWorthSaying).map(({ start, end }) => textAt(section, { block: place.block, start, end }));
}

function isWorthSaying({ kind }: StepDetail): boolean {
  return kind !== 'at' && kind !== 'every' && kind !== 'times' && kind !== 'attended';
}

/** `Fri 13 March 2026` */
function dayName({ date, weekday }: { readonly date: string; readonly weekday: string }): string {
  const [year = '', month = '', day = ''] = date.split('-');
  return `${weekday} ${String(Number(day))} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}
