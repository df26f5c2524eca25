/** Every sample in every form, as it was when somebody looked at it. `UPDATE=1` writes them anew; look at what changed. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { ENDINGS, exported, type ExportForm } from '../../../server/output/export/forms';
import { sheetJson } from '../../../server/output/sheet-json';
import { SAMPLES, sampleEntries } from './samples';

const folder = path.join(import.meta.dirname, 'golden');
const STAMP = Date.UTC(2027, 2, 1, 12);
const FORMS: readonly ExportForm[] = ['html', 'markdown', 'csv', 'jsonld'];

function compare(name: string, text: string): void {
  const file = path.join(folder, name);
  if (process.env['UPDATE'] === '1') {
    mkdirSync(folder, { recursive: true });
    writeFileSync(file, text);
  }
  expect(existsSync(file), 'Not there: run this test with UPDATE=1').toBe(true);
  expect(text).toBe(readFileSync(file, 'utf8'));
}

describe.each(SAMPLES)('%s', (sample) => {
  test.each(FORMS)('as %s', async (form) => {
    compare(`${path.parse(sample).name}.${ENDINGS[form]}`, exported(form, await sampleEntries(sample), STAMP));
  });
});

test.each(['html', 'markdown', 'ics'] as const)('by the clock, as %s', async (form) => {
  const entries = await sampleEntries('apricot-hearth.bake', '2027-03-13 08:00');
  compare(`apricot-hearth-by-the-clock.${ENDINGS[form]}`, exported(form, entries, STAMP));
});

test('as JSON, the form of the sheet', async () => {
  const entries = await sampleEntries('knots.bake');
  expect(exported('json', entries, STAMP)).toBe(sheetJson(entries));
});
