/** The command that scales the formula at the cursor: asks for the size, and shows the change before it is made. */
import * as vscode from 'vscode';
import { SCALE_REQUEST, type ScaleAnswer, type ScaleParams } from '../server/requests';
import { formulaEditor } from './formula-editor';

export const SCALE_COMMAND = 'proofsheet.scaleFormula';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

/** What the command may be called with, from a key binding say: the size then, and nothing is asked. */
interface Wanted {
  readonly by: string;
  readonly value: string;
  readonly step?: string;
  readonly smallStep?: string;
}

interface Rounding {
  readonly step?: string;
  readonly smallStep?: string;
}

const ROUNDINGS: readonly (vscode.QuickPickItem & Rounding)[] = [
  { label: 'To 1 g', description: 'salt, yeast, starter and spices to 0.1 g', step: '1 g', smallStep: '0.1 g' },
  { label: 'To 5 g', description: 'salt, yeast, starter and spices to 0.1 g', step: '5 g', smallStep: '0.1 g' },
  { label: 'Not at all', description: 'so that scaling back gives these numbers again' },
];

export function registerScale(ask: Ask): vscode.Disposable {
  return vscode.commands.registerCommand('proofsheet.scaleFormula', (wanted: unknown) => scale(ask, isWanted(wanted) ? wanted : undefined));
}

async function scale(ask: Ask, given: Wanted | undefined): Promise<void> {
  const editor = await formulaEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage('Open a .bake file, or a Markdown page with a ```bake fence, first: the formula that the cursor is in is scaled.');
    return;
  }
  const { document } = editor;
  const { line, character } = editor.selection.active;
  const at: ScaleParams = { uri: document.uri.toString(), position: { line, character } };
  const asked = (more: Omit<ScaleParams, 'uri' | 'position'>): Promise<ScaleAnswer | null | undefined> => ask(SCALE_REQUEST, { ...at, ...more });
  const wanted = given ?? await wantedFrom(asked);
  if (wanted === undefined) return;

  const { version } = document;
  const { by, value, step, smallStep } = wanted;
  const answer = await asked({ request: { by, value }, step, smallStep });
  if (answer?.kind !== 'edit') return tell(answer);
  if (document.version !== version) {
    void vscode.window.showInformationMessage('The text has changed in the meantime, so nothing was scaled. Scale it again.');
    return;
  }
  if (answer.edits.length === 0) {
    void vscode.window.showInformationMessage('The formula has that size already.');
    return;
  }
  const notes = answer.notes.map((note) => `Line ${note.line + 1}: ${note.message}`);
  const edit = new vscode.WorkspaceEdit();
  // An edit that must be confirmed opens the view of changes, and is not ticked in it: a formula would be scaled in part by
  // whoever ticks some. So what must be confirmed changes nothing and says what there is to know; the amounts are ticked.
  edit.insert(document.uri, editor.selection.active, '', { label: answer.title, description: notes.join(' '), needsConfirmation: true });
  const amounts: vscode.WorkspaceEditEntryMetadata = { label: 'Amounts', needsConfirmation: false };
  for (const { range: { start, end }, newText } of answer.edits) {
    edit.replace(document.uri, new vscode.Range(start.line, start.character, end.line, end.character), newText, amounts);
  }
  if (notes.length > 0) void vscode.window.showInformationMessage(`${answer.title}. ${notes.join(' ')}`);
  await vscode.workspace.applyEdit(edit, { isRefactoring: true });
}

/** Asks for the size; undefined when somebody thought better of it. */
async function wantedFrom(asked: (more: Omit<ScaleParams, 'uri' | 'position'>) => Promise<ScaleAnswer | null | undefined>): Promise<Wanted | undefined> {
  const sizes = await asked({});
  if (sizes?.kind !== 'sizes') {
    tell(sizes);
    return undefined;
  }
  const title = `Scale ${sizes.title}`;
  const items = sizes.sizes.map((size) => ({ ...size, description: size.now === '' ? '' : `now ${size.now}` }));
  const how = await vscode.window.showQuickPick(items, { title, placeHolder: 'How do you say the size?' });
  if (how === undefined) return undefined;
  const value = await vscode.window.showInputBox({
    title, prompt: how.now === '' ? how.label : `${how.label}, now ${how.now}`, placeHolder: `such as ${how.example}`,
    async validateInput(text) {
      if (text.trim() === '') return undefined;
      const answer = await asked({ request: { by: how.by, value: text } });
      return answer?.kind === 'cannot' ? answer.message : undefined;
    },
  });
  if (value === undefined || value.trim() === '') return undefined;
  const rounding = await vscode.window.showQuickPick(ROUNDINGS, { title, placeHolder: 'How are the weights rounded?' });
  if (rounding === undefined) return undefined;
  const { step, smallStep } = rounding;
  return { by: how.by, value, step, smallStep };
}

function tell(answer: ScaleAnswer | null | undefined): void {
  if (answer === undefined) void vscode.window.showWarningMessage('Proofsheet did not answer. "Proofsheet: Show Log" says why.');
  else if (answer === null) void vscode.window.showInformationMessage('Put the cursor into the formula that is to be scaled.');
  else if (answer.kind === 'cannot') void vscode.window.showWarningMessage(answer.message);
}

function isWanted(value: unknown): value is Wanted {
  if (typeof value !== 'object' || value === null) return false;
  const { by, value: size, step, smallStep } = value as Readonly<Record<string, unknown>>;
  return typeof by === 'string' && typeof size === 'string' && [step, smallStep].every((text) => text === undefined || typeof text === 'string');
}
