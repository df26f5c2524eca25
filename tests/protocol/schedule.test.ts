/** Ready times over the protocol: chosen in the editor, typed, and the bake day of a plan, which takes a while. */
import { afterEach, expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver-protocol';
import type { ScheduleAnswer } from '../../server/requests';
import { Editor, FULL } from './editor';

const LOAF = `formula "Loaf"
  makes 2 loaves of 800 g

dough
  100 % bread flour
  70 % water
  2 % salt
  0.3 % instant yeast

steps
  mix 10 min, by hand
  bulk 3 h
  shape 10 min
  proof 60 min to 90 min
  preheat 30 min at 230 C
  bake 40 min at 230 C
  cool 1 h
`;
const PLAN = `${LOAF}
plan "Market"
  ready 2026-03-14 15:00 Europe/Lisbon
  oven holds 2 loaves
  bake 8 loaves of "Loaf"
`;

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

const initializationOptions = { scheduleCommand: 'bakery.schedule' };

it('a time that is told stands above the formula, and the editor is asked to look again', async () => {
  const e = (editor = await Editor.open({ initializationOptions }));
  await e.openText('a.bake', LOAF);
  const first = async (): Promise<CodeLens['command']> => (await e.about<CodeLens[]>('codeLens', 'a.bake'))[0]?.command;
  expect(await first()).toEqual({ title: 'Schedule: ready by…', command: 'bakery.schedule', arguments: [e.uri('a.bake'), 'Loaf'] });
  const anchor = { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8), local: '2026-03-14T08:00' };
  const times = [{ uri: e.uri('a.bake'), formula: 'Loaf', zone: 'Europe/Lisbon', anchor }];
  await e.notify('proofsheet/chosenTimes', { times });
  await e.refreshed();
  expect((await first())?.title).toMatch(/^Begin Sat [\d:]+, ready Sat 08:00$/);
  await e.notify('proofsheet/chosenTimes', { times }); // no news, and nothing is asked
  await e.notify('proofsheet/chosenTimes', { times: [] });
  await e.refreshed();
  expect((await first())?.title).toBe('Schedule: ready by…');
  expect(await e.quit()).toBe(0);
});

it('a time that is typed is answered, by the name of the formula or by the cursor', async () => {
  const e = (editor = await Editor.open({ initializationOptions }));
  await e.openText('a.bake', LOAF);
  const ask = async (more: object): Promise<ScheduleAnswer | null> => e.request('proofsheet/schedule', { uri: e.uri('a.bake'), zone: 'Europe/Lisbon', ...more });
  const wanted = { kind: 'ready', text: '2026-03-14 08:00' };
  expect(await ask({ formula: 'Loaf', wanted })).toMatchObject({ kind: 'time', local: '2026-03-14T08:00', fits: true });
  expect(await ask({ position: { line: 5, character: 0 }, wanted: { ...wanted, text: 'noon' } })).toMatchObject({ kind: 'cannot', message: expect.stringContaining('"noon" is not a date') });
  expect(await ask({ formula: 'Another' })).toBeNull();
  expect(await e.quit()).toBe(0);
});

it('the bake day of a plan is looked for with a progress that begins and ends, and is then the one that is shown', async () => {
  const e = (editor = await Editor.open({ capabilities: { ...FULL, window: { workDoneProgress: true } } }));
  await e.openText('a.bake', PLAN);
  const position = { line: PLAN.split('\n').findIndex(line => line.startsWith('plan')), character: 0 };
  const asked = { uri: e.uri('a.bake'), position };
  const preview = { ...asked, zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: 0 } };
  expect(await e.request('proofsheet/preview', preview)).toMatchObject({ title: 'Market' });
  expect(await e.request('proofsheet/schedulePlan', asked)).toEqual({ kind: 'scheduled' });
  expect(e.progress[0]).toMatchObject({ kind: 'begin', title: 'Looking for the best bake day', cancellable: true });
  expect(e.progress.at(-1)).toMatchObject({ kind: 'end' });
  expect(await e.request('proofsheet/preview', preview)).toMatchObject({ isProvisional: false });
  expect(await e.request('proofsheet/schedulePlan', { ...asked, position: { line: 0, character: 0 } })).toBeNull();
  expect(await e.quit()).toBe(0);
});
