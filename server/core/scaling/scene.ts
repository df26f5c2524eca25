/** One run of scaling, and how a single amount is written anew in it. */
import type { Amount, CountAmount, MassAmount, Num, Quantity, Span, VolumeAmount } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { Place, ResolvedFormula, ResolvedLine, Section } from '../formula/model';
import { gramsFrom, middleOf } from '../units/mass';
import { decimalText, inTheWayOf, isWritten, stepInUnit, toScaleStep, type Direction } from './numbers';
import type { ScaleRequest } from './scale';

/** A change of one number in the text, or of a noun or the spaces beside it. */
export interface NumberEdit {
  readonly place: Place;
  readonly newText: string;
}

/** What rounding did to a line that a baker should know: more than 1 % off, or an egg that had to stay whole. */
export interface RoundingNote {
  readonly place: Place;
  readonly message: string;
  /** What the whole is short of by it, g (less than nothing: over), where nothing made up for it. */
  readonly missingGrams?: number;
}

export interface ScaleStep {
  /** Grams that the scale reads to; nothing is rounded without it. */
  readonly grams?: number;
  /** The same for salt, leaven and spice; `grams` if not given. */
  readonly smallGrams?: number;
}

export interface Scene {
  readonly section: Section;
  readonly formula: ResolvedFormula;
  readonly factor: number;
  readonly request: ScaleRequest;
  readonly step: ScaleStep;
  readonly keepsMakes: boolean;
  readonly edits: NumberEdit[];
  readonly notes: RoundingNote[];
  /** Lines of the formula by `keyOf` their places. */
  readonly resolved: ReadonlyMap<string, ResolvedLine>;
  /** Lines that must not be rounded to the nearest. */
  readonly directions: ReadonlyMap<string, Direction>;
  /** Grams to add to a line, by its place. */
  readonly corrections: Map<string, number>;
  /** What lines were and became: grams where they are weighed, pieces where they are counted. */
  readonly weights: Map<string, { readonly kind: 'mass' | 'count'; readonly before: number; readonly after: number }>;
}

/** What an amount is the amount of. */
export interface Of {
  readonly line?: ResolvedLine | undefined;
  readonly direction?: Direction | undefined;
  /** Counted in pieces that are not cut. */
  readonly whole?: boolean;
}

const NOTE_FROM = 0.01;
/** What alone says how much there is goes to a hundredth of a spoon, cup or ounce where a scale step is asked for. */
const FINEST_SPOON = 0.01;

export function keyOf(place: Place): string {
  return `${place.block}:${place.start}`;
}

/** The scale's step for a line; undefined when nothing is rounded. */
export function stepFor(line: Pick<ResolvedLine, 'role' | 'part'> | undefined, step: ScaleStep): number | undefined {
  const small = line !== undefined && (line.role === 'salt' || line.role === 'leaven' || line.role === 'spice') && line.part === undefined;
  return (small ? step.smallGrams : undefined) ?? step.grams;
}

export function scaleAmount(amount: Amount, block: number, scene: Scene, of: Of): void {
  switch (amount.kind) {
    case 'mass':
      return scaleMass(amount, block, scene, of);
    case 'volume':
      return scaleVolume(amount, block, scene, of);
    case 'count':
      return scaleCount(amount, block, scene, of);
    case 'pinch':
      if (amount.bracket) scaleMass(amount.bracket, block, scene, of);
      return scalePinch(amount, block, scene, of);
    case 'share':
      // A weight in brackets counts, whatever the share says.
      if (amount.bracket) scaleMass(amount.bracket, block, scene, of);
      return;
    case 'all':
      return;
  }
}

export function scaleMass(amount: MassAmount, block: number, scene: Scene, { line, direction }: Of): void {
  const key = line && keyOf(line.place);
  const step = stepFor(line, scene.step);
  const unitStep = step === undefined ? undefined : stepInUnit(step, amount.unit);
  const correction = key === undefined ? 0 : (scene.corrections.get(key) ?? 0) / gramsFrom(1, amount.unit);
  const way = direction ?? (key === undefined ? undefined : scene.directions.get(key)) ?? 'nearest';
  const scaled = (value: number): number => {
    const exact = value * scene.factor + correction;
    return unitStep === undefined || exact === 0 ? exact : toScaleStep(exact, unitStep, way);
  };
  scaleQuantity(amount.quantity, scaled, block, scene);
  const [before, exact] = [middleOf(amount.quantity), middleOf(amount.quantity) * scene.factor + correction];
  const after = scaled(before);
  if (key !== undefined) scene.weights.set(key, { kind: 'mass', before: gramsFrom(before, amount.unit), after: gramsFrom(after, amount.unit) });
  if (line === undefined || unitStep === undefined || exact === 0) return;
  const off = Math.abs(after / exact - 1);
  const place = placeOf(block, amount);
  if (Math.round(exact / unitStep) === 0) {
    scene.notes.push({ place, message: `${line.name}: ${decimalText(after)} ${amount.unit} is less than a scale shows that reads to ${decimalText(unitStep)} ${amount.unit}.` });
  } else if (off > NOTE_FROM) {
    scene.notes.push({ place, message: `${line.name}: rounding to ${decimalText(unitStep)} ${amount.unit} moves it by ${(off * 100).toFixed(1)} %${shareMoved(line, after / exact)}.` });
  }
}

