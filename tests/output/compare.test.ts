/** What a comparison looks like: on a terminal, as a comment on a change, and as JSON. */
import { describe, expect, it } from 'vitest';
import type { Change, SectionChanges } from '../../server/core/compare';
import { compareJson } from '../../server/output/compare-json';
import { compareMarkdown, escaped } from '../../server/output/compare-markdown';
import { compareText, MOST_TOLD } from '../../server/output/compare-text';
import { compared } from '../core/compare/texts';

const loaf = (water: string, more = '', name = 'Loaf'): string => `formula "${name}"
  makes     2 loaves

dough
  1000 g    bread flour
  ${water}     water
  20 g      salt
${more}
steps
  mix       8 min
  bake      40 min at 230 C
`;
const WETTER = compared(loaf('700 g'), loaf('750 g', '  100 g     walnuts\n').replace('40 min at 230 C', '45 min at 240 C'));

describe('on a terminal', () => {
  it('tells allergens first, then totals, weights, steps, and ends with one line for all', () => {
    expect(compareText(WETTER, { width: 80 })).toBe(`Loaf
  allergens gained: nuts (walnut) (EU list), from walnuts
  allergens gained: tree nuts (walnut) (US list), from walnuts

                              before        after
  hydration                   70.0 %       75.0 %
  inclusions                   0.0 %       10.0 %
  dough                       1720 g       1870 g
  one piece                    860 g        935 g

  dough
    water                   700 g → 750 g (70.0 → 75.0 %)
    walnuts                 added, 100 g (10.0 %)

  steps
    bake                    40 min → 45 min
    bake                    230 °C → 240 °C

1 formula changed. Allergens gained: nuts (walnut), tree nuts (walnut).
`);
  });

  it('of a formula that is new tells the allergens it has, and of one that is dropped none', () => {
    const nutty = `${loaf('700 g')}\n${loaf('500 g', '  100 g     walnuts\n', 'Walnut loaf')}`;
    const lines = compareText(compared(loaf('700 g'), nutty), { width: 100, allergens: 'eu' }).split('\n');
    expect(lines.slice(0, 4)).toEqual([
      'Walnut loaf', '  new, 1620 g of dough', '  with the allergens: cereals containing gluten (wheat) (EU list), from bread flour', '  with the allergens: nuts (walnut) (EU list), from walnuts',
    ]);
    expect(lines.at(-2)).toBe('1 formula is new.');
    expect(compareText(compared(nutty, loaf('700 g')), { width: 100 })).toMatch(/^Walnut loaf\n {2}dropped\n[^]*\n1 formula was dropped\.\n$/);
  });

  it('a dish has no dough whose weight could be told', () => {
    const dish = (eggs: number): string => `dish "Custard"\n  serves 4\n\ncustard\n  ${eggs} eggs\n  ${eggs * 100} g milk\n`;
    expect(compareText(compared(dish(2), dish(4)), { width: 80 })).toBe('Custard\n  the same dish × 2\n\n1 formula changed.\n');
  });

  it('says what is no change at all in a line', () => {
    expect(compareText([], { width: 80 })).toBe('No change.\n');
    expect(compareText(compared(loaf('700 g'), loaf('700 g').replaceAll('  ', ' ')), { width: 80 })).toContain('Only layout and comments differ.');
    expect(compareText(compared(loaf('700 g'), loaf('70 %')), { width: 80 })).toContain('Written another way, the same dough.');
  });

  it('shows both numbers of an amount though a scale would show one', () => {
    expect(compareText(compared(loaf('700 g'), loaf('700.2 g')), { width: 80 })).toContain('water                   700 g → 700.2 g (70 → 70.02 %)');
  });

  it('counts what nobody would read', () => {
    expect(compareText(many(10_000), { width: 80 })).toContain(`\nand ${(10_000 - MOST_TOLD).toLocaleString('en')} more; --json has all of them.\n`);
    expect(compareText(many(10_000), { width: 80 }).split('\n').length).toBeLessThan(MOST_TOLD + 20);
  });

  it('keeps to its width, and shows no control characters of a name', () => {
    const text = compareText(compared(loaf('700 g'), loaf('700 g', '', 'Lo\u001b[31maf')), { width: 60 });
    expect(text).not.toContain('\u001b');
    for (const line of compareText(WETTER, { width: 60 }).split('\n')) expect(line.length).toBeLessThanOrEqual(60);
  });
});

