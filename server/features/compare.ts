/** A file against its committed version: as a page to read, and which of its formulas differ. */
import { compareFiles, type SectionChanges } from '../core/compare';
import { compareMarkdown } from '../output/compare-markdown';
import { comparedFile } from '../project/compared';
import type { PlacedSection, ProjectFile } from '../project/file';
import type { CompareAnswer } from '../requests';

/** What changed since the commit, as Markdown. Files that the formula uses are those of today on both sides. */
export function comparison(file: ProjectFile, committed: ProjectFile): CompareAnswer {
  const changes = compareFiles([comparedFile(committed, '')], [comparedFile(file, '')]);
  return { isSame: changes.length === 0, markdown: compareMarkdown(changes, { allergens: file.settings.allergens ?? 'both', unfolded: true }) };
}

export type Difference = 'differs' | 'new';

/**
 * Formulas that are another bread than what is committed, by the line of their head, from 1. Layout, comments and other words for the
 * same dough are no difference. A formula whose text is the committed one is not looked at, unless something around it has changed.
 */
export function differences(file: ProjectFile, committed: ProjectFile): ReadonlyMap<number, Difference> {
  const [before, after] = touched(committed.sections, file.sections);
  if (before.length === 0 && after.length === 0) return new Map();
  const changes = compareFiles([comparedFile(committed, '', before)], [comparedFile(file, '', after)]);
  return new Map(changes.flatMap((section): readonly (readonly [number, Difference])[] => {
    const { after: now } = section;
    if (now === undefined || !isOtherBread(section)) return [];
    return [[now.line, section.before === undefined ? 'new' : 'differs']];
  }));
}

function isOtherBread({ after, changes }: SectionChanges): boolean {
  return (after?.kind === 'formula' || after?.kind === 'dish') && changes.some(({ what }) => what !== 'layout' && what !== 'rewritten' && what !== 'finding');
}

/** The sections that have to be compared: all of them where an ingredient or a `use` differs, else those whose text does, and variants, whose base may. */
function touched(before: readonly PlacedSection[], after: readonly PlacedSection[]): readonly [readonly PlacedSection[], readonly PlacedSection[]] {
  const isAround = ({ section: { kind } }: PlacedSection): boolean => kind === 'ingredient' || kind === 'use';
  const around = (sections: readonly PlacedSection[]): string => sections.filter(isAround).map(textOf).join('\n');
  if (around(before) !== around(after)) return [before, after];
  const [was, is] = [new Set(before.map(textOf)), new Set(after.map(textOf))];
  if (before.every((section) => is.has(textOf(section))) && after.every((section) => was.has(textOf(section)))) return [[], []];
  const isVariant = ({ section: { blocks } }: PlacedSection): boolean => blocks[0]?.lines.some(({ node }) => node.kind === 'based-on') === true;
  return [before.filter((section) => isVariant(section) || !is.has(textOf(section))), after.filter((section) => isVariant(section) || !was.has(textOf(section)))];
}

function textOf({ section: { blocks } }: PlacedSection): string {
  return blocks.map(({ text }) => text).join('').trim();
}
