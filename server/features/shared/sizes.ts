/** The sizes of a formula, and what of its text changes at another: for the scale command, and for a preview at another size. */
import { parse } from '../../../grammar';
import { analyse, type Analysis, type Environment } from '../../core/analyse';
import { sectionsOf } from '../../core/formula/sections';
import type { Place, ResolvedFormula, Section } from '../../core/formula/model';
import { applyNumberEdits } from '../../core/scaling/apply';
import { askedFor, isSize, SIZES, stepIn, type Size } from '../../core/scaling/asked';
import { rescale, type Rescaled } from '../../core/scaling/rescale';
import { volumeWords } from '../../core/scaling/scale';
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
export function rescaledTo(file: ProjectFile, placed: PlacedSection, { by, value, step, smallStep }: ViewSize): Extract<Rescaled, { readonly kind: 'edit' }> | Cannot {
  const { environment, analysis: { section, formula, totals } } = placed;
  if (formula === undefined || totals === undefined) return { kind: 'cannot', message: 'Nothing is there that could be scaled.' };
  if (!isSize(by)) return { kind: 'cannot', message: `There is no size "${by}".` };
  const asked = askedFor(by, value, environment.measures);
  if (asked.kind === 'not-read') return { kind: 'cannot', message: `Write ${asked.expected}.` };
  const reads = stepIn(step, smallStep);
  if (reads.kind === 'not-read') return { kind: 'cannot', message: `The scale's step is ${reads.expected}.` };
  const found = rescale({ section, formula, flourGrams: totals.flour_g }, asked.request, reads.step);
  if (found.kind === 'edit' || found.place === undefined) return found;
  return { kind: 'cannot', message: `Line ${rangeOfPlace(file, placed, found.place).start.line + 1}: ${found.message}` };
}

/** A formula as it would stand in its file at another size, with everything known of it then. */
export interface AtSize {
  readonly kind: 'at-size';
  readonly section: Section;
  readonly analysis: Analysis;
  /** Times the size written; 1 when it is that size. */
  readonly factor: number;
  /** What rounding and whole eggs did; lines from 1. */
  readonly notes: readonly { readonly line: number; readonly message: string }[];
  /** Line of the file as it stands, from 1, of a place in the section. */
  readonly lineOf: (place: Place) => number;
}

/** The formula brought to a size, as the scale command would write it; the file stays as it is. */
export function atSize(file: ProjectFile, placed: PlacedSection, size: ViewSize): AtSize | Cannot {
  const found = rescaledTo(file, placed, size);
  if (found.kind === 'cannot') return found;
  const { blocks } = placed.section;
  const texts = blocks.map(({ text }, index) => applyNumberEdits(text, found.edits.filter(({ place }) => place.block === index), place => place));
  const again = sectionsOf(parse(texts.join('')).blocks.map(({ block }) => block))[0]?.section;
  if (again === undefined || again.blocks.length !== blocks.length) return { kind: 'cannot', message: 'It cannot be read at that size.' };
  // Numbers change and no line comes or goes, so a line of a block is the same line of the block as it stands.
  const starts = blocks.map(({ text }) => lineStarts(text));
  const lineOf = ({ block, start }: Place): number => {
    const line = lineStarts((again.blocks[block]?.text ?? '').slice(0, start)).length - 1;
    const at = starts[block]?.[line] ?? 0;
    return file.lineIndex.positionAt(placed.offsetsOf({ block, start: at, end: at }).start).line + 1;
  };
  return {
    kind: 'at-size', section: again, factor: found.factor, lineOf,
    analysis: analyse(again, withSection(placed, again)),
    notes: found.notes.map(({ place, message }) => ({ line: rangeOfPlace(file, placed, place).start.line + 1, message })),
  };
}

function lineStarts(text: string): readonly number[] {
  return [0, ...[...text.matchAll(/\r\n|\n|\r/g)].map(({ index, 0: end }) => index + end.length)];
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
