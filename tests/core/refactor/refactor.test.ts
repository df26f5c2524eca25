/** Other ways to write a formula, one by one: what is offered where, and the text that comes of it. */
import { describe, expect, it } from 'vitest';
import { findingsIn } from '../bake';
import { expectSameBread, offeredAt } from './refactored';

const LOAF = `formula "Country loaf"
  makes     2 loaves of 860 g

dough at 25 C
  800 g     bread flour   # from the mill
  200 g     dark rye flour
  690 g     water at 30 C
  20 g      salt
  10 g      instant yeast
`;

const titles = (source: string) => offeredAt(source).map(({ title }) => title);
function after(source: string, id: string): string {
  const found = offeredAt(source).find((one) => one.id === id);
  expect(found, `${id} among ${titles(source).join(', ')}`).toBeDefined();
  return found!.after();
}
const body = (text: string): string => text.split('\n').filter((line) => line !== '').join('\n');

describe('shares and grams', () => {
  it('all in shares where makes says the very size', () => {
    expect(after(LOAF.replace('dough', 'do┆ugh'), 'part-in-shares')).toBe(`formula "Country loaf"
  makes     2 loaves of 860 g

dough at 25 C
  80 %      bread flour   # from the mill
  20 %      dark rye flour
  69 %      water at 30 C
  2 %       salt
  1 %       instant yeast
`);
  });

  it('and back, to the letter', () => {
    const shares = after(LOAF.replace('dough', 'do┆ugh'), 'part-in-shares');
    expect(after(shares.replace('dough', 'do┆ugh'), 'part-in-grams')).toBe(LOAF);
  });

  it('a flour keeps its weight where nothing else says how much there is', () => {
    const source = LOAF.replace('  makes     2 loaves of 860 g\n', '  makes     2 loaves\n').replace('dough', 'do┆ugh');
    expect(titles(source)).toContain("Write the dough in baker's percentages; bread flour keeps its weight");
    expect(after(source, 'part-in-shares')).toContain('  800 g     bread flour   # from the mill\n  20 %      dark rye flour\n  69 %      water at 30 C\n');
  });

  it('a part that is called for whole keeps a weight, one that is called for by weight needs none', () => {
    const levain = (taken: string) => `formula "F"

le┆vain
  50 g      dark rye flour
  40 g      water
  10 g      starter

dough
  500 g     bread flour
  300 g     water
  ${taken} levain
  10 g      salt
`;
    expect(after(levain('all'), 'part-in-shares')).toContain('  50 g      dark rye flour\n  80 %      water\n  20 %      starter\n');
    expect(after(levain('100 g'), 'part-in-shares')).toContain('  100 %     dark rye flour\n  80 %      water\n  20 %      starter\n');
  });

  it('says what rounding does', () => {
    // Of 1800 g in 191.9 %: 562.79, 375.2, 624.7, 18.76 and 218.55 g become 563, 375, 625, 19 and 219 g.
    const source = 'formula "F"\n  makes 3 loaves of 600 g\n\ndo┆ugh\n  60 %      bread flour\n  40 %      dark rye flour\n  66.6 %    water\n  2 %       salt\n  23.3 %    walnuts\n';
    expect(titles(source).filter((title) => title.startsWith('Write the dough in grams'))).toEqual(['Write the dough in grams: rounding makes it 1 g more']);
  });

  it('one line at a time, but for flours', () => {
    expect(titles(LOAF.replace('20 g      salt', '20 g      sa┆lt'))).toContain('Write 2 % salt');
    expect(after(LOAF.replace('20 g      salt', '20 g      sa┆lt'), 'line-in-shares')).toBe(LOAF.replace('20 g      salt', '2 %       salt'));
    expect(titles(LOAF.replace('bread flour', 'bread fl┆our')).filter((title) => / flour$/.test(title))).toEqual([]);
  });

  it('a range stays one', () => {
    expect(after(LOAF.replace('690 g     water', '680 to 700 g w┆ater'), 'part-in-shares')).toContain('  68 to 70 % water at 30 C\n');
  });

  it('not where something is not known, cannot be read or does not add up', () => {
    for (const wrong of [LOAF.replace('690 g', '690'), LOAF.replace('20 g      salt', '2 cups    sumac leaves'), LOAF.replace('690 g     water', 'all       levain')]) {
      expect(titles(wrong.replace('dough', 'do┆ugh'))).toEqual([]);
    }
  });
});

const LEVAIN = `formula "Rye hearth"
  makes     2 loaves

levain
  80 g      dark rye flour
  80 g      water at 28 C
  16 g      starter
  ripen     8 h at 24 C

dough at 25 C
  700 g     bread flour   # from the mill
  500 g     water
  all       levain
  16 g      salt
`;

