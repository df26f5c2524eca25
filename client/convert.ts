/** The command that makes a formula of a recipe in the clipboard: at the cursor of a .bake file, else in a new document. */
import * as vscode from 'vscode';
import { CONVERT_REQUEST, type ConvertAnswer, type ConvertParams } from '../server/requests';
import { insertionAt } from './convert-place';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

export function registerConvert(ask: Ask): vscode.Disposable {
  return vscode.commands.registerCommand('proofsheet.pasteAsFormula', () => pasteAsFormula(ask));
}

async function pasteAsFormula(ask: Ask): Promise<void> {
  const text = await vscode.env.clipboard.readText();
  if (text.trim() === '') {
    void vscode.window.showInformationMessage('The clipboard holds no text. Copy a recipe first: its ingredients and method, or the source of its web page.');
    return;
  }
  const params: ConvertParams = { text };
  const answer = await ask<ConvertAnswer>(CONVERT_REQUEST, params);
  if (answer === undefined) {
    void vscode.window.showWarningMessage('Proofsheet did not answer. "Proofsheet: Show Log" says why.');
    return;
  }
  if (answer.kind === 'cannot') {
    void vscode.window.showWarningMessage(`The clipboard cannot be made a formula. ${answer.message}`);
    return;
  }
  const editor = vscode.window.activeTextEditor;
  const isDone = editor?.document.languageId === 'proofsheet' ? await insert(editor, answer.text) : await open(answer.text);
  if (!isDone) {
    void vscode.window.showWarningMessage('The text cannot be changed here, so nothing was pasted.');
    return;
  }
  void vscode.window.showInformationMessage(answer.hasDoubts ? `${answer.summary} What is left to decide is in the Problems view.` : answer.summary);
}

/** In one edit, so that one undo takes it away. False where the editor takes none. */
async function insert(editor: vscode.TextEditor, draft: string): Promise<boolean> {
  const { document } = editor;
  const lines = Array.from({ length: document.lineCount }, (_, line) => document.lineAt(line).text);
  const { line, character, text, headLine } = insertionAt(lines, editor.selection.active.line, draft);
  const isDone = await editor.edit((edit) => edit.insert(new vscode.Position(line, character), text));
  if (!isDone) return false;
  const head = new vscode.Position(headLine, 0);
  editor.selection = new vscode.Selection(head, head);
  editor.revealRange(new vscode.Range(head, head), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  return true;
}

async function open(content: string): Promise<boolean> {
  const document = await vscode.workspace.openTextDocument({ language: 'proofsheet', content });
  await vscode.window.showTextDocument(document, { preview: false });
  return true;
}
