import { describe, expect, it } from 'vitest';
import { parse } from '../../../grammar';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { resolve } from '../../../server/core/formula/resolve';
import { sectionsOf } from '../../../server/core/formula/sections';
import { resolveText } from '../../reference/resolve-text';

/** Weights of a part's lines by name, rounded to a hundredth. */
function weights(text: string, part: string): Record<string, number | null> {
  const { formula } = resolveText(text);
  const found = formula.parts.find((p) => p.key === part)!;
  return Object.fromEntries(found.lines.map((line) => [line.name, line.grams === null ? null : Math.round(line.grams * 100) / 100]));
}

const troubles = (text: string) => resolveText(text).formula.troubles;

describe('what fixes the size', () => {
  it('flour in grams: shares are of it', () => {
    expect(weights('formula "A"\ndough\n  700 g bread flour\n  300 g whole wheat flour\n  72 % water\n', 'dough')).toEqual({
      'bread flour': 700, 'whole wheat flour': 300, water: 720,
    });
  });

  it('flour in grams and in shares: the shares and the grams together are 100 %', () => {
    expect(weights('formula "A"\ndough\n  700 g bread flour\n  30 % whole wheat flour\n  70 % water\n', 'dough')).toEqual({
      'bread flour': 700, 'whole wheat flour': 300, water: 700,
    });
  });

  it('makes, where all flour is a share; lines in grams are counted in', () => {
    expect(weights('formula "A"\n  makes 2 loaves of 500 g\ndough\n  100 % bread flour\n  75 % water\n  125 g walnuts\n', 'dough')).toEqual({
      'bread flour': 500, water: 375, walnuts: 125,
    });
  });

  it('makes with a loss at the bench asks for more dough', () => {
    const { totals, formula } = resolveText('formula "A"\n  makes 10 rolls of 90 g\n  loses 10 % at the bench\n  loses 20 % in the oven\ndough\n  100 % bread flour\n  100 % water\n');
    expect(totals.dough_g).toBeCloseTo(1000, 9);
    expect(formula.yield).toMatchObject({ pieces: 10, noun: 'rolls' });
    expect(totals.piece_g).toBeCloseTo(90, 9);
    expect(totals.baked_piece_g).toBeCloseTo(72, 9);
  });

  it('a levain in grams, when the total formula says how much of the flour it holds', () => {
    const text = 'formula "A"\nlevain\n  100 g bread flour\n  100 g water\ntotal formula\n  100 % bread flour\n  70 % water\n  20 % of flour in levain\n';
    expect(resolveText(text).totals.flour_g).toBeCloseTo(500, 9);
  });

  it('nothing: the finding is at the dough, and numbers are unknown, not 0', () => {
    const { totals, formula } = resolveText('formula "A"\ndough\n  100 % bread flour\n  70 % water\n');
    expect(formula.troubles).toMatchObject([{ kind: 'no-size', part: 'dough' }]);
    expect(totals.dough_g).toBeNull();
    expect(totals.flour_g).toBeNull();
  });

  it('all of a levain that is written in shares: nothing says how much that is', () => {
    const text = (also: string) => `formula "A"\nlevain\n  100 % bread flour\n  100 % water\nfilling\n  100 g honey\n${also}dough\n  1 kg bread flour\n  all levain\n`;
    expect(troubles(text(''))).toMatchObject([{ kind: 'no-size', part: 'levain' }]);
    expect(troubles(text('  50 g levain\n'))).toMatchObject([{ kind: 'no-size', part: 'levain' }]);
  });

  it('more in grams than there is to make is a contradiction, not a negative flour', () => {
    expect(troubles('formula "A"\n  makes 1 loaf of 300 g\ndough\n  100 % bread flour\n  70 % water\n  400 g walnuts\n')).toMatchObject([{ kind: 'contradiction' }]);
  });

  it('grams that differ from makes by more than 2 % disagree; by less they do not', () => {
    const text = (pieces: string) => `formula "A"\n  makes ${pieces}\ndough\n  600 g bread flour\n  400 g water\n`;
    expect(troubles(text('2 loaves of 510 g'))).toEqual([]);
    expect(troubles(text('2 loaves of 520 g'))).toMatchObject([{ kind: 'makes-disagrees', claimedGrams: 1040, actualGrams: 1000 }]);
  });
});

