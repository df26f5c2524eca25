/** A formula and its variants side by side: rows of ingredients by part, then totals, with what differs from the base. */
import { allergensOf, costReport } from '../core/facts';
import { allergenLabels } from '../core/ingredients/allergens';
import type { ResolvedPart, Totals } from '../core/formula/model';
import { titleOf, type FormulaEntry } from './entry';
import { json } from './json';
import { grams as gramsText, percent, UNKNOWN } from './numbers';
import { COMPARED_TOTALS, totalText } from './variant-totals';
import { table, type Cells } from './table';
import { printable, widthOf, wrap } from './width';

/** The first formula of all, and what is based on it, or on what is based on it. */
export interface Family {
  readonly base: FormulaEntry;
  readonly variants: readonly FormulaEntry[];
}

/** One ingredient of one part, in each formula of the family; undefined where that has none of it. */
interface FamilyLine {
  readonly name: string;
  readonly key: string;
  readonly cells: readonly ({ readonly grams: number | null; readonly pct: number | null } | undefined)[];
}

interface FamilyPart {
  readonly name: string;
  /** Whether its shares are of flour. */
  readonly hasFlour: boolean;
  readonly lines: readonly FamilyLine[];
}

function membersOf({ base, variants }: Family): readonly FormulaEntry[] {
  return [base, ...variants];
}

/** Parts by their names, those of the base first, each before the dough; lines of one ingredient added up. */
function partsOf(family: Family): readonly FamilyPart[] {
  const members = membersOf(family);
  const keys: string[] = [];
  for (const { formula } of members) {
    const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough]?.key;
    for (const { key } of formula.parts) {
      if (keys.includes(key)) continue;
      const at = dough === undefined || key === dough ? -1 : keys.indexOf(dough);
      if (at < 0) keys.push(key);
      else keys.splice(at, 0, key);
    }
  }
  return keys.map((key) => {
    const parts = members.map(({ formula }) => formula.parts.find((part) => part.key === key));
    const sums = parts.map((part) => (part === undefined ? new Map<string, Sum>() : sumsOf(part)));
    const names = new Map<string, string>();
    for (const sum of sums) for (const [line, { name }] of sum) if (!names.has(line)) names.set(line, name);
    const [first] = parts.filter((part) => part !== undefined);
    return {
      name: first?.name ?? key,
      hasFlour: parts.every((part) => part === undefined || (part.flourGrams ?? 0) > 0),
      lines: [...names].map(([line, name]) => ({ key: line, name, cells: sums.map((sum) => sum.get(line)) })),
    };
  });
}

interface Sum {
  readonly name: string;
  readonly grams: number | null;
  readonly pct: number | null;
}

/** By ingredient; what is kept out of the dough apart from what goes in. */
function sumsOf(part: ResolvedPart): Map<string, Sum> {
  const sums = new Map<string, Sum>();
  const plus = (a: number | null, b: number | null): number | null => (a === null || b === null ? null : a + b);
  for (const { key, name, purpose, inDough, grams, pct, listed } of part.lines) {
    const line = inDough ? key : `${key} for ${purpose ?? ''}`;
    const own = { name: inDough ? name : `${name} for ${purpose ?? ''}`, grams: (listed ?? { grams }).grams, pct: inDough ? (listed ?? { pct }).pct : null };
    const before = sums.get(line);
    sums.set(line, before === undefined ? own : { name: before.name, grams: plus(before.grams, own.grams), pct: plus(before.pct, own.pct) });
  }
  return sums;
}

/** Columns that a name may take. */
const HEAD_WIDTH = 20;

/** Behind what is not as in the base. A sign and no colour: it is read on paper, and aloud. */
const DIFFERS = '*';
const NONE = 'none';

/** The table, with a line end after every line; taken apart where it is wider than that. */
export function familyText(family: Family, width: number): string {
  const lines: string[] = [`${printable(titleOf(family.base.formula))} and ${family.variants.length === 1 ? 'its variant' : `its ${String(family.variants.length)} variants`}`];
  const rows = rowsOf(family);
  for (const shown of groups(family, rows, width)) lines.push('', ...laid(family, rows, shown));
  lines.push('', ...wrap(`${DIFFERS} not as in ${titleOf(family.base.formula)}. Ingredients are in % of the flour of their part; what is in g is of a part without flour, or goes beside the dough.`, width));
  const allergens = membersOf(family).map(({ formula }) => allergenLabels(allergensOf(formula).eu, 'eu').join(', ') || 'none of the EU list');
  lines.push('', 'Allergens (EU)', ...membersOf(family).flatMap(({ formula }, at) => wrap(`${titleOf(formula)}: ${allergens[at] ?? ''}${allergens[at] === allergens[0] ? '' : ` ${DIFFERS}`}`, width - 2).map((line) => `  ${printable(line)}`)));
  return lines.map((line) => `${line}\n`).join('');
}

/** The name of a row, and its text in each formula; a row of a part has only its name. */
interface Row {
  readonly name: string;
  readonly cells: readonly string[];
}

