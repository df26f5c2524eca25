/** What settings change in what an editor shows. */
import { expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { diagnosticsOf } from '../../server/features/diagnostics';
import { hoverAt } from '../../server/features/hover';
import { previewAt } from '../../server/features/preview';
import { requestIn } from '../../server/features/shared/schedule';
import { marked, RYE } from './marked';

const request = { zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) } } as const;
const shown = async (settings: object) => {
  const { file, offset } = await marked(`for┆mula${RYE.slice('formula'.length)}`, { 'proofsheet.json': JSON.stringify(settings) });
  return { hover: (hoverAt(file, offset)?.contents as MarkupContent).value, preview: previewAt(file, offset, request)?.html ?? '', file };
};

it('allergens are named by the list that is set, in the hover of a formula and in the preview', async () => {
  const both = await shown({});
  const eu = await shown({ allergens: 'eu' });
  const us = await shown({ allergens: 'us' });
  for (const surface of ['hover', 'preview'] as const) {
    // Rye is gluten to the one and nothing to the other.
    expect(eu[surface]).toContain('rye');
    expect(eu[surface].length, surface).toBeLessThan(both[surface].length);
    expect(us[surface].length, surface).toBeLessThan(both[surface].length);
    expect(us[surface]).not.toBe(eu[surface]);
  }
});

it('nutrition is rounded for the label that is set', async () => {
  const computed = (await shown({})).preview;
  const labels = await Promise.all(['eu', 'us'].map(async labelRounding => (await shown({ labelRounding })).preview));
  expect(new Set([computed, ...labels]).size).toBe(3);
});

it('a tap that was measured decides on the ice, and a change of it is heard', async () => {
  const summer = (settings: object) => marked('for┆mula "A"\n  room 30 C\n  friction 14 C\n\ndough at 25 C\n  1000 g bread flour\n  650 g water\n  20 g salt\n', { 'proofsheet.json': JSON.stringify(settings) });
  const previewOf = async (settings: object) => {
    const { file, offset } = await summer(settings);
    return previewAt(file, offset, request)?.html ?? '';
  };
  expect(await previewOf({})).toContain('taken to give 15 C, a guess');
  expect(await previewOf({ tapCelsius: 22 })).toContain('The tap gives 22 C by the settings.');
  expect(await previewOf({ tapCelsius: 0.5 })).not.toContain('as ice');
});

it('a check that is off is not among the findings, one that is an error is marked so', async () => {
  const severities = async (settings: object) => {
    const { file } = await marked('formula "A"\n\ndough\n  500 g bread flour\n  pinch salt\n', { 'proofsheet.json': JSON.stringify(settings) });
    return diagnosticsOf(file, { relatedInformation: true, codeDescription: false }).filter(({ code }) => code === 'vague-amount').map(({ severity }) => severity);
  };
  expect(await severities({})).toEqual([3]);
  expect(await severities({ checks: { 'vague-amount': 'error' } })).toEqual([1]);
  expect(await severities({ checks: { 'vague-amount': 'off' } })).toEqual([]);
});

it('the zone that is set keeps the hour on the clock; a time that it has not, and none, keep the instant', async () => {
  const { file } = await shown({ zone: 'Europe/Lisbon' });
  const epochMs = Date.UTC(2026, 2, 14, 7);
  const placed = (local?: string) => requestIn(file, 'Europe/Paris', { kind: 'ready', epochMs, ...(local !== undefined && { local }) });
  expect(placed('2026-03-14T08:00')).toEqual({ zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) } });
  for (const odd of [undefined, 'soon', '2026-03-29T01:30']) {
    expect(placed(odd)).toEqual({ zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs } });
  }
  const { file: plain } = await shown({});
  expect(requestIn(plain, 'Europe/Paris', { kind: 'start', epochMs, local: '2026-03-14T08:00' })).toEqual({ zone: 'Europe/Paris', anchor: { kind: 'start', epochMs } });
});
