/** A bake day for the bakery's wall: what each oven holds, what each person does, what to weigh and what to buy. */
import { weighingsOf, shoppingOf, type ShoppingList } from '../core/plan/lists';
import type { ScheduledDay } from '../core/plan/schedule-model';
import { formatInstant } from '../core/timeline/clock';
import { counted, gapText, tasksOf, type DayEntry, type DayTask } from './day-words';
import { decimals, ovenCelsius, weight } from './numbers';
import { plain } from './paint';
import type { ScheduleTextOptions } from './schedule-text';
import { clockRange, dayName, nightsOf } from './schedule-words';
import { table, type Cells, type Column } from './table';
import { printable, widthOf, wrap, wrapList } from './width';

/** One plan, with a line end after every line. */
export function dayText(entry: DayEntry, options: ScheduleTextOptions = { width: 100, paint: plain }): string {
  const { day, schedule } = entry;
  const title = options.paint.strong(printable(day.name === '' ? 'Plan without a name' : day.name));
  const lines = ((): readonly string[] => {
    switch (schedule.kind) {
      case 'scheduled':
        return [title, ...head(entry, schedule, options), ...ovens(schedule, options), ...people(entry, schedule, options), ...weighed(entry, schedule, options), ...shopping(entry, options)];
      case 'empty':
        return [title, 'Nothing to schedule: no formula that this plan bakes has steps.'];
      case 'conflict':
        return [title, ...conflict(entry, schedule, options)];
    }
  })();
  return lines.map((line) => `${line}\n`).join('');
}

function head({ anchor }: DayEntry, schedule: ScheduledDay, { width, paint }: ScheduleTextOptions): readonly string[] {
  const { startMs, readyMs, zone, notes } = schedule;
  return [
    `start  ${dayName(startMs, zone)}, ${formatInstant(startMs, zone).time}`,
    `ready  ${dayName(readyMs, zone)}, ${formatInstant(readyMs, zone).time}   ${paint.quiet(`(${zone})`)}`,
    ...[gapText(schedule, anchor), ...notes].flatMap((note) => wrap(printable(note), width)),
  ];
}

function conflict(entry: DayEntry, { message, facts, waysOut }: Extract<DayEntry['schedule'], { readonly kind: 'conflict' }>, { width }: ScheduleTextOptions): readonly string[] {
  const where = (fact: Parameters<DayEntry['whereOf']>[0]): string => {
    const found = entry.whereOf(fact);
    return found === undefined ? 'asked' : `${found.file === undefined ? '' : `${found.file} `}line ${String(found.line)}`;
  };
  const rows = facts.map((fact): Cells => [printable(where(fact)), printable(`${fact.formula === undefined ? '' : `${fact.formula}: `}${fact.text}`)]);
  const ways = waysOut.flatMap((way) => {
    const line = way.place === undefined ? '' : ` (${where(way)})`;
    return wrap(printable(`${way.text}${line}`), width - 4).map((text, index) => `  ${index === 0 ? '-' : ' '} ${text}`);
  });
  return [
    ...wrap(printable(message), width),
    ...table([{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }], rows),
    ...(ways.length > 0 ? ['Ways out:', ...ways] : []),
  ];
}

// --- lists by the clock -----------------------------------------------------------------------------------------------

interface Row {
  readonly ms: number;
  readonly cells: Cells;
  /** Stands across the table. */
  readonly across?: string;
}

/** Rows with a heading a day. The last column wraps under itself. */
function byDay(rows: readonly Row[], columns: readonly Column[], zone: string, { width, paint }: ScheduleTextOptions): readonly string[] {
  const laid = wrappedRows(rows, columns, width);
  const printed: string[] = [];
  let day = '';
  table(columns, laid.map(({ cells }) => cells)).forEach((line, index) => {
    const row = laid[index];
    const next = row === undefined ? day : dayName(row.ms, zone);
    if (next !== day) printed.push(`  ${paint.strong(next)}`);
    day = next;
    printed.push(row?.across ?? line);
  });
  return printed;
}

/** Rows whose last cell is no wider than there is room; what is left of it stands in rows of its own. */
function wrappedRows<R extends { readonly cells: Cells; readonly across?: string }>(rows: readonly R[], columns: readonly Column[], width: number): readonly R[] {
  const last = columns.length - 1;
  const fixed = columns.reduce((sum, { gap }, at) => sum + gap + (at === last ? 0 : Math.max(0, ...rows.map(({ cells }) => widthOf(cells[at] ?? '')))), 0);
  return rows.flatMap((row) => wrap(row.cells[last] ?? '', Math.max(20, width - fixed)).map((text, line): R => (
    line === 0 ? { ...row, cells: row.across === undefined ? [...row.cells.slice(0, last), text] : [] } : { ...row, cells: [...columns.slice(1).map(() => ''), text] }
  )));
}

