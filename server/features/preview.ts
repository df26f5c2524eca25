/** The preview of the formula at the cursor. */
import type { Severity } from '../core/checks/check';
import type { TimelineRequest } from '../core/timeline/model';
import { renderPreview } from '../output/preview/preview';
import { sectionAt } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import { timelineFor } from '../project/timelines';
import { scheduleOf } from './shared/schedule';

export interface PreviewOfFormula {
  /** Plain text. */
  readonly title: string;
  /** Everything from the file is escaped in it. */
  readonly html: string;
  /** Empty for a formula without a name. */
  readonly formulaName: string;
  /** Of the formula's head; from 0. */
  readonly line: number;
}

/**
 * The formula or dish at the offset; with the cursor in none (among the `use` lines, say) the last one above, failing that
 * the first of the file. Undefined when the file has none. `usual` is what is asked where nobody says a time for the formula.
 */
export function previewAt(file: ProjectFile, offset: number, usual: TimelineRequest): PreviewOfFormula | undefined {
  const section = shownAt(file, offset);
  const { formula, totals, sheet } = section?.analysis ?? {};
  if (section === undefined || formula === undefined || totals === undefined || sheet === undefined) return undefined;
  const { request, timeline, by } = scheduleOf(file, section) ?? { request: usual, timeline: timelineFor(formula, usual), by: undefined };
  const lineOf: (place: Parameters<PlacedSection['offsetsOf']>[0]) => number = place => (
    file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1
  );
  const findings = section.analysis.findings
    .map(({ severity, message, place }) => ({ severity, message, line: lineOf(place) }))
    .sort((a, b) => RANK[a.severity] - RANK[b.severity] || a.line - b.line);
  const { title, html } = renderPreview({
    section: section.section, formula, totals, sheet, lineOf, findings, timeline, request,
    timeBy: by && { name: by.day.name, line: file.lineIndex.positionAt(by.plan.offsetsOf(by.place).start).line + 1 },
    label: file.settings,
  });
  return { title, html, formulaName: formula.name, line: lineOf(formula.namePlace) - 1 };
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, info: 2 };

function shownAt(file: ProjectFile, offset: number): PlacedSection | undefined {
  const isShown = ({ section }: PlacedSection): boolean => section.kind === 'formula' || section.kind === 'dish';
  const here = sectionAt(file, offset);
  if (here !== undefined && isShown(here)) return here;
  const shown = file.sections.filter(isShown);
  return shown.findLast(section => section.offsetsOf({ block: 0, start: 0, end: 0 }).start <= offset) ?? shown[0];
}
