/** Findings of files that are not open, asked for and sent; folders that come and go, and have their own settings. */
import { describe, expect, it } from 'vitest';
import type { Diagnostic, Hover } from 'vscode-languageserver-protocol';
import { FULL, PUSHED } from './editor';
import type { Editor } from './editor';
import { open, quit } from './one-editor';

const GOOD = 'formula "Loaf"\n  makes 1 loaf of 860 g\n\ndough\n  500 g bread flour\n  350 g water\n  10 g salt\n';
const BAD = GOOD.replace('10 g', '2,5 g');
const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';
const USER = `use "pantry.bake"\n\n${GOOD.replace('bread flour', 'mill flour')}`;

interface Report { readonly kind: string; readonly uri: string; readonly version: number | null; readonly resultId?: string; readonly items?: Diagnostic[] }

/** What an editor that asks for the whole workspace knows after it has asked. */
class Asking {
  readonly #editor: Editor;
  readonly #ids = new Map<string, string>();
  /** Codes by file; one without findings is left out. */
  readonly found: Record<string, readonly unknown[]> = {};

  constructor(e: Editor) {
    this.#editor = e;
  }

  /** Gives how each file was answered for, in the order of the answer. */
  async again(): Promise<Record<string, string>> {
    const previousResultIds = [...this.#ids].map(([uri, value]) => ({ uri, value }));
    const { items } = await this.#editor.request<{ items: Report[] }>('workspace/diagnostic', { identifier: 'proofsheet', previousResultIds });
    return Object.fromEntries(items.map(item => [this.#take(item), item.kind]));
  }

  #take({ kind, uri, resultId, items }: Report): string {
    const name = uri.slice(this.#editor.uri('').length + 1);
    if (kind === 'full') {
      delete this.found[name];
      if (items?.length !== 0) this.found[name] = items?.map(d => d.code) ?? [];
      this.#ids.delete(uri);
    }
    if (resultId !== undefined) this.#ids.set(uri, resultId);
    return name;
  }
}

describe('an editor that asks', () => {
  it('has the findings of all files, and `unchanged` for those that nothing has happened to', async () => {
    const e = await open({ files: { 'a.bake': BAD, 'user.bake': USER, 'pantry.bake': PANTRY, 'shelf/c.bake': BAD, '.git/x.bake': BAD } });
    const asking = new Asking(e);
    expect(await asking.again()).toEqual({ 'a.bake': 'full', 'user.bake': 'full', 'pantry.bake': 'full', 'shelf/c.bake': 'full' });
    expect(asking.found).toEqual({ 'a.bake': ['comma-decimal', 'salt-low'], 'shelf/c.bake': ['comma-decimal', 'salt-low'] });
    expect(new Set(Object.values(await asking.again()))).toEqual(new Set(['unchanged']));
    // An edit changes what uses it, though nobody has that open.
    await e.openText('pantry.bake', PANTRY);
    await e.replace('pantry.bake', 'mill flour', 'windmill flour');
    expect(await asking.again()).toEqual({ 'a.bake': 'unchanged', 'shelf/c.bake': 'unchanged', 'pantry.bake': 'full', 'user.bake': 'full' });
    expect(asking.found['user.bake']).toEqual(['unknown-ingredient']);
    // Closed without saving, the disk counts again.
    await e.closeText('pantry.bake');
    await e.refreshed();
    await asking.again();
    expect(asking.found['user.bake']).toBeUndefined();
    await quit();
  });

  it('hears of files that come, go, and are others after a checkout, one by one or a folder at once', async () => {
    const e = await open({ files: { 'a.bake': BAD, 'shelf/c.bake': BAD, 'shelf/proofsheet.json': '{ "checks": { "salt-low": "off" } }' } });
    const asking = new Asking(e);
    await asking.again();
    expect(asking.found).toEqual({ 'a.bake': ['comma-decimal', 'salt-low'], 'shelf/c.bake': ['comma-decimal'] });
    e.write('a.bake', GOOD);
    e.write('b.bake', BAD);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('a.bake'), type: 2 }, { uri: e.uri('b.bake'), type: 1 }] });
    await e.refreshed();
    await asking.again();
    expect(asking.found).toEqual({ 'b.bake': ['comma-decimal', 'salt-low'], 'shelf/c.bake': ['comma-decimal'] });
    // The editor tells of the folder only.
    e.remove('shelf');
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('shelf'), type: 3 }] });
    await e.refreshed();
    await asking.again();
    expect(asking.found).toEqual({ 'b.bake': ['comma-decimal', 'salt-low'] });
    // What is no formula, or stands where nobody looks, is no news.
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('node_modules/shelf'), type: 3 }, { uri: e.uri('.git/b.lock'), type: 3 }, { uri: e.uri('notes.txt'), type: 1 }] });
    e.write('bench/c.bake', BAD);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('bench'), type: 1 }] });
    await asking.again();
    expect(asking.found).toEqual({ 'b.bake': ['comma-decimal', 'salt-low'], 'bench/c.bake': ['comma-decimal', 'salt-low'] });
    await quit();
  });

  it('takes them in parts where it can, and what it has is not sent again', async () => {
    const files = Object.fromEntries(Array.from({ length: 60 }, (_, i) => [`loaf-${i}.bake`, BAD]));
    const e = await open({ files });
    const params = { identifier: 'proofsheet', previousResultIds: [], partialResultToken: 'parts' };
    expect(await e.request('workspace/diagnostic', params)).toEqual({ items: [] });
    const parts = e.progress as { items: Report[] }[];
    expect(parts.map(({ items }) => items.length)).toEqual([25, 25, 10]);
    const items = parts.flatMap(part => part.items);
    expect(new Set(items.map(({ uri }) => uri)).size).toBe(60);
    const again = items.map(({ uri, resultId }) => ({ uri, value: resultId }));
    const { items: rest } = await e.request<{ items: Report[] }>('workspace/diagnostic', { identifier: 'proofsheet', previousResultIds: again });
    expect(new Set(rest.map(({ kind }) => kind))).toEqual(new Set(['unchanged']));
    await quit();
  });

  it('is answered about the open file before the others are looked through, and may take the question back', async () => {
    const files = Object.fromEntries(Array.from({ length: 60 }, (_, i) => [`loaf-${i}.bake`, BAD]));
    const e = await open({ files });
    await e.openText('a.bake', GOOD);
    const order: string[] = [];
    const all = e.request('workspace/diagnostic', { identifier: 'proofsheet', previousResultIds: [] }).then(() => order.push('all'));
    await e.ask<Hover>('hover', 'a.bake', '500┆ g').then(() => order.push('hover'));
    await all;
    expect(order).toEqual(['hover', 'all']);
    await e.notify('workspace/didChangeWatchedFiles', { changes: Object.keys(files).map(name => ({ uri: e.uri(name), type: 2 })) });
    await e.refreshed();
    expect(await e.cancelled('workspace/diagnostic', { identifier: 'proofsheet', previousResultIds: [] })).toBe(-32800);
    await quit();
  });

  it('sees a progress when there are many, which ends the looking through when it is cancelled', async () => {
    const capabilities = { ...FULL, window: { workDoneProgress: true } };
    const files = Object.fromEntries(Array.from({ length: 60 }, (_, i) => [`loaf-${i}.bake`, BAD]));
    const e = await open({ files, capabilities });
    expect(Object.keys(await new Asking(e).again())).toHaveLength(60);
    expect(e.progress[0]).toMatchObject({ kind: 'begin', title: 'Looking through the formulas', message: '60 files', cancellable: true });
    expect(e.progress.at(-1)).toEqual({ kind: 'end' });
    await quit();

    const other = await open({ files, capabilities });
    other.cancelsProgress = true;
    const asking = new Asking(other);
    expect(Object.keys(await asking.again()).length).toBeLessThan(60);
    expect(other.progress.at(-1)).toEqual({ kind: 'end' });
    // Until settings change, it stays ended: what is known is kept up to date, and no more.
    const known = Object.keys(await asking.again()).length;
    other.cancelsProgress = false;
    other.settings = { measures: 'metric' };
    await other.notify('workspace/didChangeConfiguration', { settings: null });
    await other.refreshed();
    expect(Object.keys(await asking.again())).toHaveLength(60);
    expect(known).toBeLessThan(60);
    await quit();
  });
});

