/** The command that begins a formula: three questions, then a text to go on with. */
import * as vscode from 'vscode';
import { KINDS, LEAVENS, type Kind, type Leaven } from './kinds';
import { sizeFrom, usualSize, type Size } from './size';
import { newFormulaText } from './text';

const TITLE = 'New Formula';

export function registerNewFormula(log: vscode.LogOutputChannel): vscode.Disposable {
  return vscode.commands.registerCommand('proofsheet.newFormula', async (folder: unknown) => {
    const answers = await asked();
    if (answers === undefined) return;
    const { kind, size, leaven } = answers;
    const content = newFormulaText(kind, size, leaven);
    const document = folder instanceof vscode.Uri
      ? await fileIn(folder, kind.id, content, log)
      : await vscode.workspace.openTextDocument({ language: 'proofsheet', content });
    if (document === undefined) return;
    // The name is the first thing to be changed.
    const start = content.indexOf('"') + 1;
    const name = new vscode.Range(document.positionAt(start), document.positionAt(start + kind.name.length));
    await vscode.window.showTextDocument(document, { selection: name, preview: false });
  });
}

interface Answers {
  readonly kind: Kind;
  readonly size: Size;
  readonly leaven: Leaven;
}

/** Undefined when somebody thought better of it. */
async function asked(): Promise<Answers | undefined> {
  const title = (step: number): string => `${TITLE} (${step} of 3)`;
  const picked = await vscode.window.showQuickPick(KINDS.map((bread) => ({ label: bread.label, detail: bread.detail, bread })), {
    title: title(1), placeHolder: 'What do you bake?',
  });
  if (picked === undefined) return undefined;
  const kind = picked.bread;
  const usual = usualSize(kind);
  const typed = await vscode.window.showInputBox({
    title: title(2), value: usual, valueSelection: [0, usual.indexOf(' ')], ignoreFocusOut: true,
    prompt: 'How many pieces, and how much dough for each before it is baked?',
    validateInput(text) {
      const size = sizeFrom(text, kind);
      return typeof size === 'string' ? size : undefined;
    },
  });
  const size = typed === undefined ? undefined : sizeFrom(typed, kind);
  if (size === undefined || typeof size === 'string') return undefined;
  const raised = await vscode.window.showQuickPick(LEAVENS, { title: title(3), placeHolder: 'What raises it?' });
  return raised && { kind, size, leaven: raised.leaven };
}

/** A file in a folder, of a name that is not taken there. Undefined where none can be written, which is said. */
async function fileIn(folder: vscode.Uri, name: string, content: string, log: vscode.LogOutputChannel): Promise<vscode.TextDocument | undefined> {
  try {
    const taken = new Set((await vscode.workspace.fs.readDirectory(folder)).map(([file]) => file.toLowerCase()));
    let file = `${name}.bake`;
    for (let number = 2; taken.has(file); number++) file = `${name}-${number}.bake`;
    const uri = vscode.Uri.joinPath(folder, file);
    const creation = new vscode.WorkspaceEdit();
    creation.createFile(uri, { contents: new TextEncoder().encode(content) });
    if (!await vscode.workspace.applyEdit(creation)) throw new Error(`${file} was not made`);
    return await vscode.workspace.openTextDocument(uri);
  } catch (error) {
    log.warn(`New formula: ${String(error)}`);
    void vscode.window.showWarningMessage('No file can be made in this folder. Run "Proofsheet: New Formula…" from the Command Palette instead, and save it where you like.');
    return undefined;
  }
}
