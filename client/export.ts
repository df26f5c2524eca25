/** The command that saves formulas in another form: asks which form and where, and writes through the editor, wherever the files are. */
import * as vscode from 'vscode';
import { EXPORT_REQUEST, type ExportAnswer, type ExportParams } from '../server/requests';
import { formulaEditor } from './formula-editor';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;
type Text = Extract<ExportAnswer, { readonly kind: 'text' }>;

/** What the command may be called with, from a key binding say: the form then, and where it goes, and nothing is asked. */
interface Wanted {
  readonly form: string;
  readonly all?: boolean;
  /** URI of the file to write. One that is there is written over. */
  readonly to?: string;
}

interface Form extends vscode.QuickPickItem {
  readonly form: string;
  /** Endings that the dialog offers. */
  readonly endings: readonly string[];
}

const FORMS: readonly Form[] = [
  { form: 'html', label: 'Method card to print', description: 'HTML', detail: 'One page a formula, that needs nothing else', endings: ['html', 'htm'] },
  { form: 'markdown', label: 'Method card as text', description: 'Markdown', endings: ['md', 'markdown'] },
  { form: 'csv', label: 'Weights for a spreadsheet', description: 'CSV', endings: ['csv'] },
  { form: 'ics', label: 'Timeline for a calendar', description: 'iCalendar', endings: ['ics'] },
  { form: 'jsonld', label: 'Recipe for a web page', description: 'schema.org JSON-LD', endings: ['jsonld', 'json'] },
  { form: 'json', label: 'Sheet for other programs', description: 'JSON', endings: ['json'] },
];

export function registerExport(ask: Ask): vscode.Disposable {
  return vscode.commands.registerCommand('proofsheet.exportFormula', (wanted: unknown) => exportFormula(ask, isWanted(wanted) ? wanted : undefined));
}

async function exportFormula(ask: Ask, given: Wanted | undefined): Promise<void> {
  const editor = await formulaEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage('Open a .bake file, or a Markdown page with a ```bake fence, first: the formula that the cursor is in is exported.');
    return;
  }
  const { document } = editor;
  const { line, character } = editor.selection.active;
  const at: ExportParams = { uri: document.uri.toString(), position: { line, character } };
  const asked = (more: Pick<ExportParams, 'form' | 'all'>): Promise<ExportAnswer | null | undefined> => ask(EXPORT_REQUEST, { ...at, ...more });
  const wanted = given ?? await wantedFrom(asked);
  if (wanted === undefined) return;
  const answer = await asked({ form: wanted.form, all: wanted.all === true });
  if (answer?.kind !== 'text') return tell(answer);
  const target = wanted.to === undefined ? await targetFor(document.uri, wanted.form, answer) : vscode.Uri.parse(wanted.to, true);
  if (target !== undefined) await save(target, document.uri, answer);
}

/** Asks for the form, and for one or all where there are several; undefined when somebody thought better of it. */
async function wantedFrom(asked: (more: Pick<ExportParams, 'form' | 'all'>) => Promise<ExportAnswer | null | undefined>): Promise<Wanted | undefined> {
  const choices = await asked({});
  if (choices?.kind !== 'choices') {
    tell(choices);
    return undefined;
  }
  const title = `Export ${choices.title}`;
  const forms = FORMS.map((form) => (form.form === 'ics' ? { ...form, detail: choices.time ?? 'Needs a time: run "Schedule for a Ready Time…" first' } : form));
  const form = await vscode.window.showQuickPick(forms, { title, placeHolder: 'In which form?' });
  if (form === undefined || choices.count < 2) return form && { form: form.form };
  const which = await vscode.window.showQuickPick(
    [{ label: choices.title, all: false }, { label: `All ${String(choices.count)} formulas of the file`, all: true }], { title, placeHolder: 'Which formulas?' },
  );
  return which && { form: form.form, all: which.all };
}

/** Beside the text, under the name of the formula; a page that is in no file yet has no folder. */
function targetFor(source: vscode.Uri, form: string, { title, fileName }: Text): Thenable<vscode.Uri | undefined> {
  const folder = source.scheme === 'untitled' ? vscode.workspace.workspaceFolders?.[0]?.uri : vscode.Uri.joinPath(source, '..');
  const found = FORMS.find((each) => each.form === form);
  return vscode.window.showSaveDialog({
    title: `Export ${title}`, saveLabel: 'Export',
    ...(folder !== undefined && { defaultUri: vscode.Uri.joinPath(folder, fileName) }),
    ...(found !== undefined && { filters: { [found.label]: [...found.endings] } }),
  });
}

async function save(target: vscode.Uri, source: vscode.Uri, { title, text }: Text): Promise<void> {
  const shown = vscode.workspace.asRelativePath(target);
  // What is exported must not be lost to its own export.
  if (target.toString() === source.toString()) {
    void vscode.window.showWarningMessage(`${shown} is the file that is exported, and is left as it is. Export it under another name.`);
    return;
  }
  try {
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    void vscode.window.showErrorMessage(`${shown} could not be written: ${error instanceof Error ? error.message : String(error)}`);
    return;
  }
  const open = 'Open';
  void vscode.window.showInformationMessage(`${title} was exported to ${shown}.`, open).then((picked) => (
    picked === open ? vscode.commands.executeCommand('vscode.open', target) : undefined
  ));
}

function tell(answer: ExportAnswer | null | undefined): void {
  if (answer === undefined) void vscode.window.showWarningMessage('Proofsheet did not answer. "Proofsheet: Show Log" says why.');
  else if (answer === null) void vscode.window.showInformationMessage('There is no formula to export in this file.');
  else if (answer.kind === 'cannot') void vscode.window.showWarningMessage(answer.message);
}

function isWanted(value: unknown): value is Wanted {
  if (typeof value !== 'object' || value === null) return false;
  const { form, all, to } = value as Readonly<Record<string, unknown>>;
  return typeof form === 'string' && (all === undefined || typeof all === 'boolean') && (to === undefined || typeof to === 'string');
}
