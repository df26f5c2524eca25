/** `proofsheet.json` in an editor: it wins over the editor's own settings, a change of it is heard, and what is wrong with it is shown there. */
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver-protocol';
import type { PreviewAnswer } from '../../server/requests';
import { FULL, PUSHED } from './editor';
import type { Editor } from './editor';
import { open, quit } from './one-editor';

const LOAF = `formula "Loaf"
  makes 1 loaf of 850 g

dough
  500 g bread flour
  340 g water
  12 g salt

steps
  mix 10 min
  bake 40 min at 230 C
`;
/** What settings move here, and what is wrong with them. */
const said = (diagnostics: readonly Diagnostic[] | undefined) => diagnostics?.flatMap(({ severity, code, message }) => (
  code === 'settings' ? [`${severity} ${message}`] : code === 'salt-high' ? [`${severity} ${code}`] : []
));
const strict = '{ "limits": { "salt-high": { "mostPct": 2 } } }';

describe.each([['asks for findings', FULL], ['is sent findings', PUSHED]])('an editor that %s', (_which, capabilities) => {
  const pulls = capabilities === FULL;
  const findings = async (e: Editor) => said(pulls ? (await e.pulled('a.bake')).items : await e.published('a.bake'));

  it('goes by the file, and hears of a change to it', async () => {
    const e = await open({ capabilities, files: { 'proofsheet.json': strict } });
    await e.openText('a.bake', LOAF);
    expect(await findings(e)).toEqual(['2 salt-high']);
    e.settings = { limits: { 'salt-high': { mostPct: 1 } }, checks: { 'salt-high': 'off' } };
    await e.notify('workspace/didChangeConfiguration', { settings: null });
    if (pulls) await e.refreshed();
    expect(await findings(e)).toEqual([]);

    e.write('proofsheet.json', '{ "limits": { "salt-high": { "mostPct": 2.3 } }, "checks": { "salt-high": "error" } }');
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('proofsheet.json'), type: 2 }] });
    if (pulls) await e.refreshed();
    expect(await findings(e)).toEqual(['1 salt-high']);

    e.remove('proofsheet.json');
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('proofsheet.json'), type: 3 }] });
    if (pulls) await e.refreshed();
    expect(await findings(e)).toEqual([]);
    e.settings = {};
    await e.notify('workspace/didChangeConfiguration', { settings: null });
    if (pulls) await e.refreshed();
    expect(await findings(e)).toEqual([]);
    await quit();
  });

  it('shows what is wrong with the file, at its place, until it is mended', async () => {
    const e = await open({ capabilities, files: { 'proofsheet.json': '{\n  "limts": {},\n  "measures": "cups"\n}\n' } });
    await e.openText('a.bake', LOAF);
    expect(await findings(e)).toEqual([]);
    const problems = await e.published('proofsheet.json');
    expect(said(problems)).toEqual(['2 There is no setting "limts". Did you mean "limits"?', '1 "measures" is "us", "metric" or "imperial".']);
    expect(problems[0]?.codeDescription?.href).toMatch(/#(settings|L\d+)$/);
    expect(problems[0]?.range).toEqual({ start: { line: 1, character: 2 }, end: { line: 1, character: 9 } });

    e.write('proofsheet.json', strict);
    await e.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: e.uri('proofsheet.json'), type: 2 }] });
    if (pulls) await e.refreshed();
    expect(await e.published('proofsheet.json')).toEqual([]);
    expect(await findings(e)).toEqual(['2 salt-high']);
    await quit();
  });

  it('that opens the file is told of each letter', async () => {
    const e = await open({ capabilities, files: { 'proofsheet.json': '{}' } });
    await e.openText('a.bake', LOAF);
    expect(await findings(e)).toEqual([]);
    await e.openText('proofsheet.json', '{ "measures": "metric" ');
    expect(said(await e.published('proofsheet.json'))).toEqual(['1 A closing brace } is missing.']);
    if (pulls) await e.refreshed();
    else expect(await findings(e)).toEqual([]);
    if (pulls) expect((await e.pulled('proofsheet.json')).items).toEqual([]);
    await e.closeText('proofsheet.json');
    expect(await e.published('proofsheet.json')).toEqual([]);
    if (pulls) await e.refreshed();
    else expect(await findings(e)).toEqual([]);
    await quit();
  });
});

it('the zone of the file is that of the preview, at the same hour on the clock', async () => {
  const e = await open({ files: { 'proofsheet.json': '{ "zone": "Europe/Lisbon" }' } });
  await e.openText('a.bake', LOAF);
  const { html } = await e.request<PreviewAnswer>('proofsheet/preview', {
    uri: e.uri('a.bake'), position: { line: 0, character: 0 }, zone: 'Europe/Paris',
    anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 7), local: '2026-03-14T08:00' },
  });
  expect(html).toContain('Europe/Lisbon');
  expect(html).not.toContain('Europe/Paris');
  expect(html).toContain('value="2026-03-14T08:00"');
  await quit();
});
