/** Which formulas belong together: a base, and all that is based on it, wherever in the files it stands. */
import { resolve } from '../core/formula/resolve';
import type { Section } from '../core/formula/model';
import { sheetOf } from '../core/formula/sheet';
import { totalsOf } from '../core/formula/totals';
import type { Family } from '../output/family';
import { sameName, type ChosenEntry } from './formulas';

/** In the order of the files; a base that stands in a file that is only used is there all the same. `name`: only the family of that formula. */
export function familiesOf(entries: readonly ChosenEntry[], name: string | undefined): readonly Family[] {
  const found = new Map<string, { readonly base: ChosenEntry; readonly variants: ChosenEntry[] }>();
  for (const entry of entries) {
    if (entry.section.variant === undefined) continue;
    const root = rootOf(entry.section);
    const key = textOf(root);
    const known = found.get(key) ?? { base: entries.find(({ section }) => textOf(section) === key) ?? entryOfBase(root, entry), variants: [] };
    known.variants.push(entry);
    found.set(key, known);
  }
  const families = [...found.values()];
  if (name === undefined) return families;
  return families.filter(({ base, variants }) => [base, ...variants].some(({ formula }) => sameName(formula.name) === sameName(name)));
}

/** What a variant is based on in the end. */
function rootOf(section: Section): Section {
  let root = section;
  while (root.variant !== undefined) root = root.variant.base;
  return root;
}

/** The same formula, read for two files, is two objects with one text. */
function textOf({ blocks }: Section): string {
  return blocks.map(({ text }) => text).join('');
}

function entryOfBase(section: Section, { environment, ...entry }: ChosenEntry): ChosenEntry {
  const formula = resolve(section, environment);
  return { ...entry, environment, section, formula, totals: totalsOf(formula), sheet: sheetOf(formula) };
}
