/** Export over the protocol: what can be exported, then its text. */
import { afterEach, expect, it } from 'vitest';
import type { ExportAnswer } from '../../server/requests';
import { Editor } from './editor';

const PAGE = '# Notes\n\n```bake\nformula "Loaf"\n  makes     1 loaf of 860 g\n\ndough\n  500 g     bread flour\n  350 g     water\n  10 g      salt\n```\n';

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

it('a formula is answered as text, of a Markdown page too, wherever the cursor is on it', async () => {
  const e = (editor = await Editor.open());
  await e.openText('notes.md', PAGE);
  const ask = (line: number, more: object = {}): Promise<ExportAnswer | null> => e.request('proofsheet/export', { uri: e.uri('notes.md'), position: { line, character: 0 }, ...more });
  expect(await ask(7)).toEqual({ kind: 'choices', title: 'Loaf', count: 1 });
  expect(await ask(0, { form: 'csv' })).toMatchObject({ kind: 'text', fileName: 'loaf.csv', text: expect.stringContaining('Loaf,Dough,water,350,70.0,') });
  expect(await ask(7, { form: 'ics' })).toMatchObject({ kind: 'cannot' });
  expect(await e.request('proofsheet/export', { uri: e.uri('not-there.bake'), position: { line: 0, character: 0 } })).toBeNull();
  expect(await e.quit()).toBe(0);
});
