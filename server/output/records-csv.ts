/** Records of bakes for a spreadsheet, as RFC 4180 has it: a row for each record, what was measured with what was planned beside it. */
import { recordsOf, type ComparedRecord, type Comparison } from '../core/records';
import { titleOf, type FormulaEntry } from './entry';
import { csvRecord } from './export/csv';
import { decimals } from './numbers';
import { recordsView } from './records';

/** Without it the commonest spreadsheet takes the bytes for those of an old code page. */
const BYTE_ORDER_MARK = '\uFEFF';

/** A figure that some record has: how long the bulk took, in minutes. */
interface Figure {
  readonly key: string;
  readonly unit: Comparison['unit'];
  /** The columns beside it: none where no formula plans it, two where some plan has a least and a most. */
  readonly plans: 'none' | 'exact' | 'range';
}

const PROPERTIES: readonly Comparison['what'][] = ['room', 'fridge', 'dough'];
const LAST: readonly Comparison['what'][] = ['core', 'loss', 'ph'];
/** What stands behind the name of a step. */
const OF_STEP: Readonly<Partial<Record<Comparison['what'], string>>> = { length: '', temperature: ' at', volume: ' volume' };

/**
 * All records of the formulas under one head. Columns are those that some record has a figure for: room, fridge and dough first, then the steps
 * in the order in which records name them, then core, weight, loss and pH, and the note. Numbers have a point and no unit, which
 * stands in the heading; what was not noted, or is not planned, is empty.
 */
export function recordsCsv(entries: readonly FormulaEntry[]): string {
  const bakes = entries.flatMap((entry) => {
    const weights = new Map(recordsOf(entry.asWritten ?? entry.formula).map(({ block, weighed }) => [block, weighed?.value.grams]));
    return recordsView(entry).compared.map((compared) => ({ title: titleOf(entry.formula), compared, grams: weights.get(compared.record.block) }));
  });
  const known = bakes.map(({ compared }) => keyed(compared));
  const { before, after } = figuresOf(known);
  const head = ['date', 'formula', ...before.flatMap(headings), 'weighed g', ...after.flatMap(headings), 'note'];
  const rows = bakes.map(({ title, compared: { record }, grams }, index) => {
    const cells = (figure: Figure): readonly string[] => cellsOf(figure, known[index]?.get(figure.key));
    return [record.date, title, ...before.flatMap(cells), grams === undefined ? '' : decimals(grams, 1), ...after.flatMap(cells), record.note];
  });
  return BYTE_ORDER_MARK + [head, ...rows].map(csvRecord).join('');
}

/** By what they are of; the second step of a kind is another. */
function keyed({ comparisons }: ComparedRecord): ReadonlyMap<string, Comparison> {
  const found = new Map<string, Comparison>();
  for (const comparison of comparisons) {
    const { what, step } = comparison;
    const keyOf = (order: number): string => `${step ?? what}${order > 1 ? ` ${String(order)}` : ''}${step === undefined ? '' : OF_STEP[what] ?? ` ${what}`}`;
    let order = 1;
    while (found.has(keyOf(order))) order++;
    found.set(keyOf(order), comparison);
  }
  return found;
}

/** The figures of all records, those of the loaves apart: what a head has before and after the weight. */
function figuresOf(records: readonly ReadonlyMap<string, Comparison>[]): { readonly before: readonly Figure[]; readonly after: readonly Figure[] } {
  const all = new Map<string, Comparison[]>();
  for (const record of records) for (const [key, comparison] of record) all.set(key, [...all.get(key) ?? [], comparison]);
  const figures = [...all].flatMap(([key, comparisons]) => {
    const [first] = comparisons;
    return first === undefined ? [] : [{ what: first.what, figure: { key, unit: first.unit, plans: plansOf(comparisons) } }];
  });
  const of = (whats: readonly Comparison['what'][]): readonly Figure[] => whats.flatMap((one) => figures.filter(({ what }) => what === one).map(({ figure }) => figure));
  const steps = figures.filter(({ what }) => !PROPERTIES.includes(what) && !LAST.includes(what)).map(({ figure }) => figure);
  return { before: [...of(PROPERTIES), ...steps], after: of(LAST) };
}

function plansOf(comparisons: readonly Comparison[]): Figure['plans'] {
  const plans = comparisons.flatMap(({ planned }) => (planned === null ? [] : [planned]));
  return plans.length === 0 ? 'none' : plans.some(({ low, high }) => low !== high) ? 'range' : 'exact';
}

function headings({ key, unit, plans }: Figure): readonly string[] {
  const behind = unit === '' ? '' : ` ${unit}`;
  const planned = plans === 'none' ? [] : plans === 'exact' ? ['planned'] : ['planned least', 'planned most'];
  return [`${key === 'ph' ? 'pH' : key}${behind}`, ...planned.map((word) => `${key} ${word}${behind}`)];
}

function cellsOf({ plans }: Figure, comparison: Comparison | undefined): readonly string[] {
  const number = (value: number | undefined): string => (value === undefined ? '' : decimals(value, 2));
  const { low, high } = comparison?.planned ?? {};
  return [number(comparison?.was), ...(plans === 'none' ? [] : plans === 'exact' ? [number(low)] : [number(low), number(high)])];
}
