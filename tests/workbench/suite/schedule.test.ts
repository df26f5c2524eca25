/** A ready time that is chosen in the editor: above the formula, on hover, among the findings, and nowhere in the file. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

const COMMAND = 'proofsheet.scheduleFormula';

suite('a ready time for a formula', () => {
  let rye: vscode.TextDocument;
  let before: string;

  suiteSetup(async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert(folder, 'a workspace folder is open');
    rye = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'rye.bake'));
    await vscode.window.showTextDocument(rye);
    before = rye.getText();
  });
  suiteTeardown(() => vscode.workspace.getConfiguration('proofsheet').update('asleep', undefined, vscode.ConfigurationTarget.Global));

  test('is asked for by the line above it, which then says when it is begun and ready', async () => {
    const lens = await eventually(async () => (await lensesOf(rye)).find(({ title }) => title === 'Schedule: ready by…'));
    const [uri, formula] = (lens.arguments ?? []) as unknown[];
    assert(formula === 'Walnut rye', String(formula));
    await vscode.commands.executeCommand(COMMAND, uri, formula, { kind: 'ready', text: '2026-03-14 08:00' });
    await eventually(async () => (await lensesOf(rye)).find(({ title }) => /^Begin (Thu|Fri) \d\d:\d\d, ready Sat 08:00$/.test(title)));
    assert(rye.getText() === before, 'the file stays as it is');
  });

  test('gives every step its time on hover', async () => {
    const at = rye.positionAt(rye.getText().indexOf('  cool') + 3);
    const text = await eventually(async () => {
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', rye.uri, at);
      return hovers.flatMap(({ contents }) => contents).map((content) => (typeof content === 'string' ? content : content.value)).join('\n') || undefined;
    });
    assert(/\*\*Sat 06:00 – 08:00\*\*/.test(text), text);
  });

  test('that nobody can keep is found, with what would help, until the hours change', async () => {
    const settings = vscode.workspace.getConfiguration('proofsheet');
    await settings.update('asleep', ['22:30 to 06:30'], vscode.ConfigurationTarget.Global);
    const found = await eventually(() => impossible(rye));
    assert(/asleep 22:30 to 06:30/.test(`${found.message} ${found.relatedInformation?.map(({ message }) => message).join(' ')}`), found.message);
    await settings.update('asleep', undefined, vscode.ConfigurationTarget.Global);
    await eventually(() => impossible(rye) === undefined || undefined);
  });

  test('is kept over a restart of the server', async () => {
    await vscode.commands.executeCommand('proofsheet.restartServer');
    await eventually(async () => (await lensesOf(rye)).find(({ title }) => title.endsWith('ready Sat 08:00')));
  });
});

async function lensesOf(document: vscode.TextDocument): Promise<readonly vscode.Command[]> {
  const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 50);
  return lenses.flatMap(({ command }) => command ?? []);
}

function impossible(document: vscode.TextDocument): vscode.Diagnostic | undefined {
  return vscode.languages.getDiagnostics(document.uri).find(({ code }) => (typeof code === 'object' ? code.value : code) === 'schedule-impossible');
}
