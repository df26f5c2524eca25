/** A connection where there is Node, by the words that an editor starts the server with; and when the server ends. */
import { createServerPipeTransport, createServerSocketTransport, IPCMessageReader, IPCMessageWriter, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import type { MessageReader, MessageWriter } from 'vscode-jsonrpc/node';
import { wholeMessages } from '../whole-messages';
import { connectionOver } from './connection';
import type { Connection } from './connection';

/** How often it is looked whether the editor is still there, ms. */
const LOOK_EVERY_MS = 3000;

/** @throws where the words do not say how the editor can be talked to. */
export function connectionOf(args: readonly string[]): Connection {
  const [reader, writer] = transportOf(args);
  const editor = Number(valueOf(args, '--clientProcessId'));
  let watch: NodeJS.Timeout | undefined;
  return connectionOver(reader, writer, {
    begin({ processId }) {
      const id = editor > 0 ? editor : processId;
      if (id !== null) watch ??= setInterval(() => isThere(id) || process.exit(1), LOOK_EVERY_MS);
    },
    end: status => process.exit(status),
  });
}

/** Whether the process of that number runs. */
function isThere(processId: number): boolean {
  try {
    return process.kill(processId, 0); // 0 is no signal, only a look
  } catch {
    return false;
  }
}

function transportOf(args: readonly string[]): [MessageReader, MessageWriter] {
  if (args.includes('--stdio')) return [new StreamMessageReader(process.stdin), new StreamMessageWriter(wholeMessages(process.stdout))];
  if (args.includes('--node-ipc')) return [new IPCMessageReader(process), new IPCMessageWriter(process)];
  const port = Number(valueOf(args, '--socket'));
  if (port > 0) return createServerSocketTransport(port);
  const pipe = valueOf(args, '--pipe');
  if (pipe !== undefined) return createServerPipeTransport(pipe);
  throw new Error('Say how the editor talks to the server: --stdio, --node-ipc, --socket=PORT or --pipe=NAME.');
}

/** The value of `--name=value` or `--name value`. */
function valueOf(args: readonly string[], name: string): string | undefined {
  const at = args.findIndex(arg => arg === name || arg.startsWith(`${name}=`));
  const word = args[at];
  if (word === undefined) return undefined;
  return word === name ? args[at + 1] : word.slice(name.length + 1);
}
