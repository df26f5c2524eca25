/** What the two entries share: the server's life, commands, the preview. They differ only in how a server is started. */
import * as vscode from 'vscode';
import { CloseAction, ErrorAction, State } from 'vscode-languageclient';
import type { BaseLanguageClient, ErrorHandler, LanguageClientOptions } from 'vscode-languageclient';
import { FIND_FILES_REQUEST, READ_FILE_REQUEST } from '../server/requests';
import { ChosenTimes } from './chosen-times';
import { Crashes, LEFT_ALONE, STARTED_AGAIN } from './crashes';
import { COMPARE_COMMAND, registerCompare, type Compare } from './compare';
import { registerConvert } from './convert';
import { registerExport } from './export';
import { findFiles, readFile } from './files';
import { watchFirstSteps } from './first-steps';
import { registerNewFormula } from './new-formula/command';
import { WITH_FORMULAS, whenFormulasOpen } from './pages';
import { registerPreview } from './preview/panel';
import { renamedHead, type Renamed } from './renames';
import { registerRecord } from './record';
import { registerScale, SCALE_COMMAND } from './scale';
import { registerSchedule, SCHEDULE_COMMAND } from './schedule';
import { registerStatus } from './status';
import { registerTasks } from './tasks';

/** A client with its server, not yet started; `end` is for what the client does not end itself. */
export interface Connection {
  readonly client: BaseLanguageClient;
  readonly end?: () => void;
}

export type Connect = (options: LanguageClientOptions) => Connection;

export const CLIENT_ID = 'proofsheet';
export const CLIENT_NAME = 'Proofsheet';

/**
 * Registers everything, and starts the server as soon as there is a formula to look at. Resolves when the server has answered,
 * also when it could not be started, or is not needed yet.
 */
export async function activateWith(context: vscode.ExtensionContext, connect: Connect): Promise<void> {
  const log = vscode.window.createOutputChannel(CLIENT_NAME, { log: true });
  const renamed = new vscode.EventEmitter<Renamed>();
  const server: Server = new Server(context.extensionUri, connect, log, () => { times.send(); compare.send(); }, (one) => renamed.fire(one));
  const times = new ChosenTimes(context.workspaceState, (method, params) => server.tell(method, params));
  const compare: Compare = registerCompare((method, params) => server.ask(method, params), (method, params) => server.tell(method, params));
  context.subscriptions.push(
    log,
    server,
    times,
    compare,
    renamed,
    renamed.event(({ uri, from, to }) => times.rename(uri, from, to)),
    vscode.commands.registerCommand('proofsheet.restartServer', () => server.restart()),
    vscode.commands.registerCommand('proofsheet.showLog', () => log.show()),
    registerNewFormula(log),
    watchFirstSteps(),
    registerConvert((method, params) => server.ask(method, params)),
    registerExport((method, params) => server.ask(method, params)),
    registerRecord((method, params) => server.ask(method, params)),
    registerScale((method, params) => server.ask(method, params)),
    registerSchedule((method, params) => server.ask(method, params), times),
    registerStatus((method, params) => server.ask(method, params)),
    registerTasks(),
    ...registerPreview({ extensionUri: context.extensionUri, ask: (method, params) => server.ask(method, params), times, renamed: renamed.event, log }),
  );
  const { begun, waiting } = whenFormulasOpen(() => server.start());
  context.subscriptions.push(waiting);
  await begun;
}

/** The language server of this window: one at a time, and how to get another. */
class Server implements vscode.Disposable {
  readonly #extension: vscode.Uri;
  readonly #connect: Connect;
  readonly #log: vscode.LogOutputChannel;
  readonly #began: () => void;
  readonly #renamed: (one: Renamed) => void;
  readonly #crashes = new Crashes();
  #connection: Connection | undefined;
  /** Starts and stops wait for one another. */
  #turn: Promise<void> = Promise.resolve();
  #wanted = false;

  /**
   * @param began told of each server that has begun.
   * @param renamed told of each formula that is given another name.
   */
  constructor(extension: vscode.Uri, connect: Connect, log: vscode.LogOutputChannel, began: () => void, renamed: (one: Renamed) => void) {
    this.#extension = extension;
    this.#connect = connect;
    this.#log = log;
    this.#began = began;
    this.#renamed = renamed;
  }

