/** The preview panel: one, beside the text. It follows the cursor and the typing, and never touches the file. */
import * as vscode from 'vscode';
import {
  PREVIEW_REQUEST, SCHEDULE_PLAN_REQUEST, type PreviewAnswer, type PreviewParams, type SchedulePlanAnswer, type SchedulePlanParams, type SizeOf, type ViewSize,
} from '../../server/requests';
import { zoneAt, type Choice, type ChosenTimes } from '../chosen-times';
import { instantOf, nextSaturday } from '../clock';
import { formulaEditor } from '../formula-editor';
import { hasFormulas } from '../pages';
import type { Renamed } from '../renames';
import type { Action, FromPage, PanelState, ToPage } from './messages';
import { pageOf } from './skeleton';
import { readSizes, sizesIn, withSize } from './sizes';
import { writePlan, writeSize } from './write';

const VIEW_TYPE = 'proofsheet.preview';
/** Milliseconds to wait for the next key before the preview is asked for. */
const TYPING_PAUSE = 120;
const CURSOR_PAUSE = 50;

export type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;

interface Parts {
  readonly extensionUri: vscode.Uri;
  readonly ask: Ask;
  readonly times: ChosenTimes;
  readonly renamed: vscode.Event<Renamed>;
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
        const kept = readState(state);
        if (preview !== undefined || kept === undefined) panel.dispose();
        else adopt(panel, kept);
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
  /** Which formula is on show; its line from 0. */
  #shown: { readonly uri: string; readonly formula: string; readonly line: number } | undefined;
  /** A size that was asked for on the page, until it is shown. One that cannot be stays, with the reason beside its field. */
  #wanted: SizeOf | undefined;

  constructor(panel: vscode.WebviewPanel, { extensionUri, ask, times, renamed, log }: Parts, state: PanelState) {
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
      renamed(({ uri, from, to }) => {
        const kept = sizesIn(this.#state.sizes, uri).find(({ formula }) => formula === from);
        if (kept !== undefined) this.#state = { ...this.#state, sizes: withSize(this.#state.sizes, uri, to, kept.size) };
      }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.#followIfWanted(textEditor)),
      vscode.window.onDidChangeActiveTextEditor((editor) => editor && this.#followIfWanted(editor)),
      vscode.workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration('proofsheet')) this.#soon(TYPING_PAUSE);
      }),
    );
    const dist = vscode.Uri.joinPath(extensionUri, 'dist');
    panel.iconPath = iconOf(extensionUri);
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    const file = (name: string): string => panel.webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString();
    panel.webview.html = pageOf({ source: panel.webview.cspSource, style: file('preview.css'), script: file('preview.js') });
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
    const params = await paramsOf(state, this.#wanted);
    const answer = await this.#ask<PreviewAnswer | null>(PREVIEW_REQUEST, params);
    if (turn !== this.#asked || this.#disposed) return;
    if (answer) {
      const shown = { uri: state.uri, formula: answer.formulaName, line: answer.line };
      this.#panel.title = answer.title;
      if (answer.isRefused !== true) this.#wanted = undefined;
      this.#keepSize(shown.uri, shown.formula, answer.size);
      const same = shown.uri === this.#shown?.uri && shown.formula === this.#shown.formula;
      this.#say({ type: 'show', html: answer.html, same, state: this.#state });
      this.#shown = shown;
      if (answer.isProvisional) void this.#lookForBetter(params);
    } else if (this.#shown === undefined) {
      this.#say({ type: 'nothing' });
    }
  }

  #keepSize(uri: string, formula: string, size: ViewSize | undefined): void {
    this.#state = { ...this.#state, sizes: withSize(this.#state.sizes, uri, formula, size) };
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
      case 'size':
        if (this.#shown !== undefined) this.#wanted = { formula: this.#shown.formula, size: message.size };
        this.#soon(0);
        return;
      case 'do':
        void this.#do(message.action);
        return;
      case 'line':
        void this.#goTo(message.line - 1);
    }
  }

  /** What a button of the page says. */
  async #do(action: Action): Promise<void> {
    if (this.#shown === undefined) return;
    const { uri, formula, line } = this.#shown;
    const size = sizesIn(this.#state.sizes, uri).find((one) => one.formula === formula)?.size;
    switch (action) {
      case 'time-forget':
        return this.#times.set(uri, formula, undefined);
      case 'time-plan':
        return writePlan(this.#ask, { uri, formula, size, ...timeOf(uri, this.#times.get(uri, formula)) });
      case 'size-write':
        // A size that says how many times would be taken again of what is written then.
        if (size === undefined || !await writeSize(this.#ask, { uri, position: { line, character: 0 }, size })) return;
        break;
      case 'size-back':
    }
    this.#wanted = undefined;
    this.#keepSize(uri, formula, undefined);
    this.#soon(0);
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
async function paramsOf({ uri: text, line, sizes }: PanelState, wanted: SizeOf | undefined): Promise<PreviewParams> {
  const uri = vscode.Uri.parse(text);
  const document = await vscode.workspace.openTextDocument(uri).then((opened) => opened, () => undefined);
  const last = Math.max(0, (document?.lineCount ?? 1) - 1);
  return { uri: text, position: { line: Math.min(line, last), character: 0 }, ...timeOf(text, undefined), sizes: sizesIn(sizes, text), ...(wanted && { wanted }) };
}

/** The time that was chosen, or the usual one. */
function timeOf(uri: string, chosen: Choice | undefined): Pick<PreviewParams, 'zone' | 'anchor'> {
  const zone = zoneAt(vscode.Uri.parse(uri));
  const { kind, local } = chosen ?? { kind: 'ready', local: nextSaturday(Date.now(), zone) };
  return { zone, anchor: { kind, local, epochMs: instantOf(local, zone) ?? Date.now() } };
}

function stateOf({ document, selection }: vscode.TextEditor): PanelState {
  return { uri: document.uri.toString(), line: selection.active.line, sizes: [] };
}

/** A state comes back from storage: it is checked like anything from outside. Undefined where it is none. */
function readState(state: unknown): PanelState | undefined {
  if (typeof state !== 'object' || state === null) return undefined;
  const { uri, line, sizes } = state as Readonly<Record<keyof PanelState, unknown>>;
  return typeof uri === 'string' && typeof line === 'number' && Number.isInteger(line) ? { uri, line, sizes: readSizes(sizes) } : undefined;
}

function iconOf(extensionUri: vscode.Uri): { light: vscode.Uri; dark: vscode.Uri } {
  const picture = (theme: string): vscode.Uri => vscode.Uri.joinPath(extensionUri, 'syntaxes', 'pictures', `preview-${theme}.svg`);
  return { light: picture('light'), dark: picture('dark') };
}
