/** The preview over the protocol: at another size, and its time as a plan. */
import { afterEach, expect, it } from 'vitest';
import type { PlanDraftAnswer, PreviewAnswer, SizeOf } from '../../server/requests';
import { Editor } from './editor';

const LOAF = 'formula "Loaf"\n  makes     1 loaf of 860 g\n\ndough\n  500 g     bread flour\n  350 g     water\n  10 g      salt\n\nsteps\n  mix       8 min\n  bake      40 min at 230 C\n';
const ANCHOR = { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8), local: '2026-03-14T08:00' } as const;

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

it('a size is shown, and comes back as the one to go on with; the text stays as it is', async () => {
  const e = (editor = await Editor.open());
  await e.openText('a.bake', LOAF);
  const ask = (more: { readonly sizes?: readonly SizeOf[]; readonly wanted?: SizeOf }): Promise<PreviewAnswer> => (
    e.request('proofsheet/preview', { uri: e.uri('a.bake'), position: { line: 0, character: 0 }, zone: 'Europe/Lisbon', anchor: ANCHOR, ...more })
  );
  const six = { by: 'pieces', value: '6' };
  const shown = await ask({ wanted: { formula: 'Loaf', size: six } });
  expect(shown).toMatchObject({ formulaName: 'Loaf', size: six, isRefused: false });
  expect(shown.html).toContain('<b>Shown at 6 loaves, the file says 1.</b>');
  const refused = await ask({ sizes: [{ formula: 'Loaf', size: six }], wanted: { formula: 'Loaf', size: { by: 'pieces', value: 'six' } } });
  expect(refused).toMatchObject({ size: six, isRefused: true });
  expect((await ask({})).size).toBeUndefined();
  expect(e.text('a.bake')).toBe(LOAF);
  expect(await e.quit()).toBe(0);
});

it('its time is written as a plan', async () => {
  const e = (editor = await Editor.open());
  await e.openText('a.bake', LOAF);
  const ask = (formula: string): Promise<PlanDraftAnswer | null> => (
    e.request('proofsheet/planDraft', { uri: e.uri('a.bake'), formula, zone: 'Europe/Lisbon', anchor: ANCHOR, size: { by: 'pieces', value: '6' } })
  );
  expect(await ask('Bun')).toBeNull();
  await e.apply('a.bake', [...(await ask('Loaf'))!.edits]);
  expect(e.text('a.bake')).toBe(`${LOAF.trimEnd()}\n\nplan "Sat 14 Mar"\n  ready     2026-03-14 08:00 Europe/Lisbon\n  bake      6 loaves of "Loaf"\n`);
  expect(await e.quit()).toBe(0);
});
