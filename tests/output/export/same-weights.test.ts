/** Whatever the form, a weight is the one that the sheet prints, to its last digit. Each form is read back by a program of others. */
import MarkdownIt from 'markdown-it';
import { parse as parseCsv } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { exported, type ExportEntry } from '../../../server/output/export/forms';
import { sheetText } from '../../../server/output/sheet-text';
import { plain } from '../../../server/output/paint';
import { exportsOf, SAMPLES, sampleEntries } from './samples';

interface Row {
  readonly grams: string;
  readonly name: string;
}

/** Rows of the parts and of what stands besides; the total formula is apart. */
function inCsv(entries: readonly ExportEntry[]): { readonly rows: readonly Row[]; readonly total: readonly Row[] } {
  const records: Record<string, string>[] = parseCsv(exported('csv', entries, 0), { bom: true, columns: true });
  const rowsOf = (some: readonly Record<string, string>[]): readonly Row[] => some.map((record) => ({ grams: record['grams']!, name: record['ingredient']! }));
  return { rows: rowsOf(records.filter(({ part }) => part !== 'Total formula')), total: rowsOf(records.filter(({ part }) => part === 'Total formula')) };
}

/** The cells of all tables of a Markdown text that weigh something, as a reader of CommonMark sees them. */
function inMarkdown(entries: readonly ExportEntry[]): readonly Row[] {
  const tokens = new MarkdownIt().parse(exported('markdown', entries, 0), {});
  const rows: string[][] = [];
  tokens.forEach((token, at) => {
    if (token.type === 'tr_open') rows.push([]);
    if (token.type === 'td_open') rows.at(-1)!.push(tokens[at + 1]!.children!.map(({ content }) => content).join(''));
  });
  return rows.filter(([weight, name]) => / g$|^not known$/.test(weight ?? '') && !name!.startsWith('together')).map(([weight, name]) => ({ grams: weight!, name: name! }));
}

function inHtml(entries: readonly ExportEntry[]): readonly Row[] {
  const text = (markup: string): string => markup.replace(/<[^>]*>/g, '').replaceAll('&#39;', "'").replaceAll('&amp;', '&').replaceAll('\u00a0', ' ');
  const rows = [...exported('html', entries, 0).matchAll(/<tr(?: class="must")?><td class="num">(.*?)<\/td><th scope="row">(.*?)<\/th>/g)];
  return rows.map(([, weight, name]) => ({ grams: text(weight!), name: text(name!) }));
}

function inRecipe(entries: readonly ExportEntry[]): readonly string[] {
  const data = JSON.parse(exported('jsonld', entries, 0)) as { recipeIngredient?: string[]; '@graph'?: { recipeIngredient: string[] }[] };
  return (data['@graph'] ?? [data]).flatMap(({ recipeIngredient }) => recipeIngredient ?? []);
}

const numberOf = (weight: string): string => (weight === 'not known' ? '' : weight.replace(/ g$/, ''));

describe.each(SAMPLES)('%s', (sample) => {
  test('every weight and per cent of the table stands on the printed sheet, in the row of its name', async () => {
    const entries = await sampleEntries(sample);
    const records: Record<string, string>[] = parseCsv(exported('csv', entries, 0), { bom: true, columns: true });
    // Wide, so that the sheet keeps all its columns.
    const lines = entries.flatMap((entry) => sheetText(entry, { width: 400, paint: plain }).split('\n'));
    expect(records.length).toBeGreaterThan(6);
    for (const { ingredient, grams, percent } of records) {
      const own = lines.filter((line) => line.trim().startsWith(ingredient!) || line.trim().startsWith(`${grams!} g  ${ingredient!}`));
      const printed = own.some((line) => {
        const numbers = line.split(/\s+/);
        return numbers.some((number, at) => number === grams && (percent === '' || numbers[at + 1] === percent));
      });
      expect(printed, `${ingredient!} ${grams!} ${percent!} in\n${own.join('\n')}`).toBe(true);
    }
  });

  test('the card in HTML, the card in Markdown and the table have the same weights', async () => {
    const entries = await sampleEntries(sample);
    const { rows } = inCsv(entries);
    for (const card of [inHtml(entries), inMarkdown(entries)]) {
      expect(card.map(({ grams }) => numberOf(grams))).toEqual(rows.map(({ grams }) => grams));
      card.forEach(({ name }, at) => expect(name.startsWith(rows[at]!.name), `${name} is ${rows[at]!.name}`).toBe(true));
    }
  });

  test('a recipe begins each ingredient with its weight, and leaves out the parts that are weighed in', async () => {
    const entries = await sampleEntries(sample);
    const parts = entries.flatMap(({ formula }) => formula.parts.map(({ name }) => name));
    const left = [...inRecipe(entries)];
    for (const { grams, name } of inCsv(entries).rows) {
      if (left[0]?.startsWith(`${grams} g ${name}`) === true) left.shift();
      else expect(parts).toContain(name);
    }
    expect(left).toEqual([]);
  });
});

test('what cannot be known is said so or left empty, and never nothing', async () => {
  const entries = await sampleEntries('mistakes.bake');
  const { rows } = inCsv(entries);
  expect(rows.filter(({ grams }) => grams === '').map(({ name }) => name)).toContain('walnut butter');
  for (const card of [inHtml(entries), inMarkdown(entries)]) {
    expect(card.find(({ name }) => name.startsWith('walnut butter'))!.grams).toBe('not known');
    expect(card.filter(({ grams }) => grams === '0 g')).toEqual([]);
  }
  expect(inRecipe(entries)).toContain('3 cups walnut butter');
  expect(exported('jsonld', entries, 0)).not.toMatch(/null|NaN|–|"(?:not known|0 g)/);
});

test('one ingredient in two lines of a part is one line, as on the sheet, with what both say', () => {
  const entries = exportsOf(`formula "Two waters"
  makes     1 loaf of 900 g

dough
  500 g     bread flour
  300 g     water at 30 C
  10 g      salt
  50 g      water, held back
`);
  expect(inCsv(entries).rows).toContainEqual({ grams: '350', name: 'water' });
  expect(inHtml(entries).find(({ name }) => name.startsWith('water'))!.name).toBe('water, at 30 °C (86 °F), held back');
});

test('names of two spellings of one ingredient find their weight', () => {
  const { rows } = inCsv(exportsOf(`formula "Spelled twice"
  makes     1 loaf of 860 g

poolish
  100 g     strong bread flour
  100 g     water
  0.2 g     instant yeast

dough
  400 g     bread flour
  250 g     water
  all       poolish
  10 g      salt
`));
  expect(rows.filter(({ grams }) => grams === '')).toEqual([]);
});
