/** A new formula is right for every answer to the three questions: read, laid out, without a finding, of the weight asked for. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { KINDS, LEAVENS, type Kind, type Leaven } from '../../client/new-formula/kinds';
import { MOST_PIECES, sizeFrom, usualSize, type Size } from '../../client/new-formula/size';
import { newFormulaText } from '../../client/new-formula/text';
import { format, parse } from '../../grammar';
import { Project } from '../../server/project/project';

const uri = 'file:///stall/new.bake';

/** What the server knows of the one formula of a text. */
async function analysed(text: string) {
  const project = new Project({
    roots: ['file:///stall'], reader: { read: () => Promise.resolve(undefined) },
    onFault: (code, cause) => { throw new Error(code, { cause }); },
  });
  project.update(uri, text);
  const { sections } = (await project.prepare(uri))!;
  expect(sections).toHaveLength(1);
  return sections[0]!.analysis;
}

function sizeOf(typed: string, kind: Kind): Size {
  const size = sizeFrom(typed, kind);
  if (typeof size === 'string') throw new Error(size);
  return size;
}

async function holds(kind: Kind, size: Size, leaven: Leaven): Promise<void> {
  const text = newFormulaText(kind, size, leaven);
  expect(parse(text).blocks.flatMap(({ block }) => block.problems.map(({ message }) => message)), text).toEqual([]);
  expect(format(text)).toBe(text);
  const { findings, formula, totals } = await analysed(text);
  expect(findings.map(({ message }) => message), text).toEqual([]);
  expect(formula!.yield.pieces).toBe(size.pieces);
  expect(formula!.yield.pieceGrams).toBeCloseTo(size.pieceGrams, 6);
  // What is weighed in comes to the pieces: neither preferment nor rounding adds or loses any.
  expect(totals!.dough_g! / (size.pieces * size.pieceGrams)).toBeCloseTo(1, 9);
  const weighed = formula!.parts.flatMap(({ lines }) => lines).filter(({ inDough, part }) => inDough && part === undefined);
  expect(weighed.reduce((sum, { grams }) => sum + grams!, 0) / (size.pieces * size.pieceGrams)).toBeCloseTo(1, 9);
  // The tab of a text without a file shows its first line.
  expect(text.split('\n')[0]).toBe(`formula "${kind.name}"`);
  // It rises by what was asked for.
  expect(text.includes('levain'), text).toBe(leaven === 'levain');
  expect(text.includes('poolish'), text).toBe(leaven === 'poolish');
  expect(text.includes('instant yeast'), text).toBe(leaven !== 'levain');
}

describe.each(KINDS)('$label', (kind) => {
  describe.each(LEAVENS)('with $leaven', ({ leaven }) => {
    test('as it is offered', () => holds(kind, sizeOf(usualSize(kind), kind), leaven));

    test('of the least and the most that it can be', async () => {
      for (const grams of [kind.leastPieceGrams, kind.mostPieceGrams]) {
        for (const pieces of [1, 2, 40, MOST_PIECES]) await holds(kind, sizeOf(`${pieces} x ${grams} g`, kind), leaven);
      }
    });

    test('of any size', () => fc.assert(fc.asyncProperty(
      fc.integer({ min: 1, max: MOST_PIECES }), fc.integer({ min: kind.leastPieceGrams * 2, max: kind.mostPieceGrams * 2 }),
      (pieces, halfGrams) => holds(kind, sizeOf(`${pieces} of ${halfGrams / 2} g`, kind), leaven),
    ), { numRuns: 40 }));
  });
});

const [hearth, , , , sweet] = KINDS as [Kind, Kind, Kind, Kind, Kind];

test('a size as somebody types it', () => {
  for (const typed of ['4 loaves of 900 g', '4 x 900g', '4×900', '4 of 0.9 kg', ' 4 Loaves 900 g ', '4 loaf of 900']) {
    expect(sizeOf(typed, hearth), typed).toMatchObject({ pieces: 4, pieceGrams: 900, noun: 'loaves' });
  }
  expect(sizeOf('1 x 2 lb', hearth)).toEqual({ pieces: 1, pieceGrams: 907.18474, weight: '2 lb', noun: 'loaf' });
  expect(sizeOf('12 buns of 80 g', sweet)).toMatchObject({ noun: 'buns' });
  expect(sizeOf('2 x 500 g', sweet)).toMatchObject({ noun: 'braids' });
});

test('what cannot be a size is told with what to write', () => {
  const told = (typed: string): unknown => sizeFrom(typed, hearth);
  expect(told('')).toBe('Write a number of pieces and the weight of each, such as: 2 loaves of 900 g');
  expect(told('2 loaves')).toBe('Write a number of pieces and the weight of each, such as: 2 loaves of 900 g');
  expect(told('2 of 0,9 kg')).toBe('Write a point in numbers: 2 of 0.9 kg');
  expect(told('2 knots of 900 g')).toBe('A hearth loaf is counted in loaves. Write it so: 2 loaves of 900 g');
  expect(told('0 x 900 g')).toBe('0 pieces cannot be made at once. Write 1 to 500.');
  expect(told('2 x 90 g')).toBe('90 g of dough for a piece: this method is for 300 to 2500 g. Write a weight between, or take another kind.');
  expect(told('2 x 9 lb')).toBe('9 lb of dough for a piece, which is 4082 g: this method is for 300 to 2500 g. Write a weight between, or take another kind.');
});
