/** What is found of a section: by the checks, and where its steps cannot be done by the time that is said for it. */
import type { StepLine } from '../../../grammar';
import type { Finding, Fix, Related } from '../../core/checks/check';
import { scheduleImpossible } from '../../core/checks/pages';
import { sectionNamed } from '../../core/analyse';
import type { Place, Section } from '../../core/formula/model';
import { hoursOffText } from '../../core/timeline/hours-off';
import type { Timeline, WayOut } from '../../core/timeline/model';
import { ownEdits } from '../../core/variant/own-edits';
import { sourceOf } from '../../core/variant/places';
import { everyLine } from '../../project/file';
import type { LoadedFile, PlacedSection, ProjectFile, SectionInFile } from '../../project/file';
import { mayBeScheduled, orderSchedules, scheduleOf, type PlanTime } from './schedule';

export const SCHEDULE_CODE = scheduleImpossible.code;

/** A finding whose fixes may stand in another section, or in another file, than the finding itself. */
export interface PlacedFinding {
  readonly finding: Finding;
  readonly fixIn: { readonly file: LoadedFile; readonly section: SectionInFile };
}

type Conflict = Extract<Timeline, { readonly kind: 'conflict' }>;

/** The findings of the checks and those of the schedule. */
export function findingsOf(file: ProjectFile, section: PlacedSection): readonly PlacedFinding[] {
  if (section.analysis.findings.length === 0 && !mayBeScheduled(file, section.section)) return NOTHING;
  const here = { file, section };
  const own = section.analysis.findings.map(finding => ({ finding, fixIn: here }));
  if (section.section.kind === 'plan') return [...own, ...planFindings(file, section)];
  const { formula } = section.analysis;
  const scheduled = formula && scheduleOf(file, section);
  // What a plan asks for is said at the plan.
  if (formula === undefined || scheduled?.timeline.kind !== 'conflict' || scheduled.by !== undefined) return own;
  const { timeline } = scheduled;
  const related = timeline.facts.flatMap(({ text, place }): readonly Related[] => (place === undefined ? [] : [{ place, message: text }]));
  return [...own, { finding: conflictFinding(timeline, { place: formula.namePlace, related, message: timeline.message }, section.analysis.section), fixIn: here }];
}

/** Most sections have no findings and no time: an edit asks all sections of the file. */
const NOTHING: readonly PlacedFinding[] = [];

/** Orders that cannot be ready in time, each looked at by itself. */
function planFindings(file: ProjectFile, plan: PlacedSection): readonly PlacedFinding[] {
  return orderSchedules(file, plan).flatMap(({ timeline, by }) => {
    const home = homeOf(file, plan, by.order.name);
    const formula = sectionNamed(plan.environment, by.order.name.toLowerCase());
    if (timeline.kind !== 'conflict' || home === undefined || formula === undefined) return [];
    const related = timeline.facts.flatMap(fact => relatedToOrder(fact, by, formula));
    const message = `“${by.order.name}”: ${timeline.message}`;
    return [{ finding: conflictFinding(timeline, { place: by.order.place, related, message }, formula), fixIn: home }];
  });
}

/** The file and section in which a formula of a plan stands. */
function homeOf(file: ProjectFile, plan: PlacedSection, name: string): PlacedFinding['fixIn'] | undefined {
  const wanted = plan.environment.formulas.get(name.toLowerCase());
  for (const other of [file, ...file.visible]) {
    const section = other.sections.find(each => each.section === wanted);
    if (section !== undefined) return { file: other, section };
  }
  return undefined;
}

/** A line of the formula, or the line of the plan that says the hours or the time. */
function relatedToOrder({ text, place }: Conflict['facts'][number], { day, place: timePlace }: PlanTime, formula: Section): readonly Related[] {
  if (place !== undefined) {
    const source = sourceOf(formula, place);
    return source === undefined ? [] : [{ elsewhere: source.block, start: source.start, end: source.end, message: text }];
  }
  const hours = day.hoursOff.find(each => text === `${each.kind} ${hoursOffText(each)}`);
  if (hours !== undefined) return [{ place: hours.place, message: text }];
  return /^(?:ready|begun|start)\b/.test(text) ? [{ place: timePlace, message: text }] : [];
}

function conflictFinding({ waysOut }: Conflict, found: Pick<Finding, 'place' | 'related' | 'message'>, formula: Section): Finding {
  const elsewhere = waysOut.filter(way => way.length === undefined).map(({ text }) => text);
  return {
    ...found,
    code: SCHEDULE_CODE,
    severity: 'warning',
    message: elsewhere.length === 0 ? found.message : `${found.message} What would do: ${elsewhere.join('; or ')}.`,
    fixes: waysOut.flatMap(way => fixOf(formula, way)),
  };
}

/** A way out that changes the length of a step, as an edit of its line. */
function fixOf(section: Section, { text, place, length }: WayOut): readonly Fix[] {
  const step = place && stepAt(section, place);
  if (place === undefined || step === undefined || length === undefined) return [];
  const after = step.label?.end ?? step.keyword.end;
  const edit = step.duration === undefined
    ? { place: { block: place.block, start: after, end: after }, newText: ` ${length}` }
    : { place: { block: place.block, start: step.duration.start, end: step.duration.end }, newText: length };
  const edits = ownEdits(section, [edit], 0);
  return edits === undefined ? [] : [{ title: `${text.charAt(0).toUpperCase()}${text.slice(1)}`, certain: false, edits }];
}

function stepAt(section: Section, { block: index, start }: Place): StepLine | undefined {
  const block = section.blocks[index];
  if (block === undefined) return undefined;
  for (const { node } of everyLine(block)) if (node.kind === 'step' && node.start === start) return node;
  return undefined;
}
