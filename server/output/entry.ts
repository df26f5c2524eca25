/** One formula or dish with what the core knows of it: what sheets and schedules are printed from. */
import type { Place, ResolvedFormula, ResolvedLine, ResolvedPart, Section, Sheet, Totals } from '../core/formula/model';

export interface FormulaEntry {
  readonly section: Section;
  readonly formula: ResolvedFormula;
  readonly totals: Totals;
  readonly sheet: Sheet;
  /** Line in its file, from 1, of a place in the section. */
  readonly lineOf: (place: Place) => number;
  /** How many times the size written in the file this is; undefined when it is that size. */
  readonly factor?: number;
  /** The formula at the size written, which its records are of; undefined when `formula` is that. */
  readonly asWritten?: ResolvedFormula;
  /** What the scale reads to, g, of most things and of salt, leaven and spices. Without it: 0.1 g under 10 g, 1 g above. */
  readonly step?: { readonly grams?: number; readonly smallGrams?: number };
  /** What the settings say of labels; without them both lists of allergens, and figures as they are computed. */
  readonly label?: { readonly allergens?: 'eu' | 'us' | 'both'; readonly labelRounding?: 'none' | 'eu' | 'us' };
}

/** What a formula is called on paper; a file of loose parts has no name. */
export function titleOf(formula: Pick<ResolvedFormula, 'kind' | 'name'>): string {
  if (formula.name !== '') return formula.name;
  return formula.kind === 'dish' ? 'Dish without a name' : 'Formula without a name';
}

/** The text that a place covers, on one line. */
export function textAt(section: Section, place: Place): string {
  return (section.blocks[place.block]?.text.slice(place.start, place.end) ?? '').trim();
}

/** An ingredient line as the author wrote it, without its comment; null for a row that the resolver added. */
export function sourceText(section: Section, line: ResolvedLine): string | null {
  return line.source === undefined ? null : textAt(section, { block: line.place.block, start: line.source.start, end: line.source.end });
}

/** Indexes of the parts that end up in the dough, the dough itself included, in the order written. */
export function partsInDough(formula: ResolvedFormula): readonly number[] {
  if (formula.dough === undefined) return [];
  const found = new Set<number>();
  const visit = (index: number): void => {
    if (found.has(index)) return;
    found.add(index);
    for (const line of formula.parts[index]?.lines ?? []) if (line.inDough && line.part !== undefined) visit(line.part);
  };
  visit(formula.dough);
  return [...found].sort((a, b) => a - b);
}

/** What each row of the final dough is a per cent of: the flour weighed into it. Null when there is none or it is not known. */
export function finalFlourGrams(dough: ResolvedPart): number | null {
  let total = 0;
  for (const line of dough.lines) {
    if (!line.inDough || line.part !== undefined || line.role !== 'flour') continue;
    if (line.grams === null) return null;
    total += line.grams;
  }
  return total > 0 ? total : null;
}

export interface Summed {
  readonly name: string;
  readonly key: string;
  readonly role: ResolvedLine['role'];
  /** Index of the part that the row takes in. */
  readonly part: number | undefined;
  readonly grams: number | null;
}

/** The lines of a part that go into the dough, the lines of one ingredient added up, in the order they first appear. */
export function summedLines(part: ResolvedPart): readonly Summed[] {
  const rows = new Map<string, Summed>();
  for (const { name, key, role, part: taken, grams, inDough } of part.lines) {
    if (!inDough) continue;
    const sofar = rows.get(key);
    if (sofar === undefined) rows.set(key, { name, key, role, part: taken, grams });
    else rows.set(key, { ...sofar, grams: sofar.grams === null || grams === null ? null : sofar.grams + grams });
  }
  return [...rows.values()];
}

/** A share of a base in per cent, null when either is not known or there is no base. */
export function pctOf(grams: number | null, baseGrams: number | null): number | null {
  return grams === null || baseGrams === null || baseGrams <= 0 ? null : (100 * grams) / baseGrams;
}
