/**
 * What a hand writes by mistake at five in the morning. One finding each, which says the number, the limit, what comes of it
 * and what to do; and a total that cannot be known is no number, and the reason is said.
 */
import { describe, expect, test } from 'vitest';
import { whyUnknown } from '../../../server/output/facts/unknown';
import { analyseText, findingsIn } from '../bake';

const said = (text: string) => findingsIn(text).map(({ code, text: at, message }) => `${code} at ${at}: ${message}`);
const offered = (text: string) => analyseText(text).flatMap(({ findings }) => findings.flatMap(({ fixes }) => fixes.map(({ title }) => title)));
const codes = (text: string) => findingsIn(text).map(({ code }) => code);
const first = (text: string) => analyseText(text).find(({ formula }) => formula !== undefined)!;
const why = (text: string) => {
  const { formula, section } = first(text);
  return whyUnknown({ formula: formula!, section });
};

const loaf = (dough: string, head = '', steps = '') => `formula "Stall loaf"\n${head}\ndough\n${dough}${steps && `\nsteps\n${steps}`}`;
const PLAIN = '  1000 g bread flour\n  700 g water\n  20 g salt\n  5 g instant yeast\n';
const SHARES = '  100 % bread flour\n  70 % water\n  2 % salt\n';
const DIGITS = '9'.repeat(400);

describe('amounts', () => {
  test.each([
    ['a negative weight', loaf(PLAIN.replace('700 g', '-700 g')), 'not-understood at -700: -700 is below zero, which no amount can be: write 700, or take the line out.'],
    ['a negative share', loaf(SHARES.replace('2 %', '-2 %'), '  makes 2 loaves of 900 g\n'), 'not-understood at -2: -2 is below zero, which no amount can be: write 2, or take the line out.'],
    ['a digit too many in the flour', loaf(PLAIN.replace('1000 g', '10000 g')), 'hydration-impossible at dough: The dough has 700 g of moisture to 10000 g of flour, 7 %: that stays powder (20 % at least). Is it 1000 g of “bread flour”, not 10000 g?'],
    ['a digit too many in the water', loaf(PLAIN.replace('700 g', '7000 g')), 'hydration-impossible at dough: The dough has 7000 g of moisture to 1000 g of flour, 700 %: that is soup (200 % at most). Is it 700 g of “water”, not 7000 g?'],
    ['flour and water that no one digit puts right', loaf(PLAIN.replace('1000 g', '7000 g').replace('700 g', '70 g')), 'hydration-impossible at dough: The dough has 70 g of moisture to 7000 g of flour, 1 %: that stays powder (20 % at least). Is a digit too many in the flour, or is water missing?'],
    ['a share as a fraction', loaf(SHARES.replace('70 %', '0.72 %'), '  makes 1 loaf of 900 g\n'), 'hydration-impossible at dough: The dough has 6.3 g of moisture to 876 g of flour, 0.7 %: that stays powder (20 % at least). Is 72 % of “water” meant, written as a fraction?'],
    ['25 % with two digits too many', loaf(SHARES.replace('70 %', '2500 %'), '  makes 1 loaf of 900 g\n'), 'hydration-impossible at dough: The dough has 865 g of moisture to 35 g of flour, 2500 %: that is soup (200 % at most). Is there a digit too many, or is it a `batter`?'],
    ['all shares as fractions', loaf('  1 % bread flour\n  0.72 % water\n  0.02 % salt\n', '  makes 1 loaf of 900 g\n'), 'flour-not-whole at 1 %: The flours of “dough” come to 1 %, not to 100 %, so part of the flour is missing. Shares are per cent and no fractions: write `100 %` for all of it.'],
    ['no water at all', loaf(PLAIN.replace('  700 g water\n', '')), 'hydration-impossible at dough: The dough has 0.29 g of moisture to 1000 g of flour, 0 %: that stays powder (20 % at least). Is a digit too many in the flour, or is water missing?'],
    ['a tablespoon of salt for a teaspoon', loaf('  500 g bread flour\n  350 g water\n  2 tbsp salt\n'), 'salt-high at 2 tbsp: Salt is 7.2 % of the flour, over 2.5 %. The dough will hardly rise and the bread will be too salty to eat: is tsp meant where 2 tbsp is written?'],
    ['yeast without a unit', loaf(PLAIN.replace('5 g', '5')), 'needs-a-weight at 5: `5` has no unit, and nobody counts “instant yeast”. Write what it weighs, like `5 g instant yeast`.'],
    ['water without a unit', loaf(PLAIN.replace('700 g', '700')), 'needs-a-weight at 700: `700` has no unit, and nobody counts “water”. Write what it weighs, like `700 g water`.'],
    ['next to nothing of everything', loaf('  0.001 g bread flour\n  70 % water\n  2 % salt\n'), 'pieces-odd at dough: The whole dough weighs next to nothing, under 8 g: not even one small piece. Is a digit missing, or `g` written for `kg`?'],
    ['tons of it', loaf('  900000000 g bread flour\n  70 % water\n  2 % salt\n'), 'pieces-odd at dough: The whole dough weighs 1548000000 g, over 5000000 g, more than a bakery mixes. Is a digit too many, or `kg` written for `g`?'],
  ])('%s', (_what, text, expected) => {
    expect(said(text)).toEqual([expected]);
  });

  test('a number of 400 digits is told once and counts as nothing known', () => {
    for (const text of [loaf(PLAIN.replace('1000', DIGITS)), loaf(SHARES, `  makes ${DIGITS} loaves of 900 g\n`), loaf(PLAIN, '', `  mix ${DIGITS} min\n`)]) {
      expect(codes(text)).toEqual(['not-understood']);
    }
    expect(first(loaf(PLAIN.replace('1000', DIGITS))).totals).toMatchObject({ flour_g: null, dough_g: null, hydration_pct: null });
    expect(why(loaf(PLAIN.replace('1000', DIGITS)))).toBe('Not known: the amount of bread flour cannot be read.');
  });

  test('no flour: no share of it is known, and that is said', () => {
    const text = loaf(PLAIN.replace('1000 g', '0 g'));
    expect(codes(text)).toEqual(['no-flour', 'amount-zero']);
    expect(first(text).totals).toMatchObject({ flour_g: 0, dough_g: 725, hydration_pct: null, salt_pct: null });
    expect(why(text)).toBe('Not known: the shares of the flour, for no line of the dough is flour with a weight.');
  });

  test('a part of nothing adds nothing, and the dough keeps its weight', () => {
    const text = `formula "Stall loaf"\n\npoolish\n  0 g bread flour\n  0 g water\n\ndough\n${PLAIN}  all poolish\n`;
    expect(codes(text)).toEqual(['amount-zero', 'amount-zero']);
    expect(first(text).totals?.dough_g).toBe(1725);
  });
});

