/** A variant, written out in full: what it takes from its base is written into it, and nothing is based on anything. */
import { formatBlock, type Block, type Line } from '../../../grammar';
import type { Edit } from '../checks/edits';
import type { Place, Section } from '../formula/model';
import type { Origin, Variant } from '../variant/model';
import type { Refactoring, Scene } from './refactoring';

export function variantInFull({ section, formula, at }: Scene): readonly Refactoring[] {
  const { variant } = section;
  if (variant === undefined || formula.kind !== 'formula' || section.blocks[at.block]?.head.node.kind !== 'formula' || at.block >= variant.ownBlocks) return [];
  // A line that changes nothing would be lost without a trace.
  if (variant.troubles.some(({ kind }) => kind !== 'elsewhere-too')) return [];
  return [{
    id: 'variant-in-full', kind: 'rewrite', title: `Write this variant of “${variant.base.name}” out in full`,
    edits: () => inFull(section, variant),
  }];
}

function inFull(section: Section, variant: Variant): readonly Edit[] {
  const first = section.blocks[0]?.text ?? '';
  const lineEnd = first.includes('\r\n') ? '\r\n' : '\n';
  const moved = new Set<number>();
  const blocks = new Map<number, string>();
  for (const index of variant.order) {
    const block = section.blocks[index];
    const origin = variant.origins[index - variant.ownBlocks];
    if (block === undefined || origin === undefined || block.head.node.kind === 'formula') continue;
    blocks.set(index, blockText(section, block, origin, moved, lineEnd));
  }
  return [...headEdits(section, variant, moved, lineEnd), ...insertions(section, variant, blocks, lineEnd)]
    .sort((a, b) => a.place.block - b.place.block || a.place.start - b.place.start);
}

/** A block that the base gives, with the comments of the lines that changed it. */
function blockText(section: Section, block: Block, origin: Origin, moved: Set<number>, lineEnd: string): string {
  let { text } = block;
  // From the last line back, so that what is in front stays where it is.
  for (const line of [...block.lines].reverse()) {
    const change = origin.changed.find(({ start }) => start === line.start)?.change;
    const comment = change === undefined || moved.has(change) ? undefined : commentOf(section, change);
    if (change === undefined || comment === undefined) continue;
    moved.add(change);
    const before = line.comment === undefined ? line.end : lineStart(text, line.start);
    const indent = text.slice(lineStart(text, line.start), line.start);
    text = line.comment === undefined ? `${text.slice(0, before)}  ${comment}${text.slice(before)}` : `${text.slice(0, before)}${indent}${comment}${lineEnd}${text.slice(before)}`;
  }
  const laid = origin.pieces.length === 1 && text === block.text ? text : formatBlock(text);
  const own = laid.replace(/\r?\n/g, '\n').replace(/\n*$/, '\n');
  const apart = own.startsWith('\n') ? own : `\n${own}`;
  return apart.replaceAll('\n', lineEnd);
}

/** The comment behind a change, `#` included. */
function commentOf(section: Section, change: number): string | undefined {
  const place = section.variant?.changes[change]?.place;
  const block = place && section.blocks[place.block];
  const line = block?.lines.find(({ start }) => start === place?.start);
  return line?.comment === undefined ? undefined : block?.text.slice(line.comment.start, line.comment.end);
}

/** The lines of a variant go, with what the base's head says in the place of the first; comments without a line to go to stay. */
function headEdits(section: Section, variant: Variant, moved: ReadonlySet<number>, lineEnd: string): readonly Edit[] {
  const { block: index } = variant.basedOn;
  const { text = '', lines = [] } = section.blocks[index] ?? {};
  const indent = text.slice(lineStart(text, variant.basedOn.start), variant.basedOn.start);
  const inherited = section.blocks.slice(variant.ownBlocks).filter(({ head }) => head.node.kind === 'formula').flatMap((block) => block.lines
    .filter(({ node }) => node.kind === 'property' || node.kind === 'makes')
    .map((line) => `${indent}${block.text.slice(line.start, line.end)}${lineEnd}`));
  return lines.flatMap((line): readonly Edit[] => {
    const { kind } = line.node;
    if (kind !== 'based-on' && kind !== 'swap' && kind !== 'set' && kind !== 'add' && kind !== 'drop') return [];
    const change = variant.changes.findIndex(({ place }) => place.block === index && place.start === line.node.start);
    const comment = line.comment === undefined || moved.has(change) ? '' : `${indent}${text.slice(line.comment.start, line.comment.end)}${lineEnd}`;
    const isFirst = line.node.start === variant.basedOn.start;
    const newText = `${comment}${isFirst ? inherited.join('') : ''}`;
    const start = lineStart(text, line.start);
    const end = lineBehind(text, line);
    // A last line without an end lends its own to none.
    return [{ place: { block: index, start, end }, newText: text.slice(start, end).endsWith('\n') ? newText : newText.replace(/\r?\n$/, '') }];
  });
}

/** Each inherited block behind the block that comes before it. */
function insertions(section: Section, variant: Variant, blocks: ReadonlyMap<number, string>, lineEnd: string): readonly Edit[] {
  const texts = new Map<number, string>();
  let behind = 0;
  for (const index of variant.order) {
    const text = blocks.get(index);
    if (text !== undefined) texts.set(behind, `${texts.get(behind) ?? ''}${text}`);
    else if (index < variant.ownBlocks) behind = index;
  }
  return [...texts].map(([block, text]): Edit => {
    const own = section.blocks[block]?.text ?? '';
    // Blank lines at the end of a file belong to its last block.
    const end = own.trimEnd().length + (/^[ \t]*\r?\n/.exec(own.slice(own.trimEnd().length))?.[0].length ?? 0);
    const place: Place = { block, start: end, end };
    return { place, newText: own.slice(0, end).endsWith('\n') ? text : `${lineEnd}${text.replace(/\r?\n$/, '')}` };
  });
}

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf('\n', offset - 1) + 1;
}

function lineBehind(text: string, { end }: Line): number {
  const after = text.indexOf('\n', end);
  return after < 0 ? text.length : after + 1;
}
