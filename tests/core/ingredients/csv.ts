/** ingredients.csv, read by another parser than the generator's: a state at a time, by RFC 4180. */
import { readFileSync } from 'node:fs';
import path from 'node:path';

export type CsvRecord = Readonly<Record<string, string>>;

export function parseCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = '';
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const char = text[at];
    if (quoted) {
      if (char !== '"') field += char;
      else if (text[at + 1] === '"') {
        field += '"';
        at += 1;
      } else quoted = false;
    } else if (char === '"') quoted = true;
    else if (char === ',') {
      row.push(field);
      field = '';
    } else if (char === '\n') {
      rows.push([...row, field]);
      row = [];
      field = '';
    } else if (char !== '\r') field += char;
  }
  if (field !== '' || row.length > 0) rows.push([...row, field]);
  return rows;
}

const [header = [], ...body] = parseCsv(
  readFileSync(path.join(import.meta.dirname, '../../../server/core/ingredients/ingredients.csv'), 'utf8'),
);

export const CSV_HEADER: readonly string[] = header;
export const CSV_ROWS: readonly (readonly string[])[] = body;
export const CSV_RECORDS: readonly CsvRecord[] = body.map((row) => Object.fromEntries(header.map((name, column) => [name, row[column]!])));

/** A cell as a number; null when the source has no value. */
export const cell = (record: CsvRecord, column: string): number | null => (record[column] === '' ? null : Number(record[column]));
