/**
 * The server's end of a connection. It has what is used here of the protocol library's own `Connection`, in the same shape, over
 * the library's JSON-RPC alone: the whole of it would be a third of what must be read before a file has findings.
 */
import { createMessageConnection } from 'vscode-jsonrpc';
import type { Disposable, Message, MessageReader, MessageWriter } from 'vscode-jsonrpc';
import type * as protocol from 'vscode-languageserver';
import { MessageType } from '../../features/shared/protocol';
import { partsOf, Progresses } from './progress';

/** Requests of the editor, by the names of the handlers. */
const ASKED = {
  onHover: 'textDocument/hover',
  onCompletion: 'textDocument/completion',
  onCompletionResolve: 'completionItem/resolve',
  onSignatureHelp: 'textDocument/signatureHelp',
  onDefinition: 'textDocument/definition',
  onReferences: 'textDocument/references',
  onDocumentHighlight: 'textDocument/documentHighlight',
  onPrepareRename: 'textDocument/prepareRename',
  onRenameRequest: 'textDocument/rename',
  onSelectionRanges: 'textDocument/selectionRange',
  onWorkspaceSymbol: 'workspace/symbol',
  onDocumentSymbol: 'textDocument/documentSymbol',
  onFoldingRanges: 'textDocument/foldingRange',
  onDocumentLinks: 'textDocument/documentLink',
  onCodeLens: 'textDocument/codeLens',
  onDocumentFormatting: 'textDocument/formatting',
  onDocumentRangeFormatting: 'textDocument/rangeFormatting',
  onDocumentOnTypeFormatting: 'textDocument/onTypeFormatting',
  onCodeAction: 'textDocument/codeAction',
  onCodeActionResolve: 'codeAction/resolve',
} as const;

/** What the editor tells without an answer. */
const TOLD = {
  onInitialized: 'initialized',
  onDidOpenTextDocument: 'textDocument/didOpen',
  onDidChangeTextDocument: 'textDocument/didChange',
  onDidCloseTextDocument: 'textDocument/didClose',
  onDidChangeConfiguration: 'workspace/didChangeConfiguration',
  onDidChangeWatchedFiles: 'workspace/didChangeWatchedFiles',
} as const;

type Whole = protocol.Connection;
type Handlers = Pick<Whole, keyof typeof ASKED | keyof typeof TOLD>;

export interface Connection extends Handlers {
  readonly languages: {
    readonly diagnostics: Pick<Whole['languages']['diagnostics'], 'on' | 'onWorkspace'>;
    readonly semanticTokens: Pick<Whole['languages']['semanticTokens'], 'on' | 'onDelta' | 'onRange'>;
    readonly inlayHint: Pick<Whole['languages']['inlayHint'], 'on' | 'resolve'>;
  };
  readonly workspace: Pick<Whole['workspace'], 'onWillRenameFiles' | 'onDidChangeWorkspaceFolders'> & {
    /** The settings of the editor for each item, in order. */
    getConfiguration(items: protocol.ConfigurationItem[]): Promise<unknown[]>;
  };
  readonly window: Pick<Whole['window'], 'createWorkDoneProgress'>;
  /** Lines in the editor's log. */
  readonly console: { error(text: string): void; info(text: string): void };
  sendDiagnostics(params: protocol.PublishDiagnosticsParams): Promise<void>;
  sendRequest<Answer>(method: string, params?: object): Promise<Answer>;
  sendNotification(method: string, params?: object): Promise<void>;
  onRequest<P, R>(method: string, handler: (params: P, token: protocol.CancellationToken) => R): Disposable;
  onNotification<P>(method: string, handler: (params: P) => void): Disposable;
  /** Asks the editor to tell of something from now on. */
  register(method: string, registerOptions: object): Promise<void>;
  /** Answers the editor's first request; what comes after it is kept until `ready`, in order. */
  onInitialize(handler: (params: protocol.InitializeParams) => { readonly result: protocol.InitializeResult; readonly ready: Promise<void> }): void;
  listen(): void;
}

