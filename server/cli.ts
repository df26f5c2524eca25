/** The command line: wires the process to `cli/run.ts`, and a thread of it to the files that it looks at, nothing else. */
import { isMainThread, parentPort, Worker, workerData, type MessagePort } from 'node:worker_threads';
import type { Task } from './cli/checking/examine';
import type { StartThread } from './cli/checking/threads';
import { faultSentence, run } from './cli/run';
import { terminalOf } from './cli/terminal';

if (isMainThread) main();
else if (parentPort !== null) void examine(parentPort);

async function examine(port: MessagePort): Promise<void> {
  const { serveExamination } = await import('./cli/checking/threads');
  serveExamination(port, workerData as Task);
}

function main(): void {
  const { argv, env, stdin, stdout, stderr } = process;
  const debug = env.PROOFSHEET_DEBUG === '1';

  // A reader that has seen enough (`| head`) closes its end. That is no fault, and there is nobody left to tell. A full disk is one.
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') process.exit();
      if (stream === stdout) stderr.write(`The output could not be written (${error.code ?? error.message}).\n`);
      process.exit(2);
    });
  }
  process.on('uncaughtException', (error) => {
    stderr.write(`${faultSentence(error, debug)}\n`);
    process.exit(2);
  });

  /** This file again, in a thread. */
  const startThread: StartThread = (task) => new Worker(__filename, { workerData: task });
  const terminal = terminalOf(stdout, stderr, env);
  const systemZone = new Intl.DateTimeFormat('en').resolvedOptions().timeZone;
  void run(argv.slice(2), { terminal, stdin, systemZone, nowMs: Date.now(), startThread }, debug).then((status) => {
    // Not `process.exit`: what is still on its way into a pipe must arrive.
    process.exitCode = status;
    stdin.destroy();
  });
}