describe('a dough and its total formula', () => {
  it('counts the levain in, its starter as the flour and water that it is', () => {
    const total = after(LEVAIN.replace('dough', 'do┆ugh'), 'as-total');
    expect(total).toContain(`total formula at 25 C
  700 g     bread flour   # from the mill
  88 g      dark rye flour
  588 g     water
  all       levain
  16 g      salt
`);
    expectSameBread(LEVAIN, total, 1e-9);
  });

  it('takes it out again, to the letter', () => {
    const total = after(LEVAIN.replace('dough', 'do┆ugh'), 'as-total');
    expect(after(total.replace('total', 'to┆tal'), 'as-dough')).toBe(LEVAIN);
  });

  it('keeps the comment of a line that goes out', () => {
    const total = after(LEVAIN.replace('dough', 'do┆ugh'), 'as-total').replace('88 g      dark rye flour', '88 g      dark rye flour  # coarse');
    const dough = after(total.replace('total', 'to┆tal'), 'as-dough');
    expect(dough).not.toContain('  88 g');
    expect(dough).toContain('\n  # coarse\n');
  });

  it('says of a levain in shares how much of the flour is in it', () => {
    // 22 g of it hold 11 g of flour, beside 100 g in the dough: 11 of 111.
    const shares = 'formula "F"\n  makes     2 loaves of 900 g\n\nlevain\n  100 %     bread flour\n  100 %     water\n  20 %      starter\n\ndough\n  100 %     bread flour\n  60 %      water\n  22 %      levain\n  2 %       salt\n';
    const total = after(shares.replace('dough', 'do┆ugh'), 'as-total');
    expect(total).toMatch(/^ {2}9\.9099 % +of flour in levain$/m);
    expectSameBread(shares, total, 1e-4);
    const back = after(total.replace('total formula', 'to┆tal formula'), 'as-dough');
    expect(back).toMatch(/^ {2}22 % +levain$/m);
    expectSameBread(shares, back, 1e-4);
  });

  it('is not offered where there is no preferment', () => {
    expect(offeredAt(LOAF.replace('dough', 'do┆ugh')).map(({ id }) => id)).not.toContain('as-total');
  });
});

describe('a preferment taken out', () => {
  it('moves flour, water and some of the yeast to the evening before', () => {
    const poolish = after(LOAF.replace('dough', 'do┆ugh'), 'extract-poolish');
    expect(poolish).toBe(`formula "Country loaf"
  makes     2 loaves of 860 g

poolish
  200 g     bread flour
  200 g     water
  0.16 g    instant yeast
  ripen     12 to 14 h at 21 C

dough at 25 C
  600 g     bread flour   # from the mill
  200 g     dark rye flour
  490 g     water at 30 C
  all       poolish
  20 g      salt
  9.84 g    instant yeast
`);
    expectSameBread(LOAF, poolish, 1e-9);
  });

  it('moves the culture whole into a levain', () => {
    const source = LOAF.replace('  10 g      instant yeast', '  60 g      ripe starter');
    const levain = after(source.replace('dough', 'do┆ugh'), 'extract-levain');
    expect(body(levain)).toContain('levain\n  200 g     bread flour\n  200 g     water\n  60 g      ripe starter\n  ripen     6 to 8 h at 25 C\ndough at 25 C\n');
    expect(levain).toContain('  20 g      salt\n  all       levain\n');
    expectSameBread(source, levain, 1e-9);
  });

  it('of a total formula says only how much of the flour goes in', () => {
    const total = LOAF.replace('dough', 'total formula').replace('800 g ', '80 %  ').replace('200 g ', '20 %  ').replace('690 g ', '69 %  ').replace('20 g ', '2 %  ').replace('10 g ', '1 %  ');
    const biga = after(total.replace('total', 'to┆tal'), 'extract-biga');
    expect(body(biga)).toContain('biga\n  100 %     bread flour\n  50 %      water\n  0.2 %     instant yeast\n  ripen     12 to 16 h at 18 C\ntotal formula at 25 C\n');
    expect(biga).toMatch(/^ {2}20 % +of flour in biga$/m);
    expectSameBread(total, biga, 1e-4);
  });

  it.each([
    '20 g      starter', '40 g      starter', '60 g      starter', '120 g     starter', '400 g     starter',
    '10 g      instant yeast', '30 g      fresh yeast', '12 g      active dry yeast',
  ])('is found at fault by no check: %s', (leaven) => {
    const source = `${LOAF.replace('2 loaves of 860 g', '2 loaves\n  room      22 C').replace('10 g      instant yeast', leaven)}
steps
  mix       8 min
  bulk      3 h at 25 C
  shape     10 min
  proof     75 min at 25 C
  preheat   45 min at 240 C
  bake      40 min at 240 C
  cool      2 h
`;
    const before = findingsIn(source).map(({ code }) => code);
    const extracts = offeredAt(source.replace('dough', 'do┆ugh')).filter(({ kind }) => kind === 'extract');
    expect(extracts.length).toBeGreaterThan(0);
    for (const one of extracts) expect(findingsIn(one.after()).map(({ code }) => code).filter((code) => !before.includes(code)), one.title).toEqual([]);
  });

  it('only those that there is leaven for, and no second of a name', () => {
    const ids = (source: string) => offeredAt(source.replace('dough', 'do┆ugh')).filter(({ kind }) => kind === 'extract').map(({ id }) => id);
    expect(ids(LOAF)).toEqual(['extract-poolish', 'extract-biga']);
    expect(ids(LOAF.replace('  10 g      instant yeast', '  60 g      ripe starter'))).toEqual(['extract-levain']);
    expect(ids(LOAF.replace('10 g      instant yeast', '0.1 g     instant yeast'))).toEqual([]);
    expect(ids(after(LOAF.replace('dough', 'do┆ugh'), 'extract-poolish'))).toEqual(['extract-biga']);
    expect(ids(`${LOAF}\nsteps\n  mix       8 min\n  rest      20 min, add 50 g of water\n  mix       4 min, add rest of water\n`)).toEqual([]);
  });
});

