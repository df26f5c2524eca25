// A bare client over stdio: enough of the protocol to open a document, type into it and wait for findings.
import { spawn } from 'node:child_process';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';

export class Client {
  /** @param folder URI of the one workspace folder, if any; `args` are for node, `env` is added to ours */
  static async start(file, folder = null, { args = [], env = {} } = {}) {
    const started = performance.now();
    const child = spawn(process.execPath, [...args, file, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'], env: { ...process.env, ...env } });
    const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
    const client = new Client(child, connection);
    connection.onNotification('textDocument/publishDiagnostics', (message) => client.published(message));
    connection.onRequest('workspace/configuration', ({ items }) => items.map(() => null));
    connection.onRequest('client/registerCapability', () => null);
    connection.onNotification(() => {});
    connection.listen();
    // Push, not pull: the client says that it cannot pull, so each edit is answered by one notification.
    await connection.sendRequest('initialize', { processId: process.pid, rootUri: folder, workspaceFolders: folder && [{ uri: folder, name: 'bench' }], capabilities: { textDocument: { publishDiagnostics: { versionSupport: true } } } });
    client.initializeMs = performance.now() - started;
    await connection.sendNotification('initialized', {});
    return client;
  }

  constructor(child, connection) {
    this.child = child;
    this.connection = connection;
    this.waiting = [];
    /** URIs that findings were sent of. */
    this.told = new Set();
    this.version = 0;
  }

  published(message) {
    this.told.add(message.uri);
    const i = this.waiting.findIndex(({ uri, version }) => message.uri === uri && (message.version ?? version) >= version);
    if (i >= 0) this.waiting.splice(i, 1)[0].resolve(message);
  }

  /** Resolves with the findings of that version, and the milliseconds it took from just before sending. */
  async timed(uri, version, send) {
    const answered = new Promise((resolve) => this.waiting.push({ uri, version, resolve }));
    const started = performance.now();
    await send();
    const message = await answered;
    return { ms: performance.now() - started, findings: message.diagnostics };
  }

  open(uri, text) {
    this.version = 1;
    return this.timed(uri, 1, () =>
      this.connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'proofsheet', version: 1, text } }));
  }

  /** Replaces `length` characters at a position. */
  change(uri, line, character, length, text) {
    const version = ++this.version;
    const range = { start: { line, character }, end: { line, character: character + length } };
    return this.timed(uri, version, () =>
      this.connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ range, text }] }));
  }

  request(method, params) {
    return this.connection.sendRequest(method, params);
  }

  /** Processor time of the server so far, all its threads, ms (Linux only). */
  async processorMs() {
    const { readFile } = await import('node:fs/promises');
    const stat = await readFile(`/proc/${this.child.pid}/stat`, 'utf8').catch(() => '');
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return (Number(fields[11]) + Number(fields[12])) * 10;
  }

  /** Peak resident memory of the server, MB (Linux only). */
  async peakMegabytes() {
    const { readFile } = await import('node:fs/promises');
    const status = await readFile(`/proc/${this.child.pid}/status`, 'utf8').catch(() => '');
    return Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? NaN) / 1024;
  }

  async stop() {
    const exited = new Promise((resolve) => this.child.once('exit', resolve));
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    await exited;
    this.connection.dispose();
  }
}
