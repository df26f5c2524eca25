/** What the extension gives through the editor's API. Only the vscode API is used, so that it runs in every host. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

suite('a .bake file', () => {
  let rye: vscode.TextDocument;
  let mistakes: vscode.TextDocument;

  suiteSetup(async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert(folder, 'a workspace folder is open');
    mistakes = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'mistakes.bake'));
    rye = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'rye.bake'));
    await vscode.window.showTextDocument(rye);
  });

  test('is recognized, and wakes the extension', async () => {
    assert(rye.languageId === 'proofsheet', `its language is ${rye.languageId}`);
    const extension = vscode.extensions.getExtension('proofsheet.proofsheet');
    assert(extension, 'the extension is known');
    await extension.activate();
  });

  test('has hovers with totals, a used file counted in', async () => {
    const text = await eventually(async () => {
      const found = await hoverAt(rye, 'formula');
      return found === '' ? undefined : found;
    });
    assert(/hydration/i.test(text), text);
  });

  test('has no findings where it has no mistakes, though its ingredient comes from another file', async () => {
    const line = lineOf(rye, '17 g');
    await replaceLine(rye, line, '  17,5 g    salt');
    const found = await findings(rye);
    await replaceLine(rye, line, '  17 g      salt');
    // The one that was just made. An ingredient that the server had not read from the other file would be a second.
    assert(found.every(({ range }) => range.start.line === line), found.map(({ message }) => message).join('\n'));
    await eventually(() => vscode.languages.getDiagnostics(rye.uri).length === 0 || undefined);
  });

  test('has a finding where it has a mistake, and a fix that takes it away', async () => {
    await vscode.window.showTextDocument(mistakes);
    const [finding] = await findings(mistakes);
    const line = lineOf(mistakes, '2,5');
    assert(finding.range.start.line === line, `on line ${finding.range.start.line}: ${finding.message}`);
    // The workbench drops what it is asking when some other extension's provider arrives just then: ask again.
    const edit = await eventually(async () => {
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', mistakes.uri, finding.range);
      return actions.find((action) => action.edit !== undefined)?.edit;
    });
    await vscode.workspace.applyEdit(edit);
    assert(mistakes.getText().includes('2.5 g'), mistakes.getText());
    await eventually(() => vscode.languages.getDiagnostics(mistakes.uri).every(({ range }) => range.start.line !== line) || undefined);
    await vscode.window.showTextDocument(rye);
  });

  test('offers ingredients where one is named', async () => {
    const line = lineOf(rye, '17 g');
    const at = new vscode.Position(line, rye.lineAt(line).text.indexOf('salt') + 1);
    const { items } = await vscode.commands.executeCommand<vscode.CompletionList>('vscode.executeCompletionItemProvider', rye.uri, at);
    const labels = items.map(({ label }) => (typeof label === 'string' ? label : label.label));
    assert(labels.includes('salt'), labels.slice(0, 20).join(', '));
  });

  test('is laid out by the formatter without a change of meaning', async () => {
    await replaceLine(rye, lineOf(rye, '650 g'), '\t650 g bread flour');
    const edits = await vscode.commands.executeCommand<vscode.TextEdit[]>('vscode.executeFormatDocumentProvider', rye.uri, { tabSize: 2, insertSpaces: true });
    assert(edits.length > 0, 'the formatter has something to say');
    const formatting = new vscode.WorkspaceEdit();
    formatting.set(rye.uri, edits);
    await vscode.workspace.applyEdit(formatting);
    assert(/^ {2}650 g +bread flour$/m.test(rye.getText()), rye.getText());
  });

  test('has an outline', async () => {
    const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>('vscode.executeDocumentSymbolProvider', rye.uri);
    assert(symbols.some(({ name }) => name.includes('Walnut rye')), symbols.map(({ name }) => name).join(', '));
  });

  test('has a preview in a tab beside it', async () => {
    await vscode.window.showTextDocument(rye);
    await vscode.commands.executeCommand('proofsheet.showPreview');
    await eventually(() => vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs)
      .find(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.endsWith('proofsheet.preview')));
  });

  test('is served again after a restart of the server', async () => {
    await vscode.commands.executeCommand('proofsheet.restartServer');
    await eventually(async () => (await hoverAt(rye, 'formula')) || undefined);
  });
});

async function hoverAt(document: vscode.TextDocument, word: string): Promise<string> {
  const at = document.positionAt(document.getText().indexOf(word) + 1);
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, at);
  return hovers.flatMap(({ contents }) => contents).map((content) => (typeof content === 'string' ? content : content.value)).join('\n');
}

function findings(document: vscode.TextDocument): Promise<[vscode.Diagnostic, ...vscode.Diagnostic[]]> {
  return eventually(() => {
    const [first, ...rest] = vscode.languages.getDiagnostics(document.uri);
    return first && [first, ...rest];
  });
}

async function replaceLine(document: vscode.TextDocument, line: number, text: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, document.lineAt(line).range, text);
  assert(await vscode.workspace.applyEdit(edit), `line ${line} can be changed`);
}

function lineOf(document: vscode.TextDocument, text: string): number {
  return document.positionAt(document.getText().indexOf(text)).line;
}
