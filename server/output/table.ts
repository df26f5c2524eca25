/** Plain tables: columns that line up, numbers by their decimal point, nothing drawn around them. */
import { UNKNOWN } from './numbers';
import { padEnd, padStart, widthOf } from './width';

export type Align = 'left' | 'right' | 'decimal';

export interface Column {
  readonly align: Align;
  /** Spaces before the column. */
  readonly gap: number;
  /** At least this wide. */
  readonly width?: number;
}

/** One row: a text a column. A row shorter than the table is empty in the rest. */
export type Cells = readonly string[];

const NUMBER = /^([-<]?\d+)(\.\d+)?$/;

/** What stands before the decimal point and what from it on; undefined for words. A dash stands over the units. */
function splitNumber(cell: string): readonly [string, string] | undefined {
  const match = NUMBER.exec(cell);
  if (match !== null) return [match[1] ?? '', match[2] ?? ''];
  return cell === UNKNOWN ? [cell, ''] : undefined;
}

/**
 * Lays rows out, one line each, without spaces at the end. A decimal column lines its numbers up at the point; other
 * words in it (its heading) end where its numbers end.
 */
export function table(columns: readonly Column[], rows: readonly Cells[]): string[] {
  const laid = columns.map((column, index) => layColumn(column, rows.map((row) => row[index] ?? '')));
  return rows.map((_row, at) =>
    columns.map((column, index) => ' '.repeat(column.gap) + (laid[index]?.[at] ?? '')).join('').trimEnd(),
  );
}

function layColumn(column: Column, cells: readonly string[]): string[] {
  const align = column.align;
  if (align !== 'decimal') {
    const width = Math.max(column.width ?? 0, ...cells.map(widthOf));
    return cells.map((cell) => (align === 'left' ? padEnd(cell, width) : padStart(cell, width)));
  }
  const numbers = cells.map(splitNumber);
  const after = Math.max(0, ...numbers.map((number) => number?.[1].length ?? 0));
  const before = Math.max(0, ...numbers.map((number) => number?.[0].length ?? 0));
  const words = cells.filter((_cell, at) => numbers[at] === undefined);
  const width = Math.max(column.width ?? 0, before + after, ...words.map(widthOf));
  return cells.map((cell, at) => {
    const number = numbers[at];
    return number === undefined ? padStart(cell, width) : padStart(number[0], width - after) + number[1].padEnd(after);
  });
}
