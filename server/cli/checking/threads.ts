/** Many files on several cores: each thread has a project of its own, and the answers come in the order of the files. */
import { Readable } from 'node:stream';
import type { MessagePort, Worker } from 'node:worker_threads';
import { Documents } from '../documents';
import type { Source } from '../files';
import { examiner, type Examined, type Task } from './examine';

/** Starts a thread that runs `serveExamination` with the task. */
export type StartThread = (task: Task) => Worker;

interface Asked {
  readonly id: number;
  readonly sources: readonly Source[];
}

interface Answered {
  readonly id: number;
  readonly examined: readonly Examined[];
}

/** Files that are sent at once: enough to make sending cheap, few enough that no thread waits long for the last. */
const AT_ONCE = 16;
/** What a thread is sent ahead of its answers, so that it never waits. */
const AHEAD = 2;

/** The thread's side: answers with what became of each file, in the order asked. */
export function serveExamination(port: MessagePort, task: Task): void {
  const examine = examiner(new Documents(task.roots), task, Readable.from([]));
  let turn: Promise<void> = Promise.resolve();
  port.on('message', ({ id, sources }: Asked) => {
    turn = turn.then(async () => {
      const examined: Examined[] = [];
      for (const source of sources) examined.push(await examine(source));
      port.postMessage({ id, examined } satisfies Answered);
    });
  });
}

/** What became of each file, in their order. At most a few hundred answers are waiting, however many files there are. */
export async function* examinedByThreads(sources: readonly Source[], task: Task, threads: number, start: StartThread): AsyncGenerator<Examined> {
  const all = Array.from({ length: threads }, () => new Thread(start(task)));
  const idle = Array.from({ length: AHEAD }, () => all).flat();
  const waiting: ((thread: Thread) => void)[] = [];
  const look = async (chunk: readonly Source[]): Promise<readonly Examined[]> => {
    const thread = idle.shift() ?? await new Promise<Thread>((resolve) => waiting.push(resolve));
    const examined = await thread.ask(chunk);
    const next = waiting.shift();
    if (next === undefined) idle.push(thread);
    else next(thread);
    return examined;
  };
  try {
    const ahead: Promise<readonly Examined[]>[] = [];
    for (let from = 0; from < sources.length; from += AT_ONCE) {
      const answer = look(sources.slice(from, from + AT_ONCE));
      answer.catch(() => undefined); // told when its turn comes
      ahead.push(answer);
      if (ahead.length > 2 * AHEAD * threads) yield* await ahead.shift() ?? [];
    }
    for (const answer of ahead) yield* await answer;
  } finally {
    await Promise.all(all.map((thread) => thread.end()));
  }
}

/** Our side of a thread. */
class Thread {
  readonly #worker: Worker;
  readonly #asked = new Map<number, { readonly resolve: (examined: readonly Examined[]) => void; readonly reject: (fault: unknown) => void }>();
  #next = 0;
  #fault: unknown;

  constructor(worker: Worker) {
    this.#worker = worker;
    worker.on('message', ({ id, examined }: Answered) => {
      this.#asked.get(id)?.resolve(examined);
      this.#asked.delete(id);
    });
    worker.on('error', (fault) => this.#fail(fault));
    worker.on('exit', () => this.#fail(new Error('a thread ended by itself')));
  }

  ask(sources: readonly Source[]): Promise<readonly Examined[]> {
    return new Promise((resolve, reject) => {
      if (this.#fault !== undefined) throw this.#fault;
      const id = this.#next++;
      this.#asked.set(id, { resolve, reject });
      this.#worker.postMessage({ id, sources } satisfies Asked);
    });
  }

  async end(): Promise<void> {
    await this.#worker.terminate();
  }

  #fail(fault: unknown): void {
    this.#fault ??= fault;
    for (const { reject } of this.#asked.values()) reject(fault);
    this.#asked.clear();
  }
}
