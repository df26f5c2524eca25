/**
 * Small words between those of a line, which are no part of it: grams of a share, the other scale of a temperature, when a
 * step begins. A line with a mistake has none: what cannot be meant is not worked out.
 */
import type { InlayHint, Range } from 'vscode-languageserver';
import type { Line, Span, Temperature } from '../../grammar';
import { trimmed } from '../core/checks/words';
import type { Place, ResolvedFormula, ResolvedLine, ResolvedPart } from '../core/formula/model';
import { exactPlace, isOwnPlace } from '../core/variant/places';
import type { TimelineStep } from '../core/timeline/model';
import { formatDuration } from '../core/timeline/clock';
import { everyLine } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import { timelineFor } from '../project/timelines';
import { amountWords } from './shared/amounts';
import { gramsOrNothing, percentOrNothing } from './shared/markdown';
import { dayAndTime, scheduleOf } from './shared/schedule';
import { stepTimes } from './shared/schedule-hover';
import { InlayHintKind, MarkupKind } from './shared/protocol';

/** What stands behind a name or a step, with the file offset of the line that it is about. Its words are worked out when it is looked at. */
export interface HintData {
  readonly uri: string;
  readonly offset: number;
}

/** Those of a range, in the order of the text. */
export function inlayHintsOf(file: ProjectFile, range: Range): InlayHint[] {
  const mode = file.settings.hints ?? 'quiet';
  if (mode === 'off') return [];
  const from = file.lineIndex.offsetAt(range.start);
  const to = file.lineIndex.offsetAt(range.end);
  const found = file.sections.filter(section => reaches(file, section, from, to)).flatMap(section => [
    ...amountHints(section, mode === 'all'),
    ...(mode === 'all' ? [...temperatureHints(file, section), ...timeHints(file, section)] : []),
  ]);
  return found
    .filter(({ offset }) => offset >= from && offset <= to)
    .sort((a, b) => a.offset - b.offset)
    .map(({ offset, label, about, tooltip }) => ({
      position: file.lineIndex.positionAt(offset),
      label,
      kind: InlayHintKind.Type,
      paddingLeft: true,
      ...(tooltip !== undefined && { tooltip }),
      ...(about !== undefined && { data: { uri: file.uri, offset: about } satisfies HintData }),
    }));
}

/** Adds what the number is a share of, or the whole plan of a step. */
export function resolvedHint(file: ProjectFile, hint: InlayHint): InlayHint {
  const { offset } = (hint.data ?? {}) as Partial<HintData>;
  if (offset === undefined) return hint;
  for (const section of file.sections) {
    if (!reaches(file, section, offset, offset)) continue;
    const { formula } = section.analysis;
    for (const part of formula?.parts ?? []) {
      const line = part.lines.find(one => one.source !== undefined && writtenHere(section, one) !== undefined && section.offsetsOf(one.place).start === offset);
      if (line !== undefined) return withTooltip(hint, amountWords(line, part, section.analysis));
    }
    const step = formula && timesFromStart(formula)?.find(({ step: written, place }) => written !== undefined && section.offsetsOf(place).start === offset);
    if (step !== undefined) return withTooltip(hint, stepTimes(file, section, step.place) || FROM_START);
  }
  return hint;
}

/** The name of a line, or the amount that a variant sets it to, in the section's own text; undefined where that has neither. */
function writtenHere({ analysis: { section } }: PlacedSection, { namePlace, amountPlace }: ResolvedLine): Place | undefined {
  return exactPlace(section, namePlace) ?? exactPlace(section, amountPlace);
}

const FROM_START = 'Counted from the first step of all, by the lengths as they are written. With a time to be ready, the clock stands here.';

function withTooltip(hint: InlayHint, value: string): InlayHint {
  return value === '' ? hint : { ...hint, tooltip: { kind: MarkupKind.Markdown, value } };
}

interface Hint {
  /** File offset at which it stands. */
  readonly offset: number;
  readonly label: string;
  readonly about?: number;
  readonly tooltip?: string;
}

function reaches(file: ProjectFile, { firstBlock, section }: PlacedSection, from: number, to: number): boolean {
  const start = file.tree.blocks[firstBlock]?.offset ?? 0;
  const last = file.tree.blocks[firstBlock + section.blocks.length - 1];
  return start <= to && (last === undefined || last.offset + last.block.text.length >= from);
}

function amountHints(section: PlacedSection, all: boolean): readonly Hint[] {
  const isFaulty = faultsIn(section);
  return (section.analysis.formula?.parts ?? []).flatMap(part => part.lines.flatMap((line): readonly Hint[] => {
    // What a variant has from its base stands in no line of it.
    const place = writtenHere(section, line);
    if (line.source === undefined || place === undefined || isFaulty(place)) return [];
    const label = amountLabel(line, part, all);
    if (label === undefined) return [];
    return [{ offset: section.offsetsOf(place).end, label, about: section.offsetsOf(line.place).start }];
  }));
}

