/** The command that begins a record of a bake under the formula at the cursor. */
import * as vscode from 'vscode';
import { RECORD_REQUEST, type RecordAnswer, type RecordParams } from '../server/requests';
import { zoneAt } from './chosen-times';
import { formulaEditor } from './formula-editor';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

export function registerRecord(ask: Ask): vscode.Disposable {
  return vscode.commands.registerCommand('proofsheet.startRecord', () => startRecord(ask));
}

async function startRecord(ask: Ask): Promise<void> {
  const editor = await formulaEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage('Open a .bake file, or a Markdown page with a ```bake fence, first: the record goes under the formula that the cursor is in.');
    return;
  }
  const { document } = editor;
  const { line, character } = editor.selection.active;
  const { version } = document;
  const params: RecordParams = { uri: document.uri.toString(), position: { line, character }, epochMs: Date.now(), zone: zoneAt(document.uri) };
  const answer = await ask<RecordAnswer | null>(RECORD_REQUEST, params);
  if (answer === undefined) void vscode.window.showWarningMessage('Proofsheet did not answer. "Proofsheet: Show Log" says why.');
  else if (answer === null) void vscode.window.showInformationMessage('Put the cursor into the formula that was baked.');
  else if (answer.kind === 'there') {
    show(editor, answer.line);
    void vscode.window.showInformationMessage(`${answer.title} has a record of ${answer.date} already: here it is. A second bake of that day goes into its note.`);
  } else if (document.version !== version) {
    void vscode.window.showInformationMessage('The text has changed in the meantime, so no record was begun. Begin it again.');
  } else {
    const { range: { start, end }, newText } = answer.edit;
    // One edit, so that one undo takes it back.
    const isDone = await editor.edit((builder) => builder.replace(new vscode.Range(start.line, start.character, end.line, end.character), newText));
    if (isDone) show(editor, answer.line);
  }
}

function show(editor: vscode.TextEditor, line: number): void {
  const at = new vscode.Position(line, 0);
  editor.selection = new vscode.Selection(at, at);
  editor.revealRange(new vscode.Range(line, 0, line + 12, 0), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}
