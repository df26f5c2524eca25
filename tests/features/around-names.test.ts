/** Symbols of the workspace, widening selections, and `use` lines of files that move. */
import { describe, expect, it } from 'vitest';
import type { SelectionRange } from 'vscode-languageserver';
import { editsForMoved } from '../../server/features/file-rename';
import { selectionRangesAt } from '../../server/features/selection';
import { workspaceSymbolsOf } from '../../server/features/workspace-symbols';
import type { ProjectFile } from '../../server/project/file';
import { resolveUse } from '../../server/project/uris';
import { edited, marked, ROOT, RYE, textIn, uriOf } from './marked';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';

async function filesOf(files: Record<string, string>): Promise<ProjectFile[]> {
  const { project } = await marked('', files);
  return Promise.all(Object.keys(files).map(async name => (await project.prepare(uriOf(name)))!));
}

describe('symbols of the workspace', () => {
  const files = {
    'rye.bake': `${RYE}\nplan "Saturday stall"\n  hands 2\n`, 'pantry.bake': `${PANTRY}\ndish "Crème rye pudding"\n  serves 4\n`, 'new.bake': 'formula\n\npart\n\ningredient ""\n\ngibberish\n',
  };
  const found = async (query: string, most?: number) => workspaceSymbolsOf(await filesOf(files), query, most).map(({ name, containerName }) => `${name} (${containerName})`);

  it('are found by some letters of their names, the nearest first', async () => {
    expect(await found('rye')).toEqual(['Crème rye pudding (pantry.bake)', 'Fig and walnut rye (rye.bake)']);
    expect(await found('fig')).toEqual(['Fig and walnut rye (rye.bake)', 'figs (Fig and walnut rye)']);
    expect(await found('FIGS')).toEqual(['figs (Fig and walnut rye)']);
    expect(await found('creme-RYE')).toEqual(['Crème rye pudding (pantry.bake)']);
    expect(await found('fwr')).toEqual(['Fig and walnut rye (rye.bake)']);
    expect(await found('lev')).toEqual(['levain (Fig and walnut rye)']);
    expect(await found('mlfl')).toEqual(['mill flour (pantry.bake)']);
    expect(await found('zzz')).toEqual([]);
  });

  it('are all there for nothing, formulas first, and never more than asked for', async () => {
    const all = await found('');
    expect(all.slice(0, 4)).toEqual(['Crème rye pudding (pantry.bake)', 'Fig and walnut rye (rye.bake)', 'Saturday stall (rye.bake)', 'mill flour (pantry.bake)']);
    expect(all).toHaveLength(8);
    expect(await found('', 3)).toEqual(all.slice(0, 3));
  });

  it('stand at their heads', async () => {
    const [file] = await filesOf({ 'a.bake': '# é 漢 👩‍🍳\r\n\r\nformula "É 👩‍🍳"\r\n' });
    expect(workspaceSymbolsOf([file!], 'e')[0]?.location).toEqual({ uri: uriOf('a.bake'), range: { start: { line: 2, character: 0 }, end: { line: 2, character: 17 } } });
  });
});

describe('a selection', () => {
  const chain = async (source: string): Promise<string[]> => {
    const { file, offset } = await marked(source);
    const texts: string[] = [];
    for (let at: SelectionRange | undefined = selectionRangesAt(file, [file.lineIndex.positionAt(offset)])[0]; at !== undefined; at = at.parent) texts.push(textIn(file.text, at.range));
    return texts;
  };

  it('grows from a word to a name, the line, the block, the formula and the file', async () => {
    const source = 'use "a.bake"\n\nformula "V"\n\ndough\n  100 g dried fi┆gs, quartered  # soft\n  50 g water\n';
    const dough = 'dough\n  100 g dried figs, quartered  # soft\n  50 g water';
    expect(await chain(source)).toEqual([
      'figs', 'dried figs', '100 g dried figs, quartered', '100 g dried figs, quartered  # soft', dough, `formula "V"\n\n${dough}`, source.replace('┆', ''),
    ]);
  });

  it('takes an amount whole, and a fold within its bulk', async () => {
    expect((await chain('dough\n  1 1/2 t┆sp (4.5 g) salt\n')).slice(0, 3)).toEqual(['tsp', '1 1/2 tsp (4.5 g)', '1 1/2 tsp (4.5 g) salt']);
    expect(await chain('steps\n  bulk 3 h\n    fold at 3┆0 min\n    fold at 1 h\n  bake 40 min\n')).toEqual([
      '30', '30 min', 'at 30 min', 'fold at 30 min', 'bulk 3 h\n    fold at 30 min\n    fold at 1 h',
      'steps\n  bulk 3 h\n    fold at 30 min\n    fold at 1 h\n  bake 40 min', 'steps\n  bulk 3 h\n    fold at 30 min\n    fold at 1 h\n  bake 40 min\n',
    ]);
  });

  it('has an answer for each cursor, wherever it is', async () => {
    for (const source of ['┆', '┆\n', 'f┆', 'dough\n  ┆', 'dough\r\n  100 g é 漢 👩‍🍳┆ x\r\n', '# x┆', '"“┆\n\n']) {
      const texts = await chain(source);
      expect(texts.at(-1)).toBe(source.replace('┆', ''));
      for (const [index, text] of texts.entries()) if (index > 0) expect(text.length).toBeGreaterThan(texts[index - 1]!.length);
    }
    const { file } = await marked(RYE);
    expect(selectionRangesAt(file, [{ line: 0, character: 0 }, { line: 999, character: 9 }])).toHaveLength(2);
  });
});

