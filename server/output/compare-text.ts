/** Two versions compared, for a terminal: what changed of each formula, allergens first. */
import type { SectionChanges } from '../core/compare';
import { summaryWords, toldSection, type ToldSection } from './compare-words';
import { plain, type Paint } from './paint';
import { table } from './table';
import { padEnd, printable, widthOf, wrap } from './width';

export interface CompareOptions {
  readonly width: number;
  readonly paint?: Paint;
  /** The law whose allergens are told. */
  readonly allergens?: 'eu' | 'us' | 'both';
}

/** More lines than this nobody reads on a screen, some twenty pages of it; the rest is counted. */
export const MOST_TOLD = 1000;

/** Names are given so many columns, and longer ones take what they need. */
const NAME_WIDTH = 22;

export function compareText(sections: readonly SectionChanges[], { width, paint = plain, allergens = 'both' }: CompareOptions): string {
  const lines: string[] = [];
  let left = MOST_TOLD;
  let untold = 0;
  for (const section of sections) {
    if (left <= 0) {
      untold += section.changes.length;
      continue;
    }
    const shown = { ...section, changes: section.changes.slice(0, left) };
    untold += section.changes.length - shown.changes.length;
    left -= shown.changes.length;
    if (lines.length > 0) lines.push('');
    lines.push(...sectionLines(toldSection(shown, allergens), width, paint));
  }
  if (untold > 0) lines.push('', `and ${withCommas(untold)} more; --json has all of them.`);
  const summary = summaryWords(sections, allergens);
  return `${[...(lines.length === 0 ? [] : [...lines, '']), ...wrap(summary, width)].join('\n')}\n`;
}

function sectionLines({ title, whole, allergens, totals, groups, findings }: ToldSection, width: number, paint: Paint): readonly string[] {
  const lines = [paint.strong(title), ...whole.flatMap((words) => indented('', words, 2, width))];
  for (const words of allergens) lines.push(...indented('', words, 2, width).map(paint.strong));
  if (totals.length > 0) {
    const rows = [['', 'before', 'after'], ...totals.map(({ name, before, after }) => [name, before, after])];
    lines.push('', ...table([{ align: 'left', gap: 2, width: NAME_WIDTH }, { align: 'right', gap: 2, width: 10 }, { align: 'right', gap: 3, width: 10 }], rows));
  }
  for (const group of groups) {
    lines.push('', `  ${paint.strong(group.title)}`);
    for (const { name, words } of group.changes) lines.push(...indented(name, words, 4, width));
  }
  if (findings.length > 0) lines.push('', `  ${paint.strong('findings')}`);
  for (const { came, severity, words } of findings) {
    const [first = '', ...rest] = indented(came ? 'appeared' : 'gone', `${severity}: ${words}`, 4, width);
    lines.push(paint.severity(severity, first), ...rest);
  }
  return lines;
}

/** A name and its words, broken under themselves. */
function indented(name: string, words: string, indent: number, width: number): readonly string[] {
  const front = name === '' ? ' '.repeat(indent) : `${' '.repeat(indent)}${padEnd(printable(name), NAME_WIDTH)}  `;
  const under = ' '.repeat(Math.min(widthOf(front), indent + NAME_WIDTH + 2));
  return wrap(words, Math.max(20, width - widthOf(front))).map((line, index) => `${index === 0 ? front : under}${line}`);
}

/** `9,000` */
export function withCommas(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ',');
}
