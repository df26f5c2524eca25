/** Names of files from names of formulas: no disk refuses them, and none is written twice in one run. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fileNameOf } from '../../../server/output/export/file-name';

test.each<readonly [string, string]>([
  ['Two-ferment country loaf', 'two-ferment-country-loaf.html'],
  ['Pão de figo — "especial"', 'pao-de-figo-especial.html'],
  ["Baker's loaf", 'bakers-loaf.html'],
  ['Weißbrot, smørbrød & żurawina', 'weissbrot-smorbrod-zurawina.html'],
  ['../../etc/passwd', 'etc-passwd.html'],
  ['CON', 'con-formula.html'],
  ['lpt1', 'lpt1-formula.html'],
  ['Console', 'console.html'],
  ['面包', 'formula.html'],
  ['', 'formula.html'],
  ['...', 'formula.html'],
  ['a'.repeat(100), `${'a'.repeat(60)}.html`],
])('%s', (name, expected) => {
  expect(fileNameOf(name, 'html', new Set())).toBe(expected);
});

test('a second one of a name gets a number', () => {
  const taken = new Set<string>();
  expect(['Rye', 'rye!', 'RYE', 'Rye 2'].map((name) => fileNameOf(name, 'csv', taken))).toEqual(['rye.csv', 'rye-2.csv', 'rye-3.csv', 'rye-2-2.csv']);
});

test('whatever the name, letters, digits and hyphens', () => {
  fc.assert(fc.property(fc.array(fc.oneof(fc.string(), fc.string({ unit: 'grapheme' }), fc.constantFrom('nul', 'aux.', 'com9')), { maxLength: 8 }), (names) => {
    const taken = new Set<string>();
    const files = names.map((name) => fileNameOf(name, 'md', taken));
    expect(new Set(files).size).toBe(names.length);
    for (const file of files) {
      expect(file).toMatch(/^[a-z0-9](?:[a-z0-9-]*[a-z0-9])?\.md$/);
      expect(file).not.toMatch(/^(?:con|prn|aux|nul|com\d|lpt\d)\./);
    }
  }));
});
