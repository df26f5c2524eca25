/** A server that is a worker. One that has ended, or never began, says nothing of it: so it is asked, and another is made in its place. */
import { BrowserMessageReader, BrowserMessageWriter } from 'vscode-languageclient/browser';
import type { MessageTransports } from 'vscode-languageclient/browser';
import { ALIVE_REQUEST } from '../server/requests';
import { ASK_EVERY_MS, Pulse } from './pulse';

/** The id of the question whether it is there. The client's own are numbers. */
const ALIVE = 'alive';

export class WorkerServer {
  readonly #script: string;
  #end: () => void = () => undefined;

  constructor(script: string) {
    this.#script = script;
  }

  /** Makes a worker, in place of the one before, if any. */
  readonly open = (): Promise<MessageTransports> => {
    this.end();
    const worker = new Worker(this.#script);
    const reader = new WorkerReader(worker);
    let hasSpoken = false;
    const pulse = new Pulse(() => worker.postMessage({ jsonrpc: '2.0', id: ALIVE, method: ALIVE_REQUEST }), () => {
      this.end();
      reader.close();
    });
    worker.addEventListener('message', () => {
      hasSpoken = true;
      pulse.heard();
    });
    // A script that cannot be read is an error too; one later on is a fault in some request, after which it goes on.
    worker.addEventListener('error', () => {
      if (!hasSpoken) pulse.fail();
    });
    // Somebody waits for what it said and nobody could read.
    worker.addEventListener('messageerror', () => pulse.fail());
    const clock = setInterval(() => pulse.tick(), ASK_EVERY_MS);
    this.#end = () => {
      clearInterval(clock);
      worker.terminate();
    };
    return Promise.resolve({ reader, writer: new BrowserMessageWriter(worker) });
  };

  end(): void {
    this.#end();
    this.#end = () => undefined;
  }
}

/** What the worker says, but for that it is there; and when it has ended. */
class WorkerReader extends BrowserMessageReader {
  constructor(worker: Worker) {
    super(worker);
    const pass = worker.onmessage;
    worker.onmessage = (event: MessageEvent<{ readonly id?: unknown }>) => {
      if (event.data.id !== ALIVE) pass?.call(worker, event);
    };
  }

  close(): void {
    this.fireClose();
  }
}
