/**
 * The sheet as it is printed, before it is laid out: a row per ingredient, a column for the total formula, for each part
 * that goes into the dough and for the final dough; weights rounded so that each column adds up to its printed total.
 */
import { roundWeights, toStep } from '../core/formula/rounding';
import type { ResolvedPart } from '../core/formula/model';
import { stepFor } from '../core/scaling/scene';
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
  /** Names and keys of the rows; every column has a cell for each. */
  readonly rows: readonly { readonly name: string; readonly key: string; readonly isPart: boolean }[];
  readonly columns: readonly ViewColumn[];
}

interface Row extends Summed {
  readonly isPart: boolean;
}

/**
 * Grams of a column, rounded to what its scale shows and to one sum. Unknown weights stay unknown, and so does the sum then.
 * `steps`: what the scale reads to for each; where it is undefined, as `roundWeights` has it. `isPart`: which of them are
 * weights of parts, that have a column of their own.
 */
export function roundColumn(
  grams: readonly (number | null)[], steps: readonly (number | undefined)[] = [], isPart: readonly boolean[] = [],
): { readonly values: readonly (number | null)[]; readonly total: number | null } {
  const values: (number | null)[] = grams.map(() => null);
  let total = 0;
  // Each scale's weights come to their own sum.
  for (const step of new Set(grams.map((_, at) => steps[at]))) {
    const at = grams.map((_, i) => i).filter((i) => steps[i] === step && grams[i] !== null);
    const rounded = roundWeights(at.map((i) => grams[i] ?? 0), step, at.map((i) => isPart[i] === true));
    at.forEach((i, n) => {
      const [shown, value] = [rounded.values[n] ?? 0, grams[i] ?? 0];
      // Less than the scale shows is not nothing: 0.03 g of yeast raises a poolish.
      values[i] = shown === 0 && value !== 0 ? value : shown;
    });
    total += rounded.total;
  }
  return { values, total: grams.includes(null) ? null : toStep(total, 0.001) };
}

/** The columns of a formula with a dough; a dish, or a formula not finished, has none. */
export function sheetView(entry: FormulaEntry): SheetView {
  const { formula, sheet, totals, step = {} } = entry;
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
  const steps = [...rows.values()].map(({ role, part }) => stepFor({ role, part }, step));
  const isPart = [...rows.values()].map((row) => row.isPart);
  const layOut = (kind: ViewColumn['kind'], title: string, lines: ReadonlyMap<string, Cell>, base: number | null, after: ReadonlyMap<AfterRow, number>, cooked: number): ViewColumn => (
    column({ kind, title, keys, steps, isPart, lines, baseGrams: base, taken: after, cookedOffGrams: cooked })
  );
  const total = new Map(sheet.rows.map((row) => [row.key, { grams: row.grams, pct: row.pct }]));
  const columns = [
    layOut('total', 'Total formula', total, totals.flour_g, new Map(), sheet.cookedOffGrams),
    ...inDough.flatMap(({ index, part, lines }) => {
      const isDough = index === formula.dough;
      const base = isDough ? finalFlourGrams(part) : part.baseGrams;
      const cells = new Map(lines.map((line) => [line.key, { grams: line.grams, pct: pctOf(line.grams, base) }]));
      return [layOut(isDough ? 'final' : 'part', isDough ? finalTitle(part) : part.name, cells, base, afterRows(part), cookedOff(part))];
    }),
  ];
  // The final dough stands last, wherever its block is written.
  columns.sort((a, b) => Number(a.kind === 'final') - Number(b.kind === 'final'));
  return { rows: [...rows.values()].map(({ name, key, isPart }) => ({ name, key, isPart })), columns };
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

interface ColumnFacts {
  readonly kind: ViewColumn['kind'];
  readonly title: string;
  readonly keys: readonly string[];
  /** What the scale reads to, by key. */
  readonly steps: readonly (number | undefined)[];
  readonly isPart: readonly boolean[];
  readonly lines: ReadonlyMap<string, Cell>;
  readonly baseGrams: number | null;
  readonly taken: ReadonlyMap<AfterRow, number>;
  readonly cookedOffGrams: number;
}

function column({ kind, title, keys, steps, isPart, lines, baseGrams, taken, cookedOffGrams }: ColumnFacts): ViewColumn {
  const present = keys.flatMap((key, at) => {
    const cell = lines.get(key);
    return cell === undefined ? [] : [{ at, cell }];
  });
  const rounded = roundColumn(present.map(({ cell }) => cell.grams), present.map(({ at }) => steps[at]), present.map(({ at }) => isPart[at] === true));
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
