/** Records of bakes in words: planned, was, and what it means; a table a line a bake; the pace of the kitchen under it. */
import type { ResolvedFormula } from '../core/formula/model';
import { compareRecord, conditionsOf, fitPace, lossPctOf, recordsOf, type BakeRecord, type ComparedRecord, type Comparison, type FittedPace } from '../core/records';
import { formatDuration } from '../core/timeline/clock';
import { bulkMinutesUnder } from '../core/timeline/conditions';
import type { FormulaEntry } from './entry';
import { counted, decimals, minutesRange } from './numbers';
import type { Paint } from './paint';
import { table, type Cells, type Column } from './table';
import { printable, widthOf, wrap } from './width';

/** All that the records of a formula say. */
export interface RecordsView {
  readonly compared: readonly ComparedRecord[];
  readonly pace: FittedPace;
}

/** Records are of the size written, whatever size is looked at. */
export function recordsView({ formula, asWritten }: Pick<FormulaEntry, 'formula' | 'asWritten'>): RecordsView {
  const written = asWritten ?? formula;
  const records = recordsOf(written);
  return { compared: records.map((record) => compareRecord(written, record)), pace: fitPace(written, records) };
}

/** `planned 4 h, was 3 h 10 min (50 min less)` */
export function comparisonWords({ unit, planned, was, difference }: Comparison): string {
  const shown = (value: number): string => figure(value, unit);
  if (planned === null || difference === null) return `was ${shown(was)}`;
  const plan = unit === 'min' ? minutesRange(planned.low, planned.high) : planned.low === planned.high ? shown(planned.low) : `${shown(planned.low)} to ${shown(planned.high)}`;
  // What rounds to nothing is no difference.
  const off = shown(Math.abs(difference));
  const isSame = off === shown(0);
  return `planned ${plan}, was ${shown(was)}${isSame ? '' : ` (${off} ${difference > 0 ? 'more' : 'less'})`}`;
}

function figure(value: number, unit: Comparison['unit']): string {
  switch (unit) {
    case 'min':
      return formatDuration(Math.round(value));
    case '':
      return decimals(value, 1);
    default:
      return `${decimals(value, 1)} ${unit}`;
  }
}

/** The bakes from the latest back, those without a date last. */
export function latestFirst({ compared }: RecordsView): readonly ComparedRecord[] {
  return [...compared].sort((a, b) => (a.record.date < b.record.date ? 1 : a.record.date > b.record.date ? -1 : 0));
}

/** One bake in short: `2026-05-09: bulk planned 4 h, was 3 h 10 min (50 min less)`. */
export function bakeWords({ record, comparisons }: ComparedRecord): string {
  const bulk = comparisons.find(({ what, step }) => what === 'length' && step === 'bulk');
  const loss = comparisons.find(({ what }) => what === 'loss');
  const figures = [bulk && `bulk ${comparisonWords(bulk)}`, loss && `loss ${comparisonWords(loss)}`].filter((text) => text !== undefined);
  return `${record.date === '' ? 'no date' : record.date}: ${figures.length === 0 ? 'no bulk and no weight noted' : figures.join('; ')}`;
}

/** The fitted pace with its spread, or why there is none. */
export function paceWords(pace: FittedPace): string {
  if ('reason' in pace) return pace.reason;
  const range = `${decimals(pace.low, 2)} to ${decimals(pace.high, 2)}`;
  const faster = pace.pace >= 1 ? `${decimals(100 * (1 - 1 / pace.pace), 0)} % less` : `${decimals(100 * (1 / pace.pace - 1), 0)} % more`;
  return [
    `Your own pace is ${decimals(pace.pace, 2)} times the formula's, by ${counted(pace.bakes, 'bake')}: fermentation takes ${faster} time.`,
    `In 19 of 20 cases it lies from ${range}; single bakes lie about ${decimals(pace.residualPct, 0)} % off it.`,
    ...pace.notes,
    'Watch the dough.',
  ].join(' ');
}

interface Page {
  readonly width: number;
  readonly paint: Paint;
}