/** What a rounded weight is of the flour of its part, before and after. */
function shareMoved({ pct, listed }: ResolvedLine, ratio: number): string {
  const share = listed?.pct ?? pct;
  if (share === null || share === 0) return '';
  const [before, after] = [share, share * ratio].map((value) => decimalText(Number(value.toFixed(value < 10 ? 2 : 1))));
  return before === after ? '' : `, from ${before} to ${after} baker's %`;
}

function scaleVolume(amount: VolumeAmount, block: number, scene: Scene, of: Of): void {
  const spoons = amount.unit === 'cup' || amount.unit === 'tbsp' || amount.unit === 'tsp';
  const { line } = of;
  const middle = middleOf(amount.quantity);
  const grams = line?.listed?.grams ?? line?.grams ?? null;
  const corrected = line === undefined || grams === null || grams === 0 ? 0 : ((scene.corrections.get(keyOf(line.place)) ?? 0) * middle) / grams;
  // Beside a weight that counts, a spoon need not be exact: it goes to an eighth, as spoons are marked.
  const isLoose = spoons && amount.bracket !== undefined && scene.step.grams !== undefined;
  const measured = (value: number): number => {
    const exact = value * scene.factor + corrected;
    if (scene.step.grams === undefined || exact <= 0) return exact;
    if (isLoose) return Math.max(1, Math.round(exact * 8)) / 8;
    return toScaleStep(exact, amount.unit === 'ml' ? scene.step.grams : amount.unit === 'l' ? scene.step.grams / 1000 : FINEST_SPOON);
  };
  scaleQuantity(amount.quantity, measured, block, scene, spoons);
  if (amount.bracket) scaleMass(amount.bracket, block, scene, of);
}

function scaleCount(amount: CountAmount, block: number, scene: Scene, of: Of): void {
  const { quantity, bracket } = amount;
  const { line } = of;
  const isWhole = of.whole === true || line?.role === 'egg';
  const counted = (value: number): number => roundedCount(value * scene.factor, isWhole);
  scaleQuantity(quantity, counted, block, scene, true);
  if (line !== undefined) {
    const before = middleOf(quantity);
    scene.weights.set(keyOf(line.place), { kind: 'count', before, after: counted(before) });
    noteCount(line.name, quantity, counted, scene, line.amountPlace);
  }
  if (bracket) scaleMass(bracket, block, scene, of);
}

/** Eggs and loaves are whole, at least one; a lemon can be halved, and a small piece quartered. */
export function roundedCount(exact: number, isWhole: boolean): number {
  if (exact === 0) return 0;
  if (isWhole) return Math.max(1, Math.round(exact + 1e-9));
  const cut = exact < 1 ? 4 : 2;
  return Math.max(0.25, Math.round(exact * cut + 1e-9) / cut);
}

function noteCount(name: string, quantity: Quantity, counted: (value: number) => number, scene: Scene, place: Place): void {
  const exact = middleOf(quantity) * scene.factor;
  const taken = counted(middleOf(quantity));
  if (quantity.high || Math.abs(taken - exact) < 1e-6 * Math.max(1, exact)) return;
  scene.notes.push({ place, message: `${name}: ${decimalText(Number(exact.toPrecision(3)))} is taken as ${decimalText(taken)}.` });
}

/** A bare `pinch` becomes `2 pinches` and back; nobody weighs half a pinch. */
function scalePinch(amount: Extract<Amount, { kind: 'pinch' }>, block: number, scene: Scene, { line }: Of): void {
  const before = amount.quantity ? middleOf(amount.quantity) : 1;
  const after = before === 0 ? 0 : Math.max(1, Math.round(before * scene.factor + 1e-9));
  const { text } = scene.section.blocks[block] ?? { text: '' };
  const written = text.slice(amount.start, amount.bracket ? amount.bracket.start : amount.end);
  const word = /^.*?pinch(?:es)?/i.exec(written);
  if (line !== undefined && Math.abs(after - before * scene.factor) > 1e-6) {
    scene.notes.push({ place: line.amountPlace, message: `${line.name}: ${decimalText(Number((before * scene.factor).toPrecision(3)))} pinches are taken as ${after}.` });
  }
  if (amount.quantity?.high) return scaleQuantity(amount.quantity, (value) => Math.max(1, Math.round(value * scene.factor)), block, scene);
  if (word === null || after === before) return;
  const span: Span = { start: amount.start, end: amount.start + word[0].length };
  putText(span, word[0], after === 1 ? 'pinch' : `${after} pinches`, block, scene);
}

export function scaleQuantity(quantity: Quantity, scaled: (value: number) => number, block: number, scene: Scene, spoons = false): void {
  for (const number of [quantity.low, quantity.high]) {
    if (number) putNumber(number, scaled(number.value), block, scene, spoons);
  }
}

export function putNumber(number: Num, value: number, block: number, scene: Scene, spoons = false): void {
  // What did not change keeps its spelling, `07` and `2.40` too.
  if (isWritten(number.value, value)) return;
  putText(number, number.text, inTheWayOf(number, value, spoons), block, scene);
}

export function putText(span: Span, before: string, newText: string, block: number, scene: Scene): void {
  if (newText !== before) scene.edits.push({ place: placeOf(block, { start: span.start, end: span.end }), newText });
}
