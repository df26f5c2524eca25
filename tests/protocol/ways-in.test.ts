/** The other ways to run the server: over IPC, over a socket, and in a browser that has no Node. */
import { build } from 'esbuild';
import { fork, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import type { AddressInfo, Socket } from 'node:net';
import path from 'node:path';
import vm from 'node:vm';
import { describe, expect, it } from 'vitest';
import {
  createMessageConnection, IPCMessageReader, IPCMessageWriter, SocketMessageReader, SocketMessageWriter,
} from 'vscode-languageserver-protocol/node';
import type { Hover, InitializeResult, MessageConnection } from 'vscode-languageserver-protocol/node';
import { RYE } from '../features/marked';
import { FULL, serverBundle } from './editor';

const ROOT = path.join(import.meta.dirname, '..', '..');

async function isAlive(connection: MessageConnection): Promise<void> {
  connection.listen();
  const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', { processId: null, rootUri: null, capabilities: { textDocument: { hover: {} } } });
  expect(capabilities.hoverProvider).toBe(true);
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
}

describe('with Node', () => {
  it('over IPC', async () => {
    const server = fork(await serverBundle(), ['--node-ipc'], { silent: true, execArgv: [] });
    const ended = once(server, 'exit');
    await isAlive(createMessageConnection(new IPCMessageReader(server), new IPCMessageWriter(server)));
    expect((await ended)[0]).toBe(0);
  });

  it('over a socket', async () => {
    const listener = createServer();
    await once(listener.listen(0, '127.0.0.1'), 'listening');
    const server = spawn(process.execPath, [await serverBundle(), `--socket=${(listener.address() as AddressInfo).port}`]);
    const ended = once(server, 'exit');
    const [socket] = (await once(listener, 'connection')) as [Socket];
    await isAlive(createMessageConnection(new SocketMessageReader(socket), new SocketMessageWriter(socket)));
    expect((await ended)[0]).toBe(0);
    listener.close();
  });
});

describe('in a browser', () => {
  it('runs as a worker with nothing of Node, and asks the editor for files', async () => {
    const { outputFiles } = await build({
      absWorkingDir: ROOT, entryPoints: ['server/browser.ts'], bundle: true, platform: 'browser', format: 'iife', target: 'es2022',
      mainFields: ['browser', 'module', 'main'], write: false, logLevel: 'error',
    });
    interface Message { readonly id?: number; readonly method?: string; readonly params?: { readonly uri?: string }; readonly result?: unknown; readonly error?: unknown }
    const sent: Message[] = [];
    const waiting: (() => void)[] = [];
    // A worker has these and, of what Node has, nothing else.
    const worker: { onmessage?: (event: { data: unknown }) => void; [name: string]: unknown } = {
      addEventListener: () => undefined,
      removeEventListener: () => undefined,
      postMessage: (message: Message) => {
        sent.push(structuredClone(message));
        for (const wake of waiting.splice(0)) wake();
      },
      setTimeout, clearTimeout, setInterval, clearInterval, queueMicrotask, structuredClone, MessageChannel, performance, console, crypto, TextDecoder, TextEncoder, URL,
    };
    worker['self'] = worker;
    vm.runInNewContext(outputFiles[0]!.text, worker);
    const tell = (message: object): void => worker.onmessage?.({ data: { jsonrpc: '2.0', ...message } });
    const message = async (is: (m: Message) => boolean): Promise<Message> => {
      for (;;) {
        const found = sent.find(is);
        if (found !== undefined) return found;
        await new Promise<void>(wake => waiting.push(wake));
      }
    };

    const { configuration: _, didChangeConfiguration: __, didChangeWatchedFiles: ___, ...workspace } = FULL.workspace ?? {};
    tell({ id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: { ...FULL, workspace }, workspaceFolders: [{ uri: 'vscode-vfs://host/stall', name: 'stall' }] } });
    expect((await message(m => m.id === 1)).result).toMatchObject({ capabilities: { hoverProvider: true } });
    tell({ method: 'initialized', params: {} });
    const uri = 'vscode-vfs://host/stall/a.bake';
    tell({ method: 'textDocument/didOpen', params: { textDocument: { uri, languageId: 'proofsheet', version: 1, text: `use "pantry.bake"\n\n${RYE.replace('bread flour', 'mill flour')}` } } });
    tell({ id: 2, method: 'textDocument/hover', params: { textDocument: { uri }, position: { line: 20, character: 15 } } });
    const asksFor = (name: string) => message(m => m.method === 'proofsheet/readFile' && (m.params as { uri: string }).uri === `vscode-vfs://host/stall/${name}`);
    tell({ id: (await asksFor('proofsheet.json')).id, result: null });
    const asked = await asksFor('pantry.bake');
    tell({ id: asked.id, result: 'ingredient "mill flour"\n  like bread flour\n  protein 13 %\n' });
    const { result } = await message(m => m.id === 2 && m.method === undefined);
    expect((result as Hover).contents).toMatchObject({ value: expect.stringContaining('| protein | 13 g |') });
    expect(sent.filter(m => m.error !== undefined)).toEqual([]);
  });
});
