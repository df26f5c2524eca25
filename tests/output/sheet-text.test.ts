import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { scaleFormula } from '../../server/core/scaling/scale';
import { sheetOf } from '../../server/core/formula/sheet';
import { totalsOf } from '../../server/core/formula/totals';
import { plain } from '../../server/output/paint';
import { sheetText } from '../../server/output/sheet-text';
import { widthOf } from '../../server/output/width';
import { entryOf } from './from-text';

const sheet = (text: string): string => `\n${sheetText(entryOf(text))}`;

describe('the sheet of a formula', () => {
  test('a straight dough', () => {
    expect(sheet(`
formula "Plain loaf"
  makes     2 loaves

dough at 24 C
  1000 g    bread flour
  680 g     water at 20 C
  20 g      salt
  7 g       instant yeast
`)).toMatchInlineSnapshot(`
  "
  Plain loaf
  2 loaves of 854 g · dough at 24 °C

  flour in all  1000 g      hydration            68.0 %      flour protein  12.0 %
  dough         1707 g      water in all         68.0 %
  one piece      854 g      effective hydration  68.0 %
                            salt                  2.0 %

                 Total formula
                      g      %
  bread flour      1000  100.0
  water             680   68.0
  salt               20    2.0
  instant yeast       7    0.7
  ────────────────────────────
  in all           1707  170.7

  Notes
    dough   water at 20 °C

  % of all flour.
  "
`);
  });

  test('a levain, a soaker, dusting', () => {
    expect(sheet(`
formula "Fig and walnut rye"
  makes     2 loaves of 970 g
  style     hearth, with inclusions
  loses     12 % in the oven

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter

soaker "figs"
  150 g     dried figs, quartered
  40 g      water at 90 C

dough at 25 C
  700 g     bread flour
  180 g     whole wheat flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts, toasted
  all       figs
  20 g      rice flour for dusting
`)).toMatchInlineSnapshot(`
  "
  Fig and walnut rye
  2 loaves of 970 g · hearth, with inclusions · dough at 25 °C

  flour in all       946 g      hydration            70.4 %      prefermented flour   7.0 %
  dough             1940 g      water in all         74.6 %      inoculation         14.0 %
  one piece          970 g      effective hydration  74.6 %      inclusions          28.5 %
  one piece, baked   854 g      salt                  1.9 %      flour protein       12.5 %

                     Total formula         levain           figs    Final dough
                          g      %       g      %       g      %       g      %
  bread flour           700   74.0                                   700   79.5
  whole wheat flour     180   19.0                                   180   20.5
  dark rye flour         60    6.3      60  100.0
  water                 700   74.0      60  100.0      40   21.1     600   68.2
  salt                   18    1.9                                    18    2.0
  starter                12    1.3      12   20.0
  walnuts               120   12.7                                   120   13.6
  dried figs            150   15.9                    150   78.9
  levain                                                             132   15.0
  figs                                                               190   21.6
  ─────────────────────────────────────────────────────────────────────────────
  in all               1940  205.1     132  220.0     190  100.0    1940  220.5

  Notes
    levain   water at 28 °C
    figs     dried figs, quartered; water at 90 °C
    dough    walnuts, toasted

  Besides the dough
    20 g  rice flour, for dusting

  % of all flour in the total formula, of its own flour in each other column. Inoculation is ripe
  levain or starter over all flour.
  "
`);
  });

  test('a total formula: the preferments are taken out of the list', () => {
    expect(sheet(`
formula "Country loaf"
  makes     4 loaves of 900 g

poolish
  100 %     bread flour
  100 %     water
  0.1 %     instant yeast

total formula
  90 %      bread flour
  10 %      dark rye flour
  70 %      water
  2 %       salt
  0.3 %     instant yeast
  30 % of flour in poolish
`)).toMatchInlineSnapshot(`
  "
  Country loaf
  4 loaves of 900 g

  flour in all  2089 g      hydration            70.0 %      prefermented flour  30.0 %
  dough         3600 g      water in all         70.0 %      flour protein       12.4 %
  one piece      900 g      effective hydration  70.0 %
                            salt                  2.0 %

                   Total formula         poolish      Final dough
                        g      %        g      %        g       %
  bread flour      1880     90.0    627    100.0   1253     85.7
  dark rye flour    209     10.0                    209     14.3
  water            1463     70.0    626    100.0    836     57.1
  salt               42      2.0                     42      2.9
  instant yeast       6.3    0.3      0.6    0.1      5.6    0.39
  poolish                                          1254     85.8
  ───────────────────────────────────────────────────────────────
  in all           3600    172.3   1254    200.1   3600    246.1

  % of all flour in the total formula, of its own flour in each other column.
  "
`);
  });

  test('a scald that cooks off water, a levain that is kept and left over', () => {
    expect(sheet(`
levain
  200 g     bread flour
  200 g     water
  40 g      starter at 60 % hydration
  keep      40 g

scald
  40 g      dark rye flour
  160 g     water at 98 C
  yields    185 g

dough
  800 g     bread flour
  400 g     water
  300 g     levain
  all       scald
  18 g      salt
`)).toMatchInlineSnapshot(`
  "
  Formula without a name

  flour in all   993 g      hydration            69.6 %      prefermented flour  15.4 %
  dough         1703 g      water in all         69.6 %      inoculation         30.2 %
                            effective hydration  69.6 %      flour protein       12.1 %
                            salt                  1.8 %

                  Total formula         levain          scald    Final dough
                       g      %       g      %       g      %       g      %
  bread flour        937   94.3     200  100.0                    800  100.0
  dark rye flour      40    4.0                     40  100.0
  water              696   70.1     200  100.0     160  400.0     400   50.0
  salt                18    1.8                                    18    2.3
  starter             27    2.7      40   20.0
  levain                                                          300   37.5
  scald                                                           185   23.1
  ──────────────────────────────────────────────────────────────────────────
  in all            1718  172.9     440  220.0     200  500.0    1703  212.9
  cooked off         -15                           -15
  kept back                         -40
  left over                        -100
  for the dough     1703            300            185

  Notes
    levain   starter at 60 % hydration
    scald    water at 98 °C

  % of all flour in the total formula, of its own flour in each other column. Inoculation is ripe
  levain or starter over all flour.
  "
`);
  });

  test('a filling stands on its own below, with what is to be minded of it', () => {
    expect(sheet(`
formula "Knots"
  makes     12 knots of 80 g

dough
  100 %     bread flour
  60 %      milk
  2 %       salt
  1 %       instant yeast

filling
  120 g     butter, soft
  1 tbsp    ground cinnamon
  4         eggs
`)).toMatchInlineSnapshot(`
  "
  Knots
  12 knots of 80 g

  flour in all  589 g      hydration             0.0  %      sugar           3.0 %
  dough         960 g      water in all          0.0  %      milk solids     5.2 %
  one piece      80 g      effective hydration  52.9  %      flour protein  12.0 %
                           salt                  2.0  %
                           salt within others    0.07 %

                 Total formula
                      g      %
  bread flour     589    100.0
  salt             12      2.0
  instant yeast     5.9    1.0
  milk            353     60.0
  ────────────────────────────
  in all          960    163.0

  filling                          g      %
    butter                     120     36.6   soft
    ground cinnamon              7.8    2.4   1 tbsp
    eggs                       200     61.0   4 eggs
    in all                     328    100.0

  % of all flour.
  "
`);
  });

  test('what cannot be known is a dash, and so is every sum that hangs on it', () => {
    expect(sheet(`
formula "Not finished"

dough
  500 g     bread flour
  1 cup     unobtainium
  10 g      salt
`)).toMatchInlineSnapshot(`
  "
  Not finished

  flour in all  500 g      hydration            –          sugar           –
  dough           –        water in all         –          fat             –
                           effective hydration  –          flour protein  12.0 %
                           salt                 2.0 %

               Total formula
                    g      %
  bread flour     500  100.0
  salt             10    2.0
  unobtainium       –    –
  ──────────────────────────
  in all            –    –

  Notes
    dough   unobtainium, 1 cup

  % of all flour.
  "
`);
  });

  test('a formula with nothing in it yet', () => {
    expect(sheet('formula "Next week"\n')).toMatchInlineSnapshot(`
      "
      Next week

      Nothing is weighed into it yet.
      "
    `);
  });

  test('a dish is a plain list', () => {
    expect(sheet(`
dish "Bread pudding"
  serves    4
  uses      300 g "Fig and walnut rye"

custard
  500 ml    milk
  3         eggs
  80 g      sugar
`)).toMatchInlineSnapshot(`
  "
  Bread pudding
  serves 4

  in the dish                      g
    Fig and walnut rye           300

  custard                          g
    milk                         516   500 ml
    eggs                         150   3 eggs
    sugar                         80
    in all                       746
  "
`);
  });
});

