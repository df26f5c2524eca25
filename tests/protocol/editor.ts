/**
 * A strict fake editor at the other end of a real server process. It fails on whatever an editor would have to put up with:
 * a message nobody expected, an answer with an error, a word on the error stream, a message left unread at the end. When a
 * test fails, the log of all messages is printed.
 */
import { build } from 'esbuild';
import { spawn } from 'node:child_process';
import type { ChildProcessWithoutNullStreams } from 'node:child_process';
import { mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { CancellationTokenSource, createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node';
import type {
  ClientCapabilities, Diagnostic, InitializeResult, MessageConnection, PublishDiagnosticsParams, Range, ServerCapabilities, TextEdit,
} from 'vscode-languageserver-protocol/node';
import { applyChanges, lineIndexOf } from '../../server/project/lines';

const ROOT = path.join(import.meta.dirname, '..', '..');

let bundle: Promise<string> | undefined;

/** The server as it ships, bundled once for all tests of a run into a folder of its own. */
export function serverBundle(): Promise<string> {
  bundle ??= (async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-server-'));
    process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
    const outfile = path.join(folder, 'server.cjs');
    await build({
      absWorkingDir: ROOT, entryPoints: ['server/node.ts'], outfile, bundle: true, platform: 'node', format: 'cjs', target: 'node20',
      mainFields: ['module', 'main'], logLevel: 'error',
    });
    return outfile;
  })();
  return bundle;
}

/** Everything that a full-grown editor can take. */
export const FULL: ClientCapabilities = {
  general: { positionEncodings: ['utf-16'] },
  textDocument: {
    synchronization: { dynamicRegistration: false },
    diagnostic: { relatedDocumentSupport: false },
    publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true, versionSupport: true },
    hover: { contentFormat: ['markdown'] },
    completion: { completionItem: { snippetSupport: true } },
    definition: { linkSupport: true },
    references: {}, documentHighlight: {}, rename: { prepareSupport: true }, selectionRange: {}, foldingRange: {}, documentLink: {}, codeLens: {}, formatting: {}, rangeFormatting: {},
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source.fixAll'] } } },
  },
  workspace: {
    configuration: true, workspaceFolders: true,
    diagnostics: { refreshSupport: true }, codeLens: { refreshSupport: true },
    didChangeConfiguration: { dynamicRegistration: true }, didChangeWatchedFiles: { dynamicRegistration: true },
    workspaceEdit: { documentChanges: true }, symbol: {}, fileOperations: { willRename: true },
  },
};

/** The same, for an editor to which findings must be sent. */
export const PUSHED: ClientCapabilities = {
  ...FULL,
  textDocument: { ...FULL.textDocument, diagnostic: undefined },
  workspace: { ...FULL.workspace, diagnostics: undefined, codeLens: undefined },
};

export interface EditorOptions {
  readonly capabilities?: ClientCapabilities;
  /** Files of the workspace, by path. */
  readonly files?: Readonly<Record<string, string>>;
  readonly settings?: Readonly<Record<string, unknown>>;
  readonly initializationOptions?: unknown;
  /** Names of the folders that are the workspace; without it, the one folder that holds all. */
  readonly roots?: readonly string[];
}

export class Editor {
  readonly folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-é-漢-'));
  readonly log: string[] = [];
  readonly #server: ChildProcessWithoutNullStreams;
  readonly #connection: MessageConnection;
  readonly #exit: Promise<number | null>;
  readonly #faults: string[] = [];
  #stderr = '';
  #waiting: { readonly wake: () => void }[] = [];
  readonly #texts = new Map<string, { version: number; text: string }>();
  /** Findings that were sent and not looked at yet. */
  #published: PublishDiagnosticsParams[] = [];
  #registered: string[] = [];
  #refreshes = 0;
  settings: Readonly<Record<string, unknown>>;
  capabilities: ServerCapabilities = {};
  /** What the progress that the server began was told, in order. */
  readonly progress: unknown[] = [];
  /** Messages that the baker is shown, until they are looked at. */
  messages: string[] = [];
  /** Settings of folders, by the URI that they are asked for; others have `settings`. */
  readonly settingsOf = new Map<string, Readonly<Record<string, unknown>>>();
  /** Where given, a progress that begins is cancelled. */
  cancelsProgress = false;

