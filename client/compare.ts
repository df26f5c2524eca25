/** The command that shows what a file and its committed version differ in, and what the server is told for the line above a formula that differs. */
import * as vscode from 'vscode';
import { COMMITTED_NOTIFICATION, COMPARE_REQUEST, type CommittedParams, type CompareAnswer, type CompareParams } from '../server/requests';
import { committedText, CommittedTexts, whyNone, type GitApi } from './committed';
import { formulaEditor } from './formula-editor';
import { hasFormulas } from './pages';

export const COMPARE_COMMAND = 'proofsheet.compareWithCommitted';

/** Of the pages that are shown: nobody writes in them. */
const SCHEME = 'proofsheet-comparison';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;
type Tell = (method: string, params: CommittedParams) => void;

export interface Compare extends vscode.Disposable {
  /** Tells a server that has just begun what is committed. */
  send(): void;
}

export function registerCompare(ask: Ask, tell: Tell): Compare {
  const pages = new Pages(ask);
  const committed = new CommittedTexts(gitOfEditor, (uri, text) => tell(COMMITTED_NOTIFICATION, { uri, text }), () => pages.refresh());
  const look = (document: vscode.TextDocument): void => {
    if (hasFormulas(document)) void committed.opened(document.uri);
  };
  vscode.workspace.textDocuments.forEach(look);
  const subscriptions = vscode.Disposable.from(
    committed, pages,
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, pages),
    vscode.workspace.onDidOpenTextDocument(look),
    vscode.workspace.onDidCloseTextDocument((document) => committed.closed(document.uri)),
    vscode.workspace.onDidSaveTextDocument(() => pages.refresh()),
    vscode.commands.registerCommand(COMPARE_COMMAND, (uri: unknown) => show(pages, typeof uri === 'string' ? vscode.Uri.parse(uri) : undefined)),
  );
  return { send: () => committed.send(), dispose: () => subscriptions.dispose() };
}

async function show(pages: Pages, wanted: vscode.Uri | undefined): Promise<void> {
  const uri = wanted ?? (await formulaEditor())?.document.uri;
  if (uri === undefined) {
    void vscode.window.showInformationMessage('Open a .bake file, or a Markdown page with a ```bake fence, first: it is compared with its committed version.');
    return;
  }
  const found = await committedText(await gitOfEditor(), uri);
  if (found.kind === 'none') {
    void vscode.window.showInformationMessage(whyNone(found.why));
    return;
  }
  const page = await pages.open(uri);
  try {
    await vscode.commands.executeCommand('markdown.showPreviewToSide', page);
  } catch {
    // An editor without its Markdown preview shows the text itself.
    await vscode.window.showTextDocument(page, { viewColumn: vscode.ViewColumn.Beside, preview: true, preserveFocus: true });
  }
}

/** The git extension that comes with the editor; undefined where it is missing or switched off. */
async function gitOfEditor(): Promise<GitApi | undefined> {
  const extension = vscode.extensions.getExtension<{ readonly enabled: boolean; getAPI(version: 1): GitApi }>('vscode.git');
  try {
    const git = extension === undefined ? undefined : extension.isActive ? extension.exports : await extension.activate();
    return git?.enabled === true ? git.getAPI(1) : undefined;
  } catch {
    return undefined; // there is no git on this computer
  }
}

/** Read-only pages, one for each file that was compared. */
class Pages implements vscode.TextDocumentContentProvider, vscode.Disposable {
  readonly #ask: Ask;
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  /** Files by their page. */
  readonly #files = new Map<string, vscode.Uri>();
  readonly onDidChange = this.#changed.event;

  constructor(ask: Ask) {
    this.#ask = ask;
  }

  async open(file: vscode.Uri): Promise<vscode.Uri> {
    const page = vscode.Uri.from({ scheme: SCHEME, path: `${file.path} compared.md` });
    this.#files.set(page.toString(), file);
    await vscode.workspace.openTextDocument(page);
    this.#changed.fire(page);
    return page;
  }

  /** A file was saved, or something was committed. */
  refresh(): void {
    for (const { uri } of vscode.workspace.textDocuments) if (uri.scheme === SCHEME) this.#changed.fire(uri);
  }

  async provideTextDocumentContent(page: vscode.Uri): Promise<string> {
    const file = this.#files.get(page.toString());
    if (file === undefined) return 'Compare the file with its committed version again: this page is of another time.\n';
    const found = await committedText(await gitOfEditor(), file);
    if (found.kind === 'none') return `${whyNone(found.why)}\n`;
    const answer = await this.#ask<CompareAnswer | null>(COMPARE_REQUEST, { uri: file.toString(), committed: found.text } satisfies CompareParams);
    const name = file.path.slice(file.path.lastIndexOf('/') + 1).replace(/[\\`*_[\]<>#|]/g, '\\$&');
    return `# ${name}, since the last commit\n\n${answer?.markdown ?? 'Proofsheet did not answer. "Proofsheet: Show Log" says why.\n'}`;
  }

  dispose(): void {
    this.#changed.dispose();
    this.#files.clear();
  }
}