  /** Starts it, unless that was done before. */
  start(): Promise<void> {
    return this.#wanted ? this.#turn : this.restart();
  }

  restart(): Promise<void> {
    this.#wanted = true;
    this.#crashes.forget();
    return this.#next(async () => {
      await vscode.commands.executeCommand('setContext', 'proofsheet.running', true);
      await this.#stop();
      await this.#start();
    });
  }

  /** Asks the server something of our own. Undefined when there is no server, or it could not answer; the log says why. */
  async ask<Answer>(method: string, params: unknown): Promise<Answer | undefined> {
    await this.start();
    try {
      return await this.#connection?.client.sendRequest<Answer>(method, params);
    } catch (error) {
      this.#log.warn(`${method}: ${String(error)}`);
      return undefined;
    }
  }

  /** Tells the server something of our own; where there is none, nobody hears it. */
  tell(method: string, params: unknown): void {
    this.#connection?.client.sendNotification(method, params).catch((error: unknown) => this.#log.warn(`${method}: ${String(error)}`));
  }

  dispose(): Promise<void> {
    return this.#next(() => this.#stop());
  }

  #next(work: () => Promise<void>): Promise<void> {
    this.#turn = this.#turn.then(work).catch((error: unknown) => {
      this.#log.error(error instanceof Error ? error : String(error));
    });
    return this.#turn;
  }

  async #start(): Promise<void> {
    const connection = this.#connect({
      documentSelector: WITH_FORMULAS,
      outputChannel: this.#log,
      traceOutputChannel: this.#log,
      // A fault of the server belongs in the log; it is no reason to take the baker away from the page.
      revealOutputChannelOn: 4,
      diagnosticCollectionName: 'proofsheet',
      errorHandler: this.#errorHandler(),
      middleware: {
        provideRenameEdits: async (document, position, newName, token, next) => {
          const edit = await next(document, position, newName, token);
          if (edit) await this.#tellRenamed(edit);
          return edit;
        },
      },
      initializationOptions: {
        previewCommand: 'proofsheet.showPreview',
        scaleCommand: SCALE_COMMAND,
        scheduleCommand: SCHEDULE_COMMAND,
        compareCommand: COMPARE_COMMAND,
        checksPage: vscode.Uri.joinPath(this.#extension, 'server', 'core', 'checks', 'README.md').toString(),
      },
    });
    connection.client.onRequest(READ_FILE_REQUEST, readFile);
    connection.client.onRequest(FIND_FILES_REQUEST, findFiles);
    // One that is started again after it has ended by itself knows no more than the first.
    connection.client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) this.#began();
    });
    this.#connection = connection;
    await connection.client.start();
  }

  async #tellRenamed(edit: vscode.WorkspaceEdit): Promise<void> {
    for (const [uri, edits] of edit.entries()) {
      const document = await vscode.workspace.openTextDocument(uri);
      for (const { range: { start, end }, newText } of edits) {
        const names = start.line === end.line && renamedHead(document.lineAt(start.line).text, { start: start.character, end: end.character, newText });
        if (names) this.#renamed({ uri: uri.toString(), ...names });
      }
    }
  }

  #errorHandler(): ErrorHandler {
    return {
      error: (_error, _message, count) => ({ action: count !== undefined && count <= 3 ? ErrorAction.Continue : ErrorAction.Shutdown }),
      closed: () => {
        if (this.#crashes.mayRestart(Date.now())) return { action: CloseAction.Restart, message: STARTED_AGAIN, handled: true };
        void this.#sayLeftAlone();
        return { action: CloseAction.DoNotRestart, message: LEFT_ALONE, handled: true };
      },
    };
  }

  async #sayLeftAlone(): Promise<void> {
    const restart = 'Restart Server';
    const showLog = 'Show Log';
    const wanted = await vscode.window.showErrorMessage(LEFT_ALONE, restart, showLog);
    if (wanted === restart) await this.restart();
    else if (wanted === showLog) this.#log.show();
  }

  async #stop(): Promise<void> {
    const connection = this.#connection;
    this.#connection = undefined;
    try {
      await connection?.client.dispose();
    } catch (error) {
      this.#log.info(String(error)); // it had ended already, which is no reason not to start another
    } finally {
      connection?.end?.();
    }
  }
}