describe('parts', () => {
  it('a preferment in shares is built to what is called for and what is kept', () => {
    const text = 'formula "A"\nlevain\n  100 % bread flour\n  100 % water\n  20 % starter\n  keep 20 g\ndough\n  1000 g bread flour\n  200 g levain\n';
    expect(weights(text, 'levain')).toEqual({ 'bread flour': 100, water: 100, starter: 20 });
    const levain = resolveText(text).formula.parts[0]!;
    expect(levain).toMatchObject({ calledForGrams: 200, keepGrams: 20, leftOverGrams: 0, isPreferment: true });
    expect(levain.yieldGrams).toBeCloseTo(220, 9);
    expect(levain.usedFraction).toBeCloseTo(200 / 220, 12);
  });

  it('one in grams makes what it makes: the rest is left over', () => {
    const levain = resolveText('formula "A"\nlevain\n  100 g bread flour\n  100 g water\ndough\n  1000 g bread flour\n  150 g levain\n').formula.parts[0]!;
    expect(levain).toMatchObject({ yieldGrams: 200, calledForGrams: 150, leftOverGrams: 50 });
  });

  it('asking for more than it makes is short', () => {
    expect(troubles('formula "A"\nlevain\n  100 g bread flour\n  100 g water\n  keep 40 g\ndough\n  1000 g bread flour\n  180 g levain\n')).toMatchObject([
      { kind: 'part-short', name: 'levain', madeGrams: 160, calledForGrams: 180 },
    ]);
  });

  it('all of a levain leaves what is kept', () => {
    const text = 'formula "A"\nlevain\n  100 g bread flour\n  100 g water\n  keep 40 g\ndough\n  1000 g bread flour\n  all levain\n';
    expect(weights(text, 'dough')).toMatchObject({ levain: 160 });
    expect(resolveText(text).totals.flour_g).toBeCloseTo(1080, 9);
  });

  it('a levain of a levain carries its flour through', () => {
    const text = `formula "A"
levain "first"
  100 % bread flour
  100 % water
levain "second"
  100 % bread flour
  100 % water
  50 % first
dough
  1000 g bread flour
  500 g second
`;
    expect(weights(text, 'second')).toEqual({ 'bread flour': 200, water: 200, first: 100 });
    expect(weights(text, 'first')).toEqual({ 'bread flour': 50, water: 50 });
    const { totals } = resolveText(text);
    expect(totals.flour_g).toBeCloseTo(1250, 9);
    expect(totals.prefermented_flour_pct).toBeCloseTo(20, 9);
  });

  it('a share-written levain with a weighed starter is sized to the flour it must hold', () => {
    const text = 'formula "A"\nlevain\n  100 % bread flour\n  100 % water\n  20 g starter\ntotal formula\n  1000 g bread flour\n  700 g water\n  20 % of flour in levain\n';
    expect(weights(text, 'levain')).toEqual({ 'bread flour': 190, water: 190, starter: 20 });
  });

  it('ratios in a part with no flour', () => {
    const text = 'formula "A"\nsoaker "seeds"\n  100 % sunflower seeds\n  150 % water\ndough\n  1000 g bread flour\n  250 g seeds\n';
    expect(weights(text, 'seeds')).toEqual({ 'sunflower seeds': 100, water: 150 });
  });

  it('a cycle is named and costs only the parts on it', () => {
    const text = 'formula "A"\npart "one"\n  100 g water\n  50 g two\npart "two"\n  100 g water\n  50 g one\ndough\n  1000 g bread flour\n  70 % water\n';
    const { formula, totals } = resolveText(text);
    expect(formula.troubles.filter((t) => t.kind === 'part-cycle')).toMatchObject([{ names: ['one', 'two'] }]);
    expect(totals.hydration_pct).toBeCloseTo(70, 9);
  });

  it('a part that nothing takes in is unused, a filling is not', () => {
    expect(troubles('formula "A"\npoolish\n  100 g bread flour\n  100 g water\nfilling\n  100 g butter\ndough\n  1000 g bread flour\n')).toMatchObject([
      { kind: 'part-unused', name: 'poolish' },
    ]);
  });

  it('all of a part that is not there is missing, with the parts there are', () => {
    expect(troubles('formula "A"\nlevain\n  100 g bread flour\n  100 g water\ndough\n  1000 g bread flour\n  all levian\n')).toMatchObject([
      { kind: 'part-missing', name: 'levian', nearest: ['levain'] },
      { kind: 'part-unused', name: 'levain' },
    ]);
  });

  it('an ingredient of the same name as a later part is the ingredient', () => {
    const text = 'formula "A"\nfilling\n  100 g walnuts\npart "walnuts"\n  50 g water\ndough\n  1000 g bread flour\n  50 g walnuts\n';
    const { formula } = resolveText(text);
    expect(formula.parts[0]!.lines[0]!.key).toBe('walnuts');
    expect(formula.parts[2]!.lines[1]!.key).toBe('part:walnuts');
  });
});