describe('size', () => {
  test.each([
    ['no pieces', '0 loaves of 900 g', 'makes-nothing at 0 loaves', 'Not known: makes says no pieces.'],
    ['pieces of nothing', '2 loaves of 0 g', 'makes-nothing at 0 g', 'Not known: makes says pieces of nothing.'],
    ['tins of nothing', '2 tins of 0 l', 'makes-nothing at 0 l', 'Not known: makes says tins of nothing.'],
    ['a piece over nothing', '1/0 loaves of 900 g', 'not-understood at 1/0', 'Not known: nothing fixes how much dough is made; give one line of it in grams, or say what the formula makes.'],
    ['fewer than none', '-2 loaves of 900 g', 'not-understood at -2', 'Not known: nothing fixes how much dough is made; give one line of it in grams, or say what the formula makes.'],
  ])('%s', (_what, makes, finding, reason) => {
    const text = loaf(SHARES, `  makes ${makes}\n`);
    expect(findingsIn(text).map(({ code, text: at }) => `${code} at ${at}`)).toEqual([finding]);
    expect(Object.values(first(text).totals!).every((value) => value === null)).toBe(true);
    expect(why(text)).toBe(reason);
  });

  test('all in shares, and nothing that says how much', () => {
    expect(codes(loaf(SHARES))).toEqual(['no-size']);
    expect(why(loaf(SHARES))).toContain('nothing fixes how much dough is made');
  });

  test('a dough in grams keeps its weight beside a `makes` of nothing', () => {
    const text = loaf(PLAIN, '  makes 2 tins of 0 l\n');
    expect(codes(text)).toEqual(['makes-nothing']);
    expect(first(text).totals?.dough_g).toBe(1725);
  });

  test('less asked for than is weighed', () => {
    const text = loaf('  100 % bread flour\n  300 g water\n  150 g raisins\n', '  makes 1 loaf of 400 g\n');
    expect(said(text)).toEqual([
      'contradiction at makes 1 loaf of 400 g: What is weighed in grams comes to 450 g, and the formula is to make 400 g, so nothing is left for the flour. Weigh in less, or make more.',
    ]);
    expect(why(text)).toBe('Not known: what is weighed in grams comes to 450 g, and the formula is to make 400 g, so nothing is left for the flour.');
  });

  test.each([
    ['100 % in the oven', 'no bread would be left, so the loss is not counted'],
    ['150 % in the oven', 'no bread would be left, so the loss is not counted'],
    ['60 % in the oven', 'most of the dough would be gone'],
    ['100 % at the bench', 'no bread would be left, so the loss is not counted'],
  ])('a loss of %s', (loss, consequence) => {
    const text = loaf(SHARES, `  makes 2 loaves of 900 g\n  loses ${loss}\n`);
    expect(codes(text)).toEqual(['loss-odd']);
    expect(said(text)[0]).toContain(consequence);
    // No dough without end is made up for it.
    expect(first(text).totals?.dough_g).toBeCloseTo(1800, 6);
    if (!loss.startsWith('60')) expect(first(text).totals?.baked_piece_g).toBeNull();
  });
});

