/** What the checks on the lines of a variant share. */
import type { Place, Section } from '../formula/model';
import { sourceOf } from '../variant/places';
import type { Fix, Related } from './check';
import { named, writtenName } from './words';

/** Writes `in PART` at the end of a change, before a note. */
export function inPart(section: Section, change: number, part: string): Fix {
  const { node, place } = section.variant?.changes[change] ?? {};
  const note = node?.kind === 'add' ? node.line.note : undefined;
  const text = section.blocks[place?.block ?? 0]?.text ?? '';
  const end = note === undefined ? (place?.end ?? 0) : text.slice(0, note.start).replace(/\s*,\s*$/, '').length;
  return {
    title: `Change it in ${named(part)}`,
    certain: false,
    edits: place === undefined ? [] : [{ place: { block: place.block, start: end, end }, newText: ` in ${writtenName(part)}` }],
  };
}

/** The same for the change that begins at a place. */
export function inPartAt(section: Section, { block, start }: Place, part: string): readonly Fix[] {
  const change = section.variant?.changes.findIndex(({ place }) => place.block === block && place.start === start) ?? -1;
  return change < 0 ? [] : [inPart(section, change, part)];
}

/** Lines of the base, where they stand. */
export function inBase(section: Section, lines: readonly Place[], message: string): readonly Related[] {
  const base = section.variant?.base;
  return lines.flatMap((line): readonly Related[] => {
    const source = base && sourceOf(base, line);
    return source === undefined ? [] : [{ elsewhere: source.block, start: source.start, end: source.end, message }];
  });
}