describe('an editor that asks and was answered with nothing', () => {
  it('is told to ask again when settings change', async () => {
    const e = await open({ files: {} });
    const asking = new Asking(e);
    expect(Object.keys(await asking.again())).toEqual([]);
    e.settings = { measures: 'metric' };
    await e.notify('workspace/didChangeConfiguration', { settings: null });
    await e.refreshed();
    await quit();
  });
});

describe('an editor that does not ask', () => {
  it('is sent the findings of files that are not open, and what takes them away', async () => {
    const e = await open({ capabilities: PUSHED, files: { 'a.bake': BAD, 'b.bake': GOOD, 'shelf/c.bake': BAD } });
    const codes = async (name: string) => (await e.published(name)).map(d => d.code);
    expect(await codes('a.bake')).toEqual(['comma-decimal', 'salt-low']);
    expect(await codes('shelf/c.bake')).toEqual(['comma-decimal', 'salt-low']);
    // opened and mended, but not saved
    await e.openText('a.bake', BAD);
    expect(await codes('a.bake')).toEqual(['comma-decimal', 'salt-low']);
    await e.replace('a.bake', '2,5', '10');
    expect(await codes('a.bake')).toEqual([]);
    await e.closeText('a.bake');
    expect(await codes('a.bake')).toEqual(['comma-decimal', 'salt-low']);
    // a branch is checked out
    e.write('a.bake', GOOD);
    e.write('b.bake', BAD);
    e.remove('shelf');
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('a.bake'), type: 2 }, { uri: e.uri('b.bake'), type: 2 }, { uri: e.uri('shelf'), type: 3 }] });
    expect(await codes('shelf/c.bake')).toEqual([]);
    expect(await codes('a.bake')).toEqual([]);
    expect(await codes('b.bake')).toEqual(['comma-decimal', 'salt-low']);
    await quit();
  });

  it('and cannot watch files has them looked for when a text is closed', async () => {
    const { didChangeWatchedFiles: _, ...workspace } = PUSHED.workspace ?? {};
    const e = await open({ capabilities: { ...PUSHED, workspace }, files: { 'a.bake': BAD } });
    expect(await e.published('a.bake')).toHaveLength(2);
    e.write('b.bake', BAD);
    e.remove('a.bake');
    await e.openText('c.bake', GOOD);
    expect(await e.published('c.bake')).toEqual([]);
    await e.closeText('c.bake');
    expect(await e.published('c.bake')).toEqual([]);
    expect(await e.published('a.bake')).toEqual([]);
    expect(await e.published('b.bake')).toHaveLength(2);
    await quit();
  });
});

