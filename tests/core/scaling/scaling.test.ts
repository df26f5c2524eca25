import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalText, fractionText, inTheWayOf, stepInUnit, toScaleStep } from '../../../server/core/scaling/numbers';
import { agreeing, plural, singular } from '../../../server/core/scaling/nouns';
import type { ScaleRequest } from '../../../server/core/scaling/scale';
import { resolveText } from '../../reference/resolve-text';
import { scaled, tryScaled } from './rescaled';

const knots = `# For the stall
formula "Knots"   # ours
  makes     12 knots of 80 g

dough
  500 g     bread flour
  0.25 kg   milk at 30 C, whole
  2 eggs
  1 1/2 tsp (7.5 g) salt
  20 %      sugar
  4 to 5 g  instant yeast
  80 g      raisins

steps
  mix       8 min
  bulk      90 min at 25 C
    fold    at 30 min, add 40 g of raisins
    fold    at 60 min, add rest of raisins
`;

describe('scaling as an edit', () => {
  it('changes amounts and nothing else: shares, times, comments and layout stay', () => {
    expect(scaled(knots, 2).text).toBe(
      knots
        .replace('12 knots', '24 knots').replace('500 g  ', '1000 g ').replace('0.25 kg   ', '0.5 kg    ').replace('2 eggs', '4 eggs')
        .replace('1 1/2 tsp (7.5 g)', '3 tsp (15 g)').replace('4 to 5 g  ', '8 to 10 g ').replace('80 g      raisins', '160 g     raisins').replace('add 40 g', 'add 80 g'),
    );
  });

  it('by piece weight the pieces grow instead of their number', () => {
    expect(scaled(knots, 1.5, { by: 'piece', grams: 120 }).text).toContain('makes     12 knots of 120 g');
  });

  it('keeps eggs whole and corrects the milk, and says so', () => {
    const { text, notes } = scaled(knots, 1.25);
    // 2.5 eggs become 3, half an egg of 50 g too much: 312.5 g of milk less 25 g.
    expect(text).toContain('3 eggs');
    expect(text).toContain('0.2875 kg milk');
    expect(notes).toEqual(['milk: 25 g less, for the eggs stay whole.', 'eggs: 2.5 is taken as 3.']);
  });

  it('rounds to a scale step, finer for salt and yeast, and says what moved by more than 1 %', () => {
    const { text, notes } = scaled('formula "A"\ndough\n  503 g bread flour\n  9 g salt\n  13 g honey\n', 1 / 3, undefined, { grams: 5, smallGrams: 0.1 });
    expect(text).toContain('170 g bread flour\n  3 g salt\n  5 g honey');
    expect(notes).toEqual(['bread flour: rounding to 5 g moves it by 1.4 %, from 100 to 101.4 baker\'s %.', 'honey: rounding to 5 g moves it by 15.4 %, from 2.58 to 2.98 baker\'s %.']);
  });

  it('a formula all in shares changes what it makes', () => {
    expect(scaled('formula "A"\n  makes 2 loaves of 800 g\ndough\n  100 % bread flour\n  70 % water\n', 3).text).toContain('makes 6 loaves of 800 g');
  });

  it('scaling by k and then by 1/k gives the file back', () => {
    const amount = fc.oneof(fc.integer({ min: 1, max: 99_999 }).map(String), fc.integer({ min: 1, max: 999_99 }).map((n) => String(n / 100)));
    fc.assert(
      fc.property(amount, amount, amount, fc.integer({ min: 1, max: 12 }), fc.double({ min: 0.01, max: 100, noNaN: true }), (flour, water, salt, pieces, factor) => {
        const text = `formula "A"\n  makes ${pieces} ${pieces === 1 ? 'loaf' : 'loaves'}\ndough\n  ${flour} g bread flour   # from the mill\n  ${water} ml water\n  ${salt} mg salt\n`;
        expect(scaled(scaled(text, factor).text, 1 / factor).text).toBe(text);
      }),
    );
  });

  it('the edited text resolves to the scaled view', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 5000 }), fc.integer({ min: 50, max: 100 }), fc.double({ min: 0.1, max: 20, noNaN: true }), (flour, water, factor) => {
        const text = `formula "A"\nlevain\n  ${flour / 10} g bread flour\n  ${flour / 10} g water\ndough\n  ${flour} g bread flour\n  ${water} % water\n  all levain\n`;
        const view = resolveText(text, { by: 'factor', factor }).scaled!;
        const edited = resolveText(scaled(text, factor).text);
        expect(Math.abs(edited.totals.dough_g! / view.totals.dough_g! - 1)).toBeLessThan(1e-6);
      }),
    );
  });
});