describe('pieces folded in by halves', () => {
  const NUTS = `${LOAF.replace('2 loaves of 860 g', '2 loaves')}  150 g     wal┆nuts, toasted

steps
  mix       8 min
  bulk      3 h at 24 C
    fold    at 30 min  # gently
    fold    at 60 min
    fold    at 90 min
`;

  it('at the folds after the first', () => {
    expect(titles(NUTS)).toContain('Fold in walnuts by halves, at 60 min and at 90 min');
    const halved = after(NUTS, 'halves');
    expect(halved).toContain('    fold    at 60 min, add half of walnuts\n    fold    at 90 min, add rest of walnuts\n');
    expectSameBread(NUTS.replace('┆', ''), halved, 1e-9);
  });

  it('from the fold that adds them whole', () => {
    const source = NUTS.replace('┆', '').replace('at 30 min', 'at 30 min, add wal┆nuts');
    expect(after(source, 'halves')).toContain('    fold    at 30 min, add half of walnuts  # gently\n    fold    at 60 min, add rest of walnuts\n');
  });

  it('not where they are added already, and not flour', () => {
    expect(titles(NUTS.replace('at 60 min', 'at 60 min, add half of walnuts').replace('at 90 min', 'at 90 min, add rest of walnuts')).filter((title) => title.startsWith('Fold'))).toEqual([]);
    expect(titles(NUTS.replace('┆', '').replace('bread fl', 'bread fl┆')).filter((title) => title.startsWith('Fold'))).toEqual([]);
  });
});

describe('measures, ounces and Fahrenheit', () => {
  const CUPS = `formula "Tin loaf"
  makes     1 loaf of 2 lb
  room      75 F

dough at 78 F
  4 cups    bread flour  # scooped
  12 oz     water at 90 F
  2 tsp     salt
  1 tsp     instant yeast

steps
  bake      40 min at 425 F, until core 205 F
`;

  it('the weight beside a measure, or in its place', () => {
    const source = CUPS.replace('2 tsp     salt', '2 tsp     sa┆lt');
    expect(titles(source)).toEqual(expect.arrayContaining(['Write the weight beside it: 2 tsp (12 g)', 'Write 12 g for 2 tsp']));
    expect(after(source, 'weight-beside')).toContain('  2 tsp (12 g) salt\n');
    expect(after(source, 'by-weight')).toContain('  12 g      salt\n');
  });

  it('a temperature at the cursor', () => {
    expect(titles(CUPS.replace('425 F', '42┆5 F'))).toContain('Write 218 C for 425 F');
    expect(after(CUPS.replace('90 F', '9┆0 F'), 'celsius')).toContain('water at 32 C\n');
  });

  it('all of a formula at its head, and then no more', () => {
    const metric = after(CUPS.replace('formula', 'for┆mula'), 'metric');
    expect(metric).toContain('  room      24 C\n\ndough at 25.5 C\n');
    expect(metric).toMatch(/^ {2}\d{3} g {5}bread flour {2}# scooped$/m);
    expect(metric).toContain('  340 g     water at 32 C\n');
    expect(metric).toContain('at 218 C, until core 96 C\n');
    expect(titles(metric.replace('formula', 'for┆mula'))).not.toContain('Write this formula in grams and Celsius');
  });

  it('the noun of makes as its number asks', () => {
    expect(after(LOAF.replace('2 loaves of', '1 loa┆ves of'), 'noun')).toContain('  makes     1 loaf of 860 g\n');
    expect(after(LOAF.replace('2 loaves of', '3 loa┆f of'), 'noun')).toContain('  makes     3 loaves of 860 g\n');
    expect(titles(LOAF.replace('2 loaves of', '2 loa┆ves of'))).toEqual([]);
  });
});
