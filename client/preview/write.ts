/** The buttons of the preview that do change the file: each is one edit, undone in one step. */
import * as vscode from 'vscode';
import {
  PLAN_DRAFT_REQUEST, SCALE_REQUEST, type PlanDraftAnswer, type PlanDraftParams, type ScaleAnswer, type ScaleParams, type ViewSize,
} from '../../server/requests';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

/** Writes the amounts of the size on show into the file. False where it was not done; the baker is told why. */
export async function writeSize(ask: Ask, { uri, position, size }: Pick<ScaleParams, 'uri' | 'position'> & { readonly size: ViewSize }): Promise<boolean> {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const { version } = document;
  const { by, value, step, smallStep } = size;
  const params: ScaleParams = { uri, position, request: { by, value }, step, smallStep };
  const answer = await ask<ScaleAnswer | null>(SCALE_REQUEST, params);
  if (answer?.kind === 'cannot') void vscode.window.showWarningMessage(answer.message);
  if (answer?.kind !== 'edit') return false;
  return apply(document, version, answer.edits);
}

/** Writes the time on show as a plan below everything in the file, and shows where. */
export async function writePlan(ask: Ask, params: PlanDraftParams): Promise<void> {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(params.uri));
  const { version } = document;
  const answer = await ask<PlanDraftAnswer | null>(PLAN_DRAFT_REQUEST, params);
  if (!answer || !await apply(document, version, answer.edits)) return;
  const end = document.lineAt(document.lineCount - 1).range;
  vscode.window.visibleTextEditors.find((editor) => editor.document === document)?.revealRange(end);
}

type Edits = PlanDraftAnswer['edits'];

async function apply(document: vscode.TextDocument, version: number, edits: Edits): Promise<boolean> {
  if (document.version !== version) {
    void vscode.window.showInformationMessage('The text has changed in the meantime, so nothing was written. Press the button again.');
    return false;
  }
  const edit = new vscode.WorkspaceEdit();
  for (const { range: { start, end }, newText } of edits) {
    edit.replace(document.uri, new vscode.Range(start.line, start.character, end.line, end.character), newText);
  }
  return vscode.workspace.applyEdit(edit);
}
