/**
 * The formula sheet for a terminal or a printer: name, yield and totals, then the trade's table of total formula, parts
 * and final dough, then what goes beside the dough. Fits the width that is given; a table that does not is taken apart.
 */
import type { ResolvedPart } from '../core/formula/model';
import { partsInDough, pctOf, textAt, titleOf, type FormulaEntry } from './entry';
import { celsius, decimals, grams, percent, roundedGrams, UNKNOWN, weight } from './numbers';
import { plain, type Paint } from './paint';
import { AFTER_ROWS, roundColumn, sheetView, type SheetView, type ViewColumn } from './sheet-view';
import { table, type Cells, type Column } from './table';
import { printable, widthOf, wrap } from './width';

export interface SheetTextOptions {
  /** Columns to fit into. */
  readonly width: number;
  readonly paint: Paint;
}

const NAME_WIDTH = 26;
const INDENT = '  ';

/** One sheet, with a line end after every line. */
export function sheetText(entry: FormulaEntry, options: SheetTextOptions = { width: 100, paint: plain }): string {
  const { paint, width } = options;
  const lines = [...heading(entry, width, paint)];
  const add = (block: readonly string[]): void => {
    if (block.length > 0) lines.push('', ...block);
  };
  add(totals(entry));
  const { formula } = entry;
  const view = sheetView(entry);
  const main = mainTable(view, width, paint);
  add(main.lines);
  const inDough = new Set(partsInDough(formula));
  formula.parts.forEach((part, index) => {
    if (!inDough.has(index)) add(partTable(entry, part, paint));
    else if (main.takenApart && index !== formula.dough) add(partTable(entry, part, paint));
  });
  add(notes(entry, width, paint));
  add(besides(entry, paint));
  if (view.rows.length > 0) add([paint.quiet(legend(entry))]);
  return lines.map((line) => `${line}\n`).join('');
}

function heading(entry: FormulaEntry, width: number, paint: Paint): string[] {
  const { formula, factor } = entry;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const facts = [
    yieldWords(entry),
    formula.serves === null ? '' : `serves ${decimals(formula.serves, 1)}`,
    formula.styles.map((style) => style.text).join(', '),
    dough === undefined || dough.desiredCelsius === null ? '' : `${dough.kind === 'batter' ? 'batter' : 'dough'} at ${celsius(dough.desiredCelsius)}`,
    factor === undefined ? '' : `${decimals(factor, 3)} times the size written`,
  ].filter((fact) => fact !== '');
  const second = facts.length === 0 ? [] : wrap(printable(facts.join(' · ')), width);
  return [paint.strong(printable(titleOf(formula))), ...second];
}

function yieldWords({ formula }: FormulaEntry): string {
  const { pieces, noun, pieceGrams } = formula.yield;
  if (pieces === null) return '';
  return `${decimals(pieces, 2)} ${noun}${pieceGrams === null ? '' : ` of ${weight(pieceGrams)}`}`;
}

type Fact = readonly [label: string, value: string, unit: string];

/** The totals in words, in three groups side by side: weights, water, and shares of the flour. */
function totals({ formula, totals: t }: FormulaEntry): string[] {
  if (formula.kind === 'dish') return [];
  const gram = (label: string, value: number | null): Fact => [label, grams(value), value === null ? '' : 'g'];
  const share = (label: string, value: number | null): Fact => [label, percent(value), value === null ? '' : '%'];
  const unlessNone = (label: string, value: number | null): readonly Fact[] => (value === 0 ? [] : [share(label, value)]);
  const perPiece = formula.yield.pieces === null ? [] : [gram('one piece', t.piece_g), gram('one piece, baked', t.baked_piece_g)];
  const groups: readonly (readonly Fact[])[] = [
    [gram('flour in all', t.flour_g), gram('dough', t.dough_g), ...perPiece, ...unlessNone('protein of the flour', t.flour_protein_pct)],
    [
      share('hydration', t.hydration_pct), share('water in all', t.water_pct),
      share('moisture in all', t.effective_hydration_pct), share('salt', t.salt_pct),
      ...unlessNone('salt within others', t.hidden_salt_pct === null || t.hidden_salt_pct < 0.05 ? 0 : t.hidden_salt_pct),
    ],
    [
      ...unlessNone('prefermented flour', t.prefermented_flour_pct), ...unlessNone('inoculation', t.inoculation_pct),
      ...unlessNone('inclusions', t.inclusions_pct), ...enrichment('sugar', t.sugar_pct), ...enrichment('fat', t.fat_pct),
      ...unlessNone('egg', t.egg_pct), ...unlessNone('milk solids', t.milk_solids_pct),
    ],
  ];
  const height = Math.max(...groups.map((group) => group.length));
  const rows = Array.from({ length: height }, (_, at) => groups.flatMap((group) => group[at] ?? ['', '', '']));
  const columns = groups.flatMap((_, at): Column[] => [
    { align: 'left', gap: at === 0 ? 0 : 6 }, { align: 'decimal', gap: 2 }, { align: 'left', gap: 1 },
  ]);
  return table(columns, rows);

  // Flour itself has a little sugar and fat: only what is worth a baker's thought is shown.
  function enrichment(label: string, value: number | null): readonly Fact[] {
    return value !== null && value < 3 ? [] : [share(label, value)];
  }
}

