/**
 * Findings, sent or asked for. Work is done in short turns, so that an edit that arrives in between is heard, and ends the
 * work that it made stale.
 */
import { ResponseError } from 'vscode-jsonrpc';
import type { CancellationToken, Diagnostic, DiagnosticServerCancellationData, DocumentDiagnosticReport } from 'vscode-languageserver';
import { diagnosing } from '../features/diagnostics';
import type { DiagnosticOptions } from '../features/diagnostics';
import { DocumentDiagnosticReportKind, LSPErrorCodes } from '../features/shared/protocol';
import type { ProjectFile } from '../project/file';
import type { Project } from '../project/project';
import { turn, Turns } from '../project/turns';
import { schemeOf } from '../project/uris';
import type { Connection } from './wire/connection';

/** Schemes of texts that people write. Others (an old version in `git:`, the other side of a comparison) are only looked at. */
const WRITTEN = new Set(['file', 'untitled', 'vscode-remote', 'vscode-vfs']);

export interface FindingsHost {
  readonly connection: Connection;
  readonly project: Project;
  readonly options: DiagnosticOptions;
  /** The editor wants the version beside what is sent. */
  readonly withVersions: boolean;
  /** Version of an open text; undefined when it is not open. */
  versionOf(uri: string): number | undefined;
  onFault(where: string, fault: unknown): void;
}

export class Findings {
  readonly #host: FindingsHost;
  /** The latest ask for each file; an older one gives up. */
  readonly #asked = new Map<string, number>();
  #asks = 0;
  /** Markdown pages whose fences the editor has findings of. */
  readonly #fenced = new Set<string>();
  readonly #resultIds = new WeakMap<ProjectFile, string>();
  #results = 0;
  /** In every id: an editor may come with those of a server that has ended. */
  readonly #start = Date.now().toString(36);

  constructor(host: FindingsHost) {
    this.#host = host;
  }

  /** Whether findings are shown for the file at all. */
  wants(uri: string): boolean {
    const scheme = schemeOf(uri);
    return WRITTEN.has(scheme) || (scheme !== 'git' && this.#host.project.roots.some(root => schemeOf(root) === scheme));
  }

  /** Sends the findings of an open file, unless it changes before they are known. */
  send(uri: string): void {
    if (!this.wants(uri)) return;
    const ask = ++this.#asks;
    this.#asked.set(uri, ask);
    this.#send(uri, () => this.#asked.get(uri) !== ask).catch((fault: unknown) => this.#host.onFault('findings', fault));
  }

  /** An open file's findings are being worked out. */
  get isBusy(): boolean {
    return this.#asked.size > 0;
  }

  /** The file is closed: nobody waits for its findings any more. */
  giveUp(uri: string): void {
    this.#asked.delete(uri);
  }

  /** Takes the findings of a file off the screen. */
  clear(uri: string): void {
    this.#asked.delete(uri);
    this.#fenced.delete(uri);
    if (this.wants(uri)) this.#publish(uri, { uri, diagnostics: [] });
  }

  /** Answers an editor that asks for findings. */
  async report(
    uri: string, previousResultId: string | undefined, token: CancellationToken,
  ): Promise<DocumentDiagnosticReport | ResponseError<DiagnosticServerCancellationData>> {
    if (!this.wants(uri)) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    const version = this.#host.versionOf(uri);
    const stale = (): boolean => token.isCancellationRequested || this.#host.versionOf(uri) !== version;
    const file = await this.#host.project.prepare(uri);
    const gone = (): ResponseError<DiagnosticServerCancellationData> => new ResponseError(LSPErrorCodes.ServerCancelled, 'The text has changed.', { retriggerRequest: true });
    if (stale()) return gone();
    if (file === undefined) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    const resultId = this.resultId(file);
    if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    const items = await this.#inTurns(file, stale);
    return items === undefined || stale() ? gone() : { kind: DocumentDiagnosticReportKind.Full, resultId, items };
  }

  async #send(uri: string, stale: () => boolean): Promise<void> {
    // Edits come in bursts: the message that is next in line may make this one stale.
    await turn();
    if (stale()) return;
    const file = await this.#host.project.prepare(uri);
    const diagnostics = file && await this.#inTurns(file, stale);
    const version = this.#host.versionOf(uri);
    if (stale() || file === undefined || diagnostics === undefined || version === undefined) return;
    this.#asked.delete(uri);
    // Most Markdown has nothing to do with bread: no word of it unless there was something to find before.
    if (file.page?.fences.length === 0 && !this.#fenced.has(uri)) return;
    if (file.page !== undefined && file.page.fences.length > 0) this.#fenced.add(uri);
    else this.#fenced.delete(uri);
    this.#publish(uri, { uri, diagnostics, ...(this.#host.withVersions && { version }) });
  }

  #publish(uri: string, params: Parameters<Connection['sendDiagnostics']>[0]): void {
    this.#host.connection.sendDiagnostics(params).catch((fault: unknown) => this.#host.onFault(`findings of ${uri}`, fault));
  }

  /** The file, once all that is found in it is known; undefined when it is not there or the work has become stale. */
  async analysed(uri: string, stale: () => boolean): Promise<ProjectFile | undefined> {
    const file = await this.#host.project.prepare(uri);
    return file && await this.#inTurns(file, stale) ? file : undefined;
  }

  /** All that is found in a file; undefined when the work has become stale. */
  async #inTurns(file: ProjectFile, stale: () => boolean): Promise<Diagnostic[] | undefined> {
    const work = diagnosing(file, this.#host.options);
    const turns = new Turns();
    for (let step = work.next(); ; step = work.next()) {
      if (step.done === true) return step.value;
      if (!turns.isOver()) continue;
      await turns.next();
      if (stale()) return undefined;
    }
  }

  /** One id for each state of a file: a state that is the same is the same object. */
  resultId(file: ProjectFile): string {
    let id = this.#resultIds.get(file);
    if (id === undefined) this.#resultIds.set(file, (id = `${this.#start}-${String(++this.#results)}`));
    return id;
  }
}