describe('the total formula', () => {
  const sheet = (poolish: string, list: string) => `formula "A"\npoolish\n${poolish}total formula\n${list}`;

  it('takes out the yeast and salt that a preferment carries', () => {
    const text = sheet('  100 % bread flour\n  100 % water\n  1 % salt\n', '  1000 g bread flour\n  70 % water\n  2 % salt\n  20 % of flour in poolish\n');
    expect(weights(text, 'total formula')).toMatchObject({ 'bread flour': 800, water: 500, salt: 18, poolish: 402 });
  });

  it('names what the list leaves out', () => {
    const text = sheet('  100 % bread flour\n  100 % water\n  0.1 % instant yeast\n', '  1000 g bread flour\n  70 % water\n  20 % of flour in poolish\n');
    expect(troubles(text)).toMatchObject([{ kind: 'total-leaves-out', ingredient: 'instant yeast', part: 'poolish', listedGrams: 0 }]);
  });

  it('names what the list holds too little of', () => {
    const text = sheet('  100 % dark rye flour\n  100 % water\n', '  900 g bread flour\n  100 g dark rye flour\n  70 % water\n  20 % of flour in poolish\n');
    expect(troubles(text)).toMatchObject([{ kind: 'total-leaves-out', ingredient: 'dark rye flour', neededGrams: 200, listedGrams: 100 }]);
  });

  it('a share of the flour in a part with no flour is a contradiction, not an endless weight', () => {
    const text = 'formula "A"\nsoaker "seeds"\n  100 g sunflower seeds\n  100 g water\ntotal formula\n  1000 g bread flour\n  700 g water\n  100 g sunflower seeds\n  15 % of flour in seeds\n';
    const { formula } = resolveText(text);
    expect(formula.troubles).toMatchObject([{ kind: 'contradiction', message: expect.stringContaining('no flour in “seeds”') }]);
    expect(formula.parts.flatMap((part) => part.lines).every((line) => line.grams === null || Number.isFinite(line.grams))).toBe(true);
  });

  it('an unlisted starter counts as the part’s flour and water', () => {
    const text = 'formula "A"\nlevain\n  100 % bread flour\n  100 % water\n  20 % starter\ntotal formula\n  500 g whole wheat flour\n  500 g bread flour\n  70 % water\n  11 % of flour in levain\n';
    const result = resolveText(text);
    expect(result.formula.troubles).toEqual([]);
    expect(weights(text, 'total formula')).toMatchObject({ 'whole wheat flour': 500, 'bread flour': 390, water: 590 });
    expect(result.totals.flour_g).toBeCloseTo(1000, 9);
  });

  it('opens up a soaker inside a preferment too', () => {
    const text = `formula "A"
soaker "bran"
  20 g wheat bran
  60 g water
poolish
  100 g bread flour
  100 g water
  all bran
total formula
  900 g bread flour
  600 g water
  20 g wheat bran
  all poolish
`;
    expect(weights(text, 'total formula')).toEqual({ 'bread flour': 800, water: 440, 'wheat bran': 0, poolish: 280 });
  });
});

