import { describe, expect, it } from 'vitest';
import { TIN_FACTORS } from '../../../server/core/scaling/tin-factors';
import { tinFactorFor } from '../../../server/core/scaling/tins';
import { findingsIn } from '../bake';
import { resolveText } from '../../reference/resolve-text';
import { scaled } from './rescaled';

const shares = (makes: string, style = 'pan', dough = 'dough'): string =>
  `formula "A"\n  makes ${makes}\n  style ${style}\n${dough}\n  100 % bread flour\n  68 % water\n  2 % salt\n`;
const weighed = 'formula "A"\n  makes 2 tins of 1.8 l\ndough\n  800 g bread flour\n  560 g water\n  16 g salt\n';

describe('tins', () => {
  it('size a dough that is all in shares by a usual figure, and it says so', () => {
    const { formula, totals } = resolveText(shares('2 tins of 1.8 l'));
    expect(totals.dough_g).toBeCloseTo((2 * 1800) / 2.8, 6);
    expect(formula.yield).toMatchObject({ pieces: 2, tinMillilitres: 1800, tinFactorAssumed: true });
    expect(formula.yield.tinFactor).toBeCloseTo(2.8, 9);
    expect(formula.troubles).toEqual([]);
  });

  it('with a bench loss take what is left after it', () => {
    const text = shares('1 tin of 900 ml').replace('\n  style', '\n  loses 4 % at the bench\n  style');
    expect(resolveText(text).totals.dough_g).toBeCloseTo(900 / 2.8 / 0.96, 6);
  });

  it('in cups are measured by the settings', () => {
    expect(resolveText(shares('1 tin of 8 cups')).formula.yield.tinMillilitres).toBeCloseTo(8 * 236.5882365, 4);
  });

  it('of a weighed dough are a pair with it, whatever is usual', () => {
    const { formula, totals } = resolveText(weighed);
    expect(totals.dough_g).toBe(1376);
    expect(formula.yield).toMatchObject({ tinMillilitres: 1800, tinFactor: 1800 / 688, tinFactorAssumed: false });
    expect(formula.troubles).toEqual([]);
  });

  it('give way to a part that says how much flour there is', () => {
    const text = 'formula "A"\n  makes 2 tins of 1.8 l\nlevain\n  100 g bread flour\n  100 g water\ntotal formula\n  100 % bread flour\n  70 % water\n  20 % of flour in levain\n';
    const { formula, totals } = resolveText(text);
    expect(totals.flour_g).toBeCloseTo(500, 6);
    expect(formula.yield.tinFactorAssumed).toBe(false);
  });

  it.each([
    ['pan', '2 tins of 1.8 l', 'dough', TIN_FACTORS.tin], ['hearth', '2 tins of 1.8 l', 'dough', TIN_FACTORS.tin], ['no such style', '2 tins of 1.8 l', 'dough', TIN_FACTORS.tin],
    ['rye', '2 tins of 1.8 l', 'dough', TIN_FACTORS.rye], ['pan, whole grain', '2 tins of 1.8 l', 'dough', TIN_FACTORS['whole grain']],
    ['pan', '2 lidded tins of 1.8 l', 'dough', TIN_FACTORS.lidded], ['pullman', '2 tins of 1.8 l', 'dough', TIN_FACTORS.lidded],
    ['brioche', '2 tins of 1.8 l', 'dough', TIN_FACTORS.brioche], ['panettone', '2 cases of 1.8 l', 'dough', TIN_FACTORS['paper case']],
    ['pan', '2 tins of 1.8 l', 'batter', TIN_FACTORS.batter],
  ])('a %s of %s in a %s has its own figure', (style, makes, dough, { usualMlPerGram }) => {
    expect(resolveText(shares(makes, style, dough)).formula.yield.tinFactor).toBeCloseTo(usualMlPerGram, 9);
  });

  it('have figures within their own ranges', () => {
    for (const { runsOverMlPerGram, leastMlPerGram, usualMlPerGram, mostMlPerGram, staysLowMlPerGram, source } of Object.values(TIN_FACTORS)) {
      expect(runsOverMlPerGram).toBeLessThan(leastMlPerGram);
      expect(staysLowMlPerGram).toBeGreaterThan(mostMlPerGram);
      expect(leastMlPerGram).toBeLessThan(usualMlPerGram);
      expect(usualMlPerGram).toBeLessThan(mostMlPerGram);
      expect(source).not.toBe('');
    }
    expect(tinFactorFor({ styles: [], noun: 'slides', isBatter: false })).toBe(TIN_FACTORS.tin);
  });
});

describe('a tin that is filled by its own weights', () => {
  /** Codes on tins, of a dough or batter of so many ml for each gram. */
  const found = (mlPerGram: number, kind: 'dough' | 'batter', style: string, noun = 'tin'): readonly string[] => {
    const grams = 1700 / mlPerGram;
    const text = `formula "A"\n  makes 1 ${noun} of 1.7 l\n  style ${style}\n${kind}\n  ${(grams * 0.6).toFixed(3)} g bread flour\n  ${(grams * 0.4).toFixed(3)} g water\n`;
    return findingsIn(text).map(({ code }) => code).filter((code) => code.startsWith('tin-'));
  };

  it.each([
    ['pan', 'dough', 'tin', 'tin'], ['rye', 'dough', 'tin', 'rye'], ['whole grain', 'dough', 'tin', 'whole grain'], ['brioche', 'dough', 'tin', 'brioche'],
    ['panettone', 'dough', 'case', 'paper case'], ['pan', 'dough', 'lidded tin', 'lidded'], ['sweet', 'batter', 'tin', 'batter'],
  ] as const)('%s %s in a %s is judged by the row that sizes it', (style, kind, noun, row) => {
    const { runsOverMlPerGram, leastMlPerGram, usualMlPerGram, mostMlPerGram, staysLowMlPerGram } = TIN_FACTORS[row];
    for (const fine of [leastMlPerGram, usualMlPerGram, mostMlPerGram]) expect(found(fine, kind, style, noun)).toEqual([]);
    expect(found(runsOverMlPerGram - 0.05, kind, style, noun)).toEqual(['tin-too-full']);
    expect(found(staysLowMlPerGram + 0.05, kind, style, noun)).toEqual(['tin-too-empty']);
  });
});

describe('scaling to a tin', () => {
  it('is by the ratio of volumes when the formula names its own', () => {
    expect(scaled(weighed, 1, { by: 'tin', millilitres: 2400 })).toMatchObject({
      text: weighed.replace('1.8 l', '2.4 l').replace('800 g', '1066.667 g').replace('560 g', '746.6667 g').replace('16 g', '21.33333 g'), notes: [],
    });
    expect(scaled(shares('2 tins of 1.8 l'), 1, { by: 'tin', millilitres: 2400 }).text).toBe(shares('2 tins of 2.4 l'));
  });

  it('is by a usual figure when it names none, and that is told', () => {
    const { text, notes } = scaled(shares('2 loaves of 700 g'), 1, { by: 'tin', millilitres: 1800 });
    expect(text).toBe(shares('2 loaves of 643 g'));
    expect(notes).toEqual([
      'The formula names no tin, so 643 g a piece is by a usual figure, 2.8 ml of tin a gram (tin loaf, lean or lightly rich, 2.6 to 3.2). '
        + 'Write the tin that suits it, for example "makes 2 tins of 1.8 l", and its own weights count.',
    ]);
  });

  it('by the weight of a piece, the tin grows with it', () => {
    expect(scaled(weighed, 1, { by: 'piece', grams: 1376 }).text).toContain('makes 2 tins of 3.6 l');
  });
});
