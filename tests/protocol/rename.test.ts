import { describe, expect, it } from 'vitest';
import type { SelectionRange, SymbolInformation, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { FULL } from './editor';
import { open, quit } from './one-editor';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';
const LOAF = 'use "pantry.bake"\n\nformula "Loaf"\n\ndough\n  500 g mill flour\n  350 g water\n  10 g salt\n';

describe('rename over the wire', () => {
  it('is prepared, goes to files that were never opened, and lands in the version that was asked about', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY, 'sub/other.bake': LOAF.replace('pantry', '../pantry') } });
    await e.openText('a.bake', LOAF);
    await e.replace('a.bake', '350 g', '340 g');
    expect(await e.ask('prepareRename', 'a.bake', 'mill ┆flour')).toMatchObject({ placeholder: 'mill flour', range: { start: { line: 5, character: 8 } } });
    const edit = await e.ask<WorkspaceEdit>('rename', 'a.bake', 'mill ┆flour', { newName: 'stall flour' });
    const changes = edit.documentChanges?.flatMap(change => ('edits' in change ? [[change.textDocument.uri, change.textDocument.version, change.edits.length]] : []));
    expect(new Set(changes)).toEqual(new Set([[e.uri('a.bake'), 2, 1], [e.uri('pantry.bake'), null, 1], [e.uri('sub/other.bake'), null, 1]]));
    await quit();
  });

  it('is refused with the reason', async () => {
    const e = await open();
    await e.openText('a.bake', LOAF);
    await expect(e.ask('prepareRename', 'a.bake', '350 g wa┆ter')).rejects.toThrow('“water” is of the built-in table; add an `ingredient` block to name your own.');
    await expect(e.ask('rename', 'a.bake', '"Lo┆af"', { newName: ' ' })).rejects.toThrow('A name needs at least one letter.');
    await quit();
  });

  it('has plain changes for an editor that knows no others', async () => {
    const e = await open({ capabilities: { ...FULL, workspace: { ...FULL.workspace, workspaceEdit: {} } } });
    await e.openText('a.bake', LOAF);
    expect(await e.ask('rename', 'a.bake', '"Lo┆af"', { newName: 'Bread' })).toMatchObject({ changes: { [e.uri('a.bake')]: [{ newText: 'Bread' }] } });
    await quit();
  });
});

describe('the workspace over the wire', () => {
  it('has symbols of files that were never opened, selections, and use lines that follow a folder', async () => {
    const e = await open({ files: { 'shelf/pantry.bake': PANTRY, 'loaf.bake': LOAF.replace('pantry', 'shelf/pantry') } });
    const found = await e.request<SymbolInformation[]>('workspace/symbol', { query: 'mill' });
    expect(found.map(({ name, location }) => [name, location.uri])).toEqual([['mill flour', e.uri('shelf/pantry.bake')]]);
    const edit = await e.request<WorkspaceEdit>('workspace/willRenameFiles', { files: [{ oldUri: e.uri('shelf'), newUri: e.uri('larder') }] });
    expect(edit.documentChanges).toMatchObject([{ textDocument: { uri: e.uri('loaf.bake'), version: null }, edits: [{ newText: 'larder/pantry.bake' }] }]);
    expect(await e.request('workspace/willRenameFiles', { files: [{ oldUri: e.uri('x'), newUri: e.uri('y') }] })).toBeNull();
    await e.openText('a.bake', LOAF);
    const [range] = await e.request<SelectionRange[]>('textDocument/selectionRange', { textDocument: { uri: e.uri('a.bake') }, positions: [{ line: 5, character: 10 }] });
    expect(range).toMatchObject({ range: { start: { character: 8 }, end: { character: 12 } }, parent: { range: { end: { character: 18 } } } });
    await quit();
  });
});
