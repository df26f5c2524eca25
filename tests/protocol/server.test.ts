import { symlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type {
  CodeAction, CodeLens, CompletionItem, DocumentHighlight, DocumentSymbol, FoldingRange, Hover, Location, LocationLink, TextDocumentEdit, TextEdit,
} from 'vscode-languageserver-protocol';
import { RYE } from '../features/marked';
import { FULL, PUSHED } from './editor';
import { open, quit } from './one-editor';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';
const LOAF = 'use "pantry.bake"\n\nformula "Loaf"\n  makes 1 loaf of 860 g\n\ndough\n  500 g mill flour\n  350 g water\n  10 g salt\n';
const codes = (diagnostics: readonly { readonly code?: unknown }[] | undefined) => diagnostics?.map(d => d.code);

describe('life of a server', () => {
  it('offers what this editor can take, and ends when it is told to', async () => {
    const e = await open();
    expect(e.capabilities).toEqual({
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: 2 },
      diagnosticProvider: { identifier: 'proofsheet', interFileDependencies: true, workspaceDiagnostics: true, workDoneProgress: true },
      hoverProvider: true, definitionProvider: true, referencesProvider: true, documentHighlightProvider: true, documentSymbolProvider: true,
      foldingRangeProvider: true, documentFormattingProvider: true, documentRangeFormattingProvider: true,
      completionProvider: { resolveProvider: true, triggerCharacters: ['"', ' ', ','] },
      documentLinkProvider: {}, codeLensProvider: {},
      codeActionProvider: { codeActionKinds: ['quickfix', 'source.fixAll.proofsheet', 'refactor.rewrite', 'refactor.extract'] },
      renameProvider: { prepareProvider: true }, selectionRangeProvider: true, workspaceSymbolProvider: true,
      workspace: {
        workspaceFolders: { supported: true, changeNotifications: true },
        fileOperations: { willRename: { filters: [{ pattern: { glob: '**/*.bake', matches: 'file', options: { ignoreCase: true } } }, { pattern: { glob: '**', matches: 'folder' } }] } },
      },
    });
    await e.until(() => e.registered().length >= 2, 'registrations');
    expect([...e.registered()].sort()).toEqual(['workspace/didChangeConfiguration', 'workspace/didChangeWatchedFiles']);
    await quit();
  });

  it('offers, asks and registers nothing to an editor that can take nothing', async () => {
    const e = await open({ capabilities: {} });
    expect(e.capabilities).toEqual({ textDocumentSync: { openClose: true, change: 2 } });
    await e.openText('a.bake', LOAF);
    expect(codes(await e.published('a.bake'))).toContain('use-not-found');
    expect(e.registered()).toEqual([]);
    await quit();
  });

  it('ends with 1 when it is left without a goodbye', async () => {
    const left = await open();
    const { status } = await left.abandon();
    expect(status).toBe(1);
  });
});

