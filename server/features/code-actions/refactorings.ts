/** Other ways to write what is at the cursor, and scaling. */
import type { CodeAction, TextEdit } from 'vscode-languageserver';
import { refactoringsAt, type Refactoring } from '../../core/refactor';
import { blockAt, sectionOfBlock } from '../../project/file';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { textEdit, wants, withEdit, type CodeActionOptions } from './options';
import { CodeActionKind } from '../shared/protocol';

interface At {
  readonly start: number;
  readonly end: number;
}

/** Only when somebody asks: no light bulb stands on every line because it could be written otherwise. */
export function refactoringActions(file: ProjectFile, at: At, options: CodeActionOptions): readonly CodeAction[] {
  if (options.isAskedFor !== true && options.only === undefined) return [];
  if (!wants(options, CodeActionKind.RefactorRewrite) && !wants(options, CodeActionKind.RefactorExtract)) return [];
  return waysAt(file, at).flatMap(({ refactoring, section }) => {
    const { id, kind, title } = refactoring;
    const action = { title, kind: kind === 'extract' ? CodeActionKind.RefactorExtract : CodeActionKind.RefactorRewrite };
    if (!wants(options, action.kind)) return [];
    return [withEdit(action, file, id, at, () => editsOf(file, section, refactoring), options)];
  });
}

/** The edits of the refactoring of that name at a place; undefined when it is not there any more. */
export function refactoringEdits(file: ProjectFile, at: At, id: string): readonly TextEdit[] | undefined {
  const found = waysAt(file, at).find(({ refactoring }) => refactoring.id === id);
  return found && editsOf(file, found.section, found.refactoring);
}

function editsOf(file: ProjectFile, section: PlacedSection, refactoring: Refactoring): readonly TextEdit[] {
  return refactoring.edits().map(edit => textEdit(file, section, edit));
}

/** Of a selection over more than one block nothing can be said as one. */
function waysAt(file: ProjectFile, { start, end }: At): readonly { readonly refactoring: Refactoring; readonly section: PlacedSection }[] {
  const block = blockAt(file, start);
  const section = block && sectionOfBlock(file, block.index);
  const formula = section?.analysis.formula;
  if (block === undefined || section === undefined || formula === undefined || end > block.offset + block.block.text.length) return [];
  const at = { block: block.index - section.firstBlock, start: start - block.offset, end: end - block.offset };
  return refactoringsAt({ section: section.analysis.section, formula, at, env: section.environment }).map(refactoring => ({ refactoring, section }));
}

/** `Scale this formula…`: anywhere in a formula when it is asked for; a light bulb shows it at the head and at `makes` only. */
export function scaleActions(file: ProjectFile, offset: number, options: CodeActionOptions): readonly CodeAction[] {
  const { scaleCommand: command } = options;
  if (command === undefined || command === '' || !wants(options, CodeActionKind.RefactorRewrite) || !canScaleAt(file, offset, options)) return [];
  const title = 'Scale this formula…';
  return [{ title, kind: CodeActionKind.RefactorRewrite, command: { title, command } }];
}

function canScaleAt(file: ProjectFile, offset: number, { isAskedFor, only }: CodeActionOptions): boolean {
  const block = blockAt(file, offset);
  const section = block && sectionOfBlock(file, block.index);
  if (section?.analysis.formula === undefined || section.analysis.formula.lacksBase) return false;
  if (isAskedFor === true || only !== undefined) return true;
  const { namePlace, makes } = section.analysis.formula;
  const line = (at: number): number => file.lineIndex.positionAt(at).line;
  return [namePlace, ...(makes === undefined ? [] : [makes.place])].some(place => line(section.offsetsOf(place).start) === line(offset));
}