describe('scaling as a view', () => {
  const loaf = 'formula "A"\n  makes 4 loaves of 900 g\nlevain\n  100 % bread flour\n  100 % water\n  20 % starter\ndough\n  2000 g bread flour\n  1160 g water\n  400 g levain\n  40 g salt\n';
  const dough = (request: ScaleRequest) => resolveText(loaf, request).scaled!;

  it.each<[ScaleRequest, number, number]>([
    [{ by: 'pieces', pieces: 6 }, 5400, 6],
    [{ by: 'piece', grams: 450 }, 1800, 4],
    [{ by: 'dough', grams: 900 }, 900, 1],
    [{ by: 'flour', grams: 1000 }, 1636.36, 1.818],
    [{ by: 'factor', factor: 2 }, 7200, 8],
    [{ by: 'have', grams: 200, name: 'levain' }, 1800, 2],
    [{ by: 'have', grams: 18.18, name: 'starter' }, 1800, 2],
  ])('%o', (request, grams, pieces) => {
    const { totals, formula } = dough(request);
    expect(Math.abs(totals.dough_g! / grams - 1)).toBeLessThan(1e-3);
    expect(Math.abs(formula.yield.pieces! / pieces - 1)).toBeLessThan(1e-3);
  });

  it('says why it cannot', () => {
    expect(() => dough({ by: 'have', grams: 100, name: 'walnuts' })).toThrow('There is no "walnuts" in this formula.');
    expect(() => dough({ by: 'factor', factor: 0 })).toThrow('more than nothing');
    expect(() => resolveText('formula "A"\ndough\n  1 kg bread flour\n', { by: 'pieces', pieces: 2 })).toThrow('does not say how many pieces');
  });
});

describe('written numbers', () => {
  it('are as short as they can be', () => {
    expect([decimalText(699.9999998), decimalText(700 / 3), decimalText(0.1 + 0.2), decimalText(1e-3)]).toEqual(['700', '233.3333', '0.3', '0.001']);
  });
  it('of spoons and cups are fractions where the spoon has one', () => {
    expect([fractionText(1.5), fractionText(2 / 3), fractionText(3), fractionText(0.3)]).toEqual(['1 1/2', '2/3', '3', undefined]);
  });
  it('never have an exponent', () => {
    expect([1e-13, 1.5e-8, 1e14, 123456789012].map(decimalText)).toEqual(['0.0000000000001', '0.000000015', '100000000000000', '123456789012']);
  });
  it('stay fractions where they were, with a stroke or as a sign', () => {
    const cases = [['1/2', 1.5, '1 1/2'], ['½', 1.5, '1½'], ['1½', 3, '3'], ['0.5', 0.25, '0.25'], ['½', 0.7, '0.7'], ['3', 1.5, '1.5']] as const;
    for (const [text, value, written] of cases) expect(inTheWayOf({ text }, value)).toBe(written);
    expect(inTheWayOf({ text: '3' }, 1.5, true)).toBe('1 1/2');
  });
  it('on a scale are what it reads to, and never nothing', () => {
    expect([toScaleStep(12.4, 5), toScaleStep(12.5, 5), toScaleStep(0.333, 1), toScaleStep(0.3 + 0.1, 0.1, 'up'), toScaleStep(61.2, 1, 'up'), toScaleStep(61.8, 1, 'down')])
      .toEqual([10, 15, 0.33, 0.4, 62, 61]);
  });
  it('in ounces are what a scale of ounces reads to', () => {
    expect([stepInUnit(1, 'g'), stepInUnit(1, 'kg'), stepInUnit(25, 'g'), stepInUnit(1, 'oz'), stepInUnit(2.8349523125, 'oz'), stepInUnit(2.8349523125, 'g')])
      .toEqual([1, 0.001, 25, 0.05, 0.1, 2]);
  });
});

describe('nouns', () => {
  it.each([['loaf', 'loaves'], ['tin', 'tins'], ['batch', 'batches'], ['miche', 'miches'], ['brioche', 'brioches'], ['egg yolk', 'egg yolks'], ['bâtard', 'bâtards']])('%s, %s', (one, more) => {
    expect([singular(more), plural(one), agreeing(one, 1, 2), agreeing(more, 2, 1), agreeing(more, 2, 3), agreeing(more, 3, 0.5)]).toEqual([one, more, more, one, more, one]);
  });
  it('that did not agree, or are of another language, stay', () => {
    expect([agreeing('loaves', 1, 2), agreeing('loaf', 2, 1), agreeing('pão', 1, 2), agreeing('булка', 1, 2)]).toEqual(['loaves', 'loaf', 'pão', 'булка']);
  });
});