/** What a connection does to the program that it is in. */
export interface Life {
  /** The editor has begun, and says this of itself. */
  begin(params: protocol.InitializeParams): void;
  /** The editor wants the server to end, or has gone: with this exit status. */
  end(status: number): void;
}

export function connectionOver(reader: MessageReader, writer: MessageWriter, life: Life): Connection {
  const queue = new Queue();
  const log = (type: number) => (message: string): void => void rpc.sendNotification('window/logMessage', { type, message }).catch(() => undefined); // nobody is there to read it
  const console = { error: log(MessageType.Error), warn: log(MessageType.Warning), info: log(MessageType.Info), log: log(MessageType.Info) };
  const rpc = createMessageConnection(reader, writer, console, { messageStrategy: queue });
  const progresses = new Progresses(rpc);
  const asked = <Handler>(method: string) => (handler: Handler): Disposable => rpc.onRequest(method, handler as never);
  const told = <Handler>(method: string) => (handler: Handler): Disposable => rpc.onNotification(method, handler as never);
  const named = Object.fromEntries([
    ...Object.entries(ASKED).map(([name, method]) => [name, asked(method)]),
    ...Object.entries(TOLD).map(([name, method]) => [name, told(method)]),
  ]) as Handlers;

  let isShutDown = false;
  rpc.onRequest('shutdown', () => {
    isShutDown = true;
    return null;
  });
  const end = (): void => {
    rpc.end();
    life.end(isShutDown ? 0 : 1);
  };
  rpc.onNotification('exit', end);
  rpc.onClose(end);

  return {
    ...named,
    languages: {
      diagnostics: {
        on: asked('textDocument/diagnostic'),
        onWorkspace: handler => rpc.onRequest('workspace/diagnostic', (params: protocol.WorkspaceDiagnosticParams, token) => (
          handler(params, token, progresses.asked(params), partsOf(rpc, params))
        )),
      },
      semanticTokens: {
        on: asked('textDocument/semanticTokens/full'),
        onDelta: asked('textDocument/semanticTokens/full/delta'),
        onRange: asked('textDocument/semanticTokens/range'),
      },
      inlayHint: { on: asked('textDocument/inlayHint'), resolve: asked('inlayHint/resolve') },
    },
    workspace: {
      onWillRenameFiles: asked('workspace/willRenameFiles'),
      onDidChangeWorkspaceFolders: handler => rpc.onNotification('workspace/didChangeWorkspaceFolders', ({ event }: protocol.DidChangeWorkspaceFoldersParams) => handler(event)),
      getConfiguration: async items => {
        const values: unknown = await rpc.sendRequest('workspace/configuration', { items });
        return Array.isArray(values) ? values : [];
      },
    },
    window: { createWorkDoneProgress: () => progresses.begin() },
    console,
    sendDiagnostics: params => rpc.sendNotification('textDocument/publishDiagnostics', params),
    sendRequest: (method, params) => (params === undefined ? rpc.sendRequest(method) : rpc.sendRequest(method, params)),
    sendNotification: (method, params) => rpc.sendNotification(method, params),
    onRequest: (method, handler) => asked(method)(handler),
    onNotification: (method, handler) => told(method)(handler),
    register: (method, registerOptions) => rpc.sendRequest('client/registerCapability', { registrations: [{ id: method, method, registerOptions }] }),
    onInitialize: handler => void rpc.onRequest('initialize', (params: protocol.InitializeParams) => {
      life.begin(params);
      const { result, ready } = handler(params);
      queue.holdUntil(ready);
      return result;
    }),
    listen: () => rpc.listen(),
  };
}

/** Messages in the order in which they came, also while those who answer them are not there yet. */
class Queue {
  #held: (() => void)[] | undefined;

  holdUntil(ready: Promise<void>): void {
    this.#held = [];
    const release = (): void => {
      const held = this.#held ?? [];
      this.#held = undefined;
      for (const handle of held) handle();
    };
    ready.then(release, release);
  }

  handleMessage(message: Message, next: (message: Message) => void | Promise<void>): void | Promise<void> {
    if (this.#held === undefined) return next(message);
    this.#held.push(() => void next(message));
  }
}
