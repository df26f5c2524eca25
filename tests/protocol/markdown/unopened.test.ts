/** Formulas in Markdown pages that nobody has open: their names are found and renamed like any other. */
import { describe, expect, it } from 'vitest';
import type { Location, SymbolInformation, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { open, quit } from '../one-editor';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';
const FENCE = '```bake\nuse "pantry.bake"\n\nformula "Page loaf"\n\ndough\n  500 g mill flour\n  350 g water\n  10 g salt\n```\n';
const PAGE = `# Notes\n\n${FENCE}`;
const PLAIN = '# Read me\n\nNothing of mill flour that counts.\n';

describe('a Markdown page that is not open', () => {
  it('is found by references, renamed in, and its `use` lines follow a file that moves', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY, 'notes.md': PAGE, 'sub/old.markdown': PAGE.replace('pantry', '../pantry'), 'readme.md': PLAIN } });
    await e.openText('pantry.bake', PANTRY);
    const places = await e.ask<Location[]>('references', 'pantry.bake', '"mill ┆flour"', { context: { includeDeclaration: false } });
    expect(places.map(({ uri, range }) => [uri, range.start])).toEqual([
      [e.uri('notes.md'), { line: 8, character: 8 }], [e.uri('sub/old.markdown'), { line: 8, character: 8 }],
    ]);
    const edit = await e.ask<WorkspaceEdit>('rename', 'pantry.bake', '"mill ┆flour"', { newName: 'stall flour' });
    const edited = edit.documentChanges?.flatMap(change => ('edits' in change ? [change.textDocument.uri] : []));
    expect(edited?.sort()).toEqual([e.uri('notes.md'), e.uri('pantry.bake'), e.uri('sub/old.markdown')]);
    const moved = await e.request<WorkspaceEdit>('workspace/willRenameFiles', { files: [{ oldUri: e.uri('pantry.bake'), newUri: e.uri('larder.bake') }] });
    expect(moved.documentChanges).toHaveLength(2);
    const symbols = await e.request<SymbolInformation[]>('workspace/symbol', { query: 'page' });
    expect(symbols.map(({ name, location }) => [name, location.uri])).toEqual([['Page loaf', e.uri('notes.md')], ['Page loaf', e.uri('sub/old.markdown')]]);
    await quit();
  });

  it('is read again when it changes on disk, comes or goes', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY, 'notes.md': PAGE } });
    await e.openText('pantry.bake', PANTRY);
    const lines = async (): Promise<unknown> => {
      const places = await e.ask<Location[]>('references', 'pantry.bake', '"mill ┆flour"', { context: { includeDeclaration: false } });
      return places.map(({ uri, range }) => [uri, range.start.line]);
    };
    expect(await lines()).toEqual([[e.uri('notes.md'), 8]]);
    e.write('notes.md', `A line above.\n${PAGE}`);
    e.write('new.md', PAGE);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('notes.md'), type: 2 }, { uri: e.uri('new.md'), type: 1 }] });
    expect(await lines()).toEqual([[e.uri('notes.md'), 9], [e.uri('new.md'), 8]]);
    e.remove('notes.md');
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('notes.md'), type: 3 }] });
    expect(await lines()).toEqual([[e.uri('new.md'), 8]]);
    await quit();
  });
});