describe('use lines of files that move', () => {
  /** The texts after the move, by their new names. */
  async function moved(files: Record<string, string>, moves: Record<string, string>) {
    const loaded = await filesOf(files);
    const edit = editsForMoved(loaded, Object.entries(moves).map(([a, b]) => ({ oldUri: uriOf(a), newUri: uriOf(b) })), { roots: [ROOT], documentChanges: true, versionOf: () => 7 });
    const changes = new Map(edit?.documentChanges?.flatMap(change => ('edits' in change ? [[change.textDocument.uri, change.edits]] as const : [])));
    return Object.fromEntries(loaded.map(file => [file.uri.slice(ROOT.length + 1), edited(file.text, (changes.get(file.uri) ?? []) as never)]));
  }

  it('follow a file, and a folder, and what is in it', async () => {
    const files = { 'a.bake': 'use "pantry.bake"\n', 'sub/b.bake': '# é 漢 👩‍🍳\r\nuse "../pantry.bake"\r\nuse "c.bake"\r\n', 'sub/c.bake': '', 'pantry.bake': PANTRY };
    expect(await moved(files, { 'pantry.bake': 'shelf/flours.bake' })).toMatchObject({
      'a.bake': 'use "shelf/flours.bake"\n', 'sub/b.bake': '# é 漢 👩‍🍳\r\nuse "../shelf/flours.bake"\r\nuse "c.bake"\r\n',
    });
    expect(await moved(files, { sub: 'one/two' })).toMatchObject({ 'a.bake': 'use "pantry.bake"\n', 'sub/b.bake': '# é 漢 👩‍🍳\r\nuse "../../pantry.bake"\r\nuse "c.bake"\r\n' });
    expect(await moved(files, { 'sub/b.bake': 'b.bake', 'pantry.bake': 'sub/pantry.bake' })).toMatchObject({
      'a.bake': 'use "sub/pantry.bake"\n', 'sub/b.bake': '# é 漢 👩‍🍳\r\nuse "sub/pantry.bake"\r\nuse "sub/c.bake"\r\n',
    });
  });

  it('keep how they were written where that still leads there', async () => {
    const files = { 'x/a.bake': 'use "./p.bake"\nuse “../x/p.bake”\nuse "p.bake\n', 'x/p.bake': PANTRY };
    expect((await moved(files, { x: 'y' }))['x/a.bake']).toBe('use "./p.bake"\nuse “p.bake”\nuse "p.bake\n');
    expect((await moved(files, { 'x/p.bake': 'x/q r.bake' }))['x/a.bake']).toBe('use "./q r.bake"\nuse “q r.bake”\nuse "q r.bake\n');
  });

  it('stay as they are when the file leaves, or is no other', async () => {
    const files = { 'a.bake': 'use "p.bake"\nuse "../out.bake"\nuse ""\nuse\n', 'p.bake': PANTRY };
    for (const moves of [{ 'p.bake': '../elsewhere/p.bake' }, { 'p.bake': 'p.txt' }, { 'q.bake': 'r.bake' }, { p: 'q' }]) expect(await moved(files, moves as never)).toEqual(files);
  });

  it('lead where they led, whatever moves', async () => {
    const names = ['a.bake', 'x/b.bake', 'x/y/c.bake', 'z/d.bake'];
    const link = (from: string, to: string): string => '../'.repeat(from.split('/').length - 1) + to;
    const files = Object.fromEntries(names.map(from => [from, names.filter(to => to !== from).map(to => `use "${link(from, to)}"\n`).join('')]));
    for (const [old, next] of [['x', 'n'], ['x', 'z/x'], ['x/y', 'y'], ['x/y', 'z/deep/er'], ['a.bake', 'z/a.bake'], ['z/d.bake', 'e.bake']] as const) {
      const place = (name: string): string => (name === old ? next : name.startsWith(`${old}/`) ? next + name.slice(old.length) : name);
      const after = await moved(files, { [old]: next });
      for (const from of names) {
        const targets = [...after[from]!.matchAll(/"(.*)"/g)].map(([, path]) => resolveUse(uriOf(place(from)), path!, [ROOT]));
        expect(targets, `${from} after ${old} -> ${next}`).toEqual(names.filter(to => to !== from).map(to => ({ kind: 'file', uri: uriOf(place(to)) })));
      }
    }
  });

  it('come with the version of the text', async () => {
    const [file] = await filesOf({ 'a.bake': 'use "p.bake"\n', 'p.bake': PANTRY });
    const options = { roots: [ROOT], versionOf: () => 7 };
    const moves = [{ oldUri: uriOf('p.bake'), newUri: uriOf('q.bake') }];
    expect(editsForMoved([file!], moves, { ...options, documentChanges: true })).toMatchObject({ documentChanges: [{ textDocument: { uri: uriOf('a.bake'), version: 7 } }] });
    expect(editsForMoved([file!], moves, { ...options, documentChanges: false })).toMatchObject({ changes: { [uriOf('a.bake')]: [{ newText: 'q.bake' }] } });
  });
});
