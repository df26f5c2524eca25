/** The preview of the formula, dish or plan at the cursor. */
import { sectionNamed, type Analysis } from '../core/analyse';
import type { Severity } from '../core/checks/check';
import type { Place } from '../core/formula/model';
import type { DayFact } from '../core/plan/schedule-model';
import { pastReady } from '../core/plan/times';
import { workOf } from '../core/plan/work';
import type { TimelineRequest } from '../core/timeline/model';
import { ownPlace } from '../core/variant/places';
import type { DayEntry } from '../output/day-words';
import { renderDay, type DayPreviewInput } from '../output/preview/day';
import { renderPreview } from '../output/preview/preview';
import type { SizeInput } from '../output/preview/size';
import { sectionAt } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import { firstDay, knownDay } from '../project/days';
import { timelineFor } from '../project/timelines';
import type { PreviewParams, SizeOf, ViewSize } from '../requests';
import { dayRequest, hoursIn, scheduleOf } from './shared/schedule';
import { atSize, sizesOf, type AtSize } from './shared/sizes';

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
  /** The size to go on with; undefined at the file's own. */
  readonly size?: ViewSize | undefined;
  /** The size asked for cannot be. */
  readonly isRefused?: boolean;
}

/** Sizes to look at formulas of a file at, by their names. */
export type SizesAsked = Pick<PreviewParams, 'sizes' | 'wanted'>;

/**
 * The formula or dish at the offset; with the cursor in none (among the `use` lines, say) the last one above, failing that
 * the first of the file. Undefined when the file has none. `usual` is what is asked where nobody says a time for the formula; with `nowMs`
 * a plan whose time has gone by says so.
 */
export function previewAt(file: ProjectFile, offset: number, usual: TimelineRequest, nowMs?: number, asked: SizesAsked = {}): PreviewOfFormula | undefined {
  const placed = shownAt(file, offset);
  if (placed?.section.kind === 'plan') return planPreview(file, placed, nowMs);
  const { formula, totals, sheet } = placed?.analysis ?? {};
  if (placed === undefined || formula === undefined || totals === undefined || sheet === undefined) return undefined;
  const lineOf: (place: Place) => number = place => file.lineIndex.positionAt(placed.offsetsOf(place).start).line + 1;
  const { kept, refused, lost, shown } = sizeFor(file, placed, asked);
  const said = scheduleOf(file, placed);
  const request = said?.request ?? usual;
  const common = {
    request, findings: findingsWith(shown?.analysis ?? placed.analysis, shown?.lineOf ?? lineOf), label: file.settings, lineAsWritten: lineOf,
    timeBy: said?.by && { name: said.by.day.name, line: file.lineIndex.positionAt(said.by.plan.offsetsOf(said.by.place).start).line + 1 },
    isChosen: said !== undefined && said.by === undefined,
    size: { fields: sizesOf(shown ?? placed), shown: shown && kept, lost, refused, notes: shown?.notes ?? [], whyNotWritten: shown?.whyNotWritten },
  };
  const { title, html } = renderPreview(shown?.analysis.formula !== undefined && shown.analysis.totals !== undefined && shown.analysis.sheet !== undefined
    ? {
        ...common, section: shown.analysis.section, formula: shown.analysis.formula, totals: shown.analysis.totals, sheet: shown.analysis.sheet, lineOf: shown.lineOf,
        asWritten: formula, factor: shown.factor, timeline: timelineFor(shown.analysis.formula, request),
      }
    : { ...common, section: placed.analysis.section, formula, totals, sheet, lineOf, timeline: said?.timeline ?? timelineFor(formula, usual) });
  return { title, html, formulaName: formula.name, line: lineOf(formula.namePlace) - 1, isProvisional: false, size: kept, isRefused: refused !== undefined };
}

interface SizeFound {
  readonly kept: ViewSize | undefined;
  readonly refused: SizeInput['refused'];
  readonly lost: SizeInput['lost'];
  /** Undefined at the file's own size. */
  readonly shown: AtSize | undefined;
}

/** The size just asked for; where it cannot be, the one before. */
function sizeFor(file: ProjectFile, placed: PlacedSection, { sizes = [], wanted }: SizesAsked): SizeFound {
  const isHere = ({ formula }: SizeOf): boolean => formula === placed.section.name;
  const none: SizeFound = { kept: undefined, refused: undefined, lost: undefined, shown: undefined };
  const at = (size: ViewSize): SizeFound => {
    const found = atSize(file, placed, size);
    if (found.kind === 'cannot') return { ...none, kept: size, lost: { size, message: found.message } };
    return Math.abs(found.factor - 1) < SAME_WITHIN ? none : { ...none, kept: size, shown: found };
  };
  const before = sizes.find(isHere)?.size;
  if (wanted === undefined || !isHere(wanted)) return before === undefined ? none : at(before);
  const now = at(wanted.size);
  return now.lost === undefined ? now : { ...(before === undefined ? none : at(before)), refused: now.lost };
}

/** A factor so close to 1 is the dust of a division. */
const SAME_WITHIN = 1e-6;

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
    sectionOf: formula => sectionNamed(section.environment, formula.toLowerCase()),
    whereOf: fact => whereOf(file, section, fact),
    lineOf, findings: findingsWith(section.analysis, lineOf), isProvisional: !isFinal, ...(past !== undefined && { past }),
  });
  return { title, html, formulaName: `plan ${section.section.name}`, line: lineOf(day.place) - 1, isProvisional: !isFinal };
}

/** A place in the plan, or in the section of a formula that it bakes, in whichever file that stands. */
function whereOf(file: ProjectFile, plan: PlacedSection, { place, formula }: Pick<DayFact, 'place' | 'formula'>): ReturnType<DayEntry['whereOf']> {
  const wanted = formula === undefined ? plan.section : plan.environment.formulas.get(formula.toLowerCase());
  if (place === undefined) return undefined;
  for (const other of [file, ...file.visible]) {
    const home = other.sections.find(({ section }) => section === wanted);
    const written = formula === undefined ? plan.section : sectionNamed(plan.environment, formula.toLowerCase());
    if (home !== undefined) return { line: other.lineIndex.positionAt(home.offsetsOf(written === undefined ? place : ownPlace(written, place)).start).line + 1, file: other === file ? undefined : other.uri };
  }
  return undefined;
}

function findingsWith({ findings }: Analysis, lineOf: (place: Place) => number): DayPreviewInput['findings'] {
  return findings
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
