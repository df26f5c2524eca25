/** Scaling the formula at the cursor: shown before it is made, and taken back in one step. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

suite('scaling a formula', () => {
  let rye: vscode.TextDocument;
  let before: string;

  suiteSetup(async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert(folder, 'a workspace folder is open');
    rye = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'rye.bake'));
    const editor = await vscode.window.showTextDocument(rye);
    const line = rye.positionAt(rye.getText().indexOf('bread flour')).line;
    editor.selection = new vscode.Selection(line, 4, line, 4);
    before = rye.getText();
  });

  test('waits for a word before it changes the text, and one undo takes it back', async () => {
    const made = vscode.commands.executeCommand('proofsheet.scaleFormula', { by: 'pieces', value: '4' });
    // The panel with the change comes in its own time, and until then there is nothing to say yes to.
    await eventually(async () => {
      await new Promise((resolve) => setTimeout(resolve, 300));
      if (rye.getText() !== before) return true;
      await vscode.commands.executeCommand('refactorPreview.apply');
      return rye.getText() === before ? undefined : true;
    });
    await made;
    assert(rye.getText().includes('makes     4 loaves of 800 g'), rye.getText());
    assert(rye.getText().includes('1300 g    bread flour'), rye.getText());
    assert(/mix +8 min, by hand/.test(rye.getText()), 'a time is no amount');
    await vscode.window.showTextDocument(rye);
    await vscode.commands.executeCommand('undo');
    await eventually(() => rye.getText() === before || undefined);
  });

  test('changes nothing when it is thought better of', async () => {
    await vscode.window.showTextDocument(rye);
    const made = vscode.commands.executeCommand('proofsheet.scaleFormula', { by: 'factor', value: '3' });
    let done = false;
    void Promise.resolve(made).then(() => (done = true));
    await eventually(async () => {
      await new Promise((resolve) => setTimeout(resolve, 300));
      if (done) return true;
      await vscode.commands.executeCommand('refactorPreview.discard');
      return done || undefined;
    });
    assert(rye.getText() === before, rye.getText());
  });

  test('is offered as an action on the formula', async () => {
    const at = new vscode.Range(3, 4, 3, 4);
    const actions = await eventually(async () => {
      const found = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', rye.uri, at, 'refactor.rewrite');
      return found.length > 0 ? found : undefined;
    });
    assert(actions.some(({ title, command }) => title === 'Scale this formula…' && command?.command === 'proofsheet.scaleFormula'), actions.map(({ title }) => title).join(', '));
  });
});
