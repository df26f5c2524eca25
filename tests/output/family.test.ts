/** A family of formulas as it is printed. */
import { expect, test } from 'vitest';
import { familyText } from '../../server/output/family';
import type { FormulaEntry } from '../../server/output/entry';
import { analyseText } from '../core/bake';

const TEXT = `formula "Rye"

dough
  500 g     bread flour
  350 g     water
  10 g      salt
${['One', 'Two', 'Three'].map((name) => `\nformula "A long name of variant ${name}"\n  based on  "Rye"\n  set       water to 360 g\n`).join('')}`;

const [base, ...variants] = analyseText(TEXT).map(({ section, formula, totals, sheet }): FormulaEntry => ({ section, formula: formula!, totals: totals!, sheet: sheet!, lineOf: () => 1 }));

test('a table that is wider than the terminal is taken apart, with the base in each', () => {
  const wide = familyText({ base: base!, variants }, 200);
  expect(wide.split('\n').filter((line) => /^ +Rye /.test(line))).toHaveLength(1);
  const narrow = familyText({ base: base!, variants }, 45);
  expect(narrow.split('\n').filter((line) => /^ +Rye /.test(line))).toHaveLength(3);
  expect(Math.max(...narrow.split('\n').map((line) => line.length))).toBeLessThanOrEqual(45);
  expect(narrow.match(/^ {2}water +70\.0 % +72\.0 % \*$/gm)).toHaveLength(3);
});

test('figures stand under each other, marked or not', () => {
  const rows = familyText({ base: base!, variants: [variants[0]!] }, 100).split('\n');
  const ends = rows.filter((line) => /%( \*)?$/.test(line)).map((line) => line.replace(/ \*$/, '').length);
  expect(new Set(ends).size).toBe(1);
});

test('a weight that is not known is a dash without a unit', () => {
  const text = 'formula "Rye"\n\ndough\n  500 g     bread flour\n  350 g     water\n\nformula "Rye with all of it"\n  based on  "Rye"\n  add       all scald\n';
  const [plain, odd] = analyseText(text).map(({ section, formula, totals, sheet }): FormulaEntry => ({ section, formula: formula!, totals: totals!, sheet: sheet!, lineOf: () => 1 }));
  const rows = familyText({ base: plain!, variants: [odd!] }, 100);
  expect(rows).toMatch(/^ {2}scald +– \*$/m);
  expect(rows).not.toContain('– g');
});
