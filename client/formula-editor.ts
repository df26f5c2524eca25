/** The editor whose formula a command is about. */
import * as vscode from 'vscode';
import { hasFormulas } from './pages';

/**
 * The editor in front; where something else is in front (the walkthrough, the preview, the Explorer), one on the screen, failing that
 * the first that is open in a tab, which is then shown. Undefined where no document with formulas is open.
 * @param file one that was picked in the Explorer: it is opened, if need be, and shown.
 */
export async function formulaEditor(file?: vscode.Uri): Promise<vscode.TextEditor | undefined> {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  if (file !== undefined && file.toString() !== activeTextEditor?.document.uri.toString()) {
    const shown = await vscode.window.showTextDocument(file);
    return hasFormulas(shown.document) ? shown : undefined;
  }
  const onScreen = [activeTextEditor, ...visibleTextEditors].find((editor) => editor !== undefined && hasFormulas(editor.document));
  if (onScreen !== undefined) return onScreen;
  // A text that is in front and has no formulas is no reason to leave it.
  if (activeTextEditor !== undefined) return undefined;
  for (const { input } of vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs)) {
    if (!(input instanceof vscode.TabInputText)) continue;
    const document = vscode.workspace.textDocuments.find(({ uri }) => uri.toString() === input.uri.toString());
    if (document !== undefined && hasFormulas(document)) return vscode.window.showTextDocument(document);
  }
  return undefined;
}
