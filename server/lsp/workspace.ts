/**
 * Findings of files that are not open: given to an editor that asks, sent to one that does not. The files are looked through one after
 * another, only those that something has happened to, and whoever waits for an answer meanwhile gets it first.
 */
import { ResponseError } from 'vscode-jsonrpc';
import type {
  CancellationToken, FileEvent, ResultProgressReporter, WorkDoneProgressReporter, WorkspaceDiagnosticParams, WorkspaceDiagnosticReport,
  WorkspaceDiagnosticReportPartialResult, WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { diagnosticsOf } from '../features/diagnostics';
import type { DiagnosticOptions } from '../features/diagnostics';
import { DocumentDiagnosticReportKind, FileChangeType, LSPErrorCodes, MessageType } from '../features/shared/protocol';
import type { ProjectFile } from '../project/file';
import type { Project } from '../project/project';
import { isMarkdownName } from '../project/markdown';
import { isSettings } from '../project/settings';
import { Turns } from '../project/turns';
import { canonicalUri, homeOf } from '../project/uris';
import type { Client } from './client';
import type { Findings } from './findings';
import { giveWay } from './giving-way';
import type { Connection } from './wire/connection';

/** Files that are looked through while they are not open, unless the editor's settings say otherwise. */
export const MOST_BACKGROUND_FILES = 2000;
/** Files to look through from which it is worth a progress in the editor: fewer are done before it is seen. */
const WORTH_A_PROGRESS = 50;
/** Files that are read ahead of being looked at. */
const READ_AT_ONCE = 64;
/** Reports that are given at once where the editor takes them in parts. */
const REPORTS_AT_ONCE = 25;

export interface WorkspaceHost {
  readonly connection: Connection;
  readonly project: Project;
  readonly findings: Findings;
  readonly client: Pick<Client, 'pullsDiagnostics' | 'registersWatchers' | 'showsProgress'>;
  readonly options: DiagnosticOptions;
  /** URIs of the `.bake` files in folders, at most so many; undefined where nobody can look for them. */
  readonly find: ((roots: readonly string[], most: number) => Promise<readonly string[]>) | undefined;
  /** Version of an open text, by any spelling of its URI; undefined when it is not open. */
  versionOf(uri: string): number | undefined;
  /** Somebody waits for an answer that comes before anything here. */
  isBusy(): boolean;
  /** Settings have been read. */
  ready(): Promise<void>;
  onFault(where: string, fault: unknown): void;
}

type Progress = Pick<WorkDoneProgressReporter, 'begin' | 'report' | 'done'> & { readonly token?: CancellationToken };

/** A progress, and of how many files it tells. */
interface Shown {
  readonly progress: Progress;
  readonly count: number;
}

export class WorkspaceFindings {
  readonly #host: WorkspaceHost;
  /** Canonical URIs of the files that are looked through; undefined when that must be found out (again). */
  #list: ReadonlySet<string> | undefined;
  /** Files that nothing has happened to since they were looked at, by canonical URI, with the id of what was found. */
  readonly #fresh = new Map<string, string>();
  /** Files that something has happened to: they, and those that use them, are no longer fresh. */
  readonly #touched = new Set<string>();
  /**
   * Canonical URIs of files that are not open and that an editor, which does not ask, shows findings of, with these as text; undefined for
   * those of a text that it had open.
   */
  readonly #shown = new Map<string, string | undefined>();
  #most = MOST_BACKGROUND_FILES;
  /** The note on how many are left out was shown for this limit. */
  #noted: number | undefined;
  /** Somebody has ended the progress: enough of it, until settings change or the server is started again. */
  #isEnded = false;
  #hasAnswered = false;
  #isRunning = false;
  #again = false;

  constructor(host: WorkspaceHost) {
    this.#host = host;
  }

  /** Whether an editor that asks has been told of files that are not open, and so has something that may be out of date. */
  get hasAnswered(): boolean {
    return this.#hasAnswered;
  }

  /** Settings or folders are others: everything may be. */
  reset(most: number): void {
    this.#most = most;
    this.#isEnded = false;
    this.#list = undefined;
    this.touchAll();
  }

  /** Something that every file rests on is another. */
  touchAll(): void {
    this.#fresh.clear();
    this.#wake();
  }

  /** A text was opened, edited or closed. */
  touch(uri: string): void {
    this.#touched.add(uri);
    this.#wake();
  }

  /** The editor, which does not ask, has findings of a text that is closed now. */
  close(uri: string): void {
    this.#shown.set(canonicalUri(uri), undefined);
    if (!this.#host.client.registersWatchers) this.#list = undefined; // nobody tells of files that come and go: a moment to look
    this.touch(uri);
  }

  /** Files or whole folders were made, changed or deleted on disk. Gives the URIs of the files that it is about. */
  changedOnDisk(changes: readonly FileEvent[]): readonly string[] {
    const about: string[] = [];
    for (const { uri, type } of changes) {
      const canonical = canonicalUri(uri);
      if (/\.bake$/i.test(canonical) || isSettings(uri)) {
        about.push(uri);
        if (type !== FileChangeType.Changed) this.#list = undefined;
      } else if (isMarkdownName(canonical)) {
        this.#host.project.invalidate(uri); // its findings are shown while it is open only, but its names are looked for
      } else if (isLeftOut(uri, this.#host.project.roots)) {
        continue; // an installation or a checkout makes and deletes thousands of them
      } else if (type === FileChangeType.Deleted) {
        // A folder, perhaps: its files are not named one by one.
        about.push(...this.#host.project.under(canonical));
        this.#list = undefined;
      } else if (type === FileChangeType.Created && !/\.[^./]+$/.test(canonical)) {
        this.#list = undefined;
      }
    }
    for (const uri of about) this.#touched.add(uri);
    if (about.length > 0 || this.#list === undefined) this.#wake();
    return about;
  }

  /** Answers an editor that asks for the findings of the whole workspace. */
  async report(
    { previousResultIds, workDoneToken }: WorkspaceDiagnosticParams, token: CancellationToken, progress: WorkDoneProgressReporter,
    parts: ResultProgressReporter<WorkspaceDiagnosticReportPartialResult> | undefined,
  ): Promise<WorkspaceDiagnosticReport | ResponseError<never>> {
    await this.#host.ready();
    this.#hasAnswered = true;
    if (!this.#host.client.registersWatchers) this.#list = undefined;
    const previous = new Map(previousResultIds.map(({ uri, value }) => [canonicalUri(uri), { uri, value }]));
    const files = await this.#files();
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const give = (item: WorkspaceDocumentDiagnosticReport): void => {
      items.push(item);
      if (parts !== undefined && items.length >= REPORTS_AT_ONCE) parts.report({ items: items.splice(0) });
    };
    const isAsBefore = (key: string): boolean => {
      const id = this.#fresh.get(key);
      return id !== undefined && id === previous.get(key)?.value;
    };
    // What was there and is there no more: nothing is wrong with it.
    for (const [key, { uri }] of previous) if (!files.has(key)) give({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
    const waiting: string[] = [];
    for (const key of files) {
      const resultId = this.#fresh.get(key);
      if (resultId === undefined || !isAsBefore(key)) {
        if (!this.#isEnded || previous.has(key)) waiting.push(key);
      } else give({ kind: DocumentDiagnosticReportKind.Unchanged, ...this.#spelled(key), resultId });
    }
    const shown = workDoneToken === undefined ? await this.#beginProgress(waiting.length) : begun(progress, waiting.length);
    await this.#lookThrough(waiting, shown, () => token.isCancellationRequested, (key, file) => {
      const spelled = this.#spelled(key);
      if (file === undefined) {
        if (previous.has(key)) give({ kind: DocumentDiagnosticReportKind.Full, ...spelled, items: [] });
        return;
      }
      const resultId = this.#host.findings.resultId(file);
      if (isAsBefore(key)) give({ kind: DocumentDiagnosticReportKind.Unchanged, ...spelled, resultId });
      else give({ kind: DocumentDiagnosticReportKind.Full, ...spelled, resultId, items: diagnosticsOf(file, this.#host.options) });
    }).finally(() => shown?.progress.done());
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');
    if (parts === undefined) return { items };
    if (items.length > 0) parts.report({ items });
    return { items: [] };
  }

  /** Begins to look through what has changed, for an editor that does not ask. */
  #wake(): void {
    if (this.#host.client.pullsDiagnostics) return;
    this.#again = true;
    if (this.#isRunning) return;
    this.#isRunning = true;
    this.#run().catch((fault: unknown) => this.#host.onFault('findings of the workspace', fault)).finally(() => (this.#isRunning = false));
  }

  async #run(): Promise<void> {
    let shown: Shown | undefined;
    try {
      while (this.#again) {
        await giveWay(new Turns(), () => this.#host.isBusy());
        this.#again = false;
        await this.#host.ready();
        const files = await this.#files();
        for (const key of this.#shown.keys()) if (!files.has(key)) this.#publish(key, undefined);
        const waiting = [...files].filter(key => this.#host.versionOf(key) === undefined && !this.#fresh.has(key) && (!this.#isEnded || this.#shown.has(key)));
        shown ??= await this.#beginProgress(waiting.length);
        // What an edit touches meanwhile has its turn after the others.
        await this.#lookThrough(waiting, shown, () => this.#list === undefined, (key, file) => {
          if (this.#host.versionOf(key) === undefined) this.#publish(key, file); // and was not opened meanwhile
        });
      }
    } finally {
      shown?.progress.done();
    }
  }

  /** A progress in the editor where it is worth one and the editor can show it. */
  async #beginProgress(count: number): Promise<Shown | undefined> {
    if (count < WORTH_A_PROGRESS || !this.#host.client.showsProgress) return undefined;
    return begun(await this.#host.connection.window.createWorkDoneProgress(), count);
  }

  #publish(key: string, file: ProjectFile | undefined): void {
    const diagnostics = file === undefined ? [] : diagnosticsOf(file, this.#host.options);
    const text = JSON.stringify(diagnostics);
    if (this.#shown.get(key) === text) return;
    const wasShown = this.#shown.delete(key);
    if (diagnostics.length > 0) this.#shown.set(key, text);
    else if (!wasShown) return;
    this.#host.connection.sendDiagnostics({ uri: this.#spelled(key).uri, diagnostics })
      .catch((fault: unknown) => this.#host.onFault('findings of the workspace', fault));
  }

  /** Analyses files one after another, in short turns, and tells of each, until somebody has enough of it. */
  async #lookThrough(keys: readonly string[], shown: Shown | undefined, isStale: () => boolean, tell: (key: string, file: ProjectFile | undefined) => void): Promise<void> {
    const turns = new Turns();
    for (const [index, key] of keys.entries()) {
      if (index % READ_AT_ONCE === 0) await this.#host.project.read(keys.slice(index, index + READ_AT_ONCE));
      if (index === 0 || turns.isOver()) {
        await giveWay(turns, () => this.#host.isBusy());
        shown?.progress.report(Math.round(100 * Math.max(0, 1 - (keys.length - index) / shown.count)));
      }
      if (isStale()) return;
      if (shown?.progress.token?.isCancellationRequested === true) {
        this.#isEnded = true;
        this.#host.connection.console.info('Looking through the files that are not open was ended. Open a file to see its findings, or restart the server to look through all of them.');
        return;
      }
      const file = await this.#host.findings.analysed(key, isStale);
      if (isStale()) return;
      if (file !== undefined) this.#fresh.set(key, this.#host.findings.resultId(file));
      tell(key, file);
    }
  }

  /** Canonical URIs of all files there are findings of, those first that are open. What something has happened to is not fresh any more. */
  async #files(): Promise<ReadonlySet<string>> {
    const { project, findings, find } = this.#host;
    if (this.#list === undefined) {
      const found = this.#most === 0 || find === undefined ? [] : await find(project.roots, this.#most + 1);
      this.#list = new Set(found.slice(0, this.#most));
      project.retain(this.#list);
      if (found.length > this.#most && this.#noted !== this.#most) this.#note();
    }
    for (const uri of [...this.#touched, ...project.dependents(...this.#touched)]) this.#fresh.delete(canonicalUri(uri));
    this.#touched.clear();
    const open = project.loaded().filter(uri => this.#host.versionOf(uri) !== undefined && findings.wants(uri));
    return new Set([...open.map(canonicalUri), ...this.#list]);
  }

  #note(): void {
    this.#noted = this.#most;
    const most = String(this.#most).replace(/(?=(?:\d{3})+$)\B/g, ',');
    this.#host.connection.sendNotification('window/showMessage', {
      type: MessageType.Info,
      message: `There are more than ${most} .bake files here. Findings are shown for the first ${most}, and for every file that is open. `
        + 'The setting "proofsheet.mostBackgroundFiles" takes more.',
    }).catch((fault: unknown) => this.#host.onFault('note', fault));
  }

  #spelled(key: string): { readonly uri: string; readonly version: number | null } {
    return { uri: this.#host.project.get(key)?.uri ?? key, version: this.#host.versionOf(key) ?? null };
  }
}

function begun(progress: Progress, count: number): Shown {
  progress.begin('Looking through the formulas', 0, `${count} files`, true);
  return { progress, count };
}

/** Whether it stands in a folder that is not looked into: a hidden one, or one of installed packages. */
function isLeftOut(uri: string, roots: readonly string[]): boolean {
  const home = homeOf(uri, roots);
  const path = canonicalUri(uri).slice(home === undefined ? 0 : canonicalUri(home).length);
  return /\/(?:node_modules|\.[^/]+)\//.test(path);
}