  static async open(options: EditorOptions = {}): Promise<Editor> {
    const editor = new Editor(await serverBundle(), options);
    const result = await editor.request<InitializeResult>('initialize', {
      processId: process.pid, rootUri: null, capabilities: options.capabilities ?? FULL, clientInfo: { name: 'fake editor' },
      initializationOptions: options.initializationOptions ?? { checksPage: 'https://bakery.example/checks' },
      workspaceFolders: (options.roots ?? ['']).map(name => ({ uri: editor.uri(name).replace(/\/$/, ''), name: name || 'stall' })),
    });
    editor.capabilities = result.capabilities;
    await editor.notify('initialized', {});
    return editor;
  }

  private constructor(module: string, { files = {}, settings = {} }: EditorOptions) {
    this.settings = settings;
    for (const [name, text] of Object.entries(files)) this.write(name, text);
    this.#server = spawn(process.execPath, [module, '--stdio'], { env: { ...process.env, PROOFSHEET_THROW_FAULTS: '1' } });
    this.#exit = new Promise(resolve => this.#server.on('exit', resolve));
    this.#server.stderr.on('data', (data: Buffer) => (this.#stderr += data.toString()));
    this.#connection = createMessageConnection(new StreamMessageReader(this.#server.stdout), new StreamMessageWriter(this.#server.stdin));
    this.#connection.onError(([error]) => this.#fault(`broken message: ${error.message}`));
    this.#connection.onRequest((method, params) => this.#asked(method, params));
    this.#connection.onNotification((method, params) => this.#told(method, params));
    this.#connection.onUnhandledProgress(({ token, value }) => {
      this.progress.push(value);
      const { kind } = value as { kind?: string };
      if (kind === 'begin' && this.cancelsProgress) void this.#connection.sendNotification('window/workDoneProgress/cancel', { token });
    });
    this.#connection.listen();
  }

  // --- the workspace ------------------------------------------------------------------------------------------------

  uri(name: string): string {
    return pathToFileURL(path.join(this.folder, name)).href;
  }

  /** Writes a file to the disk, as something other than the editor would. */
  write(name: string, text: string): void {
    mkdirSync(path.dirname(path.join(this.folder, name)), { recursive: true });
    writeFileSync(path.join(this.folder, name), text);
  }

  remove(name: string): void {
    rmSync(path.join(this.folder, name), { recursive: true });
  }

  /** What the editor holds of a file, by its name or URI. */
  text(name: string): string {
    return this.#texts.get(this.#uriOf(name))!.text;
  }

  async openText(name: string, text: string, languageId = 'proofsheet'): Promise<void> {
    this.#texts.set(this.#uriOf(name), { version: 1, text });
    await this.notify('textDocument/didOpen', { textDocument: { uri: this.#uriOf(name), languageId, version: 1, text } });
  }

  /** Puts `newText` in the place of the first `oldText`, as one incremental change. */
  async replace(name: string, oldText: string, newText: string): Promise<void> {
    const { text } = this.#texts.get(this.#uriOf(name))!;
    const start = text.indexOf(oldText);
    if (start < 0) throw new Error(`${JSON.stringify(oldText)} is not in ${name}`);
    await this.change(name, [{ range: lineIndexOf(text).rangeOf(start, start + oldText.length), text: newText }]);
  }

  async change(name: string, contentChanges: readonly { readonly range?: Range; readonly text: string }[]): Promise<void> {
    const uri = this.#uriOf(name);
    const known = this.#texts.get(uri)!;
    const next = { version: known.version + 1, text: applyChanges(known.text, contentChanges) };
    this.#texts.set(uri, next);
    await this.notify('textDocument/didChange', { textDocument: { uri, version: next.version }, contentChanges });
  }

  /** Applies edits that the server gave. */
  async apply(name: string, edits: readonly TextEdit[]): Promise<void> {
    const index = lineIndexOf(this.text(name));
    const later = [...edits].sort((a, b) => index.offsetAt(b.range.start) - index.offsetAt(a.range.start));
    await this.change(name, later.map(({ range, newText }) => ({ range, text: newText })));
  }

  async closeText(name: string): Promise<void> {
    this.#texts.delete(this.#uriOf(name));
    await this.notify('textDocument/didClose', { textDocument: { uri: this.#uriOf(name) } });
  }

  /** Types letter by letter at the end of a text. */
  async type(name: string, letters: string): Promise<void> {
    for (const letter of letters) {
      const end = lineIndexOf(this.text(name)).positionAt(this.text(name).length);
      await this.change(name, [{ range: { start: end, end }, text: letter }]);
    }
  }

  // --- the protocol -------------------------------------------------------------------------------------------------

  async request<R>(method: string, params: unknown): Promise<R> {
    this.#record('->', method, params);
    try {
      const result = await Promise.race([this.#connection.sendRequest<R>(method, params), this.#exit.then(code => Promise.reject(new Error(`the server ended with ${code}`)))]);
      this.#record('<-', method, result);
      return result;
    } catch (error) {
      throw new Error(`${method} failed: ${String(error)}\n${this.#stderr}\n${this.log.join('\n')}`, { cause: error });
    }
  }

  /** Asks about the first place where `at` stands in the text; the mark ┆ in it is the cursor. */
  ask<R>(method: string, name: string, at: string, more: object = {}): Promise<R> {
    const [before = '', after = ''] = at.split('┆');
    const start = this.text(name).indexOf(before + after);
    if (start < 0) throw new Error(`${at} is not in ${name}`);
    const position = lineIndexOf(this.text(name)).positionAt(start + before.length);
    return this.request<R>(`textDocument/${method}`, { textDocument: { uri: this.#uriOf(name) }, position, ...more });
  }

  about<R>(method: string, name: string, more: object = {}): Promise<R> {
    return this.request<R>(`textDocument/${method}`, { textDocument: { uri: this.#uriOf(name) }, ...more });
  }

  /** Starts a request and takes it back at once. Gives the code of the error that it is answered with, or `answered`. */
  async cancelled(method: string, params: unknown): Promise<number | 'answered'> {
    const source = new CancellationTokenSource();
    const answer = this.#connection.sendRequest(method, params, source.token);
    source.cancel();
    try {
      await answer;
      return 'answered';
    } catch (error) {
      return (error as { code: number }).code;
    }
  }

  async notify(method: string, params: unknown): Promise<void> {
    this.#record('->', method, params);
    await this.#connection.sendNotification(method, params);
  }

  /** Findings of a file, asked for. */
  async pulled(name: string, previousResultId?: string): Promise<{ kind: string; resultId?: string; items?: Diagnostic[] }> {
    return this.about('diagnostic', name, { identifier: 'proofsheet', ...(previousResultId !== undefined && { previousResultId }) });
  }

  /** The next findings that are sent for a file, for its present version; those of versions before it may be missing. */
  async published(name: string): Promise<readonly Diagnostic[]> {
    const uri = this.#uriOf(name);
    const isIt = (p: PublishDiagnosticsParams): boolean => p.uri === uri && (p.version === undefined || p.version === this.#texts.get(uri)?.version);
    await this.until(() => this.#published.some(isIt), `findings of ${name}`);
    const found = this.#published.find(isIt);
    this.#published = this.#published.filter(p => p.uri !== uri || p.version === undefined ? p !== found : p.version > (found?.version ?? 0));
    return found?.diagnostics ?? [];
  }

  /** Waits until the server has asked for findings and totals to be asked for again, or for so many of them, and takes note of it. */
  async refreshed(count = 2): Promise<void> {
    await this.until(() => this.#refreshes >= count, 'a refresh');
    this.#refreshes = 0;
  }

  registered(): readonly string[] {
    return this.#registered;
  }

  async until(holds: () => boolean, what: string): Promise<void> {
    const ended = this.#exit.then(code => {
      throw new Error(`the server ended with ${code} before ${what} came\n${this.#stderr}\n${this.log.join('\n')}`);
    });
    // It ends some time after every wait, and that is no fault of a wait that is over.
    ended.catch(() => undefined);
    while (!holds()) await Promise.race([ended, new Promise<void>(wake => this.#waiting.push({ wake }))]);
  }

  /** Shuts the server down, and fails when anything was not as it should be. Gives the exit status. */
  async quit(): Promise<number | null> {
    await this.request('shutdown', undefined);
    await this.notify('exit', undefined);
    const status = await this.#exit;
    this.#connection.dispose();
    rmSync(this.folder, { recursive: true, force: true });
    const left = this.#published.map(p => `findings left unread: ${JSON.stringify(p)}`);
    left.push(...this.messages.map(message => `message left unread: ${message}`));
    if (this.#refreshes > 0) left.push(`${this.#refreshes} refreshes left unnoticed`);
    if (this.#stderr !== '') left.push(`error stream: ${this.#stderr}`);
    const wrong = [...this.#faults, ...left];
    if (wrong.length > 0) throw new Error(`${wrong.join('\n')}\n--- log ---\n${this.log.join('\n')}`);
    return status;
  }

  /** Goes away without shutting down, as an editor does that crashes. */
  async abandon(): Promise<{ readonly status: number | null }> {
    await this.notify('exit', undefined);
    return { status: await this.#exit };
  }

  /** Ends the server without a word, after a test that has failed. */
  kill(): void {
    this.#connection.dispose();
    if (this.#server.exitCode === null) this.#server.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  #uriOf(name: string): string {
    return /^[a-z-]+:/.test(name) ? name : this.uri(name);
  }

  #record(arrow: string, method: string, body: unknown): void {
    this.log.push(`${arrow} ${method} ${JSON.stringify(body)?.slice(0, 500)}`);
  }

  #fault(text: string): void {
    this.#faults.push(text);
    this.#wake();
  }

  #wake(): void {
    for (const { wake } of this.#waiting.splice(0)) wake();
  }

  #asked(method: string, params: unknown): unknown {
    this.#record('<- asks', method, params);
    switch (method) {
      case 'client/registerCapability':
        this.#registered.push(...(params as { registrations: { method: string }[] }).registrations.map(r => r.method));
        this.#wake();
        return null;
      case 'workspace/configuration':
        return (params as { items: { section: string; scopeUri?: string }[] }).items.map(({ section, scopeUri }) => (
          section === 'proofsheet' ? this.settingsOf.get(scopeUri ?? '') ?? this.settings : null
        ));
      case 'workspace/diagnostic/refresh':
      case 'workspace/codeLens/refresh':
        this.#refreshes++;
        this.#wake();
        return null;
      case 'window/workDoneProgress/create':
        return null;
      default:
        this.#fault(`unexpected request ${method}`);
        return null;
    }
  }

  #told(method: string, params: unknown): void {
    this.#record('<- tells', method, params);
    if (method === 'textDocument/publishDiagnostics') {
      this.#published.push(params as PublishDiagnosticsParams);
      this.#wake();
    } else if (method === 'window/showMessage') {
      this.messages.push((params as { message: string }).message);
      this.#wake();
    } else if (method === 'window/logMessage' && this.cancelsProgress) {
      this.#wake();
    } else {
      this.#fault(`unexpected notification ${method} ${JSON.stringify(params)}`);
    }
  }
}
