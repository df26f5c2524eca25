/** Progress in the editor, and answers given in parts, as the protocol has them: notifications that name a token. */
import { CancellationTokenSource, ProgressType } from 'vscode-jsonrpc';
import type { MessageConnection } from 'vscode-jsonrpc';
import type {
  PartialResultParams, ProgressToken, ResultProgressReporter, WorkDoneProgressParams, WorkDoneProgressReporter, WorkDoneProgressServerReporter,
} from 'vscode-languageserver';

const ANY = new ProgressType<object>();

export class Progresses {
  readonly #rpc: MessageConnection;
  /** Those that the server began, which the baker may end. */
  readonly #own = new Map<ProgressToken, CancellationTokenSource>();
  #count = 0;

  constructor(rpc: MessageConnection) {
    this.#rpc = rpc;
    rpc.onNotification('window/workDoneProgress/cancel', ({ token }: { readonly token: ProgressToken }) => this.#own.get(token)?.cancel());
  }

  /** The progress that the editor shows of a request; one that nobody sees where it shows none. */
  asked({ workDoneToken }: WorkDoneProgressParams): WorkDoneProgressReporter {
    return workDoneToken === undefined ? { begin: () => undefined, report: () => undefined, done: () => undefined } : this.#over(workDoneToken);
  }

  /** Asks the editor for a progress of the server's own. Only an editor that shows such may be asked. */
  async begin(): Promise<WorkDoneProgressServerReporter> {
    const token = `proofsheet-${String(++this.#count)}`;
    await this.#rpc.sendRequest('window/workDoneProgress/create', { token });
    const source = new CancellationTokenSource();
    this.#own.set(token, source);
    const progress = this.#over(token);
    return {
      ...progress,
      token: source.token,
      done: () => {
        this.#own.delete(token);
        source.dispose();
        progress.done();
      },
    };
  }

  #over(token: ProgressToken): WorkDoneProgressReporter {
    const send = (value: object): void => void this.#rpc.sendProgress(ANY, token, value).catch(() => undefined); // nobody is there to see it
    return {
      begin: (title, percentage, message, cancellable) => send({ kind: 'begin', title, message, cancellable, ...(percentage !== undefined && { percentage: Math.round(percentage) }) }),
      report: (first: number | string, message?: string) => send({
        kind: 'report', ...(typeof first === 'number' ? { percentage: Math.round(first), ...(message !== undefined && { message }) } : { message: first }),
      }),
      done: () => send({ kind: 'end' }),
    };
  }
}

/** Where parts of an answer go, if the editor takes it in parts. */
export function partsOf<Part>(rpc: MessageConnection, { partialResultToken }: PartialResultParams): ResultProgressReporter<Part> | undefined {
  if (partialResultToken === undefined) return undefined;
  return { report: part => void rpc.sendProgress(new ProgressType<Part>(), partialResultToken, part as never).catch(() => undefined) };
}
