import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from '../../../grammar';
import { sectionsOf } from '../../../server/core/formula/sections';
import { decimalText, fractionText } from '../../../server/core/scaling/numbers';
import { scaleEdit, type ScaleStep } from '../../../server/core/scaling/edit';
import type { ScaleRequest } from '../../../server/core/scaling/scale';
import { resolveText } from '../../reference/resolve-text';

/** The text of the first formula after scaling its numbers, and what rounding did. */
function scaled(text: string, factor: number, request: ScaleRequest = { by: 'factor', factor }, step?: ScaleStep) {
  const { blocks } = parse(text);
  const { first, section } = sectionsOf(blocks.map(({ block }) => block)).find((s) => s.section.kind === 'formula')!;
  const { edits, notes } = scaleEdit(section, resolveText(text).formula, factor, request, step);
  const placed = edits
    .map(({ place, newText }) => ({ start: blocks[first + place.block]!.offset + place.start, end: blocks[first + place.block]!.offset + place.end, newText }))
    .sort((a, b) => b.start - a.start);
  const result = placed.reduce((out, edit) => out.slice(0, edit.start) + edit.newText + out.slice(edit.end), text);
  return { text: result, notes: notes.map((note) => note.message) };
}

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
        .replace('12 knots', '24 knots').replace('500 g ', '1000 g ').replace('0.25 kg', '0.5 kg').replace('2 eggs', '4 eggs')
        .replace('1 1/2 tsp (7.5 g)', '3 tsp (15 g)').replace('4 to 5 g', '8 to 10 g').replace('80 g      raisins', '160 g      raisins').replace('add 40 g', 'add 80 g'),
    );
  });

  it('by piece weight the pieces grow instead of their number', () => {
    expect(scaled(knots, 1.5, { by: 'piece', grams: 120 }).text).toContain('makes     12 knots of 120 g');
  });

  it('keeps eggs whole and corrects the milk, and says so', () => {
    const { text, notes } = scaled(knots, 1.25);
    // 2.5 eggs become 3, half an egg of 50 g too much: 312.5 g of milk less 25 g.
    expect(text).toContain('3 eggs');
    expect(text).toContain('0.2875 kg   milk');
    expect(notes).toEqual(['milk: 25 g less, for the eggs stay whole.', 'eggs: 2.5 is taken as 3.']);
  });

  it('rounds to a scale step, finer for salt and yeast, and says what moved by more than 1 %', () => {
    const { text, notes } = scaled('formula "A"\ndough\n  503 g bread flour\n  9 g salt\n  13 g honey\n', 1 / 3, undefined, { grams: 5, smallGrams: 0.1 });
    expect(text).toContain('170 g bread flour\n  3 g salt\n  5 g honey');
    expect(notes).toEqual(['bread flour: rounding to 5 g moves it by 1.4 %.', 'honey: rounding to 5 g moves it by 15.4 %.']);
  });

  it('a formula all in shares changes what it makes', () => {
    expect(scaled('formula "A"\n  makes 2 loaves of 800 g\ndough\n  100 % bread flour\n  70 % water\n', 3).text).toContain('makes 6 loaves of 800 g');
  });

  it('scaling by k and then by 1/k gives the file back', () => {
    const amount = fc.oneof(fc.integer({ min: 1, max: 99_999 }).map(String), fc.integer({ min: 1, max: 999_99 }).map((n) => String(n / 100)));
    fc.assert(
      fc.property(amount, amount, amount, fc.integer({ min: 1, max: 12 }), fc.double({ min: 0.01, max: 100, noNaN: true }), (flour, water, salt, pieces, factor) => {
        const text = `formula "A"\n  makes ${pieces} loaves\ndough\n  ${flour} g bread flour   # from the mill\n  ${water} ml water\n  ${salt} mg salt\n`;
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
});