describe('amounts of every kind', () => {
  const inDough = (line: string): string => `formula "A"\ndough\n  1 kg bread flour\n  700 g water\n  ${line}\n`;
  const lineOf = (text: string): string => text.split('\n')[4]!.trim();

  it.each([
    ['4 eggs', 1.25, '5 eggs'],
    ['1 egg', 2, '2 eggs'],
    ['2 egg yolks, beaten', 0.5, '1 egg yolk, beaten'],
    ['0 eggs', 3, '0 eggs'],
    ['1 banana, mashed', 1.5, '1 1/2 bananas, mashed'],
    ['1 banana', 0.25, '1/4 banana'],
    ['3 leaves gelatine (6 g)', 2, '6 leaves gelatine (12 g)'],
    ['4 to 5 g instant yeast', 2, '8 to 10 g instant yeast'],
    ['8 oz butter', 0.5, '4 oz butter'],
    ['½ lb butter', 3, '1½ lb butter'],
    ['1 tsp (4.5 g) vanilla extract', 2, '2 tsp (9 g) vanilla extract'],
    ['1 cup honey', 0.75, '3/4 cup honey'],
    ['2 % (20 g) salt', 2, '2 % (40 g) salt'],
    ['20 g rice flour for dusting   # coarse', 2, '40 g rice flour for dusting   # coarse'],
    ['60 g starter at 60 % hydration', 2, '120 g starter at 60 % hydration'],
    ['40 g water at 90 C', 2, '80 g water at 90 C'],
    ['pinch nutmeg', 1.3, 'pinch nutmeg'],
    ['a pinch of nutmeg', 2, '2 pinches of nutmeg'],
    ['2 pinches nutmeg', 0.5, 'pinch nutmeg'],
    ['07 g honey', 1, '07 g honey'],
    ['2.40 g honey', 2, '4.8 g honey'],
    ['12 %   sugar', 2, '12 %   sugar'],
  ])('%s × %d is %s', (line, factor, expected) => {
    expect(lineOf(scaled(inDough(line), factor).text)).toBe(expected);
  });

  it('keep, yields and serves', () => {
    const text = 'dish "Pudding"\n  serves 4 to 6\nscald\n  20 g bread flour\n  100 g milk\n  yields 110 g\n  keep 5 g\ncustard\n  300 g milk\n  all scald\n';
    expect(scaled(text, 1.5).text).toBe(
      text.replace('4 to 6', '6 to 9').replace('20 g', '30 g').replace('100 g', '150 g').replace('110 g', '165 g').replace('5 g\ncustard', '7.5 g\ncustard').replace('300 g', '450 g'),
    );
  });

  it('what a dish takes of a formula stays in whole pieces', () => {
    expect(scaled('dish "P"\n  uses 1 loaf of "Rye"\n  500 g milk\n', 2.2).text).toContain('uses 2 loaves of "Rye"');
  });

  it('half an egg too much goes out of a measured liquid, and where there is none it is said', () => {
    const milk = scaled('formula "A"\ndough\n  1 kg bread flour\n  500 ml milk\n  1 egg\n', 1.5);
    expect(milk.text).toMatch(/ {2}7\d\d\.\d+ ml milk\n {2}2 eggs\n/);
    expect(milk.notes[0]).toBe('milk: 25 g less, for the eggs stay whole.');
    expect(scaled('formula "A"\ndough\n  1 kg bread flour\n  50 % water\n  1 egg\n', 1.5).notes[0]).toBe(
      'egg: whole ones weigh 25 g more than before, and no weighed liquid here can make up for it.',
    );
  });

  it('on a scale, portions of a step still come to the whole', () => {
    const text = 'formula "A"\ndough\n  1 kg bread flour\n  600 g water\n  90 g walnuts\nsteps\n  bulk 3 h\n    fold at 30 min, add 30 g of walnuts\n    fold at 60 min, add 30 g of walnuts\n    fold at 90 min, add 30 g of walnuts\n';
    const third = scaled(text, 0.35, undefined, { grams: 1 }).text; // 31.5 g of walnuts, 10.5 g three times
    expect(third).toContain('32 g walnuts');
    expect([...third.matchAll(/add (\d+) g/g)].map(([, grams]) => Number(grams)).reduce((a, b) => a + b)).toBe(32);
  });

  it('on a scale, a levain is never a gram too small for what is called for', () => {
    const text = 'formula "A"\nlevain\n  61 g bread flour\n  61 g water\n  12 g starter\ndough\n  800 g bread flour\n  600 g water\n  134 g levain\n';
    const third = scaled(text, 1 / 3, undefined, { grams: 1 }).text;
    expect(third).toContain('21 g bread flour\n  21 g water\n  4 g starter');
    expect(third).toContain('44 g levain');
    expect(resolveText(third).formula.troubles).toEqual([]);
  });

  it('names stay in their column while there is room, and come back to it', () => {
    const text = 'formula "A"\ndough\n  800 g     bread flour\n  1 kg      water\n  90 g      figs\n  3 g salt\n  60 g    rye\n';
    const third = scaled(text, 1 / 3).text;
    expect(third).toBe('formula "A"\ndough\n  266.6667 g bread flour\n  0.3333333 kg water\n  30 g      figs\n  1 g salt\n  20 g    rye\n');
    expect(scaled(third, 3).text).toBe(text);
  });

  it('names come back to their column even from a block where every number was too long for it', () => {
    const text = 'formula "A"\n  makes     2 loaves\ndough\n  800 g     bread flour\n  500 g     water\nsteps\n  mix       8 min\n';
    const there = scaled(text, 1 / 3).text;
    expect(there).toContain('  266.6667 g bread flour\n  166.6667 g water\n');
    expect(scaled(there, 3).text).toBe(text);
    // Names that never had a column get none.
    const plain = 'formula "A"\n  makes     2 loaves\ndough\n  8 g salt\n  1000.25 g bread flour\n';
    expect(scaled(plain, 0.5).text).toBe('formula "A"\n  makes     1 loaf\ndough\n  4 g salt\n  500.125 g bread flour\n');
  });

  it('records, ingredients and other formulas stay as they are', () => {
    const rest = 'record 2026-03-14\n  weighed 1512 g, 2 loaves\n\ningredient "mill flour"\n  like bread flour\n  each 58 g\n\nformula "B"\n  makes 2 loaves of 800 g\n';
    expect(scaled(`formula "A"\ndough\n  1 kg bread flour\n\n${rest}`, 2).text).toBe(`formula "A"\ndough\n  2 kg bread flour\n\n${rest}`);
  });

  it('by the weight of a piece, the weight asked for is the one written', () => {
    const text = 'formula "A"\n  makes 2 loaves of 860 g\ndough\n  1000 g bread flour\n  700 g water\n  24 g salt\n';
    expect(scaled(text, 1, { by: 'piece', grams: 900 }).text).toContain('makes 2 loaves of 900 g');
  });

  it('pieces that do not come out even are told', () => {
    expect(scaled(knots, 1.3).notes).toContain('It makes 15.6 knots now: the last one is smaller.');
  });
});

