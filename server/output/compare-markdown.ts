/** Two versions compared, as a comment on a change: a summary, a table of totals, and the rest folded away. */
import type { SectionChanges } from '../core/compare';
import { withCommas } from './compare-text';
import { summaryWords, toldSection, type ToldSection } from './compare-words';

/** Hosts cut comments at 65,536 characters, and a table that is cut in half is no table. What comes after that is counted. */
const MOST_CHARACTERS = 60_000;
/** Changes told of one section. Nobody unfolds more, and one formula must not push the others out. */
const MOST_OF_ONE = 300;

export interface CompareMarkdownOptions {
  readonly allergens?: 'eu' | 'us' | 'both';
  /** Nothing is folded away: for a page that is read, not a comment that is scrolled past. */
  readonly unfolded?: boolean;
}

/** Safe against pipes, HTML and mentions in names. */
export function compareMarkdown(sections: readonly SectionChanges[], { allergens = 'both', unfolded = false }: CompareMarkdownOptions = {}): string {
  const pages: string[] = [`**${escaped(summaryWords(sections, allergens))}**\n`];
  let length = pages.join('').length;
  let untold = 0;
  for (const section of sections) {
    if (untold > 0) {
      untold += section.changes.length;
      continue;
    }
    const shown = { ...section, changes: section.changes.slice(0, MOST_OF_ONE) };
    const page = sectionPage(toldSection(shown, allergens), section.changes.length - shown.changes.length, unfolded);
    if (length + page.length > MOST_CHARACTERS) untold += section.changes.length;
    else {
      pages.push(page);
      length += page.length;
    }
  }
  if (untold > 0) pages.push(`And ${withCommas(untold)} changes more.\n`);
  return pages.join('\n');
}

function sectionPage({ title, whole, allergens, totals, groups, findings }: ToldSection, more: number, unfolded: boolean): string {
  const lines = [`### ${escaped(title)}`, ''];
  for (const words of allergens) lines.push(`- **${escaped(words)}**`);
  for (const words of whole) lines.push(`- ${escaped(words)}`);
  if (lines.at(-1) !== '') lines.push('');
  if (totals.length > 0) {
    lines.push('| total | before | after |', '|---|--:|--:|', ...totals.map(({ name, before, after }) => `| ${escaped(name)} | ${escaped(before)} | ${escaped(after)} |`), '');
  }
  const appeared = findings.filter(({ came }) => came).length;
  const listed = groups.reduce((sum, { changes }) => sum + changes.length, 0);
  const rest = [
    ...groups.flatMap(({ title: heading, changes }) => [`**${escaped(heading)}**`, '', ...changes.map(({ name, words }) => `- ${escaped(name)}: ${escaped(words)}`), '']),
    ...(findings.length === 0 ? [] : ['**findings**', '', ...findings.map(({ came, severity, words }) => `- ${came ? 'appeared' : 'gone'}, ${severity}: ${escaped(words)}`), '']),
    ...(more > 0 ? [`and ${withCommas(more)} more`, ''] : []),
  ];
  if (rest.length === 0) return `${lines.join('\n')}`;
  if (unfolded) return [...lines, ...rest].join('\n');
  const said = [
    ...(listed + more > 0 ? [`${withCommas(listed + more)} ${listed + more === 1 ? 'change' : 'changes'} in what is weighed and done`] : []),
    ...(findings.length > 0 ? [`${String(appeared)} ${appeared === 1 ? 'finding' : 'findings'} appeared, ${String(findings.length - appeared)} gone`] : []),
  ].join('; ');
  return [...lines, `<details><summary>${said}</summary>`, '', ...rest, '</details>', ''].join('\n');
}

/** Nothing of a name is taken for markup, a link, a cell, a tag or the name of somebody to be called. */
export function escaped(text: string): string {
  return text
    .replace(/[&<>|@]/g, (character) => `&#${String(character.charCodeAt(0))};`)
    .replace(/[\\`*_[\]~#!]/g, (character) => (character === '#' ? '\\#' : `\\${character}`))
    .replace(/&\\#/g, '&#')
    .replace(/(https?|www)([:.])/gi, (_match, start: string, sign: string) => `${start}&#${String(sign.charCodeAt(0))};`);
}