function amountLabel(line: ResolvedLine, part: ResolvedPart, all: boolean): string | undefined {
  const { source } = line;
  // The share is of the flour in it; what is weighed is the whole of it.
  if (source?.kind === 'flour-share') return line.grams === null ? undefined : `${gramsOrNothing(line.grams) ?? ''} of it`;
  if (source?.kind !== 'ingredient') return undefined;
  const { amount } = source;
  const { grams, pct } = line.listed ?? line;
  const weighed = 'bracket' in amount && amount.bracket !== undefined;
  switch (amount.kind) {
    case 'share':
      return weighed ? undefined : gramsOrNothing(grams);
    case 'mass':
      return all ? shareLabel(pct, line, part) : undefined;
    case 'volume':
    case 'count':
    case 'pinch':
      if (!all) return undefined;
      return weighed ? shareLabel(pct, line, part) : gramsOrNothing(grams);
    case 'all':
      return all ? gramsOrNothing(grams) : undefined;
  }
}

/** A part without flour has no flour to take a share of. */
function shareLabel(pct: number | null, line: ResolvedLine, { flourGrams }: ResolvedPart): string | undefined {
  return line.inDough && flourGrams !== null && flourGrams > 0 ? percentOrNothing(pct) : undefined;
}

/** Whether a place is on a line, or in a head, with something that cannot be read or an error. */
function faultsIn({ section, analysis }: PlacedSection): (place: Place) => boolean {
  const errors = analysis.findings.filter(({ severity }) => severity === 'error').map(({ place }) => place);
  const faulty = section.blocks.map((block, index) => {
    const faults: readonly Span[] = [...errors.filter(place => place.block === index), ...block.problems];
    if (faults.length === 0) return [];
    return [block.head, ...everyLine(block)].filter(line => faults.some(fault => fault.start <= line.end && fault.end >= line.start));
  });
  return ({ block, start }) => faulty[block]?.some(line => line.start <= start && start <= line.end) ?? false;
}

function temperatureHints(file: ProjectFile, section: PlacedSection): readonly Hint[] {
  const isFaulty = faultsIn(section);
  return section.section.blocks.flatMap((block, index) => {
    const { offset } = file.tree.blocks[section.firstBlock + index] ?? { offset: 0 };
    const head = block.head.node.kind === 'part' ? block.head.node.temperature : undefined;
    const written = [...(head === undefined ? [] : [head]), ...everyLine(block).flatMap(temperaturesOf)];
    return written.flatMap((temperature): readonly Hint[] => {
      if (isFaulty({ block: index, start: temperature.start, end: temperature.end })) return [];
      const label = otherScale(temperature, section.analysis.formula);
      return label === undefined ? [] : [{ offset: offset + temperature.end, label, tooltip: temperature.kind === 'degrees' ? 'The same in the other scale.' : `The ${temperature.kind}, as the formula says it is.` }];
    });
  });
}

function temperaturesOf({ node }: Line): readonly Temperature[] {
  switch (node.kind) {
    case 'ingredient':
      return node.temperature === undefined ? [] : [node.temperature];
    case 'step':
      return [
        ...(node.temperature === undefined ? [] : [node.temperature]),
        ...node.details.flatMap(detail => (detail.kind === 'until-core' ? [detail.temperature] : [])),
      ];
    case 'property':
      return node.value.kind === 'temperature' ? [node.value.temperature] : [];
    default:
      return [];
  }
}

/** `75 F` for `24 C`, `24 C` for `room`. */
function otherScale(temperature: Temperature, formula: ResolvedFormula | undefined): string | undefined {
  if (temperature.kind !== 'degrees') {
    const celsius = (temperature.kind === 'room' ? formula?.roomCelsius : formula?.fridgeCelsius) ?? null;
    return celsius === null ? undefined : `${trimmed(celsius, 1)} C`;
  }
  const { lowCelsius, highCelsius, unit } = temperature;
  const shown = unit === 'C' ? (celsius: number) => trimmed((celsius * 9) / 5 + 32, 0) : (celsius: number) => trimmed(celsius, Math.abs(celsius) < 60 ? 1 : 0);
  const range = lowCelsius === highCelsius ? shown(lowCelsius) : `${shown(lowCelsius)} to ${shown(highCelsius)}`;
  return `${range} ${unit === 'C' ? 'F' : 'C'}`;
}

/** The clock where a time is said; else how long after the first step. */
function timeHints(file: ProjectFile, section: PlacedSection): readonly Hint[] {
  const { formula } = section.analysis;
  if (formula === undefined) return [];
  const isFaulty = faultsIn(section);
  const scheduled = scheduleOf(file, section)?.timeline;
  if (scheduled?.kind === 'conflict') return [];
  const steps = scheduled?.kind === 'placed' ? scheduled.steps : timesFromStart(formula);
  const seen = new Set<number>();
  return (steps ?? []).flatMap(({ step, place, startMs }): readonly Hint[] => {
    const { start } = section.offsetsOf(place);
    // Of folds that come round, the first; and the steps of a base are told there.
    if (step === undefined || !isOwnPlace(section.analysis.section, place) || isFaulty(place) || seen.has(start)) return [];
    seen.add(start);
    const label = scheduled?.kind === 'placed' ? dayAndTime(startMs, scheduled.zone) : afterWords(startMs);
    return [{ offset: start + step.node.end - step.node.start, label, about: start }];
  });
}

function afterWords(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  return minutes === 0 ? 'first of all' : `after ${formatDuration(minutes)}`;
}

/** Every step by its distance from the first, as if that were at 0. */
function timesFromStart(formula: ResolvedFormula): readonly TimelineStep[] | undefined {
  const timeline = timelineFor(formula, { zone: 'UTC', anchor: { kind: 'start', epochMs: 0 } });
  return timeline.kind === 'placed' ? timeline.steps : undefined;
}
