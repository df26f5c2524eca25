/**
 * The wiring of a language server, the same for Node and for the browser: which message asks which feature. Everything
 * that is worked out is worked out elsewhere.
 */
import {
  CodeActionTriggerKind, CodeLensRefreshRequest, DiagnosticRefreshRequest, DidChangeConfigurationNotification, DidChangeWatchedFilesNotification, InlayHintRefreshRequest, LSPErrorCodes,
  ResponseError, SemanticTokensRefreshRequest, WatchKind,
} from 'vscode-languageserver';
import type { CancellationToken, CodeAction, Connection, InitializeParams, Position, TextDocumentIdentifier } from 'vscode-languageserver';
import { parse } from '../grammar';
import { builtInCatalogue } from './core/ingredients/catalogue';
import { SETTINGS_FILE } from './core/settings/settings';
import { codeActionsOf, resolvedCodeAction } from './features/code-actions';
import type { CodeActionOptions } from './features/code-actions';
import { codeLensesOf } from './features/codelens';
import { asksForPath, completionsAt, resolvedCompletion } from './features/completion';
import { definitionAt } from './features/definition';
import { settingsDiagnosticsOf } from './features/diagnostics';
import type { DiagnosticOptions } from './features/diagnostics';
import { editsForMoved } from './features/file-rename';
import { foldingRangesOf } from './features/folding';
import { formattingOf } from './features/formatting';
import { highlightsAt } from './features/highlights';
import { hoverAt } from './features/hover';
import { documentLinksOf } from './features/links';
import { referencesAt } from './features/references';
import { prepareRenameAt, renameAt } from './features/rename';
import { selectionRangesAt } from './features/selection';
import { CHOSEN_TIMES_NOTIFICATION } from './requests';
import type { ChosenTimesParams } from './requests';
import type { TextsOfEditor } from './features/shared/workspace-edit';
import { documentSymbolsOf } from './features/symbols';
import { workspaceSymbolsOf } from './features/workspace-symbols';
import { clientOf, offersTo } from './lsp/client';
import type { Client } from './lsp/client';
import { askedFrom, configurationOf, sameConfiguration } from './lsp/configuration';
import type { Configuration } from './lsp/configuration';
import { Findings } from './lsp/findings';
import { serveOwn } from './lsp/own-requests';
import { serveTyping } from './lsp/while-typing';
import { askedInside, isMarkdown } from './lsp/pages';
import type { Where } from './lsp/pages';
import { WorkspaceFindings } from './lsp/workspace';
import type { ProjectFile } from './project/file';
import { changedText, indexedText } from './project/lines';
import type { IndexedText } from './project/lines';
import { Project } from './project/project';
import type { Reader } from './project/project';
import { isSettings } from './project/settings';
import type { SettingsInFile } from './project/settings';
import { turn } from './project/turns';
import { canonicalUri, relativeUse } from './project/uris';

/** What differs between the places where the server runs. */
export interface Host {
  readonly reader: Reader;
  /** URIs of the `.bake` files in folders, at most so many. */
  find?(roots: readonly string[], most?: number): Promise<readonly string[]>;
  /** URI of the page of checks beside the server, for an editor that does not say where its own is. */
  readonly checksPage?: string;
  /** Told of everything that went wrong inside; what was asked is answered with nothing. */
  onFault(where: string, fault: unknown): void;
}

export function serve(connection: Connection, host: Host): void {
  connection.onInitialize(params => {
    const client = clientOf(params);
    new Server(connection, host, client, rootsIn(params));
    void turn().then(warmUp);
    return { capabilities: offersTo(params, client), serverInfo: { name: 'Proofsheet' } };
  });
  connection.listen();
}

/** Makes what the first file needs, while the editor reads the answer to `initialize`. */
function warmUp(): void {
  parse('dough\n  1 g water\n');
  builtInCatalogue.find('water');
}

function rootsIn({ workspaceFolders, rootUri }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(folder => folder.uri);
  return rootUri ? [rootUri] : [];
}

interface OpenText extends IndexedText {
  readonly version: number;
  readonly languageId: string;
}

class Server {
  readonly #connection: Connection;
  readonly #host: Host;
  readonly #client: Client;
  readonly #project: Project;
  readonly #findings: Findings;
  readonly #typing: ReturnType<typeof serveTyping>;
  readonly #workspaceFindings: WorkspaceFindings;
  readonly #textsOfEditor: TextsOfEditor;
  /** What this editor shows of a finding. */
  readonly #shows: DiagnosticOptions;
  /** By URI as the editor spells it. */
  readonly #open = new Map<string, OpenText>();
  /** How the editor spells what it has open, by canonical URI. */
  readonly #openAs = new Map<string, string>();
  /** Requests that wait for their answer. */
  #waiting = 0;
  #configuration: Configuration = configurationOf({});
  /** Settings must have been read once before anything is computed by them. */
  #settled: Promise<void> = Promise.resolve();