describe('findings', () => {
  it('are sent to an editor that does not ask, for each version once it is still', async () => {
    const e = await open({ capabilities: PUSHED, files: { 'pantry.bake': PANTRY } });
    await e.openText('a.bake', LOAF);
    expect(await e.published('a.bake')).toEqual([]);
    await e.replace('a.bake', '10 g salt', '2,5 g salt');
    const found = await e.published('a.bake');
    expect(codes(found)).toContain('comma-decimal');
    expect(found.find(d => d.code === 'comma-decimal')).toMatchObject({
      source: 'Proofsheet', range: { start: { line: 8, character: 2 }, end: { line: 8, character: 5 } }, codeDescription: { href: expect.stringContaining('#comma-decimal') },
    });
    await e.replace('a.bake', '2,5 g salt', '10 g salt');
    expect(await e.published('a.bake')).toEqual([]);
    await e.closeText('a.bake');
    expect(await e.published('a.bake')).toEqual([]);
    await quit();
  });

  it('are given to an editor that asks, and `unchanged` when they are', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY } });
    await e.openText('a.bake', LOAF.replace('10 g salt', '2,5 g salt'));
    const first = await e.pulled('a.bake');
    expect(codes(first.items)).toContain('comma-decimal');
    expect(await e.pulled('a.bake', first.resultId)).toEqual({ kind: 'unchanged', resultId: first.resultId });
    await e.replace('a.bake', '2,5', '10');
    expect(await e.pulled('a.bake', first.resultId)).toMatchObject({ kind: 'full', items: [] });
    await e.closeText('a.bake');
    await quit();
  });

  it('follow the files that a file uses: edited, saved by others, renamed, deleted', async () => {
    const e = await open({ capabilities: PUSHED });
    await e.openText('a.bake', LOAF);
    expect(codes(await e.published('a.bake'))).toEqual(expect.arrayContaining(['use-not-found', 'unknown-ingredient']));
    // made on disk
    e.write('pantry.bake', PANTRY);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('pantry.bake'), type: 1 }] });
    expect(await e.published('a.bake')).toEqual([]);
    // edited in the editor, unsaved
    await e.openText('pantry.bake', PANTRY);
    expect(await e.published('pantry.bake')).toEqual([]);
    expect(await e.published('a.bake')).toEqual([]);
    await e.replace('pantry.bake', 'mill flour', 'windmill flour');
    expect(await e.published('pantry.bake')).toEqual([]);
    expect(codes(await e.published('a.bake'))).toEqual(['unknown-ingredient']);
    // closed without saving: the disk counts again
    await e.closeText('pantry.bake');
    expect(await e.published('pantry.bake')).toEqual([]);
    expect(await e.published('a.bake')).toEqual([]);
    // renamed on disk
    e.remove('pantry.bake');
    e.write('shelf.bake', PANTRY);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('pantry.bake'), type: 3 }, { uri: e.uri('shelf.bake'), type: 1 }] });
    expect(codes(await e.published('a.bake'))).toContain('use-not-found');
    await e.replace('a.bake', 'pantry.bake', 'shelf.bake');
    expect(await e.published('a.bake')).toEqual([]);
    await e.closeText('a.bake');
    await e.published('a.bake');
    await quit();
  });

  it('are asked for again when a used file changes on disk, or a setting does', async () => {
    const e = await open();
    await e.openText('a.bake', LOAF);
    expect(codes((await e.pulled('a.bake')).items)).toContain('use-not-found');
    e.write('pantry.bake', PANTRY);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('pantry.bake'), type: 1 }] });
    await e.refreshed();
    expect((await e.pulled('a.bake')).items).toEqual([]);
    // What the editor saves itself is no news, and neither is what nobody asked for.
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('a.bake'), type: 2 }, { uri: e.uri('other.bake'), type: 1 }] });
    e.settings = { measures: 'metric', limits: { 'salt-high': { mostPct: 1 } } };
    await e.notify('workspace/didChangeConfiguration', { settings: null });
    await e.refreshed();
    expect(codes((await e.pulled('a.bake')).items)).toEqual(['salt-high']);
    await quit();
  });

  it('are not made for old versions of a file', async () => {
    const e = await open({ capabilities: PUSHED });
    for (const uri of ['git:/stall/a.bake?%7B%22ref%22%3A%22HEAD%22%7D', 'gitlens://1f2e/a.bake']) {
      await e.openText(uri, RYE.replace('600 g', '2,5 g'));
      expect((await e.ask<Hover>('hover', uri, 'Fig ┆and')).contents).toMatchObject({ value: expect.stringContaining('hydration') });
      await e.closeText(uri);
    }
    await quit();
  });

  it('are made for a page that has no file yet, and go with it', async () => {
    const e = await open({ capabilities: PUSHED });
    await e.openText('untitled:Untitled-1', RYE.replace('600 g', '2,5 g'));
    expect(codes(await e.published('untitled:Untitled-1'))).toContain('comma-decimal');
    await e.closeText('untitled:Untitled-1');
    expect(await e.published('untitled:Untitled-1')).toEqual([]);
    await quit();
  });

  it('stand where they should after é, 漢 and 👩‍🍳, with LF and with CRLF', async () => {
    for (const end of ['\n', '\r\n']) {
      const e = await open();
      await e.openText('a.bake', ['# é 漢 👩‍🍳', 'dough', '  500 g bread flour, é 漢 👩‍🍳', '  3 g 塩, 👩‍🍳   # 👩‍🍳', '  2,5 g salt', ''].join(end));
      const at = async () => (await e.pulled('a.bake')).items?.filter(d => d.code === 'comma-decimal').map(d => d.range.start);
      expect(await at()).toEqual([{ line: 4, character: 2 }]);
      await e.replace('a.bake', '漢 👩‍🍳', '👩‍🍳 é');
      await e.replace('a.bake', `dough${end}`, `dough at 25 C${end}${end}`);
      await e.replace('a.bake', '👩‍🍳   #', '👩‍🍳 #');
      await e.change('a.bake', [
        { range: { start: { line: 5, character: 2 }, end: { line: 5, character: 2 } }, text: '1' },
        { range: { start: { line: 5, character: 5 }, end: { line: 5, character: 6 } }, text: '0' },
      ]);
      expect(e.text('a.bake')).toContain('  12,0 g salt');
      expect(await at()).toEqual([{ line: 5, character: 2 }]);
      expect((await e.ask<Hover>('hover', 'a.bake', '塩┆')).range).toEqual({ start: { line: 4, character: 6 }, end: { line: 4, character: 7 } });
      await quit();
    }
  });

  it('give way to an edit: work that has become stale is not finished', async () => {
    const e = await open({ capabilities: PUSHED });
    await e.openText('a.bake', RYE);
    const many = Array.from({ length: 20 }, (_, i) => i);
    for (const i of many) await e.replace('a.bake', `${i === 0 ? 600 : 599 + i} g`, `${600 + i} g`);
    expect(await e.published('a.bake')).toEqual([]);
    await quit();
  });

  it('end early when they are no longer wanted', async () => {
    const e = await open();
    const text = Array.from({ length: 300 }, (_, i) => RYE.replaceAll('Fig and walnut rye', `Loaf ${i}`).replace('600 g', `${500 + i} g`)).join('\n');
    await e.openText('a.bake', text);
    // ServerCancelled or RequestCancelled: either way the editor gets no findings that it did not want.
    expect([-32800, -32802]).toContain(await e.cancelled('textDocument/diagnostic', { textDocument: { uri: e.uri('a.bake') } }));
    expect((await e.pulled('a.bake')).kind).toBe('full');
    await quit();
  });
});

