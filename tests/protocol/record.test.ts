/** A record begun over the protocol. */
import { afterEach, expect, it } from 'vitest';
import type { RecordAnswer } from '../../server/requests';
import { Editor } from './editor';

const PAGE = '# Notes\n\n```bake\nformula "Loaf"\n  makes     1 loaf of 860 g\n\ndough at 25 C\n  500 g     bread flour\n  350 g     water\n  10 g      salt\n```\n\nTo be sold.\n';

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

it('is one edit at the end of the formula, on a Markdown page inside its fence', async () => {
  const e = (editor = await Editor.open());
  await e.openText('notes.md', PAGE);
  const ask = (name: string, line: number): Promise<RecordAnswer | null> => (
    e.request('proofsheet/record', { uri: e.uri(name), position: { line, character: 0 }, epochMs: Date.UTC(2027, 2, 13, 12), zone: 'Europe/Lisbon' })
  );
  const answer = await ask('notes.md', 7);
  expect(answer).toMatchObject({ kind: 'begun', title: 'Loaf', date: '2027-03-13', line: 11, edit: { range: { start: { line: 9, character: 16 }, end: { line: 9, character: 16 } } } });
  expect(answer?.kind === 'begun' && answer.edit.newText).toMatch(/^\n\nrecord 2027-03-13\n {2}# As planned\.[^]*\n {2}# dough {5}25 C\n/);
  expect(await ask('notes.md', 12)).toBeNull();
  expect(await ask('not-there.bake', 0)).toBeNull();
  expect(await e.quit()).toBe(0);
});
