/**
 * The sheet as it is printed, before it is laid out: a row per ingredient, a column for the total formula, for each part
 * that goes into the dough and for the final dough; weights rounded so that each column adds up to its printed total.
 */
import { roundWeights } from '../core/formula/rounding';
import type { ResolvedPart } from '../core/formula/model';
import { finalFlourGrams, partsInDough, pctOf, summedLines, type FormulaEntry, type Summed } from './entry';

/** `undefined` where a column has nothing of a row; `null` where what it has cannot be known. */
export interface Cell {
  readonly grams: number | null;
  readonly pct: number | null;
}

export interface ViewColumn {
  readonly kind: 'total' | 'part' | 'final';
  readonly title: string;
  readonly cells: readonly (Cell | undefined)[];
  readonly total: Cell;
  /** What stands under the total: `kept back`, `left over`, … and what is then left for the dough. */
  readonly after: ReadonlyMap<AfterRow, number>;
}

export const AFTER_ROWS = ['cooked off', 'kept back', 'left over', 'for the dough'] as const;
export type AfterRow = (typeof AFTER_ROWS)[number];

export interface SheetView {
  /** Names of the rows; every column has a cell for each. */
  readonly rows: readonly { readonly name: string; readonly isPart: boolean }[];
  readonly columns: readonly ViewColumn[];
}

interface Row extends Summed {
  readonly isPart: boolean;
}

/** Grams of a column, rounded to what its scale shows and to one sum. Unknown weights stay unknown, and so does the sum then. */
export function roundColumn(grams: readonly (number | null)[]): { readonly values: readonly (number | null)[]; readonly total: number | null } {
  const known = grams.filter((value) => value !== null);
  const rounded = roundWeights(known);
  let next = 0;
  const values = grams.map((value) => {
    if (value === null) return null;
    const shown = rounded.values[next++] ?? 0;
    // Less than the scale shows is not nothing: 0.03 g of yeast raises a poolish.
    return shown === 0 && value !== 0 ? value : shown;
  });
  return { values, total: known.length === grams.length ? rounded.total : null };
}

/** The columns of a formula with a dough; a dish, or a formula not finished, has none. */
export function sheetView(entry: FormulaEntry): SheetView {
  const { formula, sheet, totals } = entry;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined) return { rows: [], columns: [] };
  const inDough = partsInDough(formula).flatMap((index) => {
    const part = formula.parts[index];
    return part === undefined ? [] : [{ index, part, lines: summedLines(part) }];
  });

  // The rows of the sheet, then whatever a part weighs in that the sheet has no row for, then the parts taken in.
  const rows = new Map<string, Row>();
  for (const { name, key, role, grams } of sheet.rows) rows.set(key, { name, key, role, grams, part: undefined, isPart: false });
  const others = inDough.flatMap(({ lines }) => lines).filter(({ key }) => !rows.has(key));
  for (const line of others) if (line.part === undefined) rows.set(line.key, { ...line, isPart: false });
  for (const { index } of inDough) for (const line of others) if (line.part === index) rows.set(line.key, { ...line, isPart: true });

  const keys = [...rows.keys()];
  const total = new Map(sheet.rows.map((row) => [row.key, { grams: row.grams, pct: row.pct }]));
  const columns = [
    column('total', 'Total formula', keys, total, totals.flour_g, new Map(), sheet.cookedOffGrams),
    ...inDough.flatMap(({ index, part, lines }) => {
      const isDough = index === formula.dough;
      const base = isDough ? finalFlourGrams(part) : part.baseGrams;
      const cells = new Map(lines.map((line) => [line.key, { grams: line.grams, pct: pctOf(line.grams, base) }]));
      return [column(isDough ? 'final' : 'part', isDough ? finalTitle(part) : part.name, keys, cells, base, afterRows(part), cookedOff(part))];
    }),
  ];
  // The final dough stands last, wherever its block is written.
  columns.sort((a, b) => Number(a.kind === 'final') - Number(b.kind === 'final'));
  return { rows: [...rows.values()].map(({ name, isPart }) => ({ name, isPart })), columns };
}

function finalTitle(dough: ResolvedPart): string {
  return dough.kind === 'batter' ? 'Final batter' : 'Final dough';
}

function cookedOff(part: ResolvedPart): number {
  return part.grams === null || part.yieldGrams === null ? 0 : part.grams - part.yieldGrams;
}

/** What of a part does not go on into the dough. */
function afterRows(part: ResolvedPart): ReadonlyMap<AfterRow, number> {
  const rows = new Map<AfterRow, number>();
  if (part.keepGrams > 0) rows.set('kept back', part.keepGrams);
  if (part.leftOverGrams !== null && part.leftOverGrams > 0.05) rows.set('left over', part.leftOverGrams);
  return rows;
}

function column(
  kind: ViewColumn['kind'], title: string, keys: readonly string[], lines: ReadonlyMap<string, Cell>,
  baseGrams: number | null, taken: ReadonlyMap<AfterRow, number>, cookedOffGrams: number,
): ViewColumn {
  const present = keys.flatMap((key, at) => {
    const cell = lines.get(key);
    return cell === undefined ? [] : [{ at, cell }];
  });
  const rounded = roundColumn(present.map(({ cell }) => cell.grams));
  const cells: (Cell | undefined)[] = keys.map(() => undefined);
  present.forEach(({ at, cell }, i) => (cells[at] = { grams: rounded.values[i] ?? null, pct: cell.pct }));
  const unrounded = present.reduce<number | null>((sum, { cell }) => (sum === null || cell.grams === null ? null : sum + cell.grams), 0);

  // What leaves the part is rounded with what stays, so that this small sum holds too.
  const leaving = new Map(taken);
  if (cookedOffGrams > 0.05) leaving.set('cooked off', cookedOffGrams);
  const after = new Map<AfterRow, number>();
  if (leaving.size > 0 && rounded.total !== null) {
    let left = rounded.total;
    for (const name of AFTER_ROWS) {
      const value = leaving.get(name);
      if (value === undefined) continue;
      const shown = roundWeights([value]).total;
      after.set(name, -shown);
      left -= shown;
    }
    after.set('for the dough', roundWeights([left]).total);
  }
  return { kind, title, cells, total: { grams: rounded.total, pct: pctOf(unrounded, baseGrams) }, after };
}
