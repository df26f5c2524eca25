/**
 * Scaling as an edit of a section's own numbers. Ingredient lines and properties first, then the portions that the steps
 * add, since those follow what their line became.
 */
import type { Block, BodyNode, Line, MakesLine, PropertyLine } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { Place, ResolvedFormula, ResolvedLine, Section } from '../formula/model';
import { GRAMS_PER } from '../units/mass';
import { alignNames } from './align';
import { correctLiquids, nounOfCount } from './counts';
import { directionsOf } from './directions';
import { decimalText } from './numbers';
import { agreeing } from './nouns';
import { scalePortions } from './portions';
import { growsPieces, type ScaleRequest } from './scale';
import {
  keyOf, putNumber, putText, scaleAmount, scaleMass, scaleQuantity, type NumberEdit, type RoundingNote, type Scene, type ScaleStep,
} from './scene';

export interface ScaleEdit {
  /** In the order of the text, apart from one another. */
  readonly edits: readonly NumberEdit[];
  readonly notes: readonly RoundingNote[];
}

export interface ScaleEditRequest {
  readonly section: Section;
  readonly formula: ResolvedFormula;
  readonly factor: number;
  readonly request: ScaleRequest;
  readonly step?: ScaleStep;
  /** Leaves the `makes` line as it is: for amounts that are to come to what it says. */
  readonly keepsMakes?: boolean;
  /** Only these blocks of the section; all of them if left out. */
  readonly blocks?: ReadonlySet<number>;
}

/**
 * The edit of a section's own numbers that makes it `factor` times as large. Only amounts change: grams, volumes, counts,
 * `makes`, `serves`, `keep`, `yields`, weighed portions of steps, and nouns that must agree with a count (`1 egg`, `2 eggs`).
 * Shares, times, temperatures, comments and units stay, and so does the column of the names as long as there is room.
 *
 * Eggs go to whole ones, and where one is rounded the first liquid of its part is corrected by the weight that is missing.
 * Scaling by k and then by 1/k gives the text back, byte for byte: rounded counts and a scale step aside, and a fraction (`1/2`)
 * that k turns into one that no spoon has, which comes back as the same number in decimals. So does a number that was written
 * with noughts or without a nought that others write (`2.40`, `.5`), once it has changed.
 */
export function scaleEdit({ section, formula, factor, request, step = {}, keepsMakes = false, blocks: only }: ScaleEditRequest): ScaleEdit {
  const scene: Scene = {
    section, formula, factor, request, step, keepsMakes, edits: [], notes: [], weights: new Map(), corrections: new Map(),
    resolved: linesByPlace(formula), directions: directionsOf(formula, factor, step),
  };
  const blocks = section.blocks.map((block, index) => ({ block, index })).filter(({ block, index }) => isScaled(block) && (only?.has(index) ?? true));
  for (const { block, index } of blocks) correctLiquids(index, block.lines, scene);
  for (const { block, index } of blocks) for (const { node } of everyLine(block.lines)) scaleNode(node, index, scene);
  scalePortions(blocks.map(({ block, index }) => ({ index, nodes: everyLine(block.lines).map(({ node }) => node) })), scene);
  const spaces = blocks.flatMap(({ block, index }) => alignNames(index, block.lines, scene));
  return { edits: [...scene.edits, ...spaces].sort(byPlace), notes: [...scene.notes].sort(byPlace) };
}

function byPlace({ place: a }: { readonly place: Place }, { place: b }: { readonly place: Place }): number {
  return a.block - b.block || a.start - b.start;
}

/** What happened on a bake stays as it was, and an ingredient is what it is. */
export function isScaled({ head }: Block): boolean {
  const { kind } = head.node;
  return kind === 'formula' || kind === 'dish' || kind === 'part' || kind === 'steps';
}

function linesByPlace(formula: ResolvedFormula): ReadonlyMap<string, ResolvedLine> {
  return new Map(formula.parts.flatMap((part) => part.lines.map((line) => [keyOf(line.place), line] as const)));
}

/** Lines with those that refine them. Not recursive: a garbled file may nest as deep as it is long. */
function everyLine(lines: readonly Line[]): readonly Line[] {
  const found: Line[] = [];
  const waiting = [...lines].reverse();
  for (let line = waiting.pop(); line !== undefined; line = waiting.pop()) {
    found.push(line);
    waiting.push(...[...line.children].reverse());
  }
  return found;
}

function scaleNode(node: BodyNode, block: number, scene: Scene): void {
  switch (node.kind) {
    case 'ingredient':
    case 'uses': {
      const line = scene.resolved.get(keyOf(placeOf(block, node)));
      scaleAmount(node.amount, block, scene, { line, whole: node.kind === 'uses' });
      nounOfCount(node, block, scene, line);
      return;
    }
    case 'makes':
      if (!scene.keepsMakes) scaleMakes(node, block, scene);
      return;
    case 'property':
      return scaleProperty(node, block, scene);
    case 'set':
      return scaleAmount(node.amount, block, scene, {});
    case 'add':
      return scaleAmount(node.line.amount, block, scene, {});
    case 'step': // its portions come last
    case 'flour-share':
    case 'based-on':
    case 'swap':
    case 'drop':
    case 'blank':
    case 'comment':
    case 'bad':
      return;
  }
}

function scaleMakes({ pieces, noun, each, ...node }: MakesLine, block: number, scene: Scene): void {
  const { request, factor, formula } = scene;
  if (pieces && !growsPieces(request)) {
    scaleQuantity(pieces, (value) => value * factor, block, scene);
    const before = (pieces.high ?? pieces.low).value;
    const after = Number(decimalText(before * factor));
    const word = noun && !noun.quoted ? agreeing(noun.text, before, after) : undefined;
    if (noun && word !== undefined) putText(noun, noun.text, word, block, scene);
    if (!pieces.high && Number.isInteger(before) && Math.abs(after - Math.round(after)) > 0.005) {
      const place = placeOf(block, { start: node.start, end: node.end });
      scene.notes.push({ place, message: `It makes ${decimalText(Math.round(after * 100) / 100)} ${word ?? 'pieces'} now: the last one is smaller.` });
    }
    return;
  }
  if (!each) return;
  if (each.kind === 'mass' && pieces && !each.quantity.high && formula.yield.pieceGrams !== null) {
    // The weight asked for, not what it comes to by way of a `makes` that is a per cent off.
    const gramsNow = formula.yield.pieceGrams * factor;
    return putNumber(each.quantity.low, gramsNow / GRAMS_PER[each.unit], block, scene);
  }
  if (each.kind === 'mass') return scaleMass(each, block, scene, {});
  scaleQuantity(each.quantity, (value) => value * factor, block, scene);
}

function scaleProperty({ key, value }: PropertyLine, block: number, scene: Scene): void {
  if (value.kind === 'amount' && (key === 'keep' || key === 'yields')) {
    const part = scene.formula.parts.find((candidate) => candidate.block === block);
    const isTight = part?.lines.some((line) => scene.directions.get(keyOf(line.place)) === 'up') ?? false;
    return scaleAmount(value.amount, block, scene, { direction: isTight ? 'down' : 'nearest' });
  }
  if (key !== 'serves' || value.kind !== 'number') return;
  for (const number of [value.number, value.high]) {
    if (number) putNumber(number, number.value === 0 ? 0 : Math.max(1, Math.round(number.value * scene.factor)), block, scene);
  }
}
