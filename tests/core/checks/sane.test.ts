/** Formulas of every style as a careful baker would write them: nothing is found in them, not even information. */
import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { STYLES, styleOf } from '../../../server/core/checks/limits';
import { analyseText, findingsIn } from '../bake';

const folder = path.join(import.meta.dirname, 'sane');
const files = readdirSync(folder).sort();
const read = (name: string) => readFileSync(path.join(folder, name), 'utf8');

test('every style is among them', () => {
  const said = files.flatMap((name) => analyseText(read(name)).flatMap(({ formula }) => formula?.styles.map(({ text }) => styleOf(text)) ?? []));
  expect(new Set(said)).toEqual(new Set(STYLES));
});

describe.each(files)('%s', (name) => {
  test('has a weight, a yield and nothing to find', () => {
    for (const { formula, totals } of analyseText(read(name))) {
      if (formula?.kind === 'formula') {
        expect(totals?.dough_g).toBeGreaterThan(0);
        expect(formula.yield.pieceGrams).toBeGreaterThan(0);
      }
    }
    expect(findingsIn(read(name)).map(({ code, text, message }) => `${code} at "${text}": ${message}`)).toEqual([]);
  });
});
