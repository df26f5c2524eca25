/** From a place of a variant that is written out to the texts that stand in files. */
import type { Block, Span } from '../../../grammar';
import type { Place, Section } from '../formula/model';
import type { Change, Origin } from './model';

/** True for a place in the section's own text; false for one in a text that the base gives it. */
export function isOwnPlace({ variant }: Section, { block }: Place): boolean {
  return variant === undefined || block < variant.ownBlocks;
}

/**
 * Where the section's own text says what stands at a place: the place itself, the name or amount that a line of the variant
 * brings, that line, or else the `based on` line.
 */
export function ownPlace(section: Section, place: Place): Place {
  const { variant } = section;
  if (variant === undefined || isOwnPlace(section, place)) return place;
  const exact = exactPlace(section, place);
  return exact ?? changeAt(section, place)?.place ?? variant.basedOn;
}

/** The letters of a place where the section's own text has them; undefined when it has not. */
export function exactPlace(section: Section, place: Place): Place | undefined {
  if (isOwnPlace(section, place)) return place;
  const piece = originOf(section, place.block)?.pieces.find(({ start, end }) => start <= place.start && place.end <= end);
  if (piece?.own === undefined) return undefined;
  const start = piece.own.start + place.start - piece.start;
  return { block: piece.own.block, start, end: start + place.end - place.start };
}

/** The line of the variant that made the line at a place what it is; undefined when the base did, or the place is the variant's own. */
export function changeAt(section: Section, place: Place): Change | undefined {
  const found = originOf(section, place.block)?.changed.find(({ start, end }) => place.start <= end && place.end >= start);
  return found && section.variant?.changes[found.change];
}

/** The text in a file that a place of a section comes from: for what a variant changes, its own; else that of its base, or of the base of that. */
export function sourceOf(section: Section, place: Place): (Span & { readonly block: Block }) | undefined {
  const { variant } = section;
  if (variant === undefined || isOwnPlace(section, place)) {
    const block = section.blocks[place.block];
    return block && { block, start: place.start, end: place.end };
  }
  const exact = exactPlace(section, place);
  if (exact !== undefined) return sourceOf(section, exact);
  const base = basePlace(section, place);
  return base && sourceOf(variant.base, base);
}

/** The section whose own text says what stands at a place: the variant, or the one of its bases that has it. */
export function holderOf(section: Section, place: Place): Section {
  let [holder, at] = [section, place];
  while (holder.variant !== undefined && exactPlace(holder, at) === undefined) {
    const from = basePlace(holder, at);
    if (from === undefined) break;
    [holder, at] = [holder.variant.base, from];
  }
  return holder;
}

/** The place in the written-out base that a place of an inherited block comes from; undefined for what the base has not. */
export function basePlace(section: Section, { block, start, end }: Place): Place | undefined {
  const origin = originOf(section, block);
  const piece = origin?.pieces.find((one) => one.from !== undefined && one.start <= start && start <= one.end);
  if (origin === undefined || piece?.from === undefined) return undefined;
  const from = piece.from + start - piece.start;
  const last = origin.pieces.find((one) => one.from !== undefined && one.start <= end && end <= one.end);
  return { block: origin.block, start: from, end: last?.from === undefined ? from : Math.max(from, last.from + end - last.start) };
}

function originOf({ variant }: Section, block: number): Origin | undefined {
  return variant?.origins[block - variant.ownBlocks];
}
