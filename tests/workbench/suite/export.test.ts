/** Exporting the formula at the cursor: the file is written through the editor, and the formula is never written over. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

suite('exporting a formula', () => {
  let folder: vscode.Uri;
  let rye: vscode.TextDocument;

  suiteSetup(async () => {
    const open = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert(open, 'a workspace folder is open');
    folder = open;
    rye = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'rye.bake'));
    const editor = await vscode.window.showTextDocument(rye);
    const line = rye.positionAt(rye.getText().indexOf('bread flour')).line;
    editor.selection = new vscode.Selection(line, 4, line, 4);
  });

  test('writes a card beside it', async () => {
    const card = vscode.Uri.joinPath(folder, 'walnut-card.html');
    await vscode.commands.executeCommand('proofsheet.exportFormula', { form: 'html', to: card.toString() });
    const text = await eventually(async () => {
      try {
        return new TextDecoder().decode(await vscode.workspace.fs.readFile(card));
      } catch {
        return undefined; // not written yet
      }
    });
    assert(text.startsWith('<!DOCTYPE html>') && text.includes('What to weigh'), text.slice(0, 200));
    await vscode.workspace.fs.delete(card);
  });

  test('never writes over the file that is exported', async () => {
    const before = rye.getText();
    await vscode.commands.executeCommand('proofsheet.exportFormula', { form: 'markdown', to: rye.uri.toString() });
    const after = new TextDecoder().decode(await vscode.workspace.fs.readFile(rye.uri));
    assert(after === before, after.slice(0, 200));
  });
});