describe('as a comment on a change', () => {
  it('has the summary first, a table of totals, and the rest folded', () => {
    const markdown = compareMarkdown(WETTER, { allergens: 'eu' });
    expect(markdown.split('\n').slice(0, 8)).toEqual([
      '**1 formula changed. Allergens gained: nuts (walnut).**', '', '### Loaf', '', '- **allergens gained: nuts (walnut) (EU list), from walnuts**', '', '| total | before | after |', '|---|--:|--:|',
    ]);
    expect(markdown).toContain('<details><summary>4 changes in what is weighed and done</summary>\n\n**dough**\n\n- water: 700 g → 750 g (70.0 → 75.0 %)\n');
    expect(markdown).toContain('</details>');
    expect(compareMarkdown(WETTER, { unfolded: true })).not.toContain('details');
  });

  it('takes nothing of a name for markup, a cell, a tag or a person', () => {
    const evil = 'A | B <img src=x> @tomas `x` [y](http://z) *bold* &amp; # head';
    const markdown = compareMarkdown(compared(loaf('700 g'), loaf('750 g', `  5 g       "${evil}"\n`, evil)));
    expect(markdown).not.toMatch(/<img|@tomas|[^\\]`x|\[y\]\(|[^\\]\*bold\*|http:/);
    for (const row of markdown.split('\n').filter((line) => line.startsWith('|'))) expect(row.split('|')).toHaveLength(5);
    expect(escaped('#1 a|b')).toBe('\\#1 a&#124;b');
  });

  it('stays shorter than what a host cuts off', () => {
    const markdown = compareMarkdown(Array.from({ length: 400 }, () => many(300)).flat());
    expect(markdown.length).toBeLessThan(65_536);
    expect(markdown).toMatch(/And [\d,]+ changes more\.\n$/);
    expect(compareMarkdown(many(10_000))).toContain('and 9,700 more');
  });
});

it('as JSON every change has its formula, what it is, both sides and both lines', () => {
  const { changes } = JSON.parse(compareJson(WETTER)) as { changes: readonly Record<string, unknown>[] };
  expect(changes.map(({ what }) => what)).toEqual([
    'allergen-gained', 'allergen-gained', 'total-changed', 'total-changed', 'total-changed', 'total-changed', 'amount', 'ingredient-added', 'step-time', 'step-temperature',
  ]);
  for (const change of changes) expect(Object.keys(change)).toEqual(expect.arrayContaining(['formula', 'what', 'before', 'after', 'line_before', 'line_after']));
  expect(changes[6]).toEqual({ formula: 'Loaf', what: 'amount', name: 'water', part: 'dough', before: 700, after: 750, unit: 'g', pct_before: 70, pct_after: 75, line_before: 6, line_after: 6 });
  expect(changes[7]).toMatchObject({ name: 'walnuts', before: null, after: 100, line_before: 1, line_after: 8 });
  expect(JSON.parse(compareJson([]))).toEqual({ changes: [] });
});

/** One formula with so many ingredients that changed. */
function many(count: number): readonly SectionChanges[] {
  const name = { kind: 'formula', name: 'Loaf', path: '', line: 1 } as const;
  const changes = Array.from({ length: count }, (_, i): Change => ({ what: 'amount', before: { name: `nut ${i}`, part: 'dough', grams: 10 }, after: { name: `nut ${i}`, part: 'dough', grams: 12 } }));
  return [{ before: name, after: name, factor: 1, changes }];
}
