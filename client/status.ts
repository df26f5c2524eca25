/** The totals of the formula at the cursor, in the status bar. Nothing is there for other texts. */
import * as vscode from 'vscode';
import { TOTALS_REQUEST, type TotalsAnswer, type TotalsParams } from '../server/requests';
import { hasFormulas } from './pages';

/** Milliseconds to wait for the next key or move of the cursor. */
const PAUSE = 150;

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

export function registerStatus(ask: Ask): vscode.Disposable {
  const item = vscode.window.createStatusBarItem('proofsheet.totals', vscode.StatusBarAlignment.Right, 110);
  item.name = 'Totals of the Formula';
  item.command = 'proofsheet.showPreview';
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts requests, so that an answer that another has overtaken is dropped. */
  let turn = 0;

  const update = async (): Promise<void> => {
    turn += 1;
    const mine = turn;
    // In the preview, say, no text is in front; what is beside it counts on.
    const { activeTextEditor, visibleTextEditors } = vscode.window;
    const editor = activeTextEditor ?? visibleTextEditors[0];
    if (editor === undefined || !hasFormulas(editor.document)) {
      item.hide();
      return;
    }
    const { line, character } = editor.selection.active;
    const params: TotalsParams = { uri: editor.document.uri.toString(), position: { line, character } };
    const answer = await ask<TotalsAnswer | null>(TOTALS_REQUEST, params);
    if (mine !== turn || answer === undefined) return; // overtaken, or the text has changed and will be asked about again
    if (answer === null) {
      item.hide();
      return;
    }
    item.text = answer.short;
    item.tooltip = new vscode.MarkdownString(`${answer.all}\n\nClick to open the preview.`);
    item.accessibilityInformation = { label: `${answer.spoken}. Open the preview.`, role: 'button' };
    item.show();
  };
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void update(), PAUSE);
  };

  soon();
  return vscode.Disposable.from(
    item,
    { dispose: () => clearTimeout(timer) },
    vscode.window.onDidChangeActiveTextEditor(soon),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (hasFormulas(textEditor.document)) soon();
    }),
    // Another file that this one uses may change its numbers too.
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (hasFormulas(document)) soon();
    }),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration('proofsheet')) soon();
    }),
  );
}