describe('parts', () => {
  test('that need each other, and one that needs itself', () => {
    const two = `formula "Stall loaf"\n\npoolish "one"\n  100 g bread flour\n  100 g water\n  all two\n\npoolish "two"\n  100 g bread flour\n  all one\n\ndough\n${PLAIN}  all one\n`;
    expect(said(two)).toEqual(['part-cycle at one: “one” and “two” need each other, so neither can be made first and nothing can be weighed. Take one out of the other.']);
    expect(why(two)).toBe('Not known: one and two need each other first.');
    const itself = loaf(`${PLAIN}  all dough\n`);
    expect(said(itself)).toEqual(['part-cycle at dough: “dough” takes itself in, so it would have to be made before it is made. Take this line out, or name another part.']);
    expect(why(itself)).toBe('Not known: dough takes itself in.');
  });

  const levain = (line: string) => `formula "Stall loaf"\n\nlevain\n  100 g bread flour\n  100 g water\n  20 g starter\n${line}\ndough\n${PLAIN.replace('  5 g instant yeast\n', '')}  all levain\n`;

  test('more is kept back than the levain makes: no negative weight reaches the dough', () => {
    const text = levain('  keep 500 g\n');
    expect(said(text)).toEqual(['part-short at keep 500 g: “levain” makes 220 g, and `keep` holds back 500 g of it: nothing is left for the dough. Make more of it, or keep less.']);
    expect(first(text).totals?.dough_g).toBeNull();
    expect(why(text)).toBe('Not known: levain keeps back more than it makes.');
    expect(codes(levain('  keep 20 g\n'))).toEqual([]);
    expect(first(levain('  keep 220 g\n')).totals?.dough_g).toBeCloseTo(1720, 6);
  });

  const scald = (yields: string, rest = 'rest 1 h') => `formula "Stall loaf"\n\nscald\n  100 g rye flour\n  200 g water at 95 C\n  yields ${yields}\n  ${rest}\n\ndough\n${PLAIN}  all scald\n`;

  test('cooked to nothing, or to more than went in', () => {
    expect(said(scald('0 g'))).toEqual(['contradiction at yields 0 g: Cooked down to nothing, “scald” brings nothing to the dough. Write what it weighs after cooking, or take the line out.']);
    expect(first(scald('0 g')).totals?.dough_g).toBeNull();
    expect(said(scald('310 g'))).toEqual(['yields-odd at yields 310 g: 300 g goes into “scald” and 310 g is to come out: the 10 g more would be water that no line names. Correct the weight, write the water as a line, or add the `boil` it drinks in.']);
    // What is boiled drinks.
    expect(codes(scald('310 g', 'boil 20 min'))).toEqual([]);
  });

  test('more flour in preferments than there is', () => {
    const text = (share: string) => `formula "Stall loaf"\n  makes 2 loaves of 900 g\n\nlevain\n  100 % bread flour\n  100 % water\n  20 % starter\n\ntotal formula\n  100 % bread flour\n  170 % water\n  2 % salt\n  ${share} of flour in levain\n`;
    expect(said(text('150 %'))).toEqual(['contradiction at 150 %: 150 % of the flour would be in preferments, and there is 100 % of it. Lower this share.']);
    expect(why(text('150 %'))).toBe('Not known: 150 % of the flour would be in preferments, and there is 100 % of it.');
    expect(codes(text('-15 %'))).toEqual(['not-understood']);
  });
});