/** The table, whole when it fits; otherwise the total formula and the final dough, and the parts are printed on their own. */
function mainTable(view: SheetView, width: number, paint: Paint): { readonly lines: readonly string[]; readonly takenApart: boolean } {
  if (view.rows.length === 0) return { lines: [], takenApart: false };
  const whole = layTable(view, view.columns, paint);
  if (whole.width <= width) return { lines: whole.lines, takenApart: false };
  return { lines: layTable(view, view.columns.filter(({ kind }) => kind !== 'part'), paint).lines, takenApart: true };
}

function layTable(view: SheetView, shown: readonly ViewColumn[], paint: Paint): { readonly lines: readonly string[]; readonly width: number } {
  const body: Cells[] = [];
  view.rows.forEach(({ name }, at) => {
    const cells = shown.map((column) => column.cells[at]);
    if (cells.every((cell) => cell === undefined)) return;
    const [first = '', ...more] = wrap(printable(name), NAME_WIDTH);
    body.push([first, ...cells.flatMap((cell) => (cell === undefined ? ['', ''] : [shownGrams(cell.grams), percent(cell.pct)]))]);
    for (const line of more) body.push([INDENT + line]);
  });
  const totalRow: Cells = ['in all', ...shown.flatMap(({ total }) => [shownGrams(total.grams), percent(total.pct)])];
  const after = AFTER_ROWS.filter((name) => shown.some((column) => column.after.has(name))).map((name): Cells => [
    name, ...shown.flatMap((column) => [afterGrams(column, name), '']),
  ]);
  const titles = shown.map(({ title }) => wrap(printable(title), 14));
  const titleHeight = Math.max(...titles.map(({ length }) => length));
  const units: Cells = ['', ...shown.flatMap(() => ['g', '%'])];
  const columns: Column[] = [
    { align: 'left', gap: 0 },
    ...shown.flatMap((): Column[] => [{ align: 'decimal', gap: 3, width: 5 }, { align: 'decimal', gap: 2, width: 5 }]),
  ];
  const laid = table(columns, [units, ...body, totalRow, ...after]);

  // Titles end where their pair of columns ends; the pairs are measured off the laid-out unit line, which is never short.
  const ends = shown.map((_, at) => nthIndex(laid[0] ?? '', '%', at) + 1);
  const titleLines = Array.from({ length: titleHeight }, (_, row) => {
    let line = '';
    titles.forEach((title, at) => {
      const text = title[row - (titleHeight - title.length)] ?? '';
      line += ' '.repeat(Math.max(0, (ends[at] ?? 0) - widthOf(line) - widthOf(text))) + text;
    });
    return paint.strong(line);
  });
  const [unitLine = '', ...rest] = laid;
  const bodyLines = rest.slice(0, body.length);
  const [totalLine = '', ...afterLines] = rest.slice(body.length);
  const rule = '─'.repeat(Math.max(0, ...laid.map(widthOf)));
  const lines = [...titleLines, paint.quiet(unitLine), ...bodyLines, paint.quiet(rule), paint.strong(totalLine), ...afterLines];
  return { lines, width: Math.max(...laid.map(widthOf)) };
}

function nthIndex(text: string, wanted: string, n: number): number {
  let index = -1;
  for (let i = 0; i <= n; i += 1) index = text.indexOf(wanted, index + 1);
  return index;
}

function shownGrams(value: number | null): string {
  if (value === null) return UNKNOWN;
  return value !== 0 && Math.abs(value) < 0.05 ? grams(value) : roundedGrams(value);
}

function afterGrams(column: ViewColumn, name: (typeof AFTER_ROWS)[number]): string {
  const value = column.after.get(name);
  return value === undefined ? '' : roundedGrams(value);
}

