/** Formulas of a file in another form, to be saved by the editor: a method card, a table, a calendar, a recipe. */
import { titleOf } from '../output/entry';
import { fileNameOf } from '../output/export/file-name';
import { ENDINGS, EXPORT_FORMS, exported, type ExportEntry } from '../output/export/forms';
import { sectionAt } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import type { ExportAnswer, ExportParams } from '../requests';
import { scheduleOf, scheduleWords } from './shared/schedule';

/**
 * Without a form: what can be exported. With one: the text of the formula or dish at the offset (with the cursor in none, of the last one
 * above, failing that of the first), or of all in the file. Times are those that a plan or the baker says. Null where the file has no formula.
 *
 * @param nowMs when it is written, for a calendar
 */
export function exportAt(file: ProjectFile, offset: number, { form, all = false }: Pick<ExportParams, 'form' | 'all'>, nowMs: number): ExportAnswer | null {
  const sections = file.sections.filter(({ section: { kind } }) => kind === 'formula' || kind === 'dish');
  const own = sectionAt(file, offset);
  const chosen = sections.find((section) => section === own) ?? sections.findLast((section) => section.offsetsOf({ block: 0, start: 0, end: 0 }).start <= offset) ?? sections[0];
  const entry = chosen && entryOf(file, chosen);
  if (entry === undefined) return null;
  const title = titleOf(entry.formula);
  if (form === undefined) {
    const schedule = chosen && scheduleOf(file, chosen);
    return { kind: 'choices', title, count: sections.length, time: schedule === undefined ? undefined : scheduleWords(schedule) };
  }
  const known = EXPORT_FORMS.find((each) => each === form);
  if (known === undefined) return { kind: 'cannot', message: `There is no form "${form}". Forms are ${EXPORT_FORMS.join(', ')}.` };
  const entries = all ? sections.flatMap((section) => entryOf(file, section) ?? []) : [entry];
  if (known === 'ics' && !entries.some(({ timeline }) => timeline?.kind === 'placed')) {
    return { kind: 'cannot', message: 'A calendar needs a time that can be kept: choose one with "Schedule for a Ready Time…" first.' };
  }
  const name = all && sections.length > 1 ? stemOf(file.uri) : title;
  return { kind: 'text', title: all && sections.length > 1 ? `${String(sections.length)} formulas` : title, text: exported(known, entries, nowMs), fileName: fileNameOf(name, ENDINGS[known], new Set()) };
}

function entryOf(file: ProjectFile, section: PlacedSection): ExportEntry | undefined {
  const { formula, totals, sheet } = section.analysis;
  if (formula === undefined || totals === undefined || sheet === undefined) return undefined;
  const schedule = scheduleOf(file, section);
  return {
    section: section.analysis.section, formula, totals, sheet,
    lineOf: (place) => file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1,
    label: file.settings, settings: file.settings,
    timeline: schedule?.timeline, ...(schedule?.request.hoursOff !== undefined && { hoursOff: schedule.request.hoursOff }),
  };
}

/** `market-day` of `file:///stall/market-day.bake` */
function stemOf(uri: string): string {
  const last = uri.slice(uri.lastIndexOf('/') + 1).replace(/\.[^.]*$/, '');
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
