/** A server that ends by itself is started again, and findings come back: a process that is killed, a worker that is gone. */
import * as vscode from 'vscode';
import { assert, eventually } from './wait';

suite('a server that ends by itself', () => {
  let text: vscode.TextDocument;

  suiteSetup(async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert(folder, 'a workspace folder is open');
    text = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, 'rye.bake'));
    await vscode.window.showTextDocument(text);
  });

  test('is started again, and findings come back', async function () {
    this.timeout(90_000);
    const kill = typeof Worker === 'undefined' ? killProcess : await workerOfNext(() => restart());
    await findingComesAndGoes(text);
    await kill();
    await findingComesAndGoes(text, 80_000);
  });

  test('is started again by the command, too', async function () {
    this.timeout(90_000);
    await restart();
    await findingComesAndGoes(text, 80_000);
  });
});

async function restart(): Promise<void> {
  await vscode.commands.executeCommand('proofsheet.restartServer');
}

/** Puts a slip into the text and waits for its finding, then takes it out and waits until there is none. */
async function findingComesAndGoes(document: vscode.TextDocument, timeout?: number): Promise<void> {
  const count = (): number => vscode.languages.getDiagnostics(document.uri).length;
  await eventually(() => count() === 0 || undefined, timeout);
  await write(document, '17 g ', '17,5 g ');
  await eventually(() => count() > 0 || undefined, timeout);
  await write(document, '17,5 g ', '17 g ');
  await eventually(() => count() === 0 || undefined, timeout);
}

async function write(document: vscode.TextDocument, before: string, after: string): Promise<void> {
  const start = document.getText().indexOf(before);
  assert(start >= 0, `${before} stands in the text`);
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, new vscode.Range(document.positionAt(start), document.positionAt(start + before.length)), after);
  assert(await vscode.workspace.applyEdit(edit), 'the text can be edited');
}

/** What of Node this test needs; the suite is bundled without its types' modules. */
interface Files {
  readdirSync(folder: string): string[];
  readFileSync(file: string, encoding: 'utf8'): string;
}

/** Kills the process of the server: the child of this one that runs it. */
async function killProcess(): Promise<void> {
  const { getBuiltinModule } = process as unknown as { getBuiltinModule: (name: string) => Files };
  const { readdirSync, readFileSync } = getBuiltinModule('node:fs');
  const servers = (): number[] => readdirSync('/proc').map(Number).filter((id) => {
    if (!(id > 0)) return false;
    try {
      const parent = Number(/^PPid:\s*(\d+)/m.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1]);
      return parent === process.pid && readFileSync(`/proc/${id}/cmdline`, 'utf8').includes('server.cjs');
    } catch {
      return false; // it has ended meanwhile
    }
  });
  const [server] = await eventually(() => (servers().length === 1 ? servers() : undefined));
  assert(server !== undefined, 'there is a server');
  process.kill(server, 'SIGKILL');
  await eventually(() => !servers().includes(server) || undefined);
}

/** Ends the worker that `start` brings about, which its owner is not told of. */
async function workerOfNext(start: () => Promise<void>): Promise<() => Promise<void>> {
  const scope = globalThis as unknown as { Worker: typeof Worker };
  const Original = scope.Worker;
  let made: Worker | undefined;
  scope.Worker = function (...words: ConstructorParameters<typeof Worker>) {
    return (made = new Original(...words));
  } as unknown as typeof Worker;
  try {
    await start();
  } finally {
    scope.Worker = Original;
  }
  return () => {
    assert(made, 'a worker was made');
    made.terminate();
    return Promise.resolve();
  };
}
