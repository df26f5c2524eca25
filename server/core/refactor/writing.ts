/** How a refactoring writes amounts and lines: no more digits than the weight needs, in the column of the names around. */
import type { MassUnit, Quantity } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { ResolvedPart, Section } from '../formula/model';
import { alignNames } from '../scaling/align';
import { GRAMS_PER } from '../units/mass';
import type { Edit } from '../checks/edits';
import { trimmed } from '../checks/words';
import type { Written } from './refactoring';
import { writtenLines } from './refactoring';

/** How far a number may be from what it stands for, of it. A hundred lines like this move no total by a hundredth of a per cent. */
const EXACT_ENOUGH = 2e-5;
const DEFAULT_COLUMN = 10;

type Way = 'nearest' | 'up' | 'down';

/**
 * The shortest decimal near enough to a value: 71.43 for five sevenths of a hundred. Up or down where it must not be less
 * or more.
 */
export function short(value: number, way: Way = 'nearest'): string {
  for (let decimals = 0; decimals < 12; decimals++) {
    const ten = 10 ** decimals;
    // The small slack keeps 2.0000000001 from becoming 2.1.
    const moved = way === 'up' ? Math.ceil(value * ten - 1e-9) / ten : way === 'down' ? Math.floor(value * ten + 1e-9) / ten : value;
    const text = trimmed(moved, decimals);
    if (Math.abs(Number(text) - value) <= EXACT_ENOUGH * Math.abs(value)) return text;
  }
  return '0';
}

export function massText(grams: number, unit: MassUnit = 'g', way?: Way): string {
  return `${short(grams / GRAMS_PER[unit], way)} ${unit}`;
}

/** Both ends of a range, or the one number, as `written` says. */
export function rangeText({ low, high }: Quantity, written: (value: number) => string): string {
  return high === undefined ? written(low.value) : `${written(low.value)} to ${written(high.value)}`;
}

/** Shares in per cent of which some are the flours: those come to 100 to the last digit, the largest taking what rounding leaves. */
export function shareTexts(shares: readonly { readonly pct: number; readonly isFlour: boolean; readonly way?: Way }[], floursAreWhole: boolean): readonly string[] {
  const texts = shares.map(({ pct, way }) => short(pct, way));
  const flours = shares.map((_, i) => i).filter((i) => shares[i]?.isFlour === true);
  const largest = flours.reduce<number | undefined>((most, i) => (most === undefined || (shares[i]?.pct ?? 0) > (shares[most]?.pct ?? 0) ? i : most), undefined);
  if (!floursAreWhole || largest === undefined) return texts.map((text) => `${text} %`);
  const others = flours.filter((i) => i !== largest).reduce((sum, i) => sum + Number(texts[i]), 0);
  return texts.map((text, i) => `${i === largest ? trimmed(100 - others, 9) : text} %`);
}

/** Puts another amount in front of a name. */
export function amountEdit(part: ResolvedPart, { node }: Written, newText: string): Edit {
  return { place: placeOf(part.block, node.amount), newText };
}

/** Edits in the order of the text, with the spaces that keep names in the column of their block, and apart from what is before them. */
export function inColumns(section: Section, changes: readonly Edit[]): readonly Edit[] {
  const edits = changes.map((edit) => apart(section, edit));
  const blocks = [...new Set(edits.map(({ place }) => place.block))];
  const spaces = blocks.flatMap((block) => alignNames(block, section.blocks[block]?.lines ?? [], { section, edits }));
  return [...edits, ...spaces].sort((a, b) => a.place.block - b.place.block || a.place.start - b.place.start || a.place.end - b.place.end);
}

/** `20 %poolish` is read; `105 gpoolish` is not. */
function apart(section: Section, edit: Edit): Edit {
  const { place, newText } = edit;
  const next = section.blocks[place.block]?.text[place.end] ?? '';
  return place.end > place.start && /[a-z%]$/.test(newText) && /[\p{L}\p{N}"]/u.test(next) ? { place, newText: `${newText} ` } : edit;
}

/** A new line of a part: the name in the column where the names of a part stand. */
export function newLine(like: ResolvedPart | undefined, amount: string, name: string): string {
  const columns = like === undefined ? [] : writtenLines(like).map(({ node }) => node.name.start - node.start);
  const counts = new Map<number, number>();
  for (const column of columns) counts.set(column, (counts.get(column) ?? 0) + 1);
  const [column] = [...counts].sort(([a, times], [b, others]) => others - times || b - a)[0] ?? [DEFAULT_COLUMN];
  return `${amount.padEnd(column - 1)} ${name}`;
}
