/** What is found of a section: by the checks, and where its steps cannot be done by the time that is said for it. */
import type { StepLine } from '../../../grammar';
import type { Finding, Fix } from '../../core/checks/check';
import { scheduleImpossible } from '../../core/checks/pages';
import type { Place, Section } from '../../core/formula/model';
import type { Timeline, WayOut } from '../../core/timeline/model';
import { everyLine } from '../../project/file';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { scheduleOf } from './schedule';

export const SCHEDULE_CODE = scheduleImpossible.code;

/** The findings of the checks and those of the schedule. */
export function findingsOf(file: ProjectFile, section: PlacedSection): readonly Finding[] {
  const { findings, formula } = section.analysis;
  const timeline = scheduleOf(file, section)?.timeline;
  if (formula === undefined || timeline?.kind !== 'conflict') return findings;
  return [...findings, conflictFinding(section.section, formula.namePlace, timeline)];
}

function conflictFinding(section: Section, place: Place, { message, facts, waysOut }: Extract<Timeline, { readonly kind: 'conflict' }>): Finding {
  const elsewhere = waysOut.filter(way => way.length === undefined).map(({ text }) => text);
  return {
    code: SCHEDULE_CODE,
    severity: 'warning',
    message: elsewhere.length === 0 ? message : `${message} What would do: ${elsewhere.join('; or ')}.`,
    place,
    fixes: waysOut.flatMap(way => fixOf(section, way)),
    related: facts.flatMap(({ text, place: line }) => (line === undefined ? [] : [{ place: line, message: text }])),
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
  return [{ title: `${text.charAt(0).toUpperCase()}${text.slice(1)}`, certain: false, edits: [edit] }];
}

function stepAt(section: Section, { block: index, start }: Place): StepLine | undefined {
  const block = section.blocks[index];
  if (block === undefined) return undefined;
  for (const { node } of everyLine(block)) if (node.kind === 'step' && node.start === start) return node;
  return undefined;
}