/** A part on its own: its lines in the order written. */
function partTable({ section, formula, factor }: FormulaEntry, part: ResolvedPart, paint: Paint): string[] {
  const lines = part.lines.filter((line) => line.inDough);
  const rounded = roundColumn(lines.map((line) => line.grams));
  const showPct = formula.kind === 'formula';
  const rows = lines.map((line, at): Cells => [
    printable(line.name), shownGrams(rounded.values[at] ?? null), showPct ? percent(line.pct) : '',
    factor === undefined && isHouseholdAmount(line.source) ? printable(textAt(section, line.amountPlace)) : '',
  ]);
  const unknownBase = part.baseGrams;
  const total: Cells = ['in all', rounded.total === null ? UNKNOWN : roundedGrams(rounded.total), showPct ? percent(pctOf(part.grams, unknownBase)) : ''];
  const after: Cells[] = [];
  if (part.yieldGrams !== null && part.grams !== null && part.grams - part.yieldGrams > 0.05) after.push(['once cooked', grams(part.yieldGrams)]);
  if (part.keepGrams > 0) after.push(['kept back', grams(-part.keepGrams)]);
  if (part.leftOverGrams !== null && part.leftOverGrams > 0.05) after.push(['left over', grams(-part.leftOverGrams)]);
  const columns: Column[] = [
    { align: 'left', gap: 2, width: NAME_WIDTH - 2 }, { align: 'decimal', gap: 3, width: 5 },
    { align: 'decimal', gap: 2, width: showPct ? 5 : 0 }, { align: 'left', gap: 3 },
  ];
  const laid = table(columns, [['', 'g', showPct ? '%' : ''], ...rows, ...(lines.length > 1 ? [total] : []), ...after]);
  const title = part.name.toLowerCase() === part.kind ? part.name : `${part.name} (${part.kind})`;
  const [units = '', ...rest] = laid;
  // The title shares the line of the units.
  const name = printable(title);
  const first = widthOf(name) < units.length - units.trimStart().length ? name + units.slice(widthOf(name)) : name;
  return [paint.strong(first), ...rest];
}

/** Weighed by eye or by the piece: worth showing beside the grams. */
function isHouseholdAmount(source: ResolvedPart['lines'][number]['source']): boolean {
  const kind = source?.amount.kind;
  return kind === 'count' || kind === 'volume' || kind === 'pinch';
}

/** What the table has no room for: temperatures, the culture's hydration and the author's notes to a line. */
function notes({ section, formula, factor }: FormulaEntry, width: number, paint: Paint): string[] {
  const rows = formula.parts.flatMap((part): readonly (readonly [string, string])[] => {
    const words = part.lines.flatMap((line) => {
      if (!line.inDough) return [];
      const { source } = line;
      const note = source !== undefined && 'note' in source ? (source.note?.text ?? '') : '';
      const said = [
        factor === undefined && isHouseholdAmount(source) ? ` (${textAt(section, line.amountPlace)})` : '',
        line.celsius === null ? '' : ` at ${celsius(line.celsius)}`,
        line.starterHydrationPct === undefined || line.starterHydrationPct === 100 ? '' : ` at ${percent(line.starterHydrationPct)} % hydration`,
        note === '' ? '' : `, ${note}`,
      ].join('');
      return said === '' ? [] : [`${line.name}${said}`];
    });
    return words.length === 0 ? [] : [[part.name, words.join('; ')]];
  });
  if (rows.length === 0) return [];
  const nameWidth = Math.min(NAME_WIDTH, Math.max(...rows.map(([name]) => widthOf(printable(name)))));
  const lines = rows.flatMap(([name, words]): Cells[] => {
    const [first = '', ...more] = wrap(printable(words), width - nameWidth - 5);
    return [[printable(name), first], ...more.map((line): Cells => ['', line])];
  });
  return [paint.strong('To mind'), ...table([{ align: 'left', gap: 2, width: nameWidth }, { align: 'left', gap: 3 }], lines)];
}

function besides({ section, sheet, factor }: FormulaEntry, paint: Paint): string[] {
  if (sheet.besides.length === 0) return [];
  const rows = sheet.besides.map((line): Cells => {
    const note = line.source !== undefined && 'note' in line.source ? line.source.note?.text : undefined;
    const amount = factor === undefined && isHouseholdAmount(line.source) ? ` (${textAt(section, line.amountPlace)})` : '';
    const purpose = line.purpose === undefined ? '' : `, for ${line.purpose.replace(/^for\s+/, '')}`;
    return [grams(line.grams), line.grams === null ? '' : 'g', printable(`${line.name}${amount}${purpose}${note === undefined ? '' : `, ${note}`}`)];
  });
  return [
    paint.strong('Besides the dough'),
    ...table([{ align: 'decimal', gap: 2 }, { align: 'left', gap: 1 }, { align: 'left', gap: 2 }], rows),
  ];
}

function legend({ totals: t }: FormulaEntry): string {
  const inoculation = t.inoculation_pct === null || t.inoculation_pct === 0 ? '' : ' Inoculation is ripe levain or starter over all flour.';
  return `% of all flour in the total formula, of its own flour in each other column.${inoculation}`;
}
