/** Colours, hints, shapes of lines and indents, as an editor asks for them. */
import { afterEach, expect, it } from 'vitest';
import type { InlayHint, SemanticTokens, SemanticTokensDelta, SignatureHelp, TextEdit } from 'vscode-languageserver-protocol';
import { Editor, FULL } from './editor';

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

const TEXT = 'dough\n  100 % bread flour\n  70 % water\n  20 g salt\n\nformula "A"\n  makes 2 loaves of 900 g\n\ndough\n  100 % bread flour\n  70 % water\n';

async function open(settings = {}): Promise<Editor> {
  editor = await Editor.open({
    settings,
    capabilities: {
      ...FULL,
      textDocument: {
        ...FULL.textDocument, signatureHelp: {}, inlayHint: {}, onTypeFormatting: {},
        semanticTokens: { requests: { full: { delta: true }, range: true }, tokenTypes: [], tokenModifiers: [], formats: ['relative'] },
      },
    },
  });
  await editor.openText('a.bake', TEXT);
  return editor;
}

async function quit(): Promise<void> {
  const open = editor;
  editor = undefined;
  expect(await open?.quit()).toBe(0);
}

it('colours come whole, then as what has changed, and whole again where nobody knows what was sent', async () => {
  const e = await open();
  const first = await e.about<SemanticTokens>('semanticTokens/full', 'a.bake');
  expect(first.data.length % 5).toBe(0);
  await e.replace('a.bake', '20 g salt', '200 g salt');
  const delta = await e.about<SemanticTokensDelta>('semanticTokens/full/delta', 'a.bake', { previousResultId: first.resultId });
  const data = [...first.data];
  for (const { start, deleteCount, data: fresh = [] } of delta.edits) data.splice(start, deleteCount, ...fresh);
  expect((await e.about<SemanticTokens>('semanticTokens/full', 'a.bake')).data).toEqual(data);
  expect(delta.edits.flatMap(edit => edit.data ?? []).length).toBeLessThan(10);
  expect(await e.about('semanticTokens/full/delta', 'a.bake', { previousResultId: 'never sent' })).toMatchObject({ data });
  const range = { start: { line: 2, character: 0 }, end: { line: 2, character: 5 } };
  expect((await e.about<SemanticTokens>('semanticTokens/range', 'a.bake', { range })).data.slice(0, 3)).toEqual([2, 2, 2]);
  await quit();
});

it('hints follow the setting, and say more when they are looked at', async () => {
  const e = await open({ hints: 'all' });
  const range = { start: { line: 5, character: 0 }, end: { line: 11, character: 0 } };
  const hints = await e.about<InlayHint[]>('inlayHint', 'a.bake', { range });
  expect(hints.map(({ label }) => label)).toEqual(['1059 g', '741 g']);
  expect(await e.request('inlayHint/resolve', hints[1])).toMatchObject({ tooltip: { value: expect.stringContaining('of flour in dough') } });
  e.settings = { hints: 'off' };
  await e.notify('workspace/didChangeConfiguration', { settings: null });
  expect(await e.about('inlayHint', 'a.bake', { range })).toEqual([]);
  await e.refreshed();
  await quit();
});

it('the shape of a line, and the indent of the next', async () => {
  const e = await open();
  const help = await e.ask<SignatureHelp>('signatureHelp', 'a.bake', '20 g ┆salt');
  expect(help.signatures[0]?.label).toContain('amount name');
  expect(help.activeParameter).toBe(1);
  expect(await e.ask('signatureHelp', 'a.bake', 'formula "A"\n┆')).toBeNull();
  await e.replace('a.bake', '20 g salt\n', '20 g salt\n\n');
  const edits = await e.ask<TextEdit[]>('onTypeFormatting', 'a.bake', '20 g salt\n┆', { ch: '\n', options: { tabSize: 2, insertSpaces: true } });
  expect(edits.map(({ newText }) => newText)).toEqual(['  ']);
  await quit();
});
