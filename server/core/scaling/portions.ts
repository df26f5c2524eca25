/** Portions that steps add, `add 40 g of raisins`: they follow their ingredient's line, so that they still come to the whole. */
import type { BodyNode, StepDetail } from '../../../grammar';
import type { ResolvedLine } from '../formula/model';
import { linesNamed } from '../formula/named';
import { GRAMS_PER } from '../units/mass';
import { toScaleStep } from './numbers';
import { putNumber, keyOf, scaleAmount, scaleQuantity, stepFor, type Scene } from './scene';

interface BlockNodes {
  readonly index: number;
  readonly nodes: readonly BodyNode[];
}

type Add = Extract<StepDetail, { kind: 'add' }>;

/** What has been added of an ingredient so far, before and after, in grams or pieces. */
interface Added {
  before: number;
  after: number;
}

export function scalePortions(blocks: readonly BlockNodes[], scene: Scene): void {
  const added = new Map<string, Added>();
  for (const { index, nodes } of blocks) {
    for (const node of nodes) {
      if (node.kind !== 'step') continue;
      for (const detail of node.details) if (detail.kind === 'add') scalePortion(detail, index, added, scene);
    }
  }
}

function scalePortion(detail: Add, block: number, added: Map<string, Added>, scene: Scene): void {
  const { portion } = detail;
  if (portion.kind !== 'amount') return;
  const { amount } = portion;
  const lines = linesMeant(detail.name.text, block, scene);
  const [first] = lines;
  const known = lines.map((line) => scene.weights.get(keyOf(line.place))).filter((weight) => weight?.kind === amount.kind);
  const before = known.reduce((sum, weight) => sum + (weight?.before ?? 0), 0);
  if ((amount.kind !== 'mass' && amount.kind !== 'count') || amount.quantity.high || first === undefined || before === 0) {
    return scaleAmount(amount, block, scene, {});
  }
  const ratio = known.reduce((sum, weight) => sum + (weight?.after ?? 0), 0) / before;
  const step = amount.kind === 'count' ? (first.role === 'egg' ? 1 : 0.25) : stepFor(first, scene.step);
  if (step === undefined) return scaleQuantity(amount.quantity, (value) => value * ratio, block, scene);
  // Rounded from the first portion on, so that the portions add up as the line does.
  const unit = amount.kind === 'mass' ? GRAMS_PER[amount.unit] : 1;
  const key = `${amount.kind} ${keyOf(first.place)}`;
  const sofar = added.get(key) ?? { before: 0, after: 0 };
  const total = sofar.before + amount.quantity.low.value * unit;
  const after = toScaleStep(total * ratio, step);
  putNumber(amount.quantity.low, Math.max(0, after - sofar.after) / unit, block, scene);
  added.set(key, { before: total, after });
  if (amount.kind === 'count' && amount.bracket) scaleAmount(amount.bracket, block, scene, {});
}

/** Lines that a step means by a name: of its own part, or of the dough, or of any part. */
function linesMeant(name: string, block: number, scene: Scene): readonly ResolvedLine[] {
  const { parts, dough } = scene.formula;
  const own = parts.find((part) => part.block === block) ?? (dough === undefined ? undefined : parts[dough]);
  const inOwn = own === undefined ? [] : linesNamed(name, own.lines, parts);
  return inOwn.length > 0 ? inOwn : linesNamed(name, parts.flatMap((part) => part.lines), parts);
}
