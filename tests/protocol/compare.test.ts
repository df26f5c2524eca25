/** A file against its committed version over the protocol: the editor tells what is committed, the server says which formulas differ and in what. */
import { afterEach, expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver-protocol';
import { Editor } from './editor';

const LOAF = `formula "Loaf"
  makes 2 loaves

dough
  1000 g bread flour
  700 g water
  20 g salt

formula "Flatbread"

dough
  500 g bread flour
  300 g water
  10 g salt

formula "Walnut loaf"
  based on "Loaf"
  add 100 g walnuts
`;

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

const differing = async (e: Editor): Promise<readonly string[]> => (await e.about<CodeLens[]>('codeLens', 'a.bake'))
  .filter(({ command }) => command?.command === 'bakery.compare')
  .map(({ range, command }) => `${range.start.line} ${command?.title ?? ''} ${String(command?.arguments?.[1])}`);

it('a formula that is another bread than what is committed says so, until it is committed or undone', async () => {
  const e = (editor = await Editor.open({ initializationOptions: { compareCommand: 'bakery.compare' } }));
  await e.openText('a.bake', LOAF);
  expect(await differing(e)).toEqual([]);
  await e.notify('proofsheet/committed', { uri: e.uri('a.bake'), text: LOAF });
  await e.refreshed(1);
  expect(await differing(e)).toEqual([]);
  await e.replace('a.bake', '300 g water', '300  g  water  # cold');
  expect(await differing(e)).toEqual([]);
  await e.replace('a.bake', '700 g water', '750 g water');
  expect(await differing(e)).toEqual(['0 Differs from the committed version Loaf', '15 Differs from the committed version Walnut loaf']);
  await e.replace('a.bake', '750 g water', '700 g water');
  expect(await differing(e)).toEqual([]);
  await e.notify('proofsheet/committed', { uri: e.uri('a.bake'), text: LOAF.replace('"Flatbread"', '"Flatbread"\n  makes 4 pieces').replace(/\nformula "Walnut[^]*$/, '') });
  await e.refreshed(1);
  expect(await differing(e)).toEqual(['8 Differs from the committed version Flatbread', '15 Not in the committed version Walnut loaf']);
  await e.notify('proofsheet/committed', { uri: e.uri('a.bake'), text: null });
  await e.refreshed(1);
  expect(await differing(e)).toEqual([]);
  expect(await e.quit()).toBe(0);
});

it('the comparison is a page to read', async () => {
  const e = (editor = await Editor.open());
  await e.openText('a.bake', LOAF);
  const compare = (committed: string) => e.request<{ isSame: boolean; markdown: string } | null>('proofsheet/compare', { uri: e.uri('a.bake'), committed });
  expect(await compare(LOAF)).toEqual({ isSame: true, markdown: '**No change.**\n' });
  const answer = await compare(LOAF.replace('700 g water', '650 g water'));
  expect(answer?.markdown).toContain('- water: 650 g → 700 g (65.0 → 70.0 %)');
  expect(answer?.markdown).not.toContain('<details>');
  expect(await e.quit()).toBe(0);
});

it('an editor without the command is not told', async () => {
  const e = (editor = await Editor.open());
  await e.openText('a.bake', LOAF);
  await e.notify('proofsheet/committed', { uri: e.uri('a.bake'), text: LOAF.replace('700', '600') });
  await e.refreshed(1);
  expect(await differing(e)).toEqual([]);
  expect(await e.quit()).toBe(0);
});
