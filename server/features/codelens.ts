/** A line of totals above each formula and each part, and when a formula is begun and ready. */
import type { CodeLens } from 'vscode-languageserver';
import type { Analysis } from '../core/analyse';
import type { ResolvedFormula, ResolvedPart, Totals } from '../core/formula/model';
import type { PlacedSection, ProjectFile } from '../project/file';
import { remembered } from '../project/remembered';
import { dotted, gramsOrNothing, percentOrNothing } from './shared/markdown';
import { scheduleOf, scheduleWords } from './shared/schedule';
import { weighedInto } from './shared/totals';
import { variantLine } from './shared/variant-words';

export interface CodeLensOptions {
  /** The command that opens the preview, called with the file's URI and the formula's name; '' where the editor has none. */
  readonly previewCommand: string;
  /** The command that asks for a ready time, called with the same; left out or '' where the editor has none. */
  readonly scheduleCommand?: string;
  /** The command that compares the file with its committed version. */
  readonly compareCommand?: string;
  /** Formulas that are not as they were committed, by the line of their head, from 1. */
  readonly differences?: ReadonlyMap<number, 'differs' | 'new'>;
}

export function codeLensesOf(file: ProjectFile, { previewCommand, scheduleCommand = '', compareCommand = '', differences }: CodeLensOptions): CodeLens[] {
  return file.sections.flatMap(section => {
    const { formula } = section.analysis;
    if (formula === undefined) return [];
    // A part that the base gives stands in another block.
    const lens = (block: number, title: string, command = previewCommand): CodeLens[] => {
      const placed = file.tree.blocks[section.firstBlock + block];
      if (placed === undefined || title === '') return [];
      const { start, end } = placed.block.head;
      return [{
        range: file.lineIndex.rangeOf(placed.offset + start, placed.offset + end),
        command: { title, command, arguments: command === '' ? [] : [file.uri, section.section.name] },
      }];
    };
    const parts = formula.parts.filter(part => part.block < section.section.blocks.length && (part.block > 0 || !opensFormula(section))).flatMap(part => lens(part.block, titleOfPart(part)));
    if (!opensFormula(section)) return parts;
    const time = scheduleTitle(file, section, formula, scheduleCommand !== '');
    // The shorter ones first: the line of totals may run out of a narrow editor.
    const difference = differenceTitle(file, section, differences);
    return [
      ...lens(0, time, scheduleCommand), ...lens(0, difference, compareCommand), ...lens(0, titleOfFormula(section.analysis)), ...lens(0, variantLine(section) ?? ''),
      ...parts,
    ];
  });
}

/** Every keystroke asks for all of the file, and most formulas are as they were. */
const titleOfPart = remembered(partTitle);
const titleOfFormula = remembered(({ formula, totals }: Analysis) => (formula === undefined ? '' : formulaTitle(formula, totals)));

function differenceTitle(file: ProjectFile, section: PlacedSection, differences: CodeLensOptions['differences']): string {
  if (differences === undefined || differences.size === 0) return '';
  const head = section.section.blocks[0]?.head.start ?? 0;
  switch (differences.get(file.lineIndex.positionAt(section.offsetsOf({ block: 0, start: head, end: head }).start).line + 1)) {
    case 'differs':
      return 'Differs from the committed version';
    case 'new':
      return 'Not in the committed version';
    case undefined:
      return '';
  }
}

function opensFormula({ section }: PlacedSection): boolean {
  const kind = section.blocks[0]?.head.node.kind;
  return kind === 'formula' || kind === 'dish';
}

/** When it is begun and ready; else, where somebody can say when, the way to say it. */
function scheduleTitle(file: ProjectFile, section: PlacedSection, { parts, method }: ResolvedFormula, canSay: boolean): string {
  const scheduled = scheduleOf(file, section);
  if (scheduled !== undefined) return scheduleWords(scheduled);
  const hasSteps = method.length > 0 || parts.some(part => part.steps.length > 0);
  return canSay && hasSteps ? 'Schedule: ready by…' : '';
}

function formulaTitle({ yield: made, kind, parts, lacksBase }: ResolvedFormula, totals: Totals | undefined): string {
  const size = made.pieces !== null && made.pieceGrams !== null ? `${made.pieces} ${made.noun} of ${gramsOrNothing(made.pieceGrams)}` : undefined;
  if (kind === 'dish' || totals === undefined || totals.flour_g === null || totals.flour_g === 0) {
    const dough = gramsOrNothing(totals?.dough_g ?? null);
    const known = dotted([size, dough === undefined ? undefined : `${dough} in all`]);
    if (known !== '' || (parts.length === 0 && !lacksBase)) return known;
    return lacksBase ? 'its base is not to be found' : 'weights not known yet';
  }
  return dotted([
    labelled(gramsOrNothing(totals.flour_g), 'flour'),
    labelled(gramsOrNothing(totals.dough_g), 'dough'),
    labelled(percentOrNothing(totals.hydration_pct), 'hydration'),
    labelled(percentOrNothing(totals.salt_pct), 'salt'),
    totals.prefermented_flour_pct === 0 ? undefined : labelled(percentOrNothing(totals.prefermented_flour_pct), 'of the flour prefermented'),
    size,
  ]);
}

function partTitle(part: ResolvedPart): string {
  const { flourGrams, waterGrams } = weighedInto(part);
  // With a levain in it, a dough has two hydrations; the line above the formula shows the other.
  const takesIn = part.lines.some(line => line.inDough && line.part !== undefined);
  const leftOver = part.leftOverGrams !== null && part.leftOverGrams >= 0.5 ? `${gramsOrNothing(part.leftOverGrams)} left over` : undefined;
  return dotted([
    gramsOrNothing(part.yieldGrams),
    // Without plain water the moisture is that of milk, eggs or another part, which this figure does not count.
    flourGrams > 0 && waterGrams > 0 ? labelled(percentOrNothing((waterGrams / flourGrams) * 100), takesIn ? 'hydration as weighed' : 'hydration') : undefined,
    leftOver,
  ]);
}

function labelled(value: string | undefined, label: string): string | undefined {
  return value === undefined ? undefined : `${value} ${label}`;
}
