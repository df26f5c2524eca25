/** A formula brought to another size in its own text: the one door for the command line and the editor. */
import type { Line } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { Place, ResolvedFormula, Section } from '../formula/model';
import { ownEdits } from '../variant/own-edits';
import { basePlace, exactPlace } from '../variant/places';
import { isScaled, scaleEdit } from './edit';
import { scaleFormula, type ScaleRequest } from './scale';
import type { NumberEdit, RoundingNote, ScaleStep } from './scene';

export type Rescaled =
  | { readonly kind: 'edit'; readonly factor: number; readonly edits: readonly NumberEdit[]; readonly notes: readonly RoundingNote[] }
  /** `place`: what stands in the way, if it is one line. */
  | { readonly kind: 'cannot'; readonly message: string; readonly place?: Place };

/** What is needed of an analysis. */
export interface Sized {
  readonly section: Section;
  readonly formula: ResolvedFormula;
  /** All the flour, g; null when it is not known. */
  readonly flourGrams: number | null;
}

export interface RescaleOptions {
  /** Leaves the `makes` line as it is: for amounts that are to come to what it says. */
  readonly keepsMakes?: boolean;
}

/**
 * The edit that brings a section to the size asked for, or a sentence that says why it cannot be: a variant that has weights
 * of another formula's; nothing that says how large it is; a line that cannot be read and would keep its
 * old size. No edit at all when it is that size already.
 */
export function rescale({ section, formula, flourGrams }: Sized, request: ScaleRequest, step: ScaleStep = {}, { keepsMakes = false }: RescaleOptions = {}): Rescaled {
  const based = formula.deltas.find(({ node }) => node.kind === 'based-on');
  if (formula.lacksBase) return { kind: 'cannot', message: 'The formula that it is based on is not to be found.', ...(based && { place: based.place }) };
  const unread = unreadLine(section);
  if (unread !== undefined) return { kind: 'cannot', place: unread, message: 'This line cannot be read, so it would keep its old size.' };
  const unsized = formula.troubles.find((trouble) => trouble.kind === 'no-size');
  if (unsized !== undefined) {
    const message = `Nothing says how much of "${unsized.part}" there is, so there is nothing to scale: give one weight, or write, for example, "makes 2 loaves of 900 g".`;
    return { kind: 'cannot', place: unsized.place, message };
  }
  const scaled = scaleFormula(formula, request, flourGrams);
  if (scaled.kind === 'cannot') return scaled;
  const { edits, notes } = scaleEdit({ section, formula, factor: scaled.factor, request, step, keepsMakes });
  if (edits.length === 0 && Math.abs(scaled.factor - 1) > 1e-6) {
    return { kind: 'cannot', message: 'It has no amounts that could be scaled.' };
  }
  const own = ownEdits(section, edits, 0);
  if (own === undefined) {
    return { kind: 'cannot', message: weightsElsewhere(section, edits), ...(based && { place: based.place }) };
  }
  const here = formula.makes?.place ?? formula.namePlace;
  return { kind: 'edit', factor: scaled.factor, edits: own, notes: [...scaled.notes.map((message) => ({ place: here, message })), ...notes] };
}

/** Which of the formulas that a variant is based on to scale, and which of them have weights that do not follow by themselves. */
function weightsElsewhere(section: Section, edits: readonly NumberEdit[]): string {
  const byHand: string[] = [];
  let holder = section;
  let places = edits.map(({ place }) => place);
  while (holder.variant !== undefined) {
    const here = holder;
    const rest = places.filter((place) => exactPlace(here, place) === undefined);
    if (rest.length === 0) break;
    if (rest.length < places.length) byHand.unshift(here === section ? 'this one' : `"${here.name}"`);
    places = rest.map((place) => basePlace(here, place)).filter((place) => place !== undefined);
    holder = holder.variant.base;
  }
  const also = byHand.length === 0 ? ',' : ` and by hand what ${byHand.join(' and ')} set${byHand.length === 1 ? 's' : ''} in grams,`;
  return `Its weights stand in "${holder.name}", which it is based on: scale that one${also} or write this one out in full first.`;
}

/** The first line, of those that could hold an amount, that was not read to its end. */
function unreadLine(section: Section): Place | undefined {
  for (const [index, block] of section.blocks.entries()) {
    if (block.head.node.kind === 'unknown') return placeOf(index, block.head);
    if (!isScaled(block) || block.head.node.kind === 'steps') continue;
    const bad = firstBad(block.lines);
    if (bad !== undefined) return placeOf(index, bad);
    const problem = block.problems.find(({ code }) => code === 'not-understood' || code === 'incomplete');
    if (problem !== undefined && block.head.node.kind === 'part') return placeOf(index, problem);
  }
  return undefined;
}

function firstBad(lines: readonly Line[]): Line | undefined {
  const waiting = [...lines].reverse();
  for (let line = waiting.pop(); line !== undefined; line = waiting.pop()) {
    if (line.node.kind === 'bad') return line;
    waiting.push(...[...line.children].reverse());
  }
  return undefined;
}
