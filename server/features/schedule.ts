/** When the formula at the cursor is begun and ready: what holds now, and what a time that is being typed would give. */
import { formatInstant, parseLocalInstant } from '../core/timeline/clock';
import { titleOf } from '../output/entry';
import { sectionAt } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import { timelineFor } from '../project/timelines';
import type { ScheduleAnswer, ScheduleParams } from '../requests';
import { chosenFor, requestIn, scheduleOf, scheduleWords, zoneIn } from './shared/schedule';

/** Undefined where there is no such formula or dish. */
export function scheduleOfAsked(file: ProjectFile, asked: Omit<ScheduleParams, 'uri'>): ScheduleAnswer | undefined {
  const placed = placedFor(file, asked);
  const formula = placed?.analysis.formula;
  if (placed === undefined || formula === undefined) return undefined;
  const { section } = placed;
  const { zone: editorZone, wanted } = asked;
  const zone = zoneIn(file, editorZone);
  if (wanted === undefined) {
    const chosen = chosenFor(file, section.name);
    const request = chosen && requestIn(file, chosen.zone, chosen.anchor);
    return {
      kind: 'now', title: titleOf(formula), formulaName: section.name, zone,
      chosen: request && { kind: request.anchor.kind, text: `${localOf(request.anchor.epochMs, request.zone).replace('T', ' ')}` },
      plan: planOf(file, placed),
    };
  }
  const instant = parseLocalInstant(wanted.text, zone);
  if (instant.kind === 'bad') return { kind: 'cannot', message: instant.message };
  const { epochMs, note } = instant;
  const local = localOf(epochMs, zone);
  const request = requestIn(file, zone, { kind: wanted.kind, epochMs, local });
  const timeline = timelineFor(formula, request);
  const why = timeline.kind === 'conflict' ? `. ${timeline.message}` : '';
  return {
    kind: 'time', epochMs, local, zone, fits: timeline.kind === 'placed',
    words: [`${scheduleWords({ request, timeline })}${why}`, note, ...(timeline.kind === 'placed' ? timeline.notes : [])].filter(text => text !== undefined).join(' '),
  };
}

/** The plan that says the time, where it is not the baker's to choose here. */
function planOf(file: ProjectFile, placed: PlacedSection): Extract<ScheduleAnswer, { readonly kind: 'now' }>['plan'] {
  const by = scheduleOf(file, placed)?.by;
  return by && { name: by.day.name, uri: file.uri, line: file.lineIndex.positionAt(by.plan.offsetsOf(by.place).start).line };
}

function placedFor(file: ProjectFile, { position, formula }: Omit<ScheduleParams, 'uri'>): PlacedSection | undefined {
  if (position !== undefined) return sectionAt(file, file.lineIndex.offsetAt(position));
  return file.sections.find(({ section }) => (section.kind === 'formula' || section.kind === 'dish') && section.name === formula);
}

function localOf(epochMs: number, zone: string): string {
  const { date, time } = formatInstant(epochMs, zone);
  return `${date}T${time}`;
}
