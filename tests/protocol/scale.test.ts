/** Scaling over the protocol: our own request, and the action for an editor that has the command. */
import { afterEach, expect, it } from 'vitest';
import type { CodeAction } from 'vscode-languageserver-protocol';
import type { ScaleAnswer } from '../../server/requests';
import { Editor, FULL } from './editor';

const LOAF = '# ours\nformula "Loaf"\n  makes     1 loaf of 860 g\n\ndough\n  500 g     bread flour\n  350 g     water\n  10 g      salt\n';

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

it('a formula is scaled by the edits that the server answers with, and back again', async () => {
  const e = (editor = await Editor.open());
  await e.openText('a.bake', LOAF);
  const scaled = async (value: string): Promise<void> => {
    const answer = await e.request<ScaleAnswer>('proofsheet/scale', { uri: e.uri('a.bake'), position: { line: 6, character: 0 }, request: { by: 'factor', value } });
    if (answer.kind !== 'edit') throw new Error(JSON.stringify(answer));
    await e.apply('a.bake', answer.edits.map(({ range, newText }) => ({ range, newText })));
  };
  await scaled('3');
  expect(e.text('a.bake')).toBe(
    LOAF.replace('1 loaf', '3 loaves').replace('500 g     ', '1500 g    ').replace('350 g     ', '1050 g    ').replace('10 g ', '30 g '),
  );
  await scaled('0.33333333');
  expect(e.text('a.bake')).toBe(LOAF);
  expect(await e.quit()).toBe(0);
});

it('what cannot be asked for is answered with a sentence, and outside of a formula with nothing', async () => {
  const e = (editor = await Editor.open());
  await e.openText('a.bake', `ingredient "mill flour"\n  like bread flour\n\n${LOAF}`);
  const ask = async (line: number, request?: unknown): Promise<ScaleAnswer | null> => (
    await e.request('proofsheet/scale', { uri: e.uri('a.bake'), position: { line, character: 0 }, request })
  );
  expect(await ask(8, { by: 'pieces', value: '-3' })).toEqual({ kind: 'cannot', message: 'Write a number above 0, such as 4 or 2.5.' });
  expect(await ask(8)).toMatchObject({ kind: 'sizes', title: 'Loaf' });
  expect(await ask(0)).toBeNull();
  expect(await e.request('proofsheet/scale', { uri: e.uri('not-there.bake'), position: { line: 0, character: 0 } })).toBeNull();
  expect(await e.quit()).toBe(0);
});

it('the action is there for an editor that says which command it has', async () => {
  const e = (editor = await Editor.open({ capabilities: FULL, initializationOptions: { scaleCommand: 'bakery.scale' } }));
  expect(e.capabilities.codeActionProvider).toEqual({ codeActionKinds: ['quickfix', 'source.fixAll.proofsheet', 'refactor.rewrite', 'refactor.extract'] });
  await e.openText('a.bake', LOAF);
  const at = { line: 6, character: 4 };
  const actions = await e.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri: e.uri('a.bake') }, range: { start: at, end: at }, context: { diagnostics: [], only: ['refactor'] },
  });
  expect(actions.filter(({ title }) => title === 'Scale this formula…')).toEqual([{ title: 'Scale this formula…', kind: 'refactor.rewrite', command: { title: 'Scale this formula…', command: 'bakery.scale' } }]);
  expect(await e.quit()).toBe(0);
});