describe('features over the protocol', () => {
  it('hover, outline, folds, totals', async () => {
    const e = await open();
    await e.openText('a.bake', RYE);
    expect(await e.ask('hover', 'a.bake', '60┆0 g')).toMatchObject({ contents: { kind: 'markdown', value: expect.stringContaining('63.4 %') } });
    expect(await e.ask('hover', 'a.bake', '┆\n')).toBeNull();
    expect((await e.about<DocumentSymbol[]>('documentSymbol', 'a.bake')).map(s => s.name)).toEqual(['Fig and walnut rye']);
    expect((await e.about<FoldingRange[]>('foldingRange', 'a.bake')).length).toBe(6);
    const [lens] = await e.about<CodeLens[]>('codeLens', 'a.bake');
    expect(lens?.command).toMatchObject({ title: expect.stringContaining('70.4 % hydration'), command: '' });
    await quit();
  });

  it('totals open the preview in an editor that has one', async () => {
    const e = await open({ initializationOptions: { previewCommand: 'proofsheet.showPreview' } });
    await e.openText('a.bake', RYE);
    const [lens] = await e.about<CodeLens[]>('codeLens', 'a.bake');
    expect(lens?.command).toMatchObject({ command: 'proofsheet.showPreview', arguments: [e.uri('a.bake'), 'Fig and walnut rye'] });
    const asked = { uri: e.uri('a.bake'), position: { line: 20, character: 0 }, zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) } };
    expect(await e.request('proofsheet/preview', asked)).toMatchObject({ title: 'Fig and walnut rye', line: 0, html: expect.stringContaining('walnuts') });
    expect(await e.request('proofsheet/preview', { ...asked, uri: e.uri('not-there.bake') })).toBeNull();
    await quit();
  });

  it('completion, of files that are not open too', async () => {
    const e = await open({ files: { 'shelf/pantry.bake': PANTRY, '.git/x.bake': '', 'node_modules/y.bake': '' } });
    await e.openText('a.bake', 'use ""\n\ndough\n  500 g \n');
    const labels = async (at: string) => (await e.ask<CompletionItem[]>('completion', 'a.bake', at)).map(i => i.label);
    expect(await labels('use "┆"')).toEqual(['shelf/pantry.bake']);
    await e.replace('a.bake', '""', '"shelf/pantry.bake"');
    expect(await labels('500 g ┆')).toContain('mill flour');
    const items = await e.ask<CompletionItem[]>('completion', 'a.bake', '500 g ┆');
    expect(await e.request('completionItem/resolve', items.find(i => i.label === 'mill flour'))).toMatchObject({ documentation: { value: expect.stringContaining('| protein |') } });
    await quit();
  });

  it('definition, references and highlights across `use`, and links', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY, 'knots.bake': 'use "pantry.bake"\n\ndough\n  300 g mill flour\n' } });
    await e.openText('a.bake', LOAF);
    const [link] = await e.ask<LocationLink[]>('definition', 'a.bake', 'mill ┆flour');
    expect(link).toMatchObject({ targetUri: e.uri('pantry.bake'), targetSelectionRange: { start: { line: 0, character: 12 }, end: { line: 0, character: 22 } } });
    const found = await e.ask<Location[]>('references', 'a.bake', 'mill ┆flour', { context: { includeDeclaration: true } });
    expect(found.map(f => f.uri).sort()).toEqual([e.uri('a.bake'), e.uri('knots.bake'), e.uri('pantry.bake')]);
    expect(await e.ask<DocumentHighlight[]>('documentHighlight', 'a.bake', 'mill ┆flour')).toHaveLength(1);
    expect(await e.about('documentLink', 'a.bake')).toMatchObject([{ target: e.uri('pantry.bake') }]);
    await quit();
  });

  it('definition as plain places for an editor without links', async () => {
    const e = await open({ capabilities: { ...FULL, textDocument: { ...FULL.textDocument, definition: {} } }, files: { 'pantry.bake': PANTRY } });
    await e.openText('a.bake', LOAF);
    expect(await e.ask('definition', 'a.bake', 'mill ┆flour')).toMatchObject([{ uri: e.uri('pantry.bake') }]);
    await quit();
  });

  it('formatting, of all or of a range', async () => {
    const e = await open();
    const untidy = 'levain\n 60 g rye flour\n\ndough\n 700 g bread flour\n';
    await e.openText('a.bake', untidy);
    const options = { tabSize: 2, insertSpaces: true };
    const range = { start: { line: 4, character: 0 }, end: { line: 4, character: 5 } };
    await e.apply('a.bake', await e.about<TextEdit[]>('rangeFormatting', 'a.bake', { range, options }));
    expect(e.text('a.bake')).toBe('levain\n 60 g rye flour\n\ndough\n  700 g     bread flour\n');
    await e.apply('a.bake', await e.about<TextEdit[]>('formatting', 'a.bake', { options }));
    expect(e.text('a.bake')).toBe('levain\n  60 g      rye flour\n\ndough\n  700 g     bread flour\n');
    expect(await e.about('formatting', 'a.bake', { options })).toEqual([]);
    await quit();
  });

  it('another way to write comes with its edit once it is chosen, for the text as it is', async () => {
    const codeAction = { ...FULL.textDocument?.codeAction, dataSupport: true, resolveSupport: { properties: ['edit'] } };
    const e = await open({ capabilities: { ...FULL, textDocument: { ...FULL.textDocument, codeAction } } });
    expect(e.capabilities.codeActionProvider).toMatchObject({ resolveProvider: true });
    const loaf = 'formula "Loaf"\n\ndough\n  500 g     bread flour\n  350 g     water\n  10 g      salt\n';
    await e.openText('a.bake', loaf);
    const at = { line: 5, character: 14 };
    const actions = await e.about<CodeAction[]>('codeAction', 'a.bake', { range: { start: at, end: at }, context: { diagnostics: [], only: ['refactor'] } });
    const salt = actions.find(({ title }) => title === 'Write 2 % salt')!;
    expect(salt).not.toHaveProperty('edit');
    const { edit } = await e.request<CodeAction>('codeAction/resolve', salt);
    const [change] = edit!.documentChanges as TextDocumentEdit[];
    await e.apply('a.bake', change!.edits as TextEdit[]);
    expect(e.text('a.bake')).toBe(loaf.replace('10 g      salt', '2 %       salt'));
    await expect(e.request('codeAction/resolve', salt)).rejects.toThrow('The text has changed.');
    await quit();
  });

  it('a fix removes its finding', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY } });
    await e.openText('a.bake', LOAF.replace('10 g', '10,5 g'));
    const { items = [] } = await e.pulled('a.bake');
    const finding = items.find(d => d.code === 'comma-decimal')!;
    const [fix] = await e.about<CodeAction[]>('codeAction', 'a.bake', { range: finding.range, context: { diagnostics: [finding], only: ['quickfix'] } });
    expect(fix).toMatchObject({ isPreferred: true, diagnostics: [{ code: 'comma-decimal' }] });
    const [change] = fix!.edit!.documentChanges as TextDocumentEdit[];
    expect(change?.textDocument).toEqual({ uri: e.uri('a.bake'), version: 1 });
    await e.apply('a.bake', change!.edits as TextEdit[]);
    expect(codes((await e.pulled('a.bake')).items)).not.toContain('comma-decimal');
    await quit();
  });

  it('a link to something that is no formula is not read', async () => {
    const e = await open({ files: { 'secret.txt': PANTRY } });
    symlinkSync(path.join(e.folder, 'secret.txt'), path.join(e.folder, 'pantry.bake'), 'file');
    await e.openText('a.bake', LOAF);
    expect(codes((await e.pulled('a.bake')).items)).toContain('use-not-found');
    await quit();
  });

  it('no answer for a file that is not there', async () => {
    const e = await open();
    const textDocument = { uri: e.uri('not-there.bake') };
    for (const method of ['hover', 'completion', 'definition', 'documentHighlight']) {
      expect(await e.request(`textDocument/${method}`, { textDocument, position: { line: 0, character: 0 } })).toBeNull();
    }
    expect(await e.request('textDocument/diagnostic', { textDocument })).toEqual({ kind: 'full', items: [] });
    await quit();
  });
});

describe('typing letter by letter', () => {
  it('never brings a fault, and ends in the findings of the finished text', async () => {
    const e = await open({ capabilities: PUSHED, files: { 'pantry.bake': PANTRY } });
    await e.openText('a.bake', '');
    expect(await e.published('a.bake')).toEqual([]);
    for (const line of LOAF.replace('10 g salt', '2,5 g salt # é 漢 👩‍🍳').split(/(?<=\n)/)) {
      await e.type('a.bake', line.trimEnd());
      const end = { line: e.text('a.bake').split('\n').length - 1, character: (e.text('a.bake').split('\n').at(-1) ?? '').length };
      await e.request('textDocument/completion', { textDocument: { uri: e.uri('a.bake') }, position: end });
      await e.request('textDocument/hover', { textDocument: { uri: e.uri('a.bake') }, position: end });
      await e.type('a.bake', '\n');
    }
    expect(codes(await e.published('a.bake'))).toEqual(expect.arrayContaining(['comma-decimal']));
    await quit();
  });
});