describe('what is counted', () => {
  it('a soaker’s water is in water_pct, not in hydration_pct', () => {
    const { totals } = resolveText('formula "A"\nsoaker "figs"\n  200 g dried figs\n  100 g water\ndough\n  1000 g bread flour\n  700 g water\n  all figs\n');
    expect(totals.hydration_pct).toBeCloseTo(70, 9);
    expect(totals.water_pct).toBeCloseTo(80, 9);
    expect(totals.dough_hydration_pct).toBeCloseTo(70, 9);
    expect(totals.inclusions_pct).toBeCloseTo(20, 9);
  });

  it('dusting flour is out of the dough and on the list', () => {
    const { totals, sheet } = resolveText('formula "A"\ndough\n  1000 g bread flour\n  700 g water\n  50 g rice flour for dusting\n');
    expect(totals.flour_g).toBe(1000);
    expect(sheet.besides.map((line) => [line.name, line.grams, line.purpose])).toEqual([['rice flour', 50, 'dusting']]);
  });

  it('a starter is half flour at 100 % hydration, and what it says otherwise', () => {
    const of = (line: string) => resolveText(`formula "A"\ndough\n  1000 g bread flour\n  600 g water\n  ${line}\n`).totals;
    expect(of('200 g starter').flour_g).toBeCloseTo(1100, 9);
    expect(of('160 g starter at 60 % hydration').flour_g).toBeCloseTo(1100, 9);
    expect(of('160 g starter at 60 % hydration').hydration_pct).toBeCloseTo((660 / 1100) * 100, 9);
  });

  it('one unknown weight takes away what depends on it and nothing else', () => {
    const { totals } = resolveText('formula "A"\ndough\n  1000 g bread flour\n  700 g water\n  20 g salt\n  3 tsp grains of paradise\n');
    expect(totals.dough_g).toBeNull();
    expect(totals).toMatchObject({ flour_g: 1000, hydration_pct: 70, salt_pct: 2 });
  });

  it('where the only liquid is one that nobody knows, the hydration is not known; beside water, water is what counts', () => {
    const dough = (liquid: string) => resolveText(`formula "A"\ndough\n  500 g bread flour\n${liquid}  10 g salt\n`).totals;
    expect(dough('  300 g "birch sap"\n')).toMatchObject({ hydration_pct: null, water_pct: null, effective_hydration_pct: null });
    expect(dough('  300 g "birch sap" as liquid\n')).toMatchObject({ hydration_pct: null, water_pct: null });
    expect(dough('  50 g "birch sap"\n  250 g water\n')).toMatchObject({ hydration_pct: 50, water_pct: 50 });
    expect(dough('  300 g milk\n')).toMatchObject({ hydration_pct: 0, water_pct: 0 });
  });

  it('cocoa binds water, milk brings it', () => {
    const { totals } = resolveText('formula "A"\ndough\n  1000 g bread flour\n  400 g water\n  200 g whole milk\n  50 g cocoa\n');
    expect(totals.hydration_pct).toBeCloseTo(40, 9);
    // 400 + 200 × 0.8813 + 50 × 0.03 of the cocoa's own − 50 × 1.0 bound
    expect(totals.effective_hydration_pct).toBeCloseTo(52.8, 1);
  });
});

describe('sections', () => {
  const kinds = (text: string) => sectionsOf(parse(text).blocks.map(({ block }) => block)).map(({ section }) => [section.kind, section.name, section.blocks.length]);

  it('a formula owns what follows it, up to the next one', () => {
    expect(kinds('use "pantry.bake"\n\nformula "A"\ndough\n  1 kg bread flour\nsteps\n  mix 5 min\nrecord 2026-03-14\nformula "B"\ndish "C"\nplan "D"\n')).toEqual([
      ['use', '', 1], ['formula', 'A', 4], ['formula', 'B', 1], ['dish', 'C', 1], ['plan', 'D', 1],
    ]);
  });

  it('parts that no formula opens keep their numbers', () => {
    expect(kinds('formla "A"\nlevain\n  1 kg bread flour\ndough\n  1 kg bread flour\n')).toEqual([['formula', '', 3]]);
    expect(kinds('formla "A"\n')).toEqual([['stray', '', 1]]);
  });
});

