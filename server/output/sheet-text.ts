/**
 * The formula sheet for a terminal or a printer: name, yield and totals, then the trade's table of total formula, parts
 * and final dough, then what goes beside the dough. Fits the width that is given; a table that does not is taken apart.
 */
import type { ResolvedLine, ResolvedPart } from '../core/formula/model';
import { plural, singular } from '../core/scaling/nouns';
import { stepFor } from '../core/scaling/scene';
import { partsInDough, pctOf, textAt, titleOf, type FormulaEntry } from './entry';
import { celsius, decimals, grams, percent, roundedGrams, UNKNOWN, weight } from './numbers';
import { plain, type Paint } from './paint';
import { recordsText } from './records';
import { sheetFacts, type FactsOptions } from './sheet-facts';
import { AFTER_ROWS, roundColumn, sheetView, type SheetView, type ViewColumn } from './sheet-view';
import { table, type Cells, type Column } from './table';
import { tinWords } from './tin';
import { printable, widthOf, wrap } from './width';

export interface SheetTextOptions {
  /** Columns to fit into. */
  readonly width: number;
  readonly paint: Paint;
  /** What is told under the sheet of temperature, fermentation, food and safety; nothing where it is left out. */
  readonly facts?: FactsOptions;
  /** The records of its bakes, last of all. */
  readonly records?: boolean;
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
  const { formula } = entry;
  if (formula.parts.length === 0) add([formula.lacksBase ? 'The formula that this one is based on is not to be found, so nothing can be weighed.' : 'Nothing is weighed into it yet.']);
  else if (formula.kind === 'formula') add(totals(entry, width));
  const view = sheetView(entry);
  const main = mainTable(view, width, paint);
  add(main.lines);
  const inTable = new Set(main.takenApart ? [formula.dough] : partsInDough(formula));
  formula.parts.forEach((part, index) => {
    if (!inTable.has(index)) add(partTable(entry, part, options));
  });
  add(notes(entry, formula.parts.filter((_, index) => inTable.has(index)), options));
  add(besides(entry, paint));
  if (view.rows.length > 0) add(wrap(legend(entry), width).map(paint.quiet));
  if (options.facts !== undefined) sheetFacts(entry, options.facts, options).forEach(add);
  if (options.records === true) add(recordsText(entry, options));
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

function yieldWords({ formula, factor }: FormulaEntry): string {
  const { pieces, noun, pieceGrams } = formula.yield;
  const tin = tinWords(formula.yield);
  if (pieces === null) return tin === undefined ? '' : `a tin of ${tin}`;
  // At the size written the author's own word stands; at another it may need the other number.
  const word = factor === undefined ? noun : pieces === 1 ? singular(noun) : plural(noun);
  const each = tin ?? (pieceGrams === null ? undefined : weight(pieceGrams));
  return `${decimals(pieces, 2)} ${word}${each === undefined ? '' : ` of ${each}`}`;
}

type Fact = readonly [label: string, value: string, unit: string];

/** The totals in words, in three groups side by side: weights, water, and shares of the flour. */
function totals({ formula, totals: t }: FormulaEntry, width: number): readonly string[] {
  const gram = (label: string, value: number | null): Fact => [label, grams(value), value === null ? '' : 'g'];
  const share = (label: string, value: number | null): Fact => [label, percent(value), value === null ? '' : '%'];
  const unlessNone = (label: string, value: number | null): readonly Fact[] => (value === 0 ? [] : [share(label, value)]);
  const perPiece = formula.yield.pieces === null ? [] : [gram('one piece', t.piece_g)];
  if (perPiece.length > 0 && formula.ovenLossSaid) perPiece.push(gram('one piece, baked', t.baked_piece_g));
  const groups: readonly (readonly Fact[])[] = [
    [gram('flour in all', t.flour_g), gram('dough', t.dough_g), ...perPiece],
    [
      share('hydration', t.hydration_pct), share('water in all', t.water_pct),
      share('effective hydration', t.effective_hydration_pct), share('salt', t.salt_pct),
      ...unlessNone('salt within others', t.hidden_salt_pct === null || t.hidden_salt_pct < 0.05 ? 0 : t.hidden_salt_pct),
    ],
    [
      ...unlessNone('prefermented flour', t.prefermented_flour_pct), ...unlessNone('inoculation', t.inoculation_pct),
      ...unlessNone('inclusions', t.inclusions_pct), ...enrichment('sugar', t.sugar_pct), ...enrichment('fat', t.fat_pct),
      ...unlessNone('egg', t.egg_pct), ...unlessNone('milk solids', t.milk_solids_pct), ...unlessNone('flour protein', t.flour_protein_pct),
    ],
  ];
  return sideBySide(groups, width);

  // Flour itself has a little sugar and fat: only what is worth a baker's thought is shown.
  function enrichment(label: string, value: number | null): readonly Fact[] {
    return value !== null && value < 3 ? [] : [share(label, value)];
  }
}

/** Groups of facts in as few rows of groups as the width allows. */
function sideBySide(groups: readonly (readonly Fact[])[], width: number): readonly string[] {
  let lines: readonly string[] = [];
  for (let inARow = groups.length; inARow > 0; inARow -= 1) {
    lines = Array.from({ length: Math.ceil(groups.length / inARow) }, (_, row) => layFacts(groups.slice(row * inARow, (row + 1) * inARow))).flat();
    if (Math.max(...lines.map(widthOf)) <= width) break;
  }
  return lines;
}

function layFacts(groups: readonly (readonly Fact[])[]): readonly string[] {
  const height = Math.max(...groups.map((group) => group.length));
  const rows = Array.from({ length: height }, (_, at) => groups.flatMap((group) => group[at] ?? ['', '', '']));
  const columns = groups.flatMap((_, at): Column[] => [
    { align: 'left', gap: at === 0 ? 0 : 6 }, { align: 'decimal', gap: 2 }, { align: 'left', gap: 1 },
  ]);
  return table(columns, rows);
}

/** The table, whole when it fits; otherwise the total formula and the final dough, and the parts are printed on their own. */
function mainTable(view: SheetView, width: number, paint: Paint): { readonly lines: readonly string[]; readonly takenApart: boolean } {
  if (view.rows.length === 0) return { lines: [], takenApart: false };
  // A straight dough is its own total formula.
  const columns = view.columns.length === 2 ? view.columns.slice(0, 1) : view.columns;
  const whole = layTable(view, columns, paint);
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

/** A part on its own: its lines in the order written, with what is to be minded. */
function partTable(entry: FormulaEntry, part: ResolvedPart, { paint, width }: SheetTextOptions): string[] {
  const lines = part.lines.filter((line) => line.inDough);
  const rounded = roundColumn(lines.map((line) => line.grams), lines.map((line) => stepFor(line, entry.step ?? {})));
  const showPct = entry.formula.kind === 'formula';
  const pct = (value: number | null): string => (showPct ? percent(value) : '');
  const body = lines.flatMap((line, at): readonly Cells[] => {
    const [name = '', ...moreName] = wrap(printable(line.name), NAME_WIDTH);
    const [said = '', ...moreSaid] = wrap(printable(remarks(entry, line).join(', ')), width - NAME_WIDTH - 24);
    const more = Array.from({ length: Math.max(moreName.length, moreSaid.length) }, (_, i): Cells => [
      moreName[i] === undefined ? '' : INDENT + moreName[i], '', '', moreSaid[i] ?? '',
    ]);
    return [[name, shownGrams(rounded.values[at] ?? null), pct(line.pct), said], ...more];
  });
  const total: Cells = ['in all', rounded.total === null ? UNKNOWN : roundedGrams(rounded.total), pct(pctOf(part.grams, part.baseGrams))];
  const after: Cells[] = [];
  if (part.yieldGrams !== null && part.grams !== null && part.grams - part.yieldGrams > 0.05) after.push(['once cooked', grams(part.yieldGrams)]);
  if (part.keepGrams > 0) after.push(['kept back', grams(-part.keepGrams)]);
  if (part.leftOverGrams !== null && part.leftOverGrams > 0.05) after.push(['left over', grams(-part.leftOverGrams)]);
  const columns: Column[] = [
    { align: 'left', gap: 2, width: NAME_WIDTH - 2 }, { align: 'decimal', gap: 3, width: 5 },
    { align: 'decimal', gap: showPct ? 2 : 0, width: showPct ? 5 : 0 }, { align: 'left', gap: 3 },
  ];
  const [units = '', ...rest] = table(columns, [['', 'g', showPct ? '%' : ''], ...body, ...(lines.length > 1 ? [total] : []), ...after]);
  // The title shares the line of the units where it leaves room for them.
  const title = printable(partTitle(entry, part));
  const free = units.length - units.trimStart().length;
  return [...(widthOf(title) < free ? [paint.strong(title) + ' '.repeat(free - widthOf(title)) + paint.quiet(units.trimStart())] : [paint.strong(title), paint.quiet(units)]), ...rest];
}

function partTitle({ formula }: FormulaEntry, part: ResolvedPart): string {
  // What a dish lists right under its head is a part of the dish's own name.
  if (formula.kind === 'dish' && part.name === formula.name) return 'in the dish';
  return part.name.toLowerCase() === part.kind ? part.name : `${part.name} (${part.kind})`;
}

/** What a line says beyond its weight: the amount by the piece or by eye, its temperature, the culture's hydration, the author's note. */
function remarks({ section, factor }: FormulaEntry, line: ResolvedLine): readonly string[] {
  const { source } = line;
  const said: string[] = [];
  // At another size the amounts as written are those of the old one.
  if (source !== undefined && factor === undefined) {
    const amount = printable(textAt(section, line.amountPlace));
    if (source.kind === 'uses' && source.noun !== undefined) said.push(`${amount} ${source.noun.text}`);
    else if (source.amount.kind === 'count') said.push(`${amount} ${line.name}`);
    else if (source.amount.kind === 'volume' || source.amount.kind === 'pinch') said.push(amount);
  }
  if (line.celsius !== null) said.push(`at ${celsius(line.celsius)}`);
  if (line.starterHydrationPct !== undefined && line.starterHydrationPct !== 100) said.push(`at ${decimals(line.starterHydrationPct, 1)} % hydration`);
  if (source !== undefined && source.kind !== 'flour-share' && source.note !== undefined) said.push(source.note.text);
  return said;
}

/** What the table has no room for, by part. */
function notes(entry: FormulaEntry, parts: readonly ResolvedPart[], { width, paint }: SheetTextOptions): string[] {
  const rows = parts.flatMap((part): readonly (readonly [string, string])[] => {
    const words = part.lines.flatMap((line) => {
      const said = line.inDough ? remarks(entry, line) : [];
      return said.length === 0 ? [] : [line.name + said.map((each) => (each.startsWith('at ') ? ` ${each}` : `, ${each}`)).join('')];
    });
    return words.length === 0 ? [] : [[part.name, words.join('; ')]];
  });
  if (rows.length === 0) return [];
  const nameWidth = Math.min(NAME_WIDTH, Math.max(...rows.map(([name]) => widthOf(printable(name)))));
  const lines = rows.flatMap(([name, words]): Cells[] => {
    const [first = '', ...more] = wrap(printable(words), width - nameWidth - 5);
    return [[printable(name), first], ...more.map((line): Cells => ['', line])];
  });
  return [paint.strong('Notes'), ...table([{ align: 'left', gap: 2, width: nameWidth }, { align: 'left', gap: 3 }], lines)];
}

function besides(entry: FormulaEntry, paint: Paint): string[] {
  const rows = entry.sheet.besides.map((line): Cells => {
    const purpose = line.purpose === undefined ? [] : [`for ${line.purpose.replace(/^for\s+/, '')}`];
    const words = [line.name, ...purpose, ...remarks(entry, line)].join(', ');
    return [grams(line.grams), line.grams === null ? '' : 'g', printable(words)];
  });
  if (rows.length === 0) return [];
  const columns: Column[] = [{ align: 'decimal', gap: 2 }, { align: 'left', gap: 1 }, { align: 'left', gap: 2 }];
  return [paint.strong('Besides the dough'), ...table(columns, rows)];
}

function legend({ formula, totals: t }: FormulaEntry): string {
  const isStraight = partsInDough(formula).length === 1;
  const base = isStraight ? '% of all flour.' : '% of all flour in the total formula, of its own flour in each other column.';
  const inoculation = t.inoculation_pct === null || t.inoculation_pct === 0 ? '' : ' Inoculation is ripe levain or starter over all flour.';
  return `${base}${inoculation}`;
}
