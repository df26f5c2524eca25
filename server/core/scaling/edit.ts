import type { Amount, BodyNode, Line, MakesLine, MassAmount, Num, Quantity, VolumeAmount } from '../../../grammar';
import { toGrams } from '../units/mass';
import type { Place, ResolvedFormula, ResolvedLine, Section } from '../formula/model';
import { placeOf } from '../formula/gather';
import { decimalText, fractionText, toScaleStep } from './numbers';
import type { ScaleRequest } from './scale';

/** A change of one number in the text. */
export interface NumberEdit {
  readonly place: Place;
  readonly newText: string;
}

/** What rounding did to a line that a baker should know: more than 1 % off, or an egg that had to stay whole. */
export interface RoundingNote {
  readonly place: Place;
  readonly message: string;
}

export interface ScaleEdit {
  readonly edits: readonly NumberEdit[];
  readonly notes: readonly RoundingNote[];
}

export interface ScaleStep {
  /** Grams that the scale reads to; nothing is rounded without it. */
  readonly grams?: number;
  /** The same for salt, leaven and spice; `grams` if not given. */
  readonly smallGrams?: number;
}

const NOTE_FROM = 0.01;

/**
 * The edit of a section's own numbers that makes it `factor` times as large. Only amounts change: grams, volumes, counts,
 * `makes`, `keep`, `yields`, weighed portions of steps. Shares, times, temperatures, comments, layout and units stay.
 *
 * Counts go to whole pieces, and where an egg is rounded the first liquid of its part is corrected by the weight that is
 * missing. Scaling by k and then by 1/k gives the text back, rounded counts and a scale step aside.
 */
export function scaleEdit(section: Section, formula: ResolvedFormula, factor: number, request: ScaleRequest, step: ScaleStep = {}): ScaleEdit {
  const edits: NumberEdit[] = [];
  const notes: RoundingNote[] = [];
  const scene: Scene = { factor, request, step, edits, notes, resolved: linesByPlace(formula) };
  section.blocks.forEach((block, index) => {
    const kind = block.head.node.kind;
    if (kind === 'record' || kind === 'ingredient' || kind === 'use' || kind === 'plan') return;
    correctLiquids(index, block.lines, scene);
    block.lines.forEach((line) => scaleLine(line, index, scene));
  });
  return { edits, notes };
}

interface Scene {
  readonly factor: number;
  readonly request: ScaleRequest;
  readonly step: ScaleStep;
  readonly edits: NumberEdit[];
  readonly notes: RoundingNote[];
  readonly resolved: ReadonlyMap<string, ResolvedLine>;
  /** Grams to add to a line, by its place. */
  readonly corrections?: Map<string, number>;
}

function linesByPlace(formula: ResolvedFormula): ReadonlyMap<string, ResolvedLine> {
  return new Map(formula.parts.flatMap((part) => part.lines.map((line) => [keyOf(line.place), line] as const)));
}

function keyOf(place: Place): string {
  return `${place.block}:${place.start}`;
}

function scaleLine(line: Line, block: number, scene: Scene): void {
  scaleNode(line.node, block, scene);
  line.children.forEach((child) => scaleLine(child, block, scene));
}

function scaleNode(node: BodyNode, block: number, scene: Scene): void {
  switch (node.kind) {
    case 'ingredient':
    case 'uses': {
      const resolved = scene.resolved.get(keyOf(placeOf(block, node)));
      scaleAmount(node.amount, block, scene, resolved);
      return;
    }
    case 'makes':
      return scaleMakes(node, block, scene);
    case 'property':
      if (node.value.kind === 'amount' && (node.key === 'keep' || node.key === 'yields')) scaleAmount(node.value.amount, block, scene, undefined);
      else if (node.key === 'serves' && node.value.kind === 'number') write(node.value.number, node.value.number.value * scene.factor, block, scene);
      return;
    case 'step':
      for (const detail of node.details) {
        if (detail.kind === 'add' && detail.portion.kind === 'amount') scaleAmount(detail.portion.amount, block, scene, undefined);
      }
      return;
    case 'flour-share':
    case 'based-on':
    case 'swap':
    case 'drop':
    case 'blank':
    case 'comment':
    case 'bad':
      return;
    case 'set':
      return scaleAmount(node.amount, block, scene, undefined);
    case 'add':
      return scaleAmount(node.line.amount, block, scene, undefined);
  }
}

function scaleMakes(node: MakesLine, block: number, scene: Scene): void {
  const { request, factor } = scene;
  // By the weight of a piece the pieces grow; any other way there are more of them.
  if (node.pieces && request.by !== 'piece') scaleQuantity(node.pieces, (value) => decimalText(value * factor), block, scene);
  else if (node.each) scaleQuantity(node.each.quantity, (value) => decimalText(value * factor), block, scene);
}

