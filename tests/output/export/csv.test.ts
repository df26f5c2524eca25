/** The table for a spreadsheet, read back by csv-parse: RFC 4180, and nothing in it that a spreadsheet would run. */
import fc from 'fast-check';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { csvRecord } from '../../../server/output/export/csv';
import { exported } from '../../../server/output/export/forms';
import { exportsOf, NASTY, SAMPLES, sampleEntries } from './samples';

const STARTS_A_FORMULA = /^\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r]/;
const NUMBER = /^-?\d+(\.\d+)?$/;

test('any fields come back as they were, but for an apostrophe before what would be run', () => {
  const field = fc.oneof(fc.string(), fc.string({ unit: 'grapheme' }), fc.constantFrom('=1+1', '-5', '-5.5', '+a', '@x', '\t=1', ' =1', '"=1"', 'a,b', 'a\r\nb', '＝1', ''));
  fc.assert(fc.property(fc.array(field, { minLength: 2, maxLength: 6 }), (fields) => {
    const [back]: string[][] = parse(csvRecord(fields), { record_delimiter: '\r\n' });
    expect(back).toHaveLength(fields.length);
    fields.forEach((one, at) => {
      const found = back![at]!;
      if (NUMBER.test(one)) expect(found).toBe(one);
      else {
        expect(found.replace(/^'/, '')).toBe(one.replace(/^'/, ''));
        expect(STARTS_A_FORMULA.test(found)).toBe(false);
        expect(found === one).toBe(!STARTS_A_FORMULA.test(one));
      }
    });
  }));
});

test.each(SAMPLES)('%s: as many fields in every record, numbers where numbers are, a line end of two characters', async (sample) => {
  const text = exported('csv', await sampleEntries(sample), 0);
  // A reader that is strict about quotes and the number of fields.
  const [head, ...records]: string[][] = parse(text, { bom: true, record_delimiter: '\r\n', relax_column_count: false, relax_quotes: false });
  expect(head).toEqual(['formula', 'part', 'ingredient', 'grams', 'percent', 'home measure', 'remarks']);
  expect(records.length).toBeGreaterThan(6);
  for (const [, , , grams, percent] of records) {
    expect(grams).toMatch(/^\d+(\.\d+)?$/);
    expect(percent).toMatch(/^(\d+(\.\d+)?)?$/);
  }
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('begins with the mark by which a spreadsheet knows UTF-8, so that names stay whole', async () => {
  const bytes = new TextEncoder().encode(exported('csv', exportsOf(NASTY), 0));
  expect([...bytes.slice(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
  expect(new TextDecoder().decode(bytes)).toContain('*pão*');
});

test('a name that would be run as a formula is text', () => {
  const records: Record<string, string>[] = parse(exported('csv', exportsOf(NASTY), 0), { bom: true, columns: true });
  expect(records.map(({ ingredient }) => ingredient)).toContain("'=cmd|' /C calc'!A0");
  for (const record of records) for (const value of Object.values(record)) if (!NUMBER.test(value)) expect(value).not.toMatch(STARTS_A_FORMULA);
});