  constructor(connection: Connection, host: Host, client: Client, roots: readonly string[]) {
    this.#connection = connection;
    this.#host = host;
    this.#client = client;
    this.#textsOfEditor = { documentChanges: client.documentChanges, versionOf: uri => this.#open.get(uri)?.version ?? null };
    this.#shows = { relatedInformation: client.relatedInformation, codeDescription: client.codeDescription, checksPage: client.checksPage ?? host.checksPage, onFault: (where, fault) => host.onFault(where, fault) };
    this.#project = new Project({
      reader: host.reader, roots,
      computerZone: new Intl.DateTimeFormat('en').resolvedOptions().timeZone,
      onFault: (code, fault) => host.onFault(`check ${code}`, fault),
      onSettings: (uri, file) => this.#sendProblems(uri, file),
    });
    this.#findings = new Findings({
      connection,
      project: this.#project,
      options: this.#shows,
      withVersions: client.diagnosticVersions,
      versionOf: uri => this.#open.get(uri)?.version,
      onFault: (where, fault) => host.onFault(where, fault),
    });
    this.#workspaceFindings = new WorkspaceFindings({
      connection, client,
      project: this.#project,
      findings: this.#findings,
      options: this.#shows,
      find: host.find?.bind(host),
      versionOf: uri => this.#open.get(this.#openAs.get(canonicalUri(uri)) ?? uri)?.version,
      isBusy: () => this.#waiting > 0 || this.#findings.isBusy,
      ready: () => this.#settled,
      onFault: (where, fault) => host.onFault(where, fault),
    });
    this.#typing = serveTyping({
      connection,
      answer: (what, nothing, work) => this.#answer(what, nothing, work),
    });
    this.#texts();
    this.#workspace();
    this.#features();
  }

  // --- texts and files ----------------------------------------------------------------------------------------------

  #texts(): void {
    const connection = this.#connection;
    connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) => this.#take(uri, { version, languageId, ...indexedText(text) }));
    connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
      const known = this.#open.get(uri);
      if (known !== undefined) this.#take(uri, { ...known, version, ...changedText(known, contentChanges) });
    });
    connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
      const users = this.#project.dependents(uri);
      const wasMarkdown = isMarkdown(this.#open.get(uri)?.languageId ?? '');
      this.#open.delete(uri);
      this.#openAs.delete(canonicalUri(uri));
      this.#project.close(uri);
      this.#typing.closed(uri);
      if (isSettings(uri)) this.#readSettings(uri);
      else if (this.#client.pullsDiagnostics || !this.#findings.wants(uri)) this.#workspaceFindings.touch(uri);
      else if (wasMarkdown) this.#findings.clear(uri);
      else {
        // The findings on the screen are those of an unsaved text, perhaps. What counts is on disk.
        this.#findings.giveUp(uri);
        this.#workspaceFindings.close(uri);
      }
      this.#lookAgain(users);
    });
  }

  #take(uri: string, text: OpenText): void {
    this.#open.set(uri, text);
    this.#openAs.set(canonicalUri(uri), uri);
    this.#workspaceFindings.touch(uri);
    this.#project.update(uri, text.text, isMarkdown(text.languageId) || undefined, text.lineIndex);
    if (isSettings(uri)) {
      this.#lookAgain(this.#project.dependents(uri));
      return;
    }
    if (this.#client.pullsDiagnostics) return; // it asks for this file, and for those that use it
    this.#sendFindings([uri, ...this.#project.dependents(uri)]);
  }

  /** What is wrong with settings is sent to every editor: it has no reason to ask about a file that is not of our language. */
  #sendProblems(uri: string, file: SettingsInFile | undefined): void {
    const diagnostics = file === undefined ? [] : settingsDiagnosticsOf(file, this.#shows);
    if (diagnostics.length === 0 && !this.#problems.has(uri)) return;
    if (diagnostics.length === 0) this.#problems.delete(uri);
    else this.#problems.add(uri);
    this.#connection.sendDiagnostics({ uri, diagnostics }).catch((fault: unknown) => this.#host.onFault(`problems of ${uri}`, fault));
  }

  /** Settings files that the editor shows problems of. */
  readonly #problems = new Set<string>();

  #readSettings(uri: string): void {
    void this.#contained('settings', async () => void await this.#project.settingsAt(uri));
  }

  /** Everything may be otherwise now, of files that are not open too where the editor has asked for them. */
  #lookAtAllAgain(): void {
    const uris = [...this.#open.keys(), ...(this.#workspaceFindings.hasAnswered ? this.#project.loaded() : [])];
    // An editor that asks for the whole workspace may have been answered with nothing, and should ask again all the same.
    if (uris.length > 0 || this.#workspaceFindings.hasAnswered) this.#askToLookAgain(uris);
  }

  /** The findings of these files may be others now. Only open ones are on the screen. */
  #lookAgain(uris: readonly string[]): void {
    if (uris.length > 0) this.#askToLookAgain(uris);
  }

  #askToLookAgain(uris: readonly string[]): void {
    if (!this.#client.pullsDiagnostics) this.#sendFindings(uris);
    else if (this.#client.refreshesDiagnostics) this.#ask(DiagnosticRefreshRequest.method);
    if (this.#client.refreshesCodeLenses) this.#ask(CodeLensRefreshRequest.method);
    if (this.#client.refreshesHints) this.#ask(InlayHintRefreshRequest.method);
    if (this.#client.refreshesColours) this.#ask(SemanticTokensRefreshRequest.method);
  }

  #sendFindings(uris: readonly string[]): void {
    this.#settled.then(() => {
      for (const uri of uris) if (this.#open.has(uri)) this.#findings.send(uri);
    }, (fault: unknown) => this.#host.onFault('findings', fault));
  }

  /** A request without parameters whose answer says nothing. */
  #ask(method: string): void {
    this.#connection.sendRequest(method).catch((fault: unknown) => this.#host.onFault(method, fault));
  }

  // --- workspace ----------------------------------------------------------------------------------------------------

  #workspace(): void {
    const connection = this.#connection;
    connection.onInitialized(() => {
      this.#settled = this.#contained('settings', async () => {
        if (this.#client.registersConfiguration) {
          await connection.client.register(DidChangeConfigurationNotification.type, { section: 'proofsheet' });
        }
        if (this.#client.registersWatchers) {
          await connection.client.register(DidChangeWatchedFilesNotification.type, {
            // A folder that comes or goes is one event, and none for each file in it.
            watchers: [{ globPattern: '**/*.bake' }, { globPattern: `**/${SETTINGS_FILE}` }, { globPattern: '**/*', kind: WatchKind.Create | WatchKind.Delete }],
          });
        }
        if (this.#client.configuration) this.#configure(await askedFrom(connection, this.#project.roots));
      });
      this.#workspaceFindings.touchAll();
      if (this.#client.workspaceFolders) {
        connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
          const gone = new Set(removed.map(folder => folder.uri));
          for (const uri of this.#problems) if (removed.some(folder => uri.startsWith(`${canonicalUri(folder.uri)}/`))) this.#sendProblems(uri, undefined);
          this.#project.configure({ roots: [...this.#project.roots.filter(root => !gone.has(root)), ...added.map(folder => folder.uri)] });
          this.#settled = this.#contained('settings', async () => {
            if (this.#client.configuration) this.#configure(await askedFrom(connection, this.#project.roots));
          });
          this.#workspaceFindings.reset(this.#configuration.mostBackgroundFiles);
          this.#lookAtAllAgain();
        });
      }
    });
    connection.onDidChangeConfiguration(({ settings }) => {
      this.#settled = this.#contained('settings', async () => {
        if (this.#client.configuration) this.#configure(await askedFrom(connection, this.#project.roots));
        else if (isRecord(settings)) this.#configure(configurationOf(settings['proofsheet']));
      });
    });
    connection.onDidChangeWatchedFiles(({ changes }) => {
      const touched = new Set<string>();
      for (const uri of this.#workspaceFindings.changedOnDisk(changes)) {
        // What the editor holds counts, whatever it or another program saved.
        if (this.#openAs.has(canonicalUri(uri))) continue;
        if (this.#workspaceFindings.hasAnswered) touched.add(uri);
        if (!this.#project.invalidate(uri)) continue;
        if (isSettings(uri)) this.#readSettings(uri);
        for (const user of this.#project.dependents(uri)) touched.add(user);
      }
      this.#lookAgain([...touched]);
    });
  }

  #configure(wanted: Configuration): void {
    if (sameConfiguration(wanted, this.#configuration)) return; // a mere word of a change
    this.#configuration = wanted;
    this.#project.adopt(wanted.editor, wanted.folders);
    this.#workspaceFindings.reset(wanted.mostBackgroundFiles);
    this.#lookAtAllAgain();
  }

  // --- features -----------------------------------------------------------------------------------------------------

  #features(): void {
    const connection = this.#connection;
    const client = this.#client;
    if (client.pullsDiagnostics) {
      connection.languages.diagnostics.on(async ({ textDocument: { uri }, previousResultId }, token) => {
        await this.#settled;
        try {
          return await this.#findings.report(uri, previousResultId, token);
        } catch (fault) {
          this.#host.onFault('findings', fault);
          return { kind: 'full', items: [] };
        }
      });
      connection.languages.diagnostics.onWorkspace(async (params, token, progress, parts) => {
        try {
          return await this.#workspaceFindings.report(params, token, progress, parts);
        } catch (fault) {
          this.#host.onFault('findings of the workspace', fault);
          return { items: [] };
        }
      });
    }
    connection.onHover(this.#answer('hover', null, (file, { position }) => hoverAt(file, offsetIn(file, position))));
    connection.onCompletion(this.#answer('completion', null, async (file, { position, context }) => {
      const offset = offsetIn(file, position);
      return completionsAt(file, offset, {
        snippets: client.snippets,
        paths: asksForPath(file, offset) ? await this.#pathsFrom(file) : [],
        ...(context?.triggerCharacter !== undefined && { trigger: context.triggerCharacter }),
      });
    }));
    connection.onCompletionResolve((item, token) => {
      const uri = isRecord(item.data) && typeof item.data['uri'] === 'string' ? item.data['uri'] : undefined;
      return uri === undefined ? item : this.#answer('completion', item, file => resolvedCompletion(file, item))({ textDocument: { uri } }, token);
    });
    connection.onDefinition(this.#answer('definition', null, (file, { position }) => {
      const links = definitionAt(file, offsetIn(file, position));
      return client.definitionLinks ? links : links.map(link => ({ uri: link.targetUri, range: link.targetSelectionRange }));
    }));
    connection.onReferences(this.#answer('references', null, async (file, { position, context }) => (
      referencesAt(file, offsetIn(file, position), await this.#everyFile(), context.includeDeclaration)
    )));
    connection.onDocumentHighlight(this.#answer('highlights', null, (file, { position }) => highlightsAt(file, offsetIn(file, position))));
    connection.onPrepareRename(this.#answer('rename', null, (file, { position }) => {
      const found = prepareRenameAt(file, offsetIn(file, position));
      return 'refused' in found ? refusal(found.refused) : found;
    }));
    connection.onRenameRequest(this.#answer('rename', null, (file, { position, newName }) => this.#rename(file, position, newName)));
    connection.onSelectionRanges(this.#answer('selection', null, (file, { positions }) => selectionRangesAt(file, positions)));
    connection.onWorkspaceSymbol(this.#answerOfAll('symbols', null, (files, { query }) => workspaceSymbolsOf(files, query)));
    connection.workspace.onWillRenameFiles(this.#answerOfAll('use lines', null, (files, { files: moves }) => (
      editsForMoved(files, moves, { roots: this.#project.roots, ...this.#textsOfEditor }) ?? null
    )));
    connection.onDocumentSymbol(this.#answer('outline', null, file => documentSymbolsOf(file)));
    connection.onFoldingRanges(this.#answer('folding', null, file => foldingRangesOf(file, client.mostFolds)));
    connection.onDocumentLinks(this.#answer('links', null, file => documentLinksOf(file)));
    connection.onCodeLens(this.#answer('totals', null, file => codeLensesOf(file, client)));
    connection.onDocumentFormatting(this.#answer('formatting', null, file => formattingOf(file)));
    connection.onDocumentRangeFormatting(this.#answer('formatting', null, (file, { range }) => formattingOf(file, range)));
    connection.onCodeAction(this.#answer('fixes', null, (file, { range, context, textDocument: { uri } }) => codeActionsOf(file, range, {
      ...this.#actionOptions(uri),
      diagnostics: context.diagnostics,
      ...(context.only !== undefined && { only: context.only }),
      scaleCommand: client.scaleCommand,
      isAskedFor: context.triggerKind !== CodeActionTriggerKind.Automatic,
    })));
    connection.onCodeActionResolve((action, token) => {
      const uri = isRecord(action.data) && typeof action.data['uri'] === 'string' ? action.data['uri'] : undefined;
      return uri === undefined ? action : this.#answer('edit', action, (file): CodeAction | ResponseError<never> => (
        resolvedCodeAction(file, action, this.#actionOptions(uri)) ?? new ResponseError<never>(LSPErrorCodes.ContentModified, 'The text has changed.')
      ))({ textDocument: { uri } }, token);
    });
    serveOwn({
      connection,
      answer: (what, nothing, work) => this.#answer(what, nothing, work),
      showsProgress: client.showsProgress,
      isCurrent: file => this.#project.get(file.uri) === file,
    });
    connection.onNotification(CHOSEN_TIMES_NOTIFICATION, ({ times }: ChosenTimesParams) => {
      if (!this.#project.chooseTimes(times)) return;
      this.#workspaceFindings.touchAll();
      this.#lookAtAllAgain();
    });
  }

  /**
   * Wraps a feature: its file is loaded with all that it uses; a fault inside is told and answered with `nothing`; an answer
   * for a text that has changed meanwhile is not given.
   */
  #answer<P extends Asked, R, N>(what: string, nothing: N, work: (file: ProjectFile, params: P) => R | Promise<R>) {
    return async (params: P, token: CancellationToken): Promise<R | N | ResponseError<never>> => {
      const { uri } = params.textDocument;
      const version = this.#open.get(uri)?.version;
      this.#waiting++;
      try {
        await this.#settled;
        const file = await this.#project.prepare(uri);
        if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');
        if (this.#open.get(uri)?.version !== version) return new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed.');
        const asked = file && askedInside(file, params);
        const answer = file === undefined || asked === undefined ? nothing : await work(file, asked);
        return this.#open.get(uri)?.version === version ? answer : new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed.');
      } catch (fault) {
        this.#host.onFault(what, fault);
        return nothing;
      } finally {
        this.#waiting--;
      }
    };
  }

  /** The same for what is asked about all files of the workspace. */
  #answerOfAll<P, R, N>(what: string, nothing: N, work: (files: readonly ProjectFile[], params: P) => R) {
    return async (params: P, token?: CancellationToken): Promise<R | N | ResponseError<never>> => {
      try {
        await this.#settled;
        const files = await this.#everyFile();
        return token?.isCancellationRequested === true ? new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.') : work(files, params);
      } catch (fault) {
        this.#host.onFault(what, fault);
        return nothing;
      }
    };
  }

  #actionOptions(uri: string): CodeActionOptions {
    return {
      diagnostics: [],
      version: this.#open.get(uri)?.version ?? null,
      documentChanges: this.#client.documentChanges,
      snippets: this.#client.snippetEdits,
      resolves: this.#client.resolvesActions,
      supposing: text => this.#project.supposing(new Map([[uri, text]])).get(uri),
    };
  }

  async #rename(file: ProjectFile, position: Position, newName: string) {
    const others = await this.#everyFile();
    if (this.#project.get(file.uri) !== file) return new ResponseError<never>(LSPErrorCodes.ContentModified, 'The text has changed.');
    const renamed = renameAt(file, offsetIn(file, position), newName, {
      others, ...this.#textsOfEditor,
      suppose: texts => {
        const supposed = this.#project.supposing(texts);
        return uri => supposed.get(uri);
      },
    });
    return 'refused' in renamed ? refusal(renamed.refused) : renamed;
  }

  /** Paths that a `use` line in the file could name. */
  async #pathsFrom(file: ProjectFile): Promise<readonly string[]> {
    const { roots } = this.#project;
    const found = await this.#host.find?.(roots) ?? [];
    const paths = [...found, ...this.#project.loaded()].map(uri => relativeUse(file.uri, uri, roots));
    return [...new Set(paths.filter(path => path !== undefined))].sort();
  }

  /** Every file of the workspace that can be found, loaded. */
  async #everyFile(): Promise<readonly ProjectFile[]> {
    const found = await this.#host.find?.(this.#project.roots) ?? [];
    // An old version beside a comparison is none of them.
    const uris = [...this.#project.loaded().filter(uri => this.#findings.wants(uri)), ...found];
    for (const uri of uris) await this.#project.prepare(uri);
    // A text may have changed while others were being read: each as it is now.
    return [...new Set(uris.flatMap(uri => this.#project.get(uri) ?? []))];
  }

  async #contained(what: string, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (fault) {
      this.#host.onFault(what, fault);
    }
  }
}

/** A request that is answered with a reason why not, which the editor shows. */
function refusal(reason: string): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.RequestFailed, reason);
}

interface Asked extends Where {
  readonly textDocument: TextDocumentIdentifier;
}

function offsetIn(file: ProjectFile, position: Position): number {
  return file.lineIndex.offsetAt(position);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
