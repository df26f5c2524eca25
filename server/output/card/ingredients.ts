/** The ingredients of a card, part by part: weights as the sheet prints them, per cents of the part's flour, spoons and cups. */
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../../core/formula/model';
import { stepFor } from '../../core/scaling/scene';
import type { MeasureSystem } from '../../core/units/volume';
import { partsInDough, pctOf, summedLines, textAt, titleOf, type FormulaEntry } from '../entry';
import { decimals, grams as gramsText, percent, roundedGrams } from '../numbers';
import { roundColumn, sheetView, type ViewColumn } from '../sheet-view';
import { printable } from '../width';
import { degrees } from './degrees';
import { homeMeasure } from './home-measure';
import { NOT_KNOWN, type CardLine, type CardPart, type TotalLine } from './model';

export interface Weighed {
  readonly entry: FormulaEntry;
  readonly measures: MeasureSystem;
}

/** The parts that `indexes` counts, in that order; those with nothing in them are left out. */
export function cardParts(input: Weighed, indexes: readonly number[]): readonly CardPart[] {
  const view = sheetView(input.entry);
  return indexes.flatMap((index) => {
    const part = input.entry.formula.parts[index];
    if (part === undefined || !part.lines.some(({ inDough }) => inDough)) return [];
    const column = columnOf(input.entry.formula, view.columns, index);
    return [column === undefined ? partAlone(input, part) : partOfSheet(input, part, view.rows.map(({ key }) => key), column)];
  });
}

/** The sheet's columns stand in the order of the parts, the dough's last. */
function columnOf(formula: ResolvedFormula, columns: readonly ViewColumn[], index: number): ViewColumn | undefined {
  if (index === formula.dough) return columns.find(({ kind }) => kind === 'final');
  const at = partsInDough(formula).filter((part) => part !== formula.dough).indexOf(index);
  return at < 0 ? undefined : columns.filter(({ kind }) => kind === 'part')[at];
}

/** A part that the sheet has a column of: its lines of one ingredient are one line. */
function partOfSheet(input: Weighed, part: ResolvedPart, keys: readonly string[], column: ViewColumn): CardPart {
  const lines = summedLines(part).map((summed) => ({ ...summed, own: part.lines.filter((line) => line.inDough && line.key === summed.key) }));
  const cells = lines.map(({ key }) => column.cells[keys.indexOf(key)]);
  return {
    ...heading(input.entry.formula, part),
    lines: lines.map(({ own, grams }, at) => cardLine(input, own, grams, cells[at]?.grams ?? null, percentOf(input.entry.formula, cells[at]?.pct ?? null))),
    total: { grams: shown(column.total.grams), pct: percentOf(input.entry.formula, column.total.pct) },
    after: [...column.after].map(([what, grams]) => `${gramsText(Math.abs(grams))} g ${what}`),
  };
}

/** A part beside the dough, or of a dish: line by line, as the sheet prints it. */
function partAlone(input: Weighed, part: ResolvedPart): CardPart {
  const { formula, step = {} } = input.entry;
  const lines = part.lines.filter(({ inDough }) => inDough);
  const { values, total } = roundColumn(lines.map(({ grams }) => grams), lines.map((line) => stepFor(line, step)));
  return {
    ...heading(formula, part),
    lines: lines.map((line, at) => cardLine(input, [line], line.grams, values[at] ?? null, percentOf(formula, line.pct))),
    total: { grams: shown(total), pct: percentOf(formula, pctOf(part.grams, part.baseGrams)) },
    after: afterAlone(part),
  };
}

function afterAlone({ grams, yieldGrams, keepGrams, leftOverGrams }: ResolvedPart): readonly string[] {
  return [
    ...(yieldGrams !== null && grams !== null && grams - yieldGrams > 0.05 ? [`${gramsText(yieldGrams)} g once cooked`] : []),
    ...(keepGrams > 0 ? [`${gramsText(keepGrams)} g kept back`] : []),
    ...(leftOverGrams !== null && leftOverGrams > 0.05 ? [`${gramsText(leftOverGrams)} g left over`] : []),
  ];
}

function heading({ kind, name, dough, parts }: ResolvedFormula, part: ResolvedPart): Pick<CardPart, 'name' | 'wanted'> {
  const isDough = dough !== undefined && parts[dough] === part;
  const final = part.kind === 'batter' ? 'batter' : 'dough';
  // What a dish lists right under its head is a part of the dish's own name.
  const own = kind === 'dish' && part.name === name ? 'in the dish' : isDough ? (parts.length > 1 ? `final ${final}` : final) : part.name;
  return { name: capital(printable(own)), wanted: part.desiredCelsius === null ? undefined : `at ${degrees(part.desiredCelsius)}` };
}