/** The records under a sheet: lines without their ends. */
export function recordsText(entry: FormulaEntry, { width, paint }: Page): readonly string[] {
  const { compared, pace } = recordsView(entry);
  const title = paint.strong('Records');
  if (compared.length === 0) {
    return [title, ...wrap('None yet. Write what happened on a bake below the method: a line `record 2026-05-09`, and under it room, dough, bulk, core and weight.', width)];
  }
  const formula = entry.asWritten ?? entry.formula;
  const rows = compared.map(({ record }) => rowOf(formula, record));
  const shown = COLUMNS.filter(({ of }) => rows.some((row) => row[of] !== ''));
  const columns = shown.map(({ align }, at): Column => ({ align, gap: at === 0 ? 0 : 2 }));
  const laid = table(columns, [shown.map(({ top }) => top), shown.map(({ head }) => head), ...rows.map((row): Cells => shown.map(({ of }) => row[of]))]);
  const body = Math.max(...laid.map(widthOf)) > width
    ? rows.flatMap((row) => sentence(row, shown, width))
    : [...laid.slice(0, 2).map(paint.quiet), ...laid.slice(2)];
  const notes = compared.flatMap(({ record: { date, note } }) => (note === '' ? [] : wrap(printable(`${date}: ${note}`), width)));
  return [title, ...body, ...notes.map(paint.quiet), '', ...wrap(printable(paceWords(pace)), width)];
}

/** A bake by itself, where the table is too wide: what follows its first line stands in. */
function sentence(row: Row, shown: typeof COLUMNS, width: number): readonly string[] {
  const figures = shown.flatMap(({ of, alone }) => (row[of] === '' || alone === undefined ? [] : [alone(row[of])]));
  const [first = '', ...more] = wrap(`${row.date}: ${figures.length === 0 ? 'nothing noted' : figures.join(', ')}`, width - 2);
  return [first, ...more.map((line) => `  ${line}`)];
}

type Row = Readonly<Record<Cell, string>>;
type Cell = 'date' | 'room' | 'dough' | 'planned' | 'day' | 'bulk' | 'rise' | 'retard' | 'core' | 'plannedLoss' | 'loss' | 'ph';

/** The head takes two lines. `alone`: the cell with its head, where the table is too wide and each bake is a sentence. */
const COLUMNS: readonly { readonly of: Cell; readonly top: string; readonly head: string; readonly align: Column['align']; readonly alone?: (cell: string) => string }[] = [
  { of: 'date', top: '', head: 'date', align: 'left' },
  { of: 'room', top: 'room', head: 'C', align: 'decimal', alone: (cell) => `room ${cell} C` },
  { of: 'dough', top: 'dough', head: 'C', align: 'decimal', alone: (cell) => `dough ${cell} C` },
  { of: 'planned', top: 'bulk', head: 'planned', align: 'right', alone: (cell) => `bulk planned ${cell}` },
  { of: 'day', top: 'for', head: 'that day', align: 'right', alone: (cell) => `for that day ${cell}` },
  { of: 'bulk', top: '', head: 'was', align: 'right', alone: (cell) => `was ${cell}` },
  { of: 'rise', top: 'rise', head: '%', align: 'decimal', alone: (cell) => `rise ${cell} %` },
  { of: 'retard', top: '', head: 'retard', align: 'right', alone: (cell) => `retard ${cell}` },
  { of: 'core', top: 'core', head: 'C', align: 'decimal', alone: (cell) => `core ${cell} C` },
  { of: 'plannedLoss', top: 'loss', head: 'planned %', align: 'decimal', alone: (cell) => `loss planned ${cell} %` },
  { of: 'loss', top: '', head: 'was %', align: 'decimal', alone: (cell) => `was ${cell} %` },
  { of: 'ph', top: '', head: 'pH', align: 'decimal', alone: (cell) => `pH ${cell}` },
];

function rowOf(formula: ResolvedFormula, record: BakeRecord): Row {
  const { comparisons } = compareRecord(formula, record);
  const bulk = record.steps.find(({ kind }) => kind === 'bulk');
  const retard = record.steps.find(({ kind }) => kind === 'retard');
  const planned = comparisons.find(({ what, step }) => what === 'length' && step === 'bulk')?.planned ?? null;
  const day = bulk === undefined ? null : bulkMinutesUnder(formula, conditionsOf(record));
  const loss = lossPctOf(formula, record);
  const one = (value: number | null | undefined): string => (value === null || value === undefined ? '' : decimals(value, 1));
  return {
    date: record.date === '' ? 'no date' : record.date,
    room: one(record.roomCelsius?.value),
    dough: one(record.doughCelsius?.value),
    planned: planned === null ? '' : minutesRange(planned.low, planned.high),
    day: day === null ? '' : minutesRange(fives(day.low), fives(day.high)),
    bulk: bulk?.minutes ? formatDuration(bulk.minutes) : '',
    rise: one(bulk?.volumePct),
    retard: retard?.minutes ? `${formatDuration(retard.minutes)}${retard.celsius === null ? '' : ` at ${decimals(retard.celsius, 1)} C`}` : '',
    core: one(record.coreCelsius?.value),
    plannedLoss: loss === null || !formula.ovenLossSaid ? '' : one(100 * formula.ovenLoss),
    loss: one(loss),
    ph: one(record.ph?.value),
  };
}

function fives(minutes: number): number {
  return 5 * Math.round(minutes / 5);
}