function rowsOf(family: Family): readonly Row[] {
  const members = membersOf(family);
  const marked = (texts: readonly string[]): readonly string[] => texts.map((text) => (text === texts[0] ? text : `${text === '' ? NONE : text} ${DIFFERS}`));
  const parts = partsOf(family).flatMap(({ name, hasFlour, lines }): readonly Row[] => [
    { name: printable(name), cells: [] },
    ...lines.map((line) => ({
      name: `  ${printable(line.name)}`,
      cells: marked(line.cells.map((cell) => (cell === undefined ? '' : hasFlour && cell.pct !== null ? `${percent(cell.pct)} %` : cell.grams === null ? UNKNOWN : `${gramsText(cell.grams)} g`))),
    })),
  ]);
  const totals = COMPARED_TOTALS.filter(({ key }) => members.some(({ totals: own }) => own[key] === null || Math.abs(own[key]) >= 0.05)).map((total) => ({ name: `  ${total.label}`, cells: marked(members.map(({ totals: own }) => totalText(own[total.key], total))) }));
  return [...parts, { name: 'of all the flour', cells: [] }, ...totals, ...costRow(members, marked)];
}

function costRow(members: readonly FormulaEntry[], marked: (texts: readonly string[]) => readonly string[]): readonly Row[] {
  const costs = members.map(({ formula }) => costReport(formula));
  if (costs.every(({ amount }) => amount === null)) return [];
  return [{ name: '  cost', cells: marked(costs.map(({ amount, currency }) => (amount === null ? UNKNOWN : `${amount.toFixed(2)} ${currency ?? ''}`))) }];
}

/** Which formulas stand in one table: the base in each. */
function groups(family: Family, rows: readonly Row[], width: number): readonly (readonly number[])[] {
  const found: number[][] = [];
  let group: number[] = [];
  for (const at of family.variants.keys()) {
    const wider = [...group, at + 1];
    if (group.length > 0 && Math.max(...laid(family, rows, wider).map(widthOf)) > width) {
      found.push(group);
      group = [at + 1];
    } else group = wider;
  }
  return [...found, group];
}

function laid(family: Family, rows: readonly Row[], shown: readonly number[]): readonly string[] {
  const members = membersOf(family);
  const columns = [0, ...shown];
  const heads = columns.map((at) => wrap(printable(titleOf(members[at]?.formula ?? family.base.formula)), HEAD_WIDTH));
  const tallest = Math.max(...heads.map(({ length }) => length));
  // Names stand on the line above the figures, however many lines they take.
  const head = Array.from({ length: tallest }, (_, line): Cells => ['', ...heads.map((own) => `${own[line - tallest + own.length] ?? ''}  `)]);
  const said = rows.filter(({ cells }) => cells.length === 0 || columns.some((at) => (cells[at] ?? '') !== ''));
  return table(
    [{ align: 'left', gap: 0 }, ...columns.map(() => ({ align: 'right', gap: 2 }) as const)],
    // The mark has a place of its own, so that figures stay under each other.
    [...head, ...said.map(({ name, cells }) => [name, ...(cells.length === 0 ? [] : columns.map((at) => apart(cells[at] ?? '')))])],
  );
}

function apart(cell: string): string {
  return cell.endsWith(` ${DIFFERS}`) ? cell : `${cell}  `;
}

/** The stable form: `{"families": […]}`, snake case, grams and per cent, unrounded. What cannot be known is null. */
export function familiesJson(families: readonly Family[]): string {
  return json({ families: families.map(familyForm) });
}

function familyForm(family: Family): object {
  const members = membersOf(family);
  const isOther = (a: number | null | undefined, b: number | null | undefined): boolean => (typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) > 1e-9 * Math.max(1, Math.abs(b)) : a !== b);
  const names = Object.keys(family.base.totals) as readonly (keyof Totals)[];
  return {
    base: family.base.formula.name,
    formulas: members.map(({ formula, section, lineOf }) => {
      const { amount, currency } = costReport(formula);
      const { eu, us } = allergensOf(formula);
      return {
        name: formula.name, based_on: section.variant?.base.name ?? null, line: section.variant === undefined ? null : lineOf(formula.namePlace),
        yield: { pieces: formula.yield.pieces, noun: formula.yield.noun, piece_g: formula.yield.pieceGrams }, cost: { amount, currency }, allergens: { eu, us },
      };
    }),
    rows: partsOf(family).flatMap(({ name: part, lines }) => lines.map(({ name, key, cells }) => ({
      part, name, key,
      values: cells.map((cell) => (cell === undefined ? null : { grams: cell.grams, pct: cell.pct })),
      differs: cells.map((cell) => isOther(cell?.grams, cells[0]?.grams) || isOther(cell?.pct, cells[0]?.pct)),
    }))),
    totals: names.map((name) => {
      const values = members.map(({ totals }) => totals[name]);
      return { name, values, differs: values.map((value) => isOther(value, values[0])) };
    }),
  };
}
