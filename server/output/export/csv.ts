/**
 * Weights for a spreadsheet, as RFC 4180 has them: a row for each line of each part, then the total formula.
 *
 * UTF-8 with a byte-order mark: without it the commonest spreadsheet takes the bytes for those of an old code page and turns
 * "Inês" into something else; the others pass over it. Numbers have a point and no unit, what is not known is empty.
 */
import { NOT_KNOWN, type Card } from '../card/model';

const HEAD = ['formula', 'part', 'ingredient', 'grams', 'percent', 'home measure', 'remarks'] as const;
const BYTE_ORDER_MARK = '\uFEFF';

/** Every card's rows under one head. Parts in the order made; `total formula` has each ingredient over all of them. */
export function cardsCsv(cards: readonly Card[]): string {
  const rows = cards.flatMap(({ title, parts, besides, total }) => [
    ...parts.flatMap(({ name, lines }) => lines.map((line) => [title, name, line.name, number(line.weight), number(line.pct), line.home ?? '', line.remarks.join(', ')])),
    ...besides.map((line) => [title, 'Besides the dough', line.name, number(line.weight), '', line.home ?? '', line.remarks.join(', ')]),
    ...total.map((line) => [title, 'Total formula', line.name, number(line.weight), number(line.pct), '', '']),
  ]);
  return BYTE_ORDER_MARK + [HEAD, ...rows].map(csvRecord).join('');
}

/** One record with its line end: what holds a comma, a quote or a line end is quoted, quotes are doubled (RFC 4180, 2). */
export function csvRecord(fields: readonly string[]): string {
  return `${fields.map((field) => (/[",\r\n]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field)).map(harmless).join(',')}\r\n`;
}

const IS_NUMBER = /^-?\d+(?:\.\d+)?$/;

/** What a spreadsheet would run as a formula gets an apostrophe in front, which says that it is text. Numbers stay numbers. */
function harmless(field: string): string {
  if (IS_NUMBER.test(field)) return field;
  return field.replace(/^("?)(?=[\s]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r])/, "$1'");
}

/** `1300 g`, `72.5 %`: the number by itself. */
function number(measured: string | undefined): string {
  return measured === undefined || measured === NOT_KNOWN ? '' : measured.replace(/ (?:g|%)$/, '').replace('–', '');
}