describe('what cannot be scaled', () => {
  const plain = 'formula "A"\ndough\n  1 kg bread flour\n';
  it.each<[string, string, ScaleRequest, RegExp]>([
    ['a variant whose base is not there', 'formula "B"\n  based on "A"\n  set water to 620 g\n', { by: 'factor', factor: 2 }, /based on is not to be found/],
    ['no size', 'formula "A"\n  makes 2 loaves\ndough\n  100 % bread flour\n  70 % water\n', { by: 'factor', factor: 2 }, /^Nothing says how much of "dough"/],
    ['no pieces', plain, { by: 'pieces', pieces: 2 }, /does not say how many pieces/],
    ['no amounts', 'formula "A"\n', { by: 'factor', factor: 2 }, /no amounts/],
    ['a line that is not read', 'formula "A"\ndough\n  1 kg bread flour\n  some water ?? 600\n', { by: 'factor', factor: 2 }, /cannot be read/],
    ['nothing', plain, { by: 'factor', factor: 0 }, /more than nothing/],
    ['less than nothing', plain, { by: 'factor', factor: -1 }, /more than nothing/],
    ['no number', plain, { by: 'factor', factor: Number.NaN }, /more than nothing/],
    ['without end', plain, { by: 'factor', factor: Number.POSITIVE_INFINITY }, /more than nothing/],
    ['a thousand million times', plain, { by: 'factor', factor: 1e9 }, /more than 100,000 times the size written/],
    ['a grain of it', plain, { by: 'dough', grams: 1e-6 }, /less than a 100,000th of the size written/],
    ['a flour weight of a dish', 'dish "P"\n  500 g milk\n', { by: 'flour', grams: 500 }, /^A dish has no dough/],
    ['what is not in it', plain, { by: 'have', grams: 10, name: 'saffron' }, /no "saffron"/],
    ['a count of what is weighed', plain, { by: 'have-count', count: 3, name: 'bread flour' }, /What one of bread flour weighs is not known/],
  ])('%s', (_, text, request, sentence) => {
    expect(tryScaled(text, request)).toMatch(sentence);
  });

  it('the size that it has already is no edit', () => {
    expect(tryScaled(plain, { by: 'flour', grams: 1000 })).toEqual({ text: plain, notes: [], factor: 1 });
  });
});