function ovens(schedule: ScheduledDay, options: ScheduleTextOptions): readonly string[] {
  const { zone, ovenLoads, heatings } = schedule;
  const names = [...new Set([...heatings, ...ovenLoads].map(({ oven }) => oven))];
  return names.flatMap((name) => {
    const rows = [
      ...heatings.filter(({ oven }) => oven === name).map(({ startMs, endMs, celsius }): Row => ({
        ms: startMs, cells: [clockRange(startMs, endMs, zone), `heats${celsius === null ? '' : ` to ${ovenCelsius(celsius)}`}`],
      })),
      ...ovenLoads.filter(({ oven }) => oven === name).map(({ startMs, endMs, what, startCelsius, endCelsius, filled }): Row => {
        const loaves = what.map(({ pieces, noun, formula }) => (pieces === null ? formula : `${counted(pieces, noun)} of ${formula}`)).join(', ');
        const degrees = [...new Set([startCelsius, endCelsius].flatMap((celsius) => (celsius === null ? [] : [ovenCelsius(celsius)])))].join(', then ');
        return { ms: startMs, cells: [clockRange(startMs, endMs, zone), printable([loaves, degrees, `${decimals(100 * filled, 0)} % full`].filter((text) => text !== '').join(', '))] };
      }),
    ].sort((a, b) => a.ms - b.ms);
    return ['', options.paint.strong(printable(capital(name))), ...byDay(rows, [{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }], zone, options)];
  });
}

/** A list for each person, and one of the moments that take any hand; one list of all where there is one person. */
function people(entry: DayEntry, schedule: ScheduledDay, options: ScheduleTextOptions): readonly string[] {
  const tasks = tasksOf(entry, schedule);
  const persons = [...new Set(tasks.flatMap(({ person }) => person ?? []))].sort((a, b) => a - b);
  const list = (title: string, own: readonly DayTask[]): readonly string[] => {
    if (own.length === 0) return [];
    const rows: readonly Row[] = [
      ...own.map(({ startMs, endMs, what, whose }): Row => ({ ms: startMs, cells: [clockRange(startMs, endMs, schedule.zone), whose, what] })),
      ...nights(entry, schedule).map(({ startMs, text }): Row => ({ ms: Math.max(startMs, schedule.startMs), cells: [], across: options.paint.quiet(`  ── ${text} ──`) })),
    ];
    const columns: readonly Column[] = [{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }, { align: 'left', gap: 3 }];
    return ['', options.paint.strong(title), ...byDay([...rows].sort((a, b) => a.ms - b.ms), columns, schedule.zone, options)];
  };
  if (persons.length < 2) return list('Work', tasks);
  return [
    ...persons.flatMap((person) => list(`Person ${String(person)}`, tasks.filter((task) => task.person === person))),
    ...list('Whoever is near', tasks.filter((task) => task.person === undefined)),
  ];
}

function nights({ hoursOff }: DayEntry, { startMs, readyMs, zone }: ScheduledDay): ReturnType<typeof nightsOf> {
  return nightsOf({ startMs, readyMs, zone }, hoursOff);
}

// --- what to weigh and to buy -----------------------------------------------------------------------------------------

/** What a time of day and the gaps about it take of a line. */
const CLOCK_COLUMNS = 2 + 5 + 3;

function weighed({ work }: DayEntry, schedule: ScheduledDay, options: ScheduleTextOptions): readonly string[] {
  const rows = weighingsOf(schedule, work).flatMap(({ timeMs, what, formulas, batch, items }): readonly Row[] => {
    const whose = batch === undefined ? formulas.join(', ') : (schedule.batches[batch]?.label ?? '');
    const list = items.map(({ name, grams, purpose }) => printable(`${weight(grams)} ${name}${purpose === undefined ? '' : ` for ${purpose}`}`));
    return [
      { ms: timeMs, cells: [formatInstant(timeMs, schedule.zone).time, printable(`${what}, ${whose}`)] },
      ...wrapList(list, options.width - CLOCK_COLUMNS).map((line): Row => ({ ms: timeMs, cells: ['', line] })),
    ];
  });
  if (rows.length === 0) return [];
  return ['', options.paint.strong('To weigh, by the time it is needed'), ...byDay(rows, [{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }], schedule.zone, options)];
}

function shopping({ work }: DayEntry, { width, paint }: ScheduleTextOptions): readonly string[] {
  const list = shoppingOf(work);
  if (list.rows.length === 0) return [];
  const rows = list.rows.map(({ name, grams, eachGrams, formulas }): { readonly cells: Cells } => ({
    cells: [
      weight(grams), printable(`${name}${eachGrams === null || grams === null ? '' : `, ${String(Math.ceil(grams / eachGrams - 1e-9))} of them`}`), printable(formulas.join(', ')),
    ],
  }));
  const columns: readonly Column[] = [{ align: 'right', gap: 2 }, { align: 'left', gap: 3 }, { align: 'left', gap: 3 }];
  return [
    '', paint.strong('To have in the house'),
    ...table(columns, wrappedRows(rows, columns, width).map(({ cells }) => cells)),
    ...besides(list).flatMap((line) => wrap(printable(line), width - 2).map((text) => `  ${text}`)),
  ];
}

function besides({ rows, starterGrams, bread, cost, unpriced }: ShoppingList): readonly string[] {
  return [
    ...(starterGrams === 0 ? [] : [`Ripe starter: ${weight(starterGrams)}.`]),
    ...(bread.length === 0 ? [] : [`Bread of your own: ${bread.map(({ name, grams }) => `${weight(grams)} of ${name}`).join(', ')}.`]),
    ...(cost === null ? [] : [`Cost of all: ${cost.amount.toFixed(2)} ${cost.currency}.`]),
    // Where nobody writes prices, none is missed.
    ...(unpriced.length === 0 || rows.every((row) => row.cost === null) ? [] : [`No price is known of ${unpriced.join(', ')}, so the cost of all is left open.`]),
  ];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