describe('room', () => {
  const MANY = `
formula "Everything loaf"
  makes     2 loaves of 900 g

levain
  50 g      dark rye flour
  50 g      water
  10 g      starter

poolish
  80 g      bread flour
  80 g      water
  1 pinch   instant yeast

scald "crushed barley and rye porridge"
  30 g      dark rye flour
  150 g     water at 98 C

soaker "five seeds of the mill by the river"
  40 g      sunflower seeds, toasted until they smell of nuts and then left to cool on the tray before they are soaked
  20 g      flax seeds
  90 g      water

dough
  700 g     bread flour
  300 g     water
  all       levain
  all       poolish
  all       crushed barley and rye porridge
  all       five seeds of the mill by the river
  19 g      salt
`;

  test('a table with too many parts for the line is taken apart', () => {
    expect(sheet(MANY)).toMatchInlineSnapshot(`
      "
      Everything loaf
      2 loaves of 810 g

      flour in all   865 g      hydration            67.6 %      prefermented flour  15.6 %
      dough         1619 g      water in all         78.0 %      inoculation         12.7 %
      one piece      810 g      effective hydration  71.1 %      inclusions           6.9 %
                                salt                  2.2 %      flour protein       12.3 %

                                   Total formula    Final dough
                                       g       %       g      %
      bread flour                  780     90.2      700  100.0
      dark rye flour                80      9.2
      water                        670     77.5      300   42.9
      salt                          19      2.2       19    2.7
      starter                       10      1.2
      instant yeast                  0.3    0.03
      sunflower seeds               40      4.6
      flax seeds                    20      2.3
      levain                                         110   15.7
      poolish                                        160   22.9
      crushed barley and rye                         180   25.7
        porridge
      five seeds of the mill by                      150   21.4
        the river
      ─────────────────────────────────────────────────────────
      in all                      1619    187.2     1619  231.3

      levain                           g      %
        dark rye flour                50  100.0
        water                         50  100.0
        starter                       10   20.0
        in all                       110  220.0

      poolish                          g       %
        bread flour                 80    100.0
        water                       80    100.0
        instant yeast                0.3    0.38   1 pinch
        in all                     160    200.4

      crushed barley and rye porridge (scald)
                                       g      %
        dark rye flour                30  100.0
        water                        150  500.0   at 98 °C
        in all                       180  600.0

      five seeds of the mill by the river (soaker)
                                       g      %
        sunflower seeds               40   26.7   toasted until they smell of nuts and then left to
                                                  cool on the tray before they are soaked
        flax seeds                    20   13.3
        water                         90   60.0
        in all                       150  100.0

      % of all flour in the total formula, of its own flour in each other column. Inoculation is ripe
      levain or starter over all flour.
      "
    `);
  });

  test.each([100, 80, 60])('no line is wider than %i columns', (width) => {
    for (const line of sheetText(entryOf(MANY), { width, paint: plain }).split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(width);
  });

  test('wide letters are counted as wide', () => {
    const lines = sheet('dough\n  100 g "强力粉" as flour\n  60 g water\n').split('\n');
    const [flour = '', water = ''] = [lines.find((line) => line.startsWith('强力粉')), lines.find((line) => line.startsWith('water'))];
    expect(widthOf(flour.slice(0, flour.indexOf('100')))).toBe(water.indexOf('60') - 1);
  });
});

test('another size: the view says so, and amounts by the piece as written are left out', () => {
  const entry = entryOf('formula "Knots"\n  makes 12 knots of 80 g\n\ndough\n  100 % bread flour\n  60 % milk\n  2 % salt\n\nwash\n  1 egg\n');
  const scaled = scaleFormula(entry.formula, { by: 'pieces', pieces: 30 }, entry.totals.flour_g);
  if (scaled.kind === 'cannot') throw new Error(scaled.message);
  const { formula, factor } = scaled;
  const text = sheetText({ ...entry, formula, totals: totalsOf(formula), sheet: sheetOf(formula), factor });
  expect(text).toMatch(/^30 knots of 80 g · 2\.5 times the size written$/m);
  expect(text).not.toContain('1 egg');
  expect(text).toMatch(/^in all +2400 /m);
});

test.each([['2 loaves', 1, '1 loaf'], ['1 loaf', 2, '2 loaves'], ['12 knots', 1, '1 knot'], ['1 brioche', 3, '3 brioches'], ['2 batches', 1, '1 batch'], ['2 loaves', 3, '3 loaves']])(
  '%s, at the size of %i: %s', (makes, pieces, words) => {
    const entry = entryOf(`formula "X"\n  makes ${makes} of 80 g\n\ndough\n  100 % bread flour\n  60 % water\n`);
    const scaled = scaleFormula(entry.formula, { by: 'pieces', pieces }, entry.totals.flour_g);
    if (scaled.kind === 'cannot') throw new Error(scaled.message);
    expect(sheetText({ ...entry, ...scaled }).split('\n')[1]).toMatch(new RegExp(`^${words} of 80 g`));
  },
);

// --- printed columns add up -------------------------------------------------------------------------------------------

/** Columns that the names take in the formula below. */
const NAMES = 'whole wheat flour'.length;

/** The numbers of each column of the table, by the place where they end: read off the text as a person would. */
function columnsOf(text: string): readonly { readonly title: string; readonly cells: readonly number[]; readonly total: number }[] {
  const lines = text.split('\n');
  const unitLine = lines.findIndex((line) => /^ +g +%/.test(line));
  const rule = lines.findIndex((line) => line.startsWith('─'));
  const units = lines[unitLine]!;
  const edges = [...units.matchAll(/[g%]/g)].map(({ index }) => index + 1);
  const cellAt = (line: string, column: number): string => line.slice(column === 0 ? NAMES : edges[column - 1]!, edges[column]).trim();
  return edges.flatMap((_, column) => {
    if (column % 2 === 1) return [];
    const cells = lines.slice(unitLine + 1, rule).map((line) => cellAt(line, column)).filter((cell) => cell !== '');
    const total = cellAt(lines[rule + 1]!, column);
    return [{ title: String(column), cells: cells.map(Number), total: Number(total) }];
  });
}

test('every printed column of grams adds up to its printed total', () => {
  const grams = fc.integer({ min: 1, max: 30_000 }).map((tenths) => `${String(tenths / 10)} g`);
  const text = fc.record({ rye: grams, levainWater: grams, starter: grams, figs: grams, soakingWater: grams, flour: grams, wheat: grams, water: grams, salt: grams, nuts: grams, factor: fc.double({ min: 0.05, max: 50, noNaN: true }) });
  fc.assert(
    fc.property(text, (g) => {
      const entry = entryOf(`
levain
  ${g.rye} dark rye flour
  ${g.levainWater} water
  ${g.starter} starter

soaker
  ${g.figs} dried figs
  ${g.soakingWater} water

dough
  ${g.flour} bread flour
  ${g.wheat} whole wheat flour
  ${g.water} water
  all levain
  ${g.salt} salt
  ${g.nuts} walnuts
  all soaker
`);
      const scaled = scaleFormula(entry.formula, { by: 'factor', factor: g.factor }, entry.totals.flour_g);
      if (scaled.kind === 'cannot') throw new Error(scaled.message);
      const { formula } = scaled;
      const columns = columnsOf(sheetText({ ...entry, formula, totals: totalsOf(formula), sheet: sheetOf(formula) }));
      expect(columns).toHaveLength(4);
      for (const { cells, total } of columns) {
        expect(cells.length).toBeGreaterThan(1);
        // What is less than the scale shows is printed all the same, and is no part of the sum.
        const shown = cells.filter((cell) => Number(cell.toFixed(1)) === cell);
        // Weights of 0.1 g stand beside a total in whole grams: then the sum rounds to it.
        const fine = shown.some((cell) => cell % 1 !== 0);
        expect(Math.abs(shown.reduce((sum, cell) => sum + cell, 0) - total)).toBeLessThanOrEqual(fine ? 0.5 + 1e-6 : 1e-6);
      }
    }),
  );
});
