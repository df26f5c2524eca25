/** What commands write into a text: a recipe of the clipboard, the beginning of a record. And what a variant's lines say on hover. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

const recipe = `Walnut bread

500 g bread flour
350 g water
a handful of walnuts
10 g salt

Mix for 8 minutes. Bake at 230 C for 40 minutes.
`;

suite('a recipe that was copied elsewhere', () => {
  suiteSetup(() => vscode.env.clipboard.writeText(recipe));

  test('is a formula behind the others of the file, with a finding where it leaves something open; one undo takes it away', async () => {
    const rolls = await opened('rolls.bake');
    const before = rolls.getText();
    await vscode.commands.executeCommand('proofsheet.pasteAsFormula');
    await eventually(() => rolls.getText() !== before || undefined);
    const pasted = rolls.getText().slice(rolls.getText().indexOf('formula "Walnut bread"'));
    assert(/^ {2}500 g +bread flour$/m.test(pasted) && /^ {2}bake +40 min at 230 C/m.test(pasted), rolls.getText());
    assert(rolls.getText().includes('formula "Plain rolls"'), 'what stood there is still there');
    const open = await eventually(() => vscode.languages.getDiagnostics(rolls.uri).find((finding) => codeOf(finding) === 'to-decide'));
    assert(rolls.lineAt(open.range.start.line).text.includes('a handful of walnuts'), rolls.lineAt(open.range.start.line).text);
    await undone(rolls, before);
  });

  test('is a page of its own where no .bake file is open', async () => {
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'plaintext', content: 'Friday: flour, walnuts.' }));
    await vscode.commands.executeCommand('proofsheet.pasteAsFormula');
    const page = await eventually(() => {
      const document = vscode.window.activeTextEditor?.document;
      return document?.languageId === 'proofsheet' ? document : undefined;
    });
    assert(page.isUntitled && page.getText().startsWith('formula "Walnut bread"'), page.getText());
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  });
});

suite('the command line', () => {
  test('is a task that looks through the folder, where a program can be run', async () => {
    const found = await vscode.tasks.fetchTasks({ type: 'proofsheet' });
    if (vscode.env.remoteName === undefined && vscode.env.uiKind === vscode.UIKind.Web) {
      assert(found.length === 0, 'a browser without a server runs no program');
      return;
    }
    const [task] = found;
    assert(task && task.execution instanceof vscode.ShellExecution, `${found.length} tasks`);
    assert(task.name === 'check formulas' && task.problemMatchers.includes('$proofsheet'), `${task.name}, ${task.problemMatchers.join()}`);
    assert(task.execution.command === 'proofsheet', JSON.stringify(task.execution));
  });
});

suite('a record of today', () => {
  test('is begun under the formula at the cursor, once, and one undo takes it back', async () => {
    const rye = await opened('rye.bake', 'walnuts');
    const before = rye.getText();
    await vscode.commands.executeCommand('proofsheet.startRecord');
    await eventually(() => rye.getText() !== before || undefined);
    const begun = rye.getText();
    assert(begun.startsWith(before.trimEnd()), 'nothing above it has changed');
    const [head, ...more] = begun.match(/^record \d{4}-\d\d-\d\d$/gm) ?? [];
    assert(head !== undefined && more.length === 0, begun);

    // Asked again on the same day, the cursor goes to the record that is there.
    const editor = await vscode.window.showTextDocument(rye);
    editor.selection = new vscode.Selection(5, 0, 5, 0);
    await vscode.commands.executeCommand('proofsheet.startRecord');
    await eventually(() => rye.lineAt(editor.selection.active.line).text === head || undefined);
    assert(rye.getText() === begun, rye.getText());
    await undone(rye, before);
  });
});

suite('a variant', () => {
  test('says on hover what its base has and what it becomes, from another file', async () => {
    const variant = await opened('variant.bake');
    const swapped = await hoverAt(variant, 'pistachios', /walnuts/);
    assert(swapped.includes('pistachios'), swapped);
    const water = await hoverAt(variant, '580 g', /560 g/);
    assert(/hydration/i.test(water), water);
    assert(vscode.languages.getDiagnostics(variant.uri).length === 0, 'and there is nothing wrong with it');
  });

  test('is worked out again when its base changes in the other file', async () => {
    const variant = await opened('variant.bake');
    const rye = await opened('rye.bake');
    const before = rye.getText();
    const edit = new vscode.WorkspaceEdit();
    const start = rye.positionAt(before.indexOf('560 g'));
    edit.replace(rye.uri, new vscode.Range(start, start.translate(0, 3)), '570');
    await vscode.workspace.applyEdit(edit);
    await hoverAt(variant, '580 g', /570 g/);
    await undone(rye, before);
    await hoverAt(variant, '580 g', /560 g/);
  });
});

/** Opens a file of the folder, with the cursor in front of some text of it. */
async function opened(name: string, at = ''): Promise<vscode.TextDocument> {
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  assert(folder, 'a workspace folder is open');
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, name));
  const editor = await vscode.window.showTextDocument(document);
  const place = document.positionAt(document.getText().indexOf(at));
  editor.selection = new vscode.Selection(place, place);
  return document;
}

async function undone(document: vscode.TextDocument, before: string): Promise<void> {
  await vscode.window.showTextDocument(document);
  await vscode.commands.executeCommand('undo');
  await eventually(() => document.getText() === before || undefined);
}

/** The hover at some text, once it says what is awaited. */
function hoverAt(document: vscode.TextDocument, text: string, awaited: RegExp): Promise<string> {
  const at = document.positionAt(document.getText().indexOf(text) + 1);
  return eventually(async () => {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, at);
    const said = hovers.flatMap(({ contents }) => contents).map((content) => (typeof content === 'string' ? content : content.value)).join('\n');
    return awaited.test(said) ? said : undefined;
  });
}

function codeOf({ code }: vscode.Diagnostic): unknown {
  return typeof code === 'object' ? code.value : code;
}
