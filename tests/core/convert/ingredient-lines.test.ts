/**
 * `ingredient-lines.txt` has a line of ingredients as people write it, then `=>` and the line of the language. `how much?` stands for a
 * line without an amount, ` and …` for a second line, `  # …` for what is left to decide, `  ?` for a name that nobody knows.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { tidy } from '../../../server/core/convert/characters';
import { readIngredient } from '../../../server/core/convert/ingredient';
import { ingredientLine } from '../../../server/core/convert/lines';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';

const rows = readFileSync(path.join(import.meta.dirname, 'ingredient-lines.txt'), 'utf8').split('\n').filter((row) => row !== '').map((row) => {
  const at = row.indexOf(' => ');
  return { source: row.slice(0, at).trim().replaceAll('<TAB>', '\t'), expected: row.slice(at + 4) };
});

function readingOf(source: string): string {
  const reading = readIngredient(tidy(source), builtInCatalogue, [{ name: 'levain', aliases: [] }]);
  if (reading === undefined) return 'text';
  const bake = ingredientLine(reading) ?? 'how much?';
  const decide = reading.decide.length === 0 ? '' : `  # ${reading.decide.join(' ')}`;
  return `${[bake, ...reading.more.map((amount) => `and ${amount}`)].join(' ')}${decide}${reading.known ? '' : '  ?'}`;
}

describe('lines of ingredients', () => {
  it('there are many of them', () => {
    expect(rows.length).toBeGreaterThanOrEqual(140);
  });

  it.each(rows)('$source', ({ source, expected }) => {
    expect(readingOf(source)).toBe(expected);
  });
});

describe('what is no line of ingredients', () => {
  it('a long paragraph is prose', () => {
    expect(readIngredient('word '.repeat(200), builtInCatalogue)).toBeUndefined();
  });

  it('an amount of nothing names nothing', () => {
    expect(readIngredient('500 g', builtInCatalogue)).toBeUndefined();
  });
});
