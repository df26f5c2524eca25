/** Writing, as it goes on all day: names that change in every file, layout on saving, long files, formulas in a page of text. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

suite('writing', () => {
  let folder: vscode.Uri;

  suiteSetup(() => {
    const uri = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert(uri, 'a workspace folder is open');
    folder = uri;
  });

  test('renames an ingredient in the file that uses it and in the one that says what it is', async () => {
    const rye = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'rye.bake'));
    const pantry = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'pantry.bake'));
    const before = [rye.getText(), pantry.getText()];
    const at = rye.positionAt(rye.getText().indexOf('mill rye') + 2);
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>('vscode.executeDocumentRenameProvider', rye.uri, at, 'stall rye');
    assert(edit.size === 2, `${edit.size} files are touched`);
    assert(await vscode.workspace.applyEdit(edit), 'the names can be changed');
    assert(!rye.getText().includes('mill rye') && rye.getText().split('stall rye').length === 3, rye.getText());
    assert(pantry.getText().startsWith('ingredient "stall rye"'), pantry.getText());

    const back = await vscode.commands.executeCommand<vscode.WorkspaceEdit>('vscode.executeDocumentRenameProvider', rye.uri, at, 'mill rye');
    await vscode.workspace.applyEdit(back);
    assert(rye.getText() === before[0] && pantry.getText() === before[1], 'there and back is nothing');
    await rye.save();
    await pantry.save();
  });

  test('lays a file out when it is saved, where that is asked for', async () => {
    const uri = vscode.Uri.joinPath(folder, 'mistakes.bake');
    const document = await vscode.workspace.openTextDocument(uri);
    await vscode.window.showTextDocument(document);
    const editor = vscode.workspace.getConfiguration('editor', { languageId: 'proofsheet', uri });
    await editor.update('formatOnSave', true, vscode.ConfigurationTarget.Workspace, true);
    try {
      const line = document.positionAt(document.getText().indexOf('500 g')).line;
      const edit = new vscode.WorkspaceEdit();
      edit.replace(uri, document.lineAt(line).range, '\t500 g bread flour   # of the new sack');
      await vscode.workspace.applyEdit(edit);
      await document.save();
      await eventually(() => /^ {2}500 g {5}bread flour {2,}# of the new sack$/m.test(document.getText()) || undefined);
      assert(!document.isDirty, 'what was laid out is saved');
    } finally {
      await editor.update('formatOnSave', undefined, vscode.ConfigurationTarget.Workspace, true);
    }
  });

  test('types in a file of 5,000 lines, letter by letter: the text is what was typed, and its finding comes and goes', async () => {
    const loaf = (number: number): string => `formula "Loaf ${number}"\n  makes     1 loaf of 850 g\n\ndough\n  500 g     bread flour\n  340 g     water\n  10 g      salt\n\n`;
    const content = Array.from({ length: 630 }, (_, number) => loaf(number)).join('');
    const document = await vscode.workspace.openTextDocument({ language: 'proofsheet', content });
    assert(document.lineCount > 5000, `${document.lineCount} lines`);
    const editor = await vscode.window.showTextDocument(document);
    const line = document.positionAt(content.indexOf('10 g', content.indexOf('"Loaf 300"'))).line;
    const end = document.lineAt(line).range.end;
    editor.selection = new vscode.Selection(end, end);
    editor.revealRange(new vscode.Range(end, end));
    await settled(document.uri);
    // A letter at a time, each as a keyboard sends it: the editor's own indent and closing quotes take part.
    for (const letter of '\n2,5 g instant yeast') await vscode.commands.executeCommand('type', { text: letter });
    assert(document.lineAt(line + 1).text === '  2,5 g instant yeast', document.lineAt(line + 1).text);
    await eventually(() => vscode.languages.getDiagnostics(document.uri).find(({ range }) => range.start.line === line + 1));
    const behindComma = new vscode.Position(line + 1, '  2,'.length);
    editor.selection = new vscode.Selection(behindComma, behindComma);
    await vscode.commands.executeCommand('deleteLeft');
    await vscode.commands.executeCommand('type', { text: '.' });
    await eventually(() => vscode.languages.getDiagnostics(document.uri).every(({ range }) => range.start.line !== line + 1) || undefined);
    assert(document.getText() === content.replace(/("Loaf 300"(?:.*\n){6}.*10 g {6}salt\n)/, '$1  2.5 g instant yeast\n'), 'nothing else has changed');
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  });

  test('finds, explains and mends a slip in a fence of a page of text', async () => {
    const content = '# Friday\n\nThe dough for the stall.\n\n```bake\nformula "Stall tin"\n  makes     1 loaf of 850 g\n\ndough\n  500 g     bread flour\n  340 g     water\n  10,5 g    salt\n```\n\nThat is all.\n';
    const page = await vscode.workspace.openTextDocument({ language: 'markdown', content });
    await vscode.window.showTextDocument(page);
    const finding = await eventually(() => vscode.languages.getDiagnostics(page.uri).find(({ range }) => range.start.line === 11));
    // By its name: the editor's own Markdown has edits to offer there, too.
    const edit = await eventually(async () => {
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', page.uri, finding.range);
      return actions.find(({ title }) => title.includes('10.5'))?.edit;
    });
    await vscode.workspace.applyEdit(edit);
    assert(page.getText() === content.replace('10,5 g', '10.5 g'), page.getText());
    const hover = await eventually(async () => {
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', page.uri, new vscode.Position(5, 2));
      const text = hovers.flatMap(({ contents }) => contents).map((part) => (typeof part === 'string' ? part : part.value)).join('\n');
      return /hydration/i.test(text) ? text : undefined;
    });
    assert(hover.includes('68'), hover);
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  });
});

/** Waits until the server has said something of a file, if only that it is fine: a hover is answered after its findings are. */
async function settled(uri: vscode.Uri): Promise<void> {
  await eventually(async () => {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', uri, new vscode.Position(0, 2));
    return hovers.length > 0 || undefined;
  });
}
