/**
 * A file as features see it: text, tree, sections with what is known of each, and the files it brings in. Plain data and
 * look-ups; the caches behind it are in `project.ts`.
 */
import type { Block, Line, Text, Tree } from '../../grammar';
import type { Analysis, Environment } from '../core/analyse';
import type { Finding, Related } from '../core/checks/check';
import type { Place, Section } from '../core/formula/model';
import type { Settings } from '../core/settings/settings';
import type { LineIndex, Range } from './lines';
import type { MarkdownPage } from './markdown';
import type { SettingsInFile } from './settings';
import type { UseProblem } from './uris';

/** A section and where it stands in its file. */
export interface SectionInFile {
  readonly section: Section;
  /** Index in `tree.blocks` of the section's first block. */
  readonly firstBlock: number;
  /** File offsets of a place in the section. */
  offsetsOf(place: Place): { readonly start: number; readonly end: number };
}

/** A section with everything the core knows about it. */
export interface PlacedSection extends SectionInFile {
  /** Computed when first read, and remembered until something that it rests on changes. */
  readonly analysis: Analysis;
  readonly environment: Environment;
}

/** What any file is before anything is computed from it. */
export interface LoadedFile {
  /** As the editor spells it. */
  readonly uri: string;
  readonly text: string;
  /** The Markdown page whose fences hold the text; undefined for a file that is all formulas. */
  readonly page: MarkdownPage | undefined;
  readonly tree: Tree;
  readonly lineIndex: LineIndex;
  readonly sections: readonly SectionInFile[];
  /** Over `LARGEST_TEXT`: the tree is left empty, so nothing is found and nothing is computed. */
  readonly tooLarge: boolean;
}

/** A `use` line and the file it names. */
export interface UseLink {
  /** Index in `tree.blocks`. */
  readonly block: number;
  readonly path: Text;
  /** The file, whether or not it could be read; undefined when the path can name none. */
  readonly uri: string | undefined;
  readonly problem: UseProblem | undefined;
}

/** When a formula is to be ready or begun, as the baker chose it in the editor; no file says it. */
export interface ChosenTime {
  readonly formula: string;
  readonly zone: string;
  readonly anchor: { readonly kind: 'ready' | 'start'; readonly epochMs: number; readonly local?: string };
}

export interface ProjectFile extends LoadedFile {
  readonly sections: readonly PlacedSection[];
  readonly uses: readonly UseLink[];
  /** Files reached by `use`, nearest first, this one left out. Their ingredients and formulas can be named here. */
  readonly visible: readonly LoadedFile[];
  /** What all sections of this file have around them. */
  readonly environment: Environment;
  /** What counts here: the editor's settings, and over them those of the nearest settings file. */
  readonly settings: Settings;
  readonly settingsFile: SettingsInFile | undefined;
  /** Of clock times that name none: by the settings, else that of the computer. */
  readonly zone: string;
  readonly chosenTimes: readonly ChosenTime[];
}

/** Characters beyond which a file is not read: ten million, some 300,000 lines. */
export const LARGEST_TEXT = 10_000_000;

export interface BlockInFile {
  readonly block: Block;
  /** Index in `tree.blocks`. */
  readonly index: number;
  /** File offset of the block's text. */
  readonly offset: number;
}

interface WithSections<S> {
  readonly tree: Tree;
  readonly sections: readonly S[];
}

/** The block whose text holds the offset; at the very end of the file, the last one. */
export function blockAt(file: { readonly tree: Tree }, offset: number): BlockInFile | undefined {
  const { blocks } = file.tree;
  let low = 0;
  let high = blocks.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((blocks[middle]?.offset ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  const placed = blocks[low];
  return placed === undefined ? undefined : { block: placed.block, index: low, offset: placed.offset };
}

/** The section that holds the offset. */
export function sectionAt<S extends SectionInFile>(file: WithSections<S>, offset: number): S | undefined {
  const block = blockAt(file, offset);
  return block === undefined ? undefined : sectionOfBlock(file, block.index);
}

/** The section that a block (index in `tree.blocks`) belongs to. */
export function sectionOfBlock<S extends SectionInFile>(file: WithSections<S>, block: number): S | undefined {
  return file.sections.find(s => block >= s.firstBlock && block < s.firstBlock + s.section.blocks.length);
}

/** Lines from the outermost to the innermost whose span holds the offset (within the block's text), the ends included. */
export function linesAt(block: Block, offset: number): readonly Line[] {
  const found: Line[] = [];
  let lines = block.lines;
  for (;;) {
    const line = lines.find(l => offset >= l.start && offset <= endWithChildren(l));
    if (line === undefined) return found;
    if (offset <= line.end) return [...found, line];
    found.push(line);
    lines = line.children;
  }
}

/** Where a line ends with the lines that refine it. */
export function endWithChildren(line: Line): number {
  let last = line;
  for (let child = last.children.at(-1); child !== undefined; child = last.children.at(-1)) last = child;
  return Math.max(line.end, last.end);
}

/** Every line of a block, refining ones after the line they refine. Not recursive: a garbled file may nest as deep as it is long. */
export function everyLine(block: Block): readonly Line[] {
  const found: Line[] = [];
  const waiting = [...block.lines].reverse();
  for (let line = waiting.pop(); line !== undefined; line = waiting.pop()) {
    found.push(line);
    for (let i = line.children.length - 1; i >= 0; i--) {
      const child = line.children[i];
      if (child !== undefined) waiting.push(child);
    }
  }
  return found;
}

/** The edit of a file that puts `newText` in the place of offsets. */
export function textEditIn({ page, lineIndex }: LoadedFile, start: number, end: number, newText: string): { readonly range: Range; readonly newText: string } {
  return page?.edit(start, end, newText) ?? { range: lineIndex.rangeOf(start, end), newText };
}

/** The range of a place of a section in its file. */
export function rangeOfPlace(file: LoadedFile, section: SectionInFile, place: Place): Range {
  const { start, end } = section.offsetsOf(place);
  return file.lineIndex.rangeOf(start, end);
}

/**
 * Where a line that a finding names stands: in this file, or in one that it reaches. A block that stands several times with
 * the same text is found each time, but for the finding's own place.
 */
export function placesOfRelated(
  file: ProjectFile, section: SectionInFile, finding: Finding, related: Related,
): readonly { readonly file: LoadedFile; readonly range: Range }[] {
  if ('place' in related) return [{ file, range: rangeOfPlace(file, section, related.place) }];
  const { elsewhere, start, end } = related;
  const own = section.offsetsOf(finding.place).start;
  return [file, ...file.visible].flatMap(other => other.tree.blocks
    .filter(({ block, offset }) => block === elsewhere && !(other === file && offset + start === own))
    .map(({ offset }) => ({ file: other, range: other.lineIndex.rangeOf(offset + start, offset + end) })));
}

/** Offsets of the section from its head (leading comments left out) to the end of its last line. */
export function offsetsOfSection(file: LoadedFile, { firstBlock, section }: SectionInFile): { readonly start: number; readonly end: number } {
  const first = file.tree.blocks[firstBlock];
  const last = file.tree.blocks[firstBlock + section.blocks.length - 1];
  if (first === undefined || last === undefined) return { start: 0, end: file.text.length };
  return { start: first.offset + first.block.head.start, end: last.offset + endOfBlock(last.block) };
}

/** Where the last line of a block ends that says something: blank lines after it are nobody's. */
export function endOfBlock(block: Block): number {
  let end = block.head.end;
  for (const line of block.lines) if (line.node.kind !== 'blank') end = Math.max(end, endWithChildren(line));
  return end;
}
