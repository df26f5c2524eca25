/** A formula of a file at another size: what sizes it has, and the edit that brings it to one. */
import type { ResolvedFormula } from '../core/formula/model';
import { askedFor, isSize, SIZES, stepIn, type Size } from '../core/scaling/asked';
import { rescale } from '../core/scaling/rescale';
import { volumeWords } from '../core/scaling/scale';
import { titleOf } from '../output/entry';
import { counted, decimals, weight } from '../output/numbers';
import { rangeOfPlace, sectionAt, textEditIn } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import type { ScaleAnswer, ScaleParams, ScaleSize } from '../requests';

/**
 * The answer for the formula or dish at the offset; null where there is none. Without a request: the sizes that can be asked
 * for. With one: the edit, or a sentence that says why not.
 */
export function scaleAt(file: ProjectFile, offset: number, { request, step, smallStep }: Omit<ScaleParams, 'uri' | 'position'>): ScaleAnswer | null {
  const section = sectionAt(file, offset);
  const { formula, totals } = section?.analysis ?? {};
  if (section === undefined || formula === undefined || totals === undefined) return null;
  const title = titleOf(formula);
  if (request === undefined) return { kind: 'sizes', title, sizes: SIZES.flatMap(by => sizeOf(by, section) ?? []) };
  if (!isSize(request.by)) return { kind: 'cannot', message: `There is no size "${request.by}".` };
  const asked = askedFor(request.by, request.value, section.environment.measures);
  if (asked.kind === 'not-read') return { kind: 'cannot', message: `Write ${asked.expected}.` };
  const reads = stepIn(step, smallStep);
  if (reads.kind === 'not-read') return { kind: 'cannot', message: `The scale's step is ${reads.expected}.` };
  const rescaled = rescale({ section: section.section, formula, flourGrams: totals.flour_g }, asked.request, reads.step);
  if (rescaled.kind === 'cannot') return { kind: 'cannot', message: withLine(file, section, rescaled) };
  return {
    kind: 'edit',
    title: `Scale ${title} to ${decimals(rescaled.factor, 3)} times its size`,
    edits: rescaled.edits.map(({ place, newText }) => {
      const { start, end } = section.offsetsOf(place);
      return textEditIn(file, start, end, newText);
    }),
    notes: rescaled.notes.map(({ place, message }) => ({ line: rangeOfPlace(file, section, place).start.line, message })),
  };
}

function withLine(file: ProjectFile, section: PlacedSection, { message, place }: Extract<ReturnType<typeof rescale>, { kind: 'cannot' }>): string {
  return place === undefined ? message : `Line ${rangeOfPlace(file, section, place).start.line + 1}: ${message}`;
}

/** A way to say the size, with what it is now and an example; undefined where the formula does not know it. */
function sizeOf(by: Size, { analysis }: PlacedSection): ScaleSize | undefined {
  const { formula, totals } = analysis;
  if (formula === undefined || totals === undefined) return undefined;
  const { pieces, pieceGrams, noun, tinMillilitres } = formula.yield;
  switch (by) {
    case 'pieces':
      return pieces === null ? undefined : { by, label: `Number of ${noun}`, now: `${decimals(pieces, 2)} ${noun}`, example: decimals(pieces * 2, 2) };
    case 'piece':
      return pieceGrams === null ? undefined : { by, label: 'Weight of a piece', now: weight(pieceGrams), example: weight(pieceGrams) };
    case 'dough':
      return totals.dough_g === null ? undefined : { by, label: 'Weight of the dough', now: weight(totals.dough_g), example: weight(totals.dough_g * 2) };
    case 'flour':
      return !totals.flour_g ? undefined : { by, label: 'Weight of all the flour', now: weight(totals.flour_g), example: '1 kg' };
    case 'factor':
      return { by, label: 'Times what is written', now: '', example: '2' };
    case 'have': {
      const having = exampleOf(formula);
      return having === undefined ? undefined : { by, label: 'What I have of one ingredient', now: '', example: having };
    }
    case 'tin':
      if (tinMillilitres === null && pieceGrams === null) return undefined;
      return { by, label: 'Volume of a tin', now: tinMillilitres === null ? '' : volumeWords(tinMillilitres), example: '1.8 l' };
  }
}

/** `180 g starter`: what somebody may have less of than the formula takes. */
function exampleOf({ parts }: ResolvedFormula): string | undefined {
  const lines = parts.flatMap(part => part.lines).filter(({ part, grams }) => part === undefined && grams !== null && grams > 0);
  const line = lines.find(({ key }) => key === 'starter') ?? lines.find(({ ingredient }) => ingredient?.isWater !== true);
  if (line === undefined) return undefined;
  const eggs = line.source?.kind === 'ingredient' && line.source.amount.kind === 'count';
  return eggs ? counted(2, 'egg') : `${weight(line.grams)} ${line.name}`;
}
