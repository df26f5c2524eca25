/** The time at which a formula is looked at, as a plan in its file. */
import { formatInstant } from '../core/timeline/clock';
import { dayLabel } from '../output/preview/ticks';
import { decimals } from '../output/numbers';
import { endOfBlock, textEditIn } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import type { PlanDraftAnswer, PlanDraftParams } from '../requests';
import { requestIn } from './shared/schedule';
import { atSize } from './shared/sizes';

/**
 * The edit that writes a plan below everything else in the file: its time, and the formula or dish at the size it is looked at.
 * What the oven takes nobody has said yet, so the check of plans asks for it. Undefined where there is no formula of that name.
 */
export function planDraft(file: ProjectFile, { formula: name, size, zone: editorZone, anchor: asked }: PlanDraftParams): PlanDraftAnswer | undefined {
  const placed = file.sections.find(({ section }) => (section.kind === 'formula' || section.kind === 'dish') && section.name === name);
  const last = file.tree.blocks.at(-1);
  if (name === '' || placed === undefined || last === undefined) return undefined;
  const { anchor, zone } = requestIn(file, editorZone, asked);
  const { date, weekday, time } = formatInstant(anchor.epochMs, zone);
  const lines = [
    '', '', `plan "${freeName(file, dayLabel(date, weekday))}"`,
    `  ${anchor.kind.padEnd(8)}  ${date} ${time} ${zone}`,
    `  ${orderOf(file, placed, size)}`,
  ];
  const end = last.offset + endOfBlock(last.block);
  return { edits: [textEditIn(file, end, end, lines.join(file.text.includes('\r\n') ? '\r\n' : '\n'))] };
}

/** Two plans of one day are told apart. */
function freeName({ sections }: ProjectFile, wanted: string): string {
  const taken = new Set(sections.map(({ section }) => section.name.toLowerCase()));
  for (let count = 1; ; count += 1) {
    const name = count === 1 ? wanted : `${wanted}, ${count}`;
    if (!taken.has(name.toLowerCase())) return name;
  }
}

/** `bake      24 buns of "Cardamom buns"`; by weight where the pieces are of another weight than the formula's. */
function orderOf(file: ProjectFile, placed: PlacedSection, size: PlanDraftParams['size']): string {
  const written = placed.analysis;
  const sized = size && atSize(file, placed, size);
  const { analysis, factor } = sized?.kind === 'at-size' ? sized : { analysis: written, factor: 1 };
  const name = `"${placed.section.name}"`;
  if (placed.section.kind === 'dish') return `make      ${decimals(factor, 2)} ${name}`;
  const { pieces, pieceGrams, noun } = analysis.formula?.yield ?? { pieces: null, pieceGrams: null, noun: '' };
  const isSamePiece = Math.abs((pieceGrams ?? 0) - (written.formula?.yield.pieceGrams ?? 0)) < 0.5;
  if (pieces !== null && isSamePiece) return `bake      ${decimals(pieces, 2)} ${noun} of ${name}`;
  const doughGrams = analysis.totals?.dough_g ?? null;
  return doughGrams === null ? `bake      ${decimals(factor, 2)} ${factor === 1 ? 'batch' : 'batches'} of ${name}` : `bake      ${decimals(doughGrams, 0)} g of ${name}`;
}
