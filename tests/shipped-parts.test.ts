/** Programs that ship in parts: each part small enough, all code in one of them, and read when something of it is asked for. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import vm from 'node:vm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import { bundles } from '../.config/bundles.mjs';
import { buildInParts } from '../.config/parts.mjs';
import { RYE } from './features/marked';

const ROOT = path.join(import.meta.dirname, '..');

/**
 * The largest sizes in KB (1024 bytes), some 5 % above what they are. What is read before a file has findings is the first two of a
 * server; before the command line has checked a file, the first two of that.
 */
const MOST_KB: Readonly<Record<string, number>> = {
  'server.cjs': 80, 'server.findings.cjs': 730, 'server.features.cjs': 500,
  'server.browser.js': 75, 'server.browser.findings.js': 730, 'server.browser.features.js': 500,
  'cli.cjs': 10, 'cli.check.cjs': 740, 'cli.verbs.cjs': 450,
};

const folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-parts-'));
/** By file: its size, and the modules whose code is in it. */
const files = new Map<string, { readonly bytes: number; readonly modules: readonly string[] }>();

beforeAll(async () => {
  for (const { entry, outfile, parts, options } of bundles) {
    if (parts === undefined) continue;
    const built = await buildInParts(
      { ...options, absWorkingDir: ROOT, bundle: true, minify: true, legalComments: 'none', charset: 'utf8', metafile: true, logLevel: 'error' },
      { entry, outfile: path.relative(ROOT, path.join(folder, path.basename(outfile))), parts },
    );
    for (const { outputs } of built) {
      for (const [file, { bytes, inputs }] of Object.entries(outputs)) {
        files.set(path.basename(file), { bytes, modules: Object.entries(inputs).filter(([, { bytesInOutput }]) => bytesInOutput > 0).map(([name]) => name) });
      }
    }
  }
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the parts of a program', () => {
  it('are no larger than they need be', () => {
    expect([...files.keys()].sort()).toEqual(Object.keys(MOST_KB).sort());
    for (const [file, { bytes }] of files) expect(bytes / 1024, file).toBeLessThanOrEqual(MOST_KB[file]!);
  });

  it.each(['server.cjs', 'server.browser.js', 'cli.cjs'])('have each module once: %s', (program) => {
    const [name, end] = [program.replace(/\.\w+$/, ''), program.replace(/^.*\./, '.')];
    const own = [...files].filter(([file]) => file.startsWith(name) && file.endsWith(end) && file.includes('.browser.') === program.includes('.browser.'));
    expect(own).toHaveLength(3);
    const seen = own.flatMap(([, { modules }]) => modules);
    expect(seen.filter((module, index) => seen.indexOf(module) !== index)).toEqual([]);
  });

  it('begin with a connection alone: no parser, no table of ingredients, no checks', () => {
    for (const file of ['server.cjs', 'server.browser.js', 'cli.cjs']) {
      expect(files.get(file)?.modules.filter(module => /chevrotain|server\/core|grammar\/par/.test(module)), file).toEqual([]);
    }
  });

  it('hold nothing of Node where there is none', () => {
    for (const [file, { modules }] of files) {
      if (!file.includes('.browser.')) continue;
      expect(readFileSync(path.join(folder, file), 'utf8'), file).not.toMatch(/require\("node:/);
      expect(modules.filter(module => /lib\/node\/|server\/cli\//.test(module)), file).toEqual([]);
    }
  });
});

interface Message { readonly id?: number; readonly method?: string; readonly params?: unknown; readonly result?: unknown }

const INITIALIZE = {
  processId: null, rootUri: null,
  capabilities: { textDocument: { hover: {}, diagnostic: {} } },
};
const textDocument = { uri: 'file:///stall/a.bake', languageId: 'proofsheet', version: 1, text: RYE };

describe('a server in parts', () => {
  it('answers in a process', async () => {
    const server = spawn(process.execPath, [path.join(folder, 'server.cjs'), '--stdio']);
    const ended = new Promise(resolve => server.on('exit', resolve));
    const connection = createMessageConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
    connection.listen();
    // All at once, as no editor does: what comes before the parts are there waits for them.
    const answers = Promise.all([
      connection.sendRequest('initialize', INITIALIZE),
      connection.sendNotification('initialized', {}),
      connection.sendNotification('textDocument/didOpen', { textDocument }),
      connection.sendRequest('textDocument/diagnostic', { textDocument }),
      connection.sendRequest('textDocument/hover', { textDocument, position: { line: 0, character: 3 } }),
    ]);
    const [, , , findings, hover] = await answers;
    expect(findings).toMatchObject({ kind: 'full', items: expect.any(Array) as unknown });
    expect(JSON.stringify(hover)).toContain('hydration');
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    expect(await ended).toBe(0);
    connection.dispose();
  });

  it.each(['where it is made from a blob and is told where its parts lie', 'where it knows its own place'])('answers in a worker, %s', async (where) => {
    const isBlob = where.includes('blob');
    const place = 'https://bakery.example/dist/server.browser.js';
    const sent: Message[] = [];
    const waiting: (() => void)[] = [];
    const read: string[] = [];
    const worker: { onmessage?: (event: { data: unknown }) => void; [name: string]: unknown } = {
      addEventListener: () => undefined,
      postMessage: (message: Message) => {
        sent.push(structuredClone(message));
        // It asks for files, and there are none.
        if (message.method !== undefined && message.id !== undefined) queueMicrotask(() => worker.onmessage?.({ data: { jsonrpc: '2.0', id: message.id, result: null } }));
        for (const wake of waiting.splice(0)) wake();
      },
      importScripts: (url: string) => {
        read.push(url);
        vm.runInContext(readFileSync(path.join(folder, path.basename(new URL(url).pathname)), 'utf8'), context);
      },
      location: { href: isBlob ? 'blob:https://bakery.example/4711' : place },
      setTimeout, clearTimeout, queueMicrotask, structuredClone, MessageChannel, performance, console, crypto, TextDecoder, TextEncoder, URL,
    };
    worker['self'] = worker;
    const context = vm.createContext(worker);
    vm.runInContext(readFileSync(path.join(folder, 'server.browser.js'), 'utf8'), context);
    const answer = async (id: number, method: string, params: object): Promise<unknown> => {
      worker.onmessage?.({ data: { jsonrpc: '2.0', id, method, params } });
      for (;;) {
        const found = sent.find(message => message.id === id && message.method === undefined);
        if (found !== undefined) return found.result;
        await new Promise<void>(wake => waiting.push(wake));
      }
    };
    await answer(1, 'initialize', { ...INITIALIZE, initializationOptions: isBlob ? { codeAt: place } : {} });
    worker.onmessage?.({ data: { jsonrpc: '2.0', method: 'textDocument/didOpen', params: { textDocument } } });
    expect(await answer(2, 'textDocument/diagnostic', { textDocument })).toMatchObject({ kind: 'full' });
    expect(read).toEqual(['https://bakery.example/dist/server.browser.findings.js']);
    expect(JSON.stringify(await answer(3, 'textDocument/hover', { textDocument, position: { line: 0, character: 3 } }))).toContain('hydration');
    expect(read).toEqual(['https://bakery.example/dist/server.browser.findings.js', 'https://bakery.example/dist/server.browser.features.js']);
  });
});
