/** `proofsheet record`, and records as CSV. */
import { appendFileSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { ran } from './in-process';
import { workspace } from './program';

const LOAF = `formula "Stall loaf"
  makes     2 loaves of 861 g
  room      22 C
  loses     15 % in the oven

dough at 25 C
  1000 g    bread flour
  700 g     water
  20 g      salt
  2 g       instant yeast

steps
  mix       8 min, by hand
  bulk      4 h at 22 C
  preheat   45 min at 240 C
  bake      40 min at 240 C
`;
const NOON = Date.UTC(2027, 2, 13, 12);

describe('record', () => {
  test('prints a block that goes under the formula, and changes nothing of it', async () => {
    const file = path.join(workspace({ 'loaf.bake': LOAF }), 'loaf.bake');
    const { status, out, err } = await ran(['record', file], { nowMs: NOON });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^\nrecord 2027-03-13\n {2}# As planned\./);
    expect(out).toContain('\n  # bulk      4 h at 22 C, volume … %\n');
    appendFileSync(file, out);
    const [bare, with_] = [await ran(['sheet', '-', '--json'], { input: LOAF }), await ran(['sheet', '-', '--json'], { input: readFileSync(file, 'utf8') })];
    expect(with_).toEqual(bare);
    expect((await ran(['check', file, '--fail-on', 'info'])).status).toBe((await ran(['check', '-', '--fail-on', 'info'], { input: LOAF })).status);
    expect((await ran(['format', '--check', file])).status).toBe(0);
  });

  test('of the day in the zone of the workspace, or of the day that is given', async () => {
    const late = Date.UTC(2027, 2, 13, 23, 30);
    const file = path.join(workspace({ 'loaf.bake': LOAF, 'proofsheet.json': '{ "zone": "Pacific/Auckland" }' }), 'loaf.bake');
    expect((await ran(['record', file], { nowMs: late })).out).toContain('record 2027-03-14\n');
    expect((await ran(['record', '-'], { nowMs: late, input: LOAF })).out).toContain('record 2027-03-13\n');
    expect((await ran(['record', '-', '--date', '2027-02-28'], { input: LOAF })).out).toContain('record 2027-02-28\n');
    for (const day of ['2027-02-29', '2027-13-01', 'today', '2027-3-1']) {
      const { status, out, err } = await ran(['record', '-', '--date', day], { input: LOAF });
      expect({ status, out, err }).toEqual({ status: 2, out: '', err: `--date takes a day such as 2027-03-13, not "${day}".\n` });
    }
  });

  test('of one formula: where there are several, one is named', async () => {
    const two = `${LOAF}\n${LOAF.replace('Stall', 'Other')}`;
    expect(await ran(['record', '-'], { input: two })).toMatchObject({ status: 2, out: '', err: 'There are 2 formulas, and a record is of one. Name it: --formula "Other loaf".\n' });
    expect((await ran(['record', '-', '--formula', 'stall loaf'], { input: two })).out).toContain('\nrecord ');
  });
});

describe('sheet --records --csv', () => {
  test('prints the records and nothing else', async () => {
    const { status, out } = await ran(['sheet', '-', '--records', '--csv'], { input: `${LOAF}\nrecord 2027-03-06\n  bulk      3 h\n` });
    expect({ status, out }).toEqual({ status: 0, out: '\uFEFFdate,formula,bulk min,bulk planned min,weighed g,note\r\n2027-03-06,Stall loaf,180,240,,\r\n' });
  });

  test('makes no sense alone, or beside --json', async () => {
    expect((await ran(['sheet', '-', '--csv'], { input: LOAF })).err).toMatch(/^--csv is for records: add --records\./);
    expect((await ran(['sheet', '-', '--records', '--csv', '--json'], { input: LOAF })).err).toMatch(/^--csv and --json contradict each other: leave one out\.$/m);
  });
});