describe('temperatures and times', () => {
  const steps = (line: string) => loaf(PLAIN, '', `  mix 8 min\n${line}`);

  test.each([
    ['a dough as hot as an oven', loaf(PLAIN).replace('dough\n', 'dough at 200 C\n'), 'temperature-odd at 200 C: For a dough, 200 C cannot be meant (50 C at most). That is an oven: does it belong to a `bake` step?'],
    ['a dough in Fahrenheit', loaf(PLAIN).replace('dough\n', 'dough at 75 C\n'), 'temperature-odd at 75 C: For a dough, 75 C cannot be meant (50 C at most). Is it meant in Fahrenheit?'],
    ['a dough colder than anything', loaf(PLAIN).replace('dough\n', 'dough at -300 C\n'), 'temperature-odd at -300 C: Nothing is as cold as -300 C: absolute zero is at -273 C. Correct the number.'],
    ['an oven as cold as a fridge', steps('  preheat 40 min at 240 C\n  bake 40 min at 4 C\n'), 'oven-temperature-odd at 4 C: 4 C is no oven heat: nothing bakes under 90 C. Is a digit missing?'],
    ['an oven colder than anything', steps('  preheat 40 min at 240 C\n  bake 40 min at -300 C\n'), 'temperature-odd at -300 C: Nothing is as cold as -300 C: absolute zero is at -273 C. Correct the number.'],
    ['an oven in Celsius read as Fahrenheit', loaf(PLAIN, '  style hearth\n', '  preheat 40 min at 240 F\n  bake 40 min at 240 F\n'), 'oven-cool at 240 F: 240 F (116 C) is cool for an oven (195 C at least for the style hearth): the loaf will be small, pale and dry. Is it meant in Celsius?'],
    ['a step of no time', steps('  shape 0 min\n'), 'duration-zero at 0 min: This shape takes no time at all. Write how long it takes, or leave the time out.'],
    ['a bulk of years', steps('  bulk 20000 h at 24 C\n'), 'duration-odd at 20000 h: 2 years is too long for this bulk (6 days at most). Is another unit meant?'],
  ])('%s', (_what, text, expected) => {
    expect(said(text)).toEqual([expected]);
  });

  test('an oven at room heat is a slip: nobody is told to preheat to it', () => {
    const baked = (heat: string) => loaf(PLAIN, '', `  mix 8 min\n  bulk 3 h at 24 C\n  bake 40 min at ${heat}\n`);
    expect(codes(baked('22 C'))).toContain('no-oven-heat');
    expect(offered(baked('22 C')).filter((title) => title.includes('Preheat'))).toEqual([]);
    expect(offered(baked('220 C'))).toContain('Preheat for 45 min at 220 C');
  });
});

describe('own ingredients', () => {
  const own = (lines: string) => `ingredient "Stall syrup"\n${lines}`;

  test.each([
    ['more than the whole', '  water 60 %\n  protein 50 %\n', 'composition-over-whole'],
    ['less than none', '  water -13 %\n', 'not-understood'],
    ['a density of 0', '  density 0 g per ml\n', 'ingredient-odd'],
    ['heavier than rock', '  density 100 kg per ml\n', 'ingredient-odd'],
    ['a piece of nothing', '  each 0 g\n', 'ingredient-odd'],
    ['thirst without end', '  absorbs 1000 times its weight\n', 'ingredient-odd'],
    ['a negative price', '  costs -4 EUR per kg\n', 'not-understood'],
    ['like itself', '  like stall syrup\n', 'like-missing'],
  ])('%s', (_what, lines, code) => {
    expect(codes(own(lines))).toEqual([code]);
  });

  test('two that are like each other: one of them is told', () => {
    const text = `ingredient "Aa flour"\n  like bb flour\n\ningredient "Bb flour"\n  like aa flour\n`;
    expect(said(text)).toEqual([
      'like-missing at aa flour: “aa flour” is itself like this ingredient, so neither says what is in it: its water, protein and role are not known. Name one that ships, like `like bread flour`.',
    ]);
  });

  test('what has a density of 0 is not weighed as nothing', () => {
    const text = `ingredient "Stall syrup"\n  density 0 g per ml   # accept ingredient-odd: to be weighed\n\n${loaf(`${PLAIN}  100 ml stall syrup\n`)}`;
    expect(codes(text)).toEqual(['needs-a-weight']);
    expect(first(text).totals?.dough_g).toBeNull();
    expect(why(text)).toBe('Not known: 100 ml stall syrup has no weight.');
  });
});

describe('variants', () => {
  const variant = (name: string, base: string) => `formula "${name}"\n  based on "${base}"\n  set water to 70 %\n\n`;

  test('based on itself, on each other, and on others that go round', () => {
    expect(said(variant('A', 'a'))).toEqual(['base-cycle at "a": “A” is based on itself, so nothing says what is in it. Name the formula it starts from.']);
    const ring = variant('A', 'B') + variant('B', 'C') + variant('C', 'A');
    expect(codes(ring)).toEqual(['base-cycle', 'base-cycle', 'base-cycle']);
    expect(said(ring)[0]).toBe(
      'base-cycle at "B": “A”, “B” and “C” are based on each other, so none of them says what is in the dough and nothing can be weighed. Base one of them on a formula with a dough of its own.',
    );
    // Whoever only leads into the ring is not part of it.
    expect(codes(variant('D', 'A') + ring).filter((code) => code === 'base-cycle')).toHaveLength(3);
  });
});
