/**
 * Repairs of findings, one at a time or all that are certain at once; silencing one, with a reason; and other ways to write
 * what is there.
 */
import type { CodeAction, Range, TextEdit } from 'vscode-languageserver';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { FIX_ALL } from '../shared/action-kinds';
import { CodeActionKind } from '../shared/protocol';
import { findingsOf, type PlacedFinding } from '../shared/schedule-findings';
import { acceptAction } from './accept';
import { certainIn, editsOfAll, everyCertainEdit, type Certain } from './certain';
import { actionDataOf, shownAs, textEdit, wants, withEdit, workspaceEdit, type ActionData, type CodeActionOptions } from './options';
import { refactoringActions, refactoringEdits, scaleActions } from './refactorings';

export type { CodeActionOptions } from './options';

export function codeActionsOf(file: ProjectFile, range: Range, options: CodeActionOptions): CodeAction[] {
  const at = { start: file.lineIndex.offsetAt(range.start), end: file.lineIndex.offsetAt(range.end) };
  return [
    ...(wants(options, CodeActionKind.QuickFix) ? repairs(file, at, options) : []),
    ...scaleActions(file, at.start, options),
    ...refactoringActions(file, at, options),
    ...fixAll(file, options),
  ];
}

/** An action that was told without its edit, with it; undefined where the text has changed since, or has no such action any more. */
export function resolvedCodeAction(file: ProjectFile, action: CodeAction, options: CodeActionOptions): CodeAction | undefined {
  const data = actionDataOf(action.data);
  if (data === undefined) return action;
  const edits = data.version === options.version ? editsFor(file, data, options) : undefined;
  return edits && { ...action, edit: workspaceEdit(file, edits, options) };
}

function editsFor(file: ProjectFile, data: ActionData, options: CodeActionOptions): readonly TextEdit[] | undefined {
  if (data.id === FIX_ALL) return everythingCertain(file, options);
  if (data.id === SELECTED) return editsOfAll(file, selectedIn(file, data));
  if (data.id.startsWith(ALL_OF)) return editsOfAll(file, certainOf(file, data.id.slice(ALL_OF.length)));
  return refactoringEdits(file, data, data.id);
}

// --- repairs --------------------------------------------------------------------------------------------------------

interface FindingInSection extends PlacedFinding {
  readonly section: PlacedSection;
}

/** What is certain first, then what is a choice, then silence. */
function repairs(file: ProjectFile, at: At, options: CodeActionOptions): readonly CodeAction[] {
  const found = findingsIn(file, at);
  const single = found.flatMap(one => one.finding.fixes.map((fix, index) => ({ certain: fix.certain, action: repair(file, one, index, options) })));
  const accepts: CodeAction[] = [];
  for (const { section, finding } of found) {
    const accept = acceptAction(file, section, finding, options);
    if (accept !== undefined && !accepts.some(other => other.title === accept.title)) accepts.push(accept);
  }
  return [
    ...single.filter(({ certain }) => certain).map(({ action }) => action),
    ...severalAtOnce(file, at, options),
    ...single.filter(({ certain }) => !certain).map(({ action }) => action),
    ...accepts,
  ];
}

/** A doubtful repair is a question: only the baker knows. */
function repair(file: ProjectFile, { finding, fixIn }: FindingInSection, index: number, options: CodeActionOptions): CodeAction {
  const fix = finding.fixes[index];
  if (fix === undefined) throw new RangeError(`no fix ${index} of ${finding.code}`);
  return {
    title: fix.certain ? fix.title : `${fix.title}?`,
    kind: CodeActionKind.QuickFix,
    diagnostics: shownAs(options, finding),
    ...(fix.certain && index === 0 && { isPreferred: true }),
    edit: workspaceEdit(fixIn.file, fix.edits.map(edit => textEdit(fixIn.file, fixIn.section, edit)), fixIn.file === file ? options : { ...options, version: null }),
  };
}

interface At {
  readonly start: number;
  readonly end: number;
}

function findingsIn(file: ProjectFile, { start, end }: At): readonly FindingInSection[] {
  return file.sections.flatMap(section => findingsOf(file, section).flatMap(found => {
    const place = section.offsetsOf(found.finding.place);
    return place.start <= end && place.end >= start ? [{ ...found, section }] : [];
  }));
}

// --- several at once ---------------------------------------------------------------------------------------------------

const SELECTED = 'certain-selected';
const ALL_OF = 'certain-of ';

/** The certain repairs of all that is selected, and of everything in the file that has the same code as what is at the cursor. */
function severalAtOnce(file: ProjectFile, at: At, options: CodeActionOptions): readonly CodeAction[] {
  const selected = selectedIn(file, at);
  const codes = [...new Set(selected.map(({ finding }) => finding.code))];
  const answered = (all: readonly Certain[]) => all.flatMap(({ finding }) => shownAs(options, finding));
  const bySelection = selected.length < 2 ? [] : [withEdit(
    { title: `Make these ${selected.length} repairs`, kind: CodeActionKind.QuickFix, diagnostics: answered(selected) },
    file, SELECTED, at, () => editsOfAll(file, selected), options,
  )];
  const byCode = codes.flatMap(code => {
    const all = certainOf(file, code);
    if (all.length < 2 || all.length === selected.length) return [];
    return [withEdit(
      { title: `Repair all ${all.length} of ${code} in this file`, kind: CodeActionKind.QuickFix, diagnostics: answered(all) },
      file, `${ALL_OF}${code}`, at, () => editsOfAll(file, all), options,
    )];
  });
  return [...bySelection, ...byCode];
}

function selectedIn(file: ProjectFile, { start, end }: At): readonly Certain[] {
  return certainIn(file).filter(({ section, finding }) => {
    const place = section.offsetsOf(finding.place);
    return place.start <= end && place.end >= start;
  });
}

function certainOf(file: ProjectFile, code: string): readonly Certain[] {
  return certainIn(file).filter(({ finding }) => finding.code === code);
}

/** Asked for by name only: an action on the whole file has no business in the light bulb of a line. */
function fixAll(file: ProjectFile, options: CodeActionOptions): readonly CodeAction[] {
  if (options.only === undefined || !wants(options, FIX_ALL) || certainIn(file).length === 0) return [];
  const action = { title: 'Repair everything that has one certain repair', kind: FIX_ALL };
  return [withEdit(action, file, FIX_ALL, { start: 0, end: 0 }, () => everythingCertain(file, options), options)];
}

function everythingCertain(file: ProjectFile, { supposing }: CodeActionOptions) {
  return everyCertainEdit(file, supposing ?? (() => undefined));
}
