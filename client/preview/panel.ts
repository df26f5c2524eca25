/** The preview panel: one, beside the text. It follows the cursor and the typing, and never touches the file. */
import * as vscode from 'vscode';
import { PREVIEW_REQUEST, SCHEDULE_PLAN_REQUEST, type PreviewAnswer, type PreviewParams, type SchedulePlanAnswer, type SchedulePlanParams } from '../../server/requests';
import { zoneAt, type ChosenTimes } from '../chosen-times';
import { instantOf, nextSaturday } from '../clock';
import { formulaEditor } from '../formula-editor';
import { hasFormulas } from '../pages';
import type { FromPage, PanelState, ToPage } from './messages';

const VIEW_TYPE = 'proofsheet.preview';
/** Milliseconds to wait for the next key before the preview is asked for. */
const TYPING_PAUSE = 120;
const CURSOR_PAUSE = 50;

export type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

interface Parts {
  readonly extensionUri: vscode.Uri;
  readonly ask: Ask;
  readonly times: ChosenTimes;
  readonly log: vscode.LogOutputChannel;
}

/** The command that opens the panel, and what brings it back after the window was reloaded. */
export function registerPreview(parts: Parts): vscode.Disposable[] {
  let preview: PreviewPanel | undefined;
  const adopt = (panel: vscode.WebviewPanel, state: PanelState): void => {
    const created = new PreviewPanel(panel, parts, state);
    preview = created;
    panel.onDidDispose(() => {
      if (preview === created) preview = undefined;
    });
  };
  return [
    vscode.commands.registerCommand('proofsheet.showPreview', async (file: unknown) => {
      const editor = await formulaEditor(file instanceof vscode.Uri ? file : undefined);
      if (editor === undefined) {
        void vscode.window.showInformationMessage('Open a .bake file, or a Markdown page with a ```bake fence, first: the preview shows the formula that the cursor is in.');
        return;
      }
      if (preview) {
        preview.follow(editor);
        preview.reveal();
        return;
      }
      const place = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      adopt(vscode.window.createWebviewPanel(VIEW_TYPE, 'Preview', place), stateOf(editor));
    }),
    vscode.window.registerWebviewPanelSerializer(VIEW_TYPE, {
      deserializeWebviewPanel(panel, state: unknown) {
        if (preview !== undefined || !isPanelState(state)) panel.dispose();
        else adopt(panel, state);
        return Promise.resolve();
      },
    }),
    { dispose: () => preview?.dispose() },
  ];
}

class PreviewPanel {
  readonly #panel: vscode.WebviewPanel;
  readonly #ask: Ask;
  readonly #times: ChosenTimes;
  readonly #log: vscode.LogOutputChannel;
  readonly #subscriptions: vscode.Disposable[] = [];
  #state: PanelState;
  /** The page listens. Before that a message would be lost. */
  #loaded = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts requests, so that an answer that another has overtaken is dropped. */
  #asked = 0;
  #disposed = false;
  /** A better bake day is being looked for. */
  #looking = false;
  /** Which formula is on show. */
  #shown: { readonly uri: string; readonly formula: string } | undefined;