function scaleAmount(amount: Amount, block: number, scene: Scene, line: ResolvedLine | undefined): void {
  switch (amount.kind) {
    case 'mass':
      return scaleMass(amount, block, scene, line);
    case 'volume':
      return scaleVolume(amount, block, scene, line);
    case 'count':
      return scaleCount(amount.quantity, block, scene, line, () => amount.bracket && scaleMass(amount.bracket, block, scene, line));
    case 'pinch':
      if (amount.quantity) scaleQuantity(amount.quantity, (value) => String(Math.max(1, Math.round(value * scene.factor))), block, scene);
      return;
    case 'share':
    case 'all':
      return;
  }
}

function scaleMass(amount: MassAmount, block: number, scene: Scene, line: ResolvedLine | undefined): void {
  const step = stepFor(line, scene.step);
  const unitGrams = toGrams({ ...amount, quantity: one(amount.quantity) });
  const correction = line ? (scene.corrections?.get(keyOf(line.place)) ?? 0) : 0;
  scaleQuantity(amount.quantity, (value) => {
    const exact = value * scene.factor + correction / unitGrams;
    if (step === undefined) return decimalText(exact);
    const rounded = toScaleStep(exact * unitGrams, step) / unitGrams;
    const off = Math.abs(rounded / exact - 1);
    if (off > NOTE_FROM && line) {
      scene.notes.push({ place: placeOf(block, amount), message: `${line.name}: rounding to ${step} g moves it by ${(off * 100).toFixed(1)} %.` });
    }
    return decimalText(rounded);
  }, block, scene);
}

function scaleVolume(amount: VolumeAmount, block: number, scene: Scene, line: ResolvedLine | undefined): void {
  const spoons = amount.unit === 'cup' || amount.unit === 'tbsp' || amount.unit === 'tsp';
  scaleQuantity(amount.quantity, (value) => {
    const scaled = value * scene.factor;
    return (spoons ? fractionText(scaled) : undefined) ?? decimalText(scaled);
  }, block, scene);
  if (amount.bracket) scaleMass(amount.bracket, block, scene, line);
}

function scaleCount(quantity: Quantity, block: number, scene: Scene, line: ResolvedLine | undefined, bracket: () => void): void {
  scaleQuantity(quantity, (value) => {
    const exact = value * scene.factor;
    const whole = Math.max(1, Math.round(exact));
    if (line && Math.abs(whole - exact) > 1e-6) {
      scene.notes.push({ place: line.amountPlace, message: `${line.name}: ${decimalText(Math.round(exact * 100) / 100)} is taken as ${whole}.` });
    }
    return String(whole);
  }, block, scene);
  bracket();
}

/** What whole eggs bring too much or too little goes out of or into the first weighed liquid of their part. */
function correctLiquids(block: number, lines: readonly Line[], scene: Scene & { corrections?: Map<string, number> }): void {
  let missingGrams = 0;
  for (const { node } of lines) {
    if (node.kind !== 'ingredient' || node.amount.kind !== 'count' || node.amount.bracket) continue;
    const line = scene.resolved.get(keyOf(placeOf(block, node)));
    if (line?.role !== 'egg' || line.grams === null || node.amount.quantity.high) continue;
    const exact = node.amount.quantity.low.value * scene.factor;
    missingGrams += (exact - Math.max(1, Math.round(exact))) * (line.grams / node.amount.quantity.low.value);
  }
  if (Math.abs(missingGrams) < 0.05) return;
  for (const { node } of lines) {
    if (node.kind !== 'ingredient' || node.amount.kind !== 'mass' || node.amount.quantity.high) continue;
    const line = scene.resolved.get(keyOf(placeOf(block, node)));
    if (!line || (!line.ingredient?.isWater && line.role !== 'liquid' && line.role !== 'dairy') || line.grams === null) continue;
    if (line.grams * scene.factor + missingGrams <= 0) continue;
    (scene.corrections ??= new Map()).set(keyOf(line.place), missingGrams);
    const way = missingGrams > 0 ? 'more' : 'less';
    scene.notes.push({ place: line.amountPlace, message: `${line.name}: ${Math.abs(missingGrams).toFixed(0)} g ${way}, for the eggs stay whole.` });
    return;
  }
}

function stepFor(line: ResolvedLine | undefined, step: ScaleStep): number | undefined {
  const small = line !== undefined && (line.role === 'salt' || line.role === 'leaven' || line.role === 'spice') && line.part === undefined;
  return (small ? step.smallGrams : undefined) ?? step.grams;
}

function scaleQuantity(quantity: Quantity, text: (value: number) => string, block: number, scene: Scene): void {
  for (const number of [quantity.low, quantity.high]) {
    if (number) put(number, text(number.value), block, scene);
  }
}

function write(number: Num, value: number, block: number, scene: Scene): void {
  put(number, decimalText(value), block, scene);
}

function put(number: Num, newText: string, block: number, scene: Scene): void {
  if (newText !== number.text) scene.edits.push({ place: placeOf(block, number), newText });
}

/** The same quantity with the value one: to learn what a unit weighs. */
function one(quantity: Quantity): Quantity {
  return { ...quantity, low: { ...quantity.low, value: 1 }, high: undefined };
}