describe('folders of a workspace', () => {
  const files = { 'ours/a.bake': BAD, 'theirs/a.bake': BAD, 'none/a.bake': BAD };

  it('have their own settings', async () => {
    const e = await open({ files, roots: ['ours', 'theirs'] });
    e.settingsOf.set(e.uri('theirs'), { checks: { 'salt-low': 'off' } });
    await e.notify('workspace/didChangeConfiguration', { settings: null });
    const asking = new Asking(e);
    await asking.again();
    expect(asking.found).toEqual({ 'ours/a.bake': ['comma-decimal', 'salt-low'], 'theirs/a.bake': ['comma-decimal'] });
    await e.openText('none/a.bake', BAD);
    expect((await e.pulled('none/a.bake')).items).toHaveLength(2);
    await quit();
  });

  it('come and go with their findings', async () => {
    const e = await open({ capabilities: PUSHED, files, roots: ['ours'] });
    expect(await e.published('ours/a.bake')).toHaveLength(2);
    const folder = (name: string) => ({ uri: e.uri(name), name });
    await e.notify('workspace/didChangeWorkspaceFolders', { event: { added: [folder('theirs')], removed: [] } });
    expect(await e.published('theirs/a.bake')).toHaveLength(2);
    await e.notify('workspace/didChangeWorkspaceFolders', { event: { added: [], removed: [folder('ours')] } });
    expect(await e.published('ours/a.bake')).toEqual([]);
    await quit();
  });
});

describe('more files than are looked through', () => {
  it('are told of once, and opening one shows its findings', async () => {
    const e = await open({ files: { 'a.bake': BAD, 'b.bake': BAD, 'c.bake': BAD }, settings: { mostBackgroundFiles: 2 } });
    const asking = new Asking(e);
    await asking.again();
    expect(Object.keys(asking.found)).toHaveLength(2);
    expect(e.messages.splice(0)).toEqual([
      'There are more than 2 .bake files here. Findings are shown for the first 2, and for every file that is open. The setting "proofsheet.mostBackgroundFiles" takes more.',
    ]);
    const left = ['a.bake', 'b.bake', 'c.bake'].find(name => asking.found[name] === undefined) ?? '';
    await e.openText(left, BAD);
    await asking.again();
    expect(Object.keys(asking.found)).toHaveLength(3);
    await quit();
  });
});
