/** The sizes of a formula, and what of its text changes at another: for the scale command, and for a preview at another size. */
import { parse } from '../../../grammar';
import { analyse, type Analysis, type Environment } from '../../core/analyse';
import { sectionsOf } from '../../core/formula/sections';
import type { Place, ResolvedFormula, Section } from '../../core/formula/model';
import { sheetOf } from '../../core/formula/sheet';
import { totalsOf } from '../../core/formula/totals';
import { applyNumberEdits } from '../../core/scaling/apply';
import { askedFor, isSize, SIZES, stepIn, type Size } from '../../core/scaling/asked';
import { rescale, type Rescaled } from '../../core/scaling/rescale';
import { scaleFormula, volumeWords, type ScaleRequest } from '../../core/scaling/scale';
import type { NumberEdit, ScaleStep } from '../../core/scaling/scene';
import { ownPlace } from '../../core/variant/places';
import { counted, decimals, weight } from '../../output/numbers';
import { rangeOfPlace } from '../../project/file';
import type { PlacedSection, ProjectFile } from '../../project/file';
import type { ScaleSize, ViewSize } from '../../requests';

export interface Cannot {
  readonly kind: 'cannot';
  /** Why not, in a sentence. */
  readonly message: string;
}

/** The ways to say the size of a formula or dish; none where it has no amounts yet. */
export function sizesOf({ analysis: { formula, totals } }: Pick<PlacedSection, 'analysis'>): readonly ScaleSize[] {
  if (formula === undefined || totals === undefined) return [];
  return SIZES.flatMap(by => sizeOf(by, formula, totals) ?? []);
}

/** What of its text changes at the size asked for in a baker's words, or a sentence that says why it cannot have that size. */
export function rescaledTo(file: ProjectFile, placed: PlacedSection, size: ViewSize): Extract<Rescaled, { readonly kind: 'edit' }> | Cannot {
  const { section, formula, totals } = placed.analysis;
  const asked = requestFor(placed, size);
  if (asked.kind === 'cannot') return asked;
  if (formula === undefined || totals === undefined) return NOTHING_THERE;
  const found = rescale({ section, formula, flourGrams: totals.flour_g }, asked.request, asked.step);
  if (found.kind === 'edit' || found.place === undefined) return found;
  return { kind: 'cannot', message: `Line ${rangeOfPlace(file, placed, found.place).start.line + 1}: ${found.message}` };
}

const NOTHING_THERE: Cannot = { kind: 'cannot', message: 'Nothing is there that could be scaled.' };

function requestFor({ environment }: PlacedSection, { by, value, step, smallStep }: ViewSize): { readonly kind: 'asked'; readonly request: ScaleRequest; readonly step: ScaleStep } | Cannot {
  if (!isSize(by)) return { kind: 'cannot', message: `There is no size "${by}".` };
  const asked = askedFor(by, value, environment.measures);
  if (asked.kind === 'not-read') return { kind: 'cannot', message: `Write ${asked.expected}.` };
  const reads = stepIn(step, smallStep);
  if (reads.kind === 'not-read') return { kind: 'cannot', message: `The scale's step is ${reads.expected}.` };
  return { kind: 'asked', request: asked.request, step: reads.step };
}

/** A formula as it would stand in its file at another size, with everything known of it then. */
export interface AtSize {
  readonly kind: 'at-size';
  readonly analysis: Analysis;
  /** Times the size written; 1 when it is that size. */
  readonly factor: number;
  /** What rounding and whole eggs did; lines from 1. */
  readonly notes: readonly { readonly line: number; readonly message: string }[];
  /** Line of the file as it stands, from 1, of a place in the section of the analysis. */
  readonly lineOf: (place: Place) => number;
  /** Why it can be looked at in this size and not be written so, in a sentence; undefined where it can. */
  readonly whyNotWritten?: string;
}

/** The formula brought to a size, as the scale command would write it; the file stays as it is. */
export function atSize(file: ProjectFile, placed: PlacedSection, size: ViewSize): AtSize | Cannot {
  const found = rescaledTo(file, placed, size);
  if (found.kind === 'cannot') return inheritedAtSize(file, placed, size, found) ?? found;
  const { blocks } = placed.section;
  const editsOf = (block: number) => found.edits.filter(({ place }) => place.block === block);
  const again = sectionsOf(parse(blocks.map(({ text }, index) => applyNumberEdits(text, editsOf(index), place => place)).join('')).blocks.map(({ block }) => block))[0]?.section;
  if (again === undefined || again.blocks.length !== blocks.length) return { kind: 'cannot', message: 'It cannot be read at that size.' };
  const analysis = analyse(again, withSection(placed, again));
  return {
    kind: 'at-size', factor: found.factor, analysis,
    lineOf: place => {
      const { block, start } = place.block < again.blocks.length ? place : ownPlace(analysis.section, place);
      const at = beforeEdits(editsOf(block), start);
      return lineIn(file, placed, { block, start: at, end: at });
    },
    notes: found.notes.map(({ place, message }) => ({ line: lineIn(file, placed, place), message })),
  };
}

/** A variant whose weights are its base's has no text to write another size into; it can be looked at all the same. */
function inheritedAtSize(file: ProjectFile, placed: PlacedSection, size: ViewSize, { message }: Cannot): AtSize | undefined {
  const { analysis } = placed;
  const { formula, totals } = analysis;
  const asked = requestFor(placed, size);
  if (asked.kind === 'cannot' || analysis.section.variant === undefined || formula === undefined || totals === undefined || formula.lacksBase) return undefined;
  const scaled = scaleFormula(formula, asked.request, totals.flour_g);
  if (scaled.kind === 'cannot') return undefined;
  return {
    kind: 'at-size', factor: scaled.factor, lineOf: place => lineIn(file, placed, place), notes: [], whyNotWritten: message,
    analysis: { ...analysis, formula: scaled.formula, totals: totalsOf(scaled.formula), sheet: sheetOf(scaled.formula) },
  };
}

/** Line of the file, from 1. */
function lineIn(file: ProjectFile, placed: PlacedSection, place: Place): number {
  return file.lineIndex.positionAt(placed.offsetsOf(place).start).line + 1;
}

/** Where in a text that stood which stands at an offset after edits of it; what an edit brought stands where that edit is. */
function beforeEdits(edits: readonly NumberEdit[], offset: number): number {
  let grown = 0;
  for (const { place: { start, end }, newText } of edits) {
    if (offset < start + grown) break;
    if (offset < start + grown + newText.length) return start;
    grown += newText.length - (end - start);
  }
  return offset - grown;
}

/** What a formula has around it when its text is another: formulas look each other up by name, themselves too. */
function withSection({ section, environment }: PlacedSection, again: Section): Environment {
  const formulas = new Map([...environment.formulas].map(([name, known]) => [name, known === section ? again : known] as const));
  return { ...environment, formulas };
}

/** A way to say the size, with what it is now and an example; undefined where the formula does not know it. */
function sizeOf(by: Size, formula: ResolvedFormula, totals: NonNullable<Analysis['totals']>): ScaleSize | undefined {
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
