/** The method for the bench: a line a step with a box to tick, its time, what to do, what goes in, and what to mind. */
import { formatInstant } from '../core/timeline/clock';
import type { TimelineStep } from '../core/timeline/model';
import { titleOf } from './entry';
import { cautionsOf, LOCAL_RULES, shortly } from './facts/cautions';
import { weight } from './numbers';
import { plain } from './paint';
import { amountsByStep } from './schedule-amounts';
import type { ScheduledEntry } from './schedule-json';
import { headLines, scheduleText, type ScheduleTextOptions } from './schedule-text';
import { clockOn, dayName, handMoments, lengthText, partName, stepWords, type Placed } from './schedule-words';
import { table, type Cells, type Column } from './table';
import { printable, widthOf, wrap, wrapList } from './width';

const BOX = '[ ]';
const CAUTION = '!';

interface Task {
  readonly ms: number;
  readonly part: string;
  readonly what: string;
  /** Lines under it; a list is broken between its items. */
  readonly more: readonly (string | readonly string[])[];
}

/** One timeline for the bench; where nothing can be placed, what `scheduleText` says of it. */
export function benchText(scheduled: ScheduledEntry, options: ScheduleTextOptions = { width: 100, paint: plain }): string {
  const { entry, timeline } = scheduled;
  if (timeline.kind !== 'placed') return scheduleText(scheduled, options);
  const { width, paint } = options;
  const cautions = cautionsOf(entry.formula, timeline);
  const said = new Set<(typeof cautions)[number]>();
  const amounts = amountsByStep(entry.formula, timeline.steps);
  const tasks = timeline.steps.flatMap((step): readonly Task[] => {
    // Each caution once, at the first step that it is about.
    const minded = cautions.filter((caution) => !said.has(caution) && caution.places.some((place) => place.block === step.place.block && place.start === step.place.start));
    for (const caution of minded) said.add(caution);
    const goesIn = amounts.get(step.id) ?? [];
    const part = partName(entry, step);
    const task: Task = {
      ms: step.startMs,
      part,
      what: whatToDo(stepWords(entry, step), timeline, step),
      more: [
        ...(goesIn.length > 0 ? [goesIn.map(printable)] : []),
        ...(step.adapted === undefined ? [] : [printable(step.adapted.why)]),
        ...minded.map((caution) => `${CAUTION} ${printable(shortly(caution))}`),
      ],
    };
    const ends = handMoments(timeline, step).filter(({ at, text }) => at === 'end' && text !== undefined);
    return [task, ...ends.map(({ epochMs, text }): Task => ({ ms: epochMs, part, what: `${step.label}: ${text ?? ''}`, more: [] }))];
  });

  const others = cautions.filter((caution) => !said.has(caution)).flatMap((caution) => indented(`${CAUTION} ${printable(shortly(caution, width))}`, width));
  const besides = entry.formula.parts.flatMap(({ lines }) => lines.filter(({ inDough }) => !inDough).map(({ name, grams, purpose }) => (
    printable(`${weight(grams)} ${name}${purpose === undefined ? '' : ` for ${purpose}`}`)
  )));
  return [
    paint.strong(printable(titleOf(entry.formula))),
    ...headLines(timeline, options),
    ...(besides.length > 0 ? wrap(`besides the dough: ${besides.join(', ')}`, width) : []),
    ...taskLines(tasks.sort((a, b) => a.ms - b.ms), timeline, options),
    ...(cautions.length > 0 ? ['', ...others, ...wrap(LOCAL_RULES, width)] : []),
  ].map((line) => `${line}\n`).join('');
}

/** `retard at 4 °C, into the fridge, 10 to 16 h, until 05:15 Sat` */
function whatToDo(words: string, timeline: Placed, step: TimelineStep): string {
  const { date } = formatInstant(step.startMs, timeline.zone);
  const until = step.endMs === step.startMs || step.handsOn ? '' : `until ${clockOn(step.endMs, date, timeline.zone)}`;
  const start = handMoments(timeline, step).find(({ at }) => at === 'start')?.text ?? '';
  return [words, start, lengthText(step), until].filter((part) => part !== '').join(', ');
}

function taskLines(tasks: readonly Task[], { zone }: Placed, { width, paint }: ScheduleTextOptions): readonly string[] {
  const columns: readonly Column[] = [{ align: 'left', gap: 0 }, { align: 'left', gap: 2 }, { align: 'left', gap: 3 }, { align: 'left', gap: 3 }];
  const partWidth = Math.max(0, ...tasks.map(({ part }) => widthOf(part)));
  const room = Math.max(20, width - BOX.length - 2 - 5 - 3 - partWidth - 3);
  const rows: { readonly cells: Cells; readonly ms: number | undefined }[] = [];
  for (const { ms, part, what, more } of tasks) {
    const [first = '', ...rest] = [...wrap(what, room), ...more.flatMap((line) => (typeof line === 'string' ? indented(line, room) : wrapList(line, room)))];
    rows.push({ ms, cells: [BOX, formatInstant(ms, zone).time, part, first] });
    for (const line of rest) rows.push({ ms: undefined, cells: ['', '', '', line] });
  }
  const lines: string[] = [];
  let day = '';
  table(columns, rows.map(({ cells }) => cells)).forEach((line, index) => {
    const ms = rows[index]?.ms;
    const next = ms === undefined ? day : dayName(ms, zone);
    if (next !== day) lines.push('', paint.strong(next));
    day = next;
    lines.push(line);
  });
  return lines;
}

/** What goes on stands under the words, not under the sign. */
function indented(text: string, width: number): readonly string[] {
  return wrap(text, width - 2).map((line, index) => (index === 0 ? line : `  ${line}`));
}