describe('dishes', () => {
  const file = (uses: string) => `formula "Country loaf"
  makes 2 loaves of 900 g
  loses 10 % in the oven
dough
  100 % bread flour
  70 % water
dish "Bread bake"
  serves 4
  uses ${uses}
custard
  4 eggs
`;
  const used = (uses: string) => {
    const blocks = parse(file(uses)).blocks.map(({ block }) => block);
    const sections = sectionsOf(blocks).map(({ section }) => section);
    const formulas = new Map(sections.map((section) => [section.name.toLowerCase(), section]));
    return resolve(sections[1]!, { catalogue: builtInCatalogue, measures: 'us', formulas }).parts[0]!.lines[0]!;
  };

  it('a loaf weighs what it weighs out of the oven', () => {
    expect(used('1 loaf of "Country loaf"').grams).toBeCloseTo(810, 9);
    expect(used('1/2 loaf of "Country loaf"').uses?.name).toBe('Country loaf');
  });

  it('slices weigh what the brackets say, and otherwise nobody knows', () => {
    expect(used('8 slices (360 g) of "Country loaf"').grams).toBe(360);
    expect(used('8 slices of "Country loaf"').grams).toBeNull();
  });

  it('a dish that uses itself finds nothing there', () => {
    expect(used('1 loaf of "Bread bake"').uses).toBeUndefined();
  });
});

describe('however the parts are nested', () => {
  const chain = (length: number, lines: (i: number) => string, last: string) =>
    `formula "Deep"\nlevain "p0"\n  100 % bread flour\n  100 % water\n${Array.from({ length }, (_, i) => `levain "p${i + 1}"\n${lines(i)}`).join('')}${last}`;

  it('a chain of thousands of parts is only long', () => {
    const text = chain(3000, (i) => `  100 % bread flour\n  100 % water\n  50 % "p${i}"\n`, 'dough\n  1000 g bread flour\n  300 g "p3000"\n');
    expect(resolveText(text).totals.flour_g).toBeCloseTo(1150, 6);
  });

  it('parts that take each other in twice over do not double the work', () => {
    const text = chain(40, (i) => `  100 % bread flour\n  100 % water\n  10 % "p${i}"\n  10 % "p${i}"\n`, 'total formula\n  1000 g bread flour\n  70 % water\n  20 % of flour in "p40"\n');
    const { formula, totals } = resolveText(text);
    expect(formula.troubles).toEqual([]);
    expect(totals.prefermented_flour_pct).toBeCloseTo(20, 6);
  });

  it('weighed lines deep inside are given up on in bounded time', () => {
    const text = chain(12, (i) => `  100 % bread flour\n  100 % water\n  3 g honey\n  20 % "p${i}"\n`, 'total formula\n  1000 g bread flour\n  70 % water\n  100 g honey\n  20 % of flour in "p12"\n');
    expect(['number', 'object']).toContain(typeof resolveText(text).totals.flour_g);
  });
});

describe('what a scald loses over the fire', () => {
  const hydration = (liquid: string) =>
    resolveText(`formula "A"\nscald\n  50 g bread flour\n  ${liquid}\n  yields 220 g\ndough\n  450 g bread flour\n  200 g milk\n  50 g water\n  all scald\n`).totals;

  it('is taken from its water lines', () => {
    expect(hydration('250 g water').hydration_pct).toBeCloseTo((100 * (50 + 250 - 80)) / 500, 9);
  });

  it('is not taken from water lines when it was milk that boiled off', () => {
    const totals = hydration('250 g milk');
    expect(totals.hydration_pct).toBeCloseTo(10, 9);
    expect(totals.water_pct).toBeCloseTo(10, 9);
  });

  it('is taken from water lines only as far as they go', () => {
    expect(hydration('220 g milk\n  30 g water').hydration_pct).toBeCloseTo(10, 9);
  });
});