  constructor(panel: vscode.WebviewPanel, { extensionUri, ask, times, log }: Parts, state: PanelState) {
    this.#panel = panel;
    this.#ask = ask;
    this.#times = times;
    this.#log = log;
    this.#state = state;
    this.#subscriptions.push(
      panel.onDidDispose(() => this.#end()),
      panel.onDidChangeViewState(() => this.#soon(0)),
      panel.webview.onDidReceiveMessage((message: FromPage) => this.#receive(message)),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        // Another file that this one uses may change its numbers too.
        if (hasFormulas(document)) this.#soon(TYPING_PAUSE);
      }),
      times.onDidChange(() => this.#soon(0)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.#followIfWanted(textEditor)),
      vscode.window.onDidChangeActiveTextEditor((editor) => editor && this.#followIfWanted(editor)),
      vscode.workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration('proofsheet')) this.#soon(TYPING_PAUSE);
      }),
    );
    const dist = vscode.Uri.joinPath(extensionUri, 'dist');
    panel.iconPath = iconOf(extensionUri);
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.webview.html = pageOf(panel.webview, dist);
  }

  /** Shows the formula at an editor's cursor. */
  follow(editor: vscode.TextEditor): void {
    const { uri, line } = stateOf(editor);
    if (uri === this.#state.uri && line === this.#state.line) return;
    this.#state = { ...this.#state, uri, line };
    this.#soon(CURSOR_PAUSE);
  }

  reveal(): void {
    this.#panel.reveal(undefined, true);
  }

  dispose(): void {
    this.#panel.dispose();
  }

  #end(): void {
    this.#disposed = true;
    clearTimeout(this.#timer);
    for (const subscription of this.#subscriptions) subscription.dispose();
  }

  #followIfWanted(editor: vscode.TextEditor): void {
    if (!hasFormulas(editor.document)) return;
    if (vscode.workspace.getConfiguration('proofsheet').get('preview.followCursor', true)) this.follow(editor);
  }

  #soon(milliseconds: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#update(), milliseconds);
  }

  async #update(): Promise<void> {
    if (!this.#loaded || !this.#panel.visible) return; // a hidden page has no script to hear it; showing it asks again
    this.#asked += 1;
    const turn = this.#asked;
    const state = this.#state;
    const params = await paramsOf(state);
    const answer = await this.#ask<PreviewAnswer | null>(PREVIEW_REQUEST, params);
    if (turn !== this.#asked || this.#disposed) return;
    if (answer) {
      const shown = { uri: state.uri, formula: answer.formulaName };
      this.#panel.title = answer.title;
      this.#say({ type: 'show', html: answer.html, same: shown.uri === this.#shown?.uri && shown.formula === this.#shown.formula, state });
      this.#shown = shown;
      if (answer.isProvisional) void this.#lookForBetter(params);
    } else if (this.#shown === undefined) {
      this.#say({ type: 'nothing' });
    }
  }

  /** A plan has been put on the clock in a first way: looks for a better one, and shows that. */
  async #lookForBetter({ uri, position }: PreviewParams): Promise<void> {
    if (this.#looking) return;
    this.#looking = true;
    try {
      const params: SchedulePlanParams = { uri, position };
      const answer = await this.#ask<SchedulePlanAnswer | null>(SCHEDULE_PLAN_REQUEST, params);
      if (answer && !this.#disposed) this.#soon(0);
    } finally {
      this.#looking = false;
    }
  }

  #say(message: ToPage): void {
    void this.#panel.webview.postMessage(message);
  }

  #receive(message: FromPage): void {
    switch (message.type) {
      case 'loaded':
        this.#loaded = true;
        this.#shown = undefined; // a page that was made anew has nothing on it
        this.#soon(0);
        return;
      case 'anchor':
        if (this.#shown !== undefined) this.#times.set(this.#shown.uri, this.#shown.formula, message.anchor);
        return;
      case 'line':
        void this.#goTo(message.line - 1);
    }
  }

  /** Puts the cursor on a line of the file, in the editor that shows it. */
  async #goTo(line: number): Promise<void> {
    const uri = vscode.Uri.parse(this.#state.uri);
    const open = vscode.window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
    try {
      const document = await vscode.workspace.openTextDocument(uri);
      const { firstNonWhitespaceCharacterIndex: character } = document.lineAt(Math.min(line, document.lineCount - 1));
      const at = new vscode.Position(line, character);
      await vscode.window.showTextDocument(document, { viewColumn: open?.viewColumn ?? vscode.ViewColumn.One, selection: new vscode.Range(at, at) });
    } catch (error) {
      this.#log.warn(`The preview's file cannot be opened: ${String(error)}`);
    }
  }
}

/** Makes sure that the server has the document, and says what is asked of it. */
async function paramsOf({ uri: text, line }: PanelState): Promise<PreviewParams> {
  const uri = vscode.Uri.parse(text);
  const document = await vscode.workspace.openTextDocument(uri).then((opened) => opened, () => undefined);
  const zone = zoneAt(uri);
  const local = nextSaturday(Date.now(), zone);
  const epochMs = instantOf(local, zone) ?? Date.now();
  const last = Math.max(0, (document?.lineCount ?? 1) - 1);
  return { uri: text, position: { line: Math.min(line, last), character: 0 }, zone, anchor: { kind: 'ready', local, epochMs } };
}

function stateOf({ document, selection }: vscode.TextEditor): PanelState {
  return { uri: document.uri.toString(), line: selection.active.line };
}

/** A state comes back from storage: it is checked like anything from outside. */
function isPanelState(state: unknown): state is PanelState {
  if (typeof state !== 'object' || state === null) return false;
  const { uri, line } = state as Readonly<Record<keyof PanelState, unknown>>;
  return typeof uri === 'string' && Number.isInteger(line);
}

function iconOf(extensionUri: vscode.Uri): { light: vscode.Uri; dark: vscode.Uri } {
  const picture = (theme: string): vscode.Uri => vscode.Uri.joinPath(extensionUri, 'syntaxes', 'pictures', `preview-${theme}.svg`);
  return { light: picture('light'), dark: picture('dark') };
}

/** The empty page: our own style and script, and nothing else may load or run. */
function pageOf(webview: vscode.Webview, dist: vscode.Uri): string {
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  const file = (name: string): string => webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString();
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Preview</title>
<link rel="stylesheet" href="${file('preview.css')}">
</head>
<body>
<main id="page" aria-live="off"></main>
<script nonce="${nonce}" src="${file('preview.js')}"></script>
</body>
</html>`;
}
