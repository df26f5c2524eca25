/** One editor and what it has open: what every answer needs, whatever is asked. */
import { ResponseError } from 'vscode-jsonrpc';
import type { CancellationToken, Position } from 'vscode-languageserver';
import { settingsDiagnosticsOf } from '../features/diagnostics';
import type { DiagnosticOptions } from '../features/diagnostics';
import { LSPErrorCodes } from '../features/shared/protocol';
import type { TextsOfEditor } from '../features/shared/workspace-edit';
import type { ProjectFile } from '../project/file';
import type { IndexedText } from '../project/lines';
import { Project } from '../project/project';
import type { SettingsInFile } from '../project/settings';
import { canonicalUri } from '../project/uris';
import type { Client } from './client';
import { configurationOf } from './configuration';
import type { Configuration } from './configuration';
import { everyFile } from './every-file';
import { Findings } from './findings';
import type { Host } from './host';
import { askedInside } from './pages';
import type { Asked } from './while-typing';
import type { Connection } from './wire/connection';
import { WorkspaceFindings } from './workspace';

export interface OpenText extends IndexedText {
  readonly version: number;
  readonly languageId: string;
}

export class Session {
  readonly connection: Connection;
  readonly host: Host;
  readonly client: Client;
  readonly project: Project;
  readonly findings: Findings;
  readonly workspaceFindings: WorkspaceFindings;
  readonly textsOfEditor: TextsOfEditor;
  /** By URI as the editor spells it. */
  readonly open = new Map<string, OpenText>();
  /** How the editor spells what it has open, by canonical URI. */
  readonly openAs = new Map<string, string>();
  configuration: Configuration = configurationOf({});
  /** Settings must have been read once before anything is computed by them. */
  settled: Promise<void> = Promise.resolve();
  /** Settings files that the editor shows problems of. */
  readonly problems = new Set<string>();
  /** What this editor shows of a finding. */
  readonly #shows: DiagnosticOptions;
  /** Requests that wait for their answer. */
  #waiting = 0;

  constructor(connection: Connection, host: Host, client: Client, roots: readonly string[]) {
    this.connection = connection;
    this.host = host;
    this.client = client;
    const onFault = (where: string, fault: unknown): void => host.onFault(where, fault);
    this.textsOfEditor = { documentChanges: client.documentChanges, versionOf: uri => this.open.get(uri)?.version ?? null };
    this.#shows = { relatedInformation: client.relatedInformation, codeDescription: client.codeDescription, checksPage: client.checksPage ?? host.checksPage, onFault };
    this.project = new Project({
      reader: host.reader, roots,
      computerZone: new Intl.DateTimeFormat('en').resolvedOptions().timeZone,
      onFault: (code, fault) => host.onFault(`check ${code}`, fault),
      onSettings: (uri, file) => this.sendProblems(uri, file),
    });
    this.findings = new Findings({
      connection, onFault,
      project: this.project,
      options: this.#shows,
      withVersions: client.diagnosticVersions,
      versionOf: uri => this.open.get(uri)?.version,
    });
    this.workspaceFindings = new WorkspaceFindings({
      connection, client, onFault,
      project: this.project,
      findings: this.findings,
      options: this.#shows,
      find: host.find?.bind(host),
      versionOf: uri => this.open.get(this.openAs.get(canonicalUri(uri)) ?? uri)?.version,
      isBusy: () => this.#waiting > 0 || this.findings.isBusy,
      ready: () => this.settled,
    });
  }

  // --- answers ------------------------------------------------------------------------------------------------------

  /**
   * Wraps a feature: its file is loaded with all that it uses; a fault inside is told and answered with `nothing`; an answer
   * for a text that has changed meanwhile is not given.
   */
  answer<P extends Asked, R, N>(what: string, nothing: N, work: (file: ProjectFile, params: P) => R | Promise<R>) {
    return async (params: P, token: CancellationToken): Promise<R | N | ResponseError<never>> => {
      const { uri } = params.textDocument;
      const version = this.open.get(uri)?.version;
      this.#waiting++;
      try {
        await this.settled;
        const file = await this.project.prepare(uri);
        if (token.isCancellationRequested) return cancelled();
        if (this.open.get(uri)?.version !== version) return changed();
        const asked = file && askedInside(file, params);
        const answer = file === undefined || asked === undefined ? nothing : await work(file, asked);
        return this.open.get(uri)?.version === version ? answer : changed();
      } catch (fault) {
        this.host.onFault(what, fault);
        return nothing;
      } finally {
        this.#waiting--;
      }
    };
  }

