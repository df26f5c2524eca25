/** The preview of the formula, dish or plan at the cursor. */
import type { Severity } from '../core/checks/check';
import type { Place } from '../core/formula/model';
import type { DayFact } from '../core/plan/schedule-model';
import { pastReady } from '../core/plan/times';
import { workOf } from '../core/plan/work';
import type { TimelineRequest } from '../core/timeline/model';
import type { DayEntry } from '../output/day-words';
import { renderDay, type DayPreviewInput } from '../output/preview/day';
import { renderPreview } from '../output/preview/preview';
import { sectionAt } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import { firstDay, knownDay } from '../project/days';
import { timelineFor } from '../project/timelines';
import { dayRequest, hoursIn, scheduleOf } from './shared/schedule';

export interface PreviewOfFormula {
  /** Plain text. */
  readonly title: string;
  /** Everything from the file is escaped in it. */
  readonly html: string;
  /** Empty for a formula without a name. */
  readonly formulaName: string;
  /** Of the formula's head; from 0. */
  readonly line: number;
  /** It is of a plan, and a better day may be found. */
  readonly isProvisional: boolean;
}

/**
 * The formula or dish at the offset; with the cursor in none (among the `use` lines, say) the last one above, failing that
 * the first of the file. Undefined when the file has none. `usual` is what is asked where nobody says a time for the formula; with `nowMs`
 * a plan whose time has gone by says so.
 */
export function previewAt(file: ProjectFile, offset: number, usual: TimelineRequest, nowMs?: number): PreviewOfFormula | undefined {
  const section = shownAt(file, offset);
  if (section?.section.kind === 'plan') return planPreview(file, section, nowMs);
  const { formula, totals, sheet } = section?.analysis ?? {};
  if (section === undefined || formula === undefined || totals === undefined || sheet === undefined) return undefined;
  const { request, timeline, by } = scheduleOf(file, section) ?? { request: usual, timeline: timelineFor(formula, usual), by: undefined };
  const lineOf: (place: Parameters<PlacedSection['offsetsOf']>[0]) => number = place => (
    file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1
  );
  const findings = findingsWith(section, lineOf);
  const { title, html } = renderPreview({
    section: section.section, formula, totals, sheet, lineOf, findings, timeline, request,
    timeBy: by && { name: by.day.name, line: file.lineIndex.positionAt(by.plan.offsetsOf(by.place).start).line + 1 },
    label: file.settings,
  });
  return { title, html, formulaName: formula.name, line: lineOf(formula.namePlace) - 1, isProvisional: false };
}

/** Looks for the day of the plan that a preview would show, in turns; false when `goOn` ended that. A formula needs none. */
export async function firstDayAt(file: ProjectFile, offset: number, goOn: () => boolean): Promise<boolean> {
  const day = shownAt(file, offset)?.analysis.day;
  return day === undefined || firstDay(day, dayRequest(file), goOn);
}

function planPreview(file: ProjectFile, section: PlacedSection, nowMs: number | undefined): PreviewOfFormula | undefined {
  const { day } = section.analysis;
  if (day === undefined) return undefined;
  const request = dayRequest(file);
  const { schedule, isFinal } = knownDay(day, request);
  const past = nowMs === undefined ? undefined : pastReady(day, nowMs, request.zone)?.message;
  const lineOf = (place: Place): number => file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1;
  const { title, html } = renderDay({
    day, work: workOf(day), schedule, anchor: day.anchor?.kind ?? 'ready', hoursOff: [...day.hoursOff, ...hoursIn(file.settings)],
    sectionOf: formula => section.environment.formulas.get(formula.toLowerCase()),
    whereOf: fact => whereOf(file, section, fact),
    lineOf, findings: findingsWith(section, lineOf), isProvisional: !isFinal, ...(past !== undefined && { past }),
  });
  return { title, html, formulaName: `plan ${section.section.name}`, line: lineOf(day.place) - 1, isProvisional: !isFinal };
}

/** A place in the plan, or in the section of a formula that it bakes, in whichever file that stands. */
function whereOf(file: ProjectFile, plan: PlacedSection, { place, formula }: Pick<DayFact, 'place' | 'formula'>): ReturnType<DayEntry['whereOf']> {
  const wanted = formula === undefined ? plan.section : plan.environment.formulas.get(formula.toLowerCase());
  if (place === undefined) return undefined;
  for (const other of [file, ...file.visible]) {
    const home = other.sections.find(({ section }) => section === wanted);
    if (home !== undefined) return { line: other.lineIndex.positionAt(home.offsetsOf(place).start).line + 1, file: other === file ? undefined : other.uri };
  }
  return undefined;
}

function findingsWith({ analysis }: PlacedSection, lineOf: (place: Place) => number): DayPreviewInput['findings'] {
  return analysis.findings
    .map(({ severity, message, place }) => ({ severity, message, line: lineOf(place) }))
    .sort((a, b) => RANK[a.severity] - RANK[b.severity] || a.line - b.line);
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, info: 2 };

function shownAt(file: ProjectFile, offset: number): PlacedSection | undefined {
  const isShown = ({ section }: PlacedSection): boolean => section.kind === 'formula' || section.kind === 'dish';
  const here = sectionAt(file, offset);
  if (here !== undefined && (isShown(here) || here.section.kind === 'plan')) return here;
  const shown = file.sections.filter(isShown);
  return shown.findLast(section => section.offsetsOf({ block: 0, start: 0, end: 0 }).start <= offset) ?? shown[0] ?? file.sections.find(({ section }) => section.kind === 'plan');
}