/** Each ingredient over all parts, as the sheet's column of the total formula has it. Empty for a dish. */
export function totalFormula({ entry }: Weighed): readonly TotalLine[] {
  const { rows, columns } = sheetView(entry);
  const total = columns.find(({ kind }) => kind === 'total');
  return rows.flatMap(({ name }, at): readonly TotalLine[] => {
    const cell = total?.cells[at];
    return cell === undefined ? [] : [{ name: printable(name), weight: shown(cell.grams), pct: percentOf(entry.formula, cell.pct) }];
  });
}

/** What is weighed out but kept out of the dough, with what it is for. */
export function besidesOf(input: Weighed): readonly CardLine[] {
  const lines = input.entry.formula.parts.flatMap((part) => part.lines.filter(({ inDough }) => !inDough));
  return lines.map((line) => {
    const purpose = line.purpose === undefined ? [] : [printable(`for ${line.purpose.replace(/^for\s+/i, '')}`)];
    const card = cardLine(input, [line], line.grams, line.grams, undefined);
    return { ...card, weight: line.grams === null ? NOT_KNOWN : `${gramsText(line.grams)} g`, remarks: [...purpose, ...card.remarks] };
  });
}

/** @param printed the weight as the sheet rounds it */
function cardLine({ entry, measures }: Weighed, lines: readonly ResolvedLine[], grams: number | null, printed: number | null, pct: string | undefined): CardLine {
  const [first] = lines;
  const isPlain = first !== undefined && first.part === undefined && first.starterHydrationPct === undefined && first.uses === undefined;
  const written = lines.length === 1 && first !== undefined ? writtenMeasure(entry, first) : undefined;
  return {
    weight: shown(printed),
    name: printable(first?.uses === undefined ? (first?.name ?? '') : titleOf(first.uses)),
    pct,
    home: written ?? (isPlain && grams !== null ? homeMeasure({ ingredient: first.ingredient, role: first.role, grams }, measures) : undefined),
    remarks: [...new Set(lines.flatMap(remarksOf))],
    isPart: first?.part !== undefined,
    mustWeigh: first?.part === undefined && (first?.role === 'salt' || first?.role === 'leaven'),
  };
}

/** Spoons, cups and pieces that the author wrote, at the size that it is of. */
function writtenMeasure({ section, factor }: FormulaEntry, line: ResolvedLine): string | undefined {
  const { source } = line;
  if (source === undefined || factor !== undefined) return undefined;
  // A weight in brackets stands in its own column.
  const amount = printable(textAt(section, line.amountPlace)).replace(/\s*\([^)]*\)$/, '');
  if (source.kind === 'uses') return source.noun === undefined ? undefined : `${amount} ${printable(source.noun.text)}`;
  if (source.kind !== 'ingredient') return undefined;
  switch (source.amount.kind) {
    case 'volume':
    case 'pinch':
      return amount;
    case 'count':
      return `${amount} ${printable(line.name)}`;
    case 'mass':
    case 'share':
    case 'all':
      return undefined;
  }
}

function remarksOf({ celsius, starterHydrationPct, source }: ResolvedLine): readonly string[] {
  return [
    ...(celsius === null ? [] : [`at ${degrees(celsius)}`]),
    ...(starterHydrationPct === undefined || starterHydrationPct === 100 ? [] : [`at ${decimals(starterHydrationPct, 1)} % hydration`]),
    ...(source === undefined || source.kind === 'flour-share' || source.note === undefined ? [] : [printable(source.note.text)]),
  ];
}

/** As the sheet prints it, with its unit. */
function shown(grams: number | null): string {
  if (grams === null) return NOT_KNOWN;
  return `${grams !== 0 && Math.abs(grams) < 0.05 ? gramsText(grams) : roundedGrams(grams)} g`;
}

/** A dish has no flour to be a per cent of. */
function percentOf({ kind }: ResolvedFormula, pct: number | null): string | undefined {
  return kind === 'dish' || pct === null ? undefined : `${percent(pct)} %`;
}

export function capital(text: string): string {
  const [first = ''] = text;
  return first.toUpperCase() + text.slice(first.length);
}