  /** The same for what is asked about all files of the workspace. */
  answerOfAll<P, R, N>(what: string, nothing: N, work: (files: readonly ProjectFile[], params: P) => R | Promise<R>) {
    return async (params: P, token?: CancellationToken): Promise<R | N | ResponseError<never>> => {
      this.#waiting++;
      try {
        await this.settled;
        const files = await this.everyFile();
        return token?.isCancellationRequested === true ? cancelled() : await work(files, params);
      } catch (fault) {
        this.host.onFault(what, fault);
        return nothing;
      } finally {
        this.#waiting--;
      }
    };
  }

  /** Does what nobody waits for; a fault is told. */
  async contained(what: string, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (fault) {
      this.host.onFault(what, fault);
    }
  }

  /** Nothing that the file rests on has changed since it was read. */
  isCurrent(file: ProjectFile): boolean {
    return this.project.get(file.uri) === file;
  }

  /** Every file of the workspace that can be found, loaded. */
  everyFile(): Promise<readonly ProjectFile[]> {
    return everyFile(this);
  }

  // --- what the editor should look at again -------------------------------------------------------------------------

  /** Everything may be otherwise now, of files that are not open too where the editor has asked for them. */
  lookAtAllAgain(): void {
    const uris = [...this.open.keys(), ...(this.workspaceFindings.hasAnswered ? this.project.loaded() : [])];
    // An editor that asks for the whole workspace may have been answered with nothing, and should ask again all the same.
    if (uris.length > 0 || this.workspaceFindings.hasAnswered) this.#askToLookAgain(uris);
  }

  /** The findings of these files may be others now. Only open ones are on the screen. */
  lookAgain(uris: readonly string[]): void {
    if (uris.length > 0) this.#askToLookAgain(uris);
  }

  /** What stands above formulas may be otherwise now, and nothing else. */
  lookAtLensesAgain(): void {
    if (this.client.refreshesCodeLenses && this.open.size > 0) this.#ask('workspace/codeLens/refresh');
  }

  #askToLookAgain(uris: readonly string[]): void {
    if (!this.client.pullsDiagnostics) this.sendFindings(uris);
    else if (this.client.refreshesDiagnostics) this.#ask('workspace/diagnostic/refresh');
    if (this.client.refreshesCodeLenses) this.#ask('workspace/codeLens/refresh');
    if (this.client.refreshesHints) this.#ask('workspace/inlayHint/refresh');
    if (this.client.refreshesColours) this.#ask('workspace/semanticTokens/refresh');
  }

  sendFindings(uris: readonly string[]): void {
    this.settled.then(() => {
      for (const uri of uris) if (this.open.has(uri)) this.findings.send(uri);
    }, (fault: unknown) => this.host.onFault('findings', fault));
  }

  /** What is wrong with settings is sent to every editor: it has no reason to ask about a file that is not of our language. */
  sendProblems(uri: string, file: SettingsInFile | undefined): void {
    const diagnostics = file === undefined ? [] : settingsDiagnosticsOf(file, this.#shows);
    if (diagnostics.length === 0 && !this.problems.has(uri)) return;
    if (diagnostics.length === 0) this.problems.delete(uri);
    else this.problems.add(uri);
    this.connection.sendDiagnostics({ uri, diagnostics }).catch((fault: unknown) => this.host.onFault(`problems of ${uri}`, fault));
  }

  readSettings(uri: string): void {
    void this.contained('settings', async () => void await this.project.settingsAt(uri));
  }

  /** A request without parameters whose answer says nothing. */
  #ask(method: string): void {
    this.connection.sendRequest(method).catch((fault: unknown) => this.host.onFault(method, fault));
  }
}

export function offsetIn(file: ProjectFile, position: Position): number {
  return file.lineIndex.offsetAt(position);
}

/** The file that something is about which the editor hands back: an action or a completion that it was told of. */
export function uriIn(data: unknown): string | undefined {
  if (typeof data !== 'object' || data === null || !('uri' in data)) return undefined;
  return typeof data.uri === 'string' ? data.uri : undefined;
}

/** An answer for a text that is another by now. */
export function changed(): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed.');
}

function cancelled(): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');
}
