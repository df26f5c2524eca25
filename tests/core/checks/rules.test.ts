/** Cases of single rules that their examples leave out. Marked places and whole messages, as a baker sees them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseFormula, findingsIn, type TextFinding, type TextOptions } from '../bake';

/** These short texts leave out what other checks ask for; those have examples of their own. */
const BESIDE_THE_POINT = new Set(['no-leaven', 'fold-too-late', 'style-not-met', 'fat-high', 'pieces-odd']);
const inPoint = (text: string, options: TextOptions = {}) => findingsIn(text, options).filter(({ code }) => !BESIDE_THE_POINT.has(code));
const codes = (text: string, options: TextOptions = {}) => inPoint(text, options).map(({ code }) => code);
const only = (text: string, code: string): TextFinding => {
  const found = inPoint(text);
  expect(found.map((one) => one.code)).toEqual([code]);
  return found[0]!;
};

const loaf = (properties: string, dough: string, rest = '') => `formula "Country loaf"\n${properties}\ndough\n${dough}\n${rest}`;
/** What the rules on a style say is another matter. */
const withoutStyle = (found: readonly string[]) => found.filter((code) => code !== 'style-not-met');
const PLAIN = '  1000 g    bread flour\n  700 g     water\n  20 g      salt';

describe('the style decides', () => {
  test.each([
    ['hearth', ['salt-low']],
    ['enriched', []],
    ['sweet sourdough', []],
  ])('1.2 %% of salt in a dough of style %s', (style, expected) => {
    expect(codes(loaf(`  style     ${style}\n`, '  1000 g    bread flour\n  600 g     water\n  12 g      salt'))).toEqual(expected);
  });

  test.each([
    ['hearth', ['hydration-low']],
    ['bagel', []],
    ['rye', ['hydration-low']],
  ])('50 %% of water in a dough of style %s', (style, expected) => {
    expect(withoutStyle(codes(loaf(`  style     ${style}\n`, '  1000 g    bread flour\n  500 g     water\n  20 g      salt')))).toEqual(expected);
  });

  test('a workspace may set a limit of its own', () => {
    const salty = loaf('', '  1000 g    bread flour\n  700 g     water\n  28 g      salt');
    expect(codes(salty)).toEqual(['salt-high']);
    expect(codes(salty, { limits: { 'salt-high': { mostPct: 3 } } })).toEqual([]);
    expect(codes(loaf('', PLAIN), { limits: { 'salt-high': { mostPct: 1.9 } } })).toEqual(['salt-high']);
  });
});

describe('salt', () => {
  test('none at all is said so', () => {
    expect(only(loaf('', '  1000 g    bread flour\n  700 g     water'), 'salt-low').message).toBe(
      'There is no salt in this dough. The bread will taste flat and the dough will be slack: about 2 % of the flour is usual.',
    );
  });

  test('ten times too much is a slip', () => {
    const found = only(loaf('', '  1000 g    bread flour\n  700 g     water\n  200 g     salt'), 'salt-high');
    expect(found.text).toBe('200 g');
    expect(found.message).toMatch(/^Salt is 20 % of the flour, over 2\.5 %\..* decimal point/);
  });

  test('a value that rounds to the limit is shown with enough decimals', () => {
    expect(only(loaf('', '  1000 g    bread flour\n  700 g     water\n  25.2 g    salt'), 'salt-high').message).toMatch(/^Salt is 2\.52 % of the flour, over 2\.5 %\./);
  });

  test('the salt of salted butter counts against too little', () => {
    const knots = (butter: string) => loaf('  style     hearth, brioche\n', `  1000 g    bread flour\n  600 g     water\n  8 g       salt\n  300 g     ${butter}`);
    expect(codes(knots('unsalted butter'))).toEqual(['salt-low']);
    expect(codes(knots('salted butter'))).toEqual([]);
  });

  test('a dish needs none', () => {
    expect(codes('dish "Bread pudding"\n  serves    4\n\ncustard\n  300 g     milk\n  100 g     eggs\n')).toEqual([]);
  });
});

describe('water', () => {
  test('eggs and milk count, and the message names both numbers', () => {
    expect(codes(loaf('  style     enriched\n', '  1000 g    bread flour\n  600 g     milk\n  100 g     eggs\n  18 g      salt'))).toEqual([]);
    const stiff = only(loaf('  style     enriched\n', '  1000 g    bread flour\n  100 g     water\n  300 g     milk\n  18 g      salt'), 'hydration-low');
    expect(stiff.message).toMatch(/^The dough holds 36 % moisture on its flour, under 45 % \(the water alone is 10 %\)\./);
  });

  test('a batter pours', () => {
    const crumpets = 'formula "Crumpets"\n\nbatter\n  400 g     bread flour\n  520 g     water\n  8 g       salt\n';
    expect(codes(crumpets)).toEqual([]);
    expect(codes(crumpets.replace('batter', 'dough'))).toEqual(['hydration-high']);
  });

  test('what a soaker has drunk does not make a dough spread', () => {
    const soaked = (kind: string) => `formula "Raisin loaf"
  style     hearth, with inclusions

${kind}
  300 g     raisins
  200 g     water

dough
  1000 g    bread flour
  800 g     water
  20 g      salt
  all       ${kind}
`;
    expect(codes(soaked('soaker'))).toEqual([]);
  });
});

describe('flours that are not whole', () => {
  test('one way out for each flour that can take up the difference', () => {
    const found = only(loaf('  makes     1 loaf of 900 g\n', '  90 %      bread flour\n  5 %       dark rye flour\n  15 %      whole wheat flour\n  70 %      water\n  2 %       salt'), 'flour-not-whole');
    expect(found.message).toMatch(/^The flours of “dough” come to 110 %, not to 100 %/);
    // 5 % of rye cannot give 10.
    expect(found.finding.fixes.map(({ title }) => title)).toEqual(['Make “bread flour” 80 %', 'Make “whole wheat flour” 5 %']);
  });

  test('shares that leave nothing for the flour in grams', () => {
    const found = only(loaf('', '  100 %     bread flour\n  50 g      dark rye flour\n  70 %      water\n  2 %       salt'), 'flour-not-whole');
    expect(found.message).toMatch(/leaves nothing for the flour in grams/);
    expect(found.finding.fixes).toEqual([]);
  });
});

describe('makes against the amounts', () => {
  const text = `formula "Country loaf"
  makes     4 loaves of 1 kg   # for the stall

levain
  100 g     bread flour
  100 g     water
  20 g      starter
  keep      20 g

dough
  900 g     bread flour
  1 1/2 cup water
  250 g     water   # cold
  all       levain
  20 g      salt
  0.5 oz    honey
`;

  test('the second way out scales what is weighed and keeps units, columns and comments', () => {
    const found = only(text, 'makes-disagrees');
    const [correct, scale] = found.finding.fixes;
    expect(found.after(correct!)).toContain('makes     4 loaves of 0.435 kg   # for the stall');
    const scaled = found.after(scale!);
    expect(codes(scaled)).toEqual([]);
    expect(scaled).toContain('  230 g     bread flour\n');
    expect(scaled).toContain('  3.45 cup  water\n');
    expect(scaled).toContain('g     water   # cold\n');
    expect(scaled).toContain('  1.15 oz   honey\n');
    expect(scaled).toContain('makes     4 loaves of 1 kg   # for the stall\n');
    const hydration = (of: string) => analyseFormula(of).totals.hydration_pct ?? Number.NaN;
    expect(hydration(scaled)).toBeCloseTo(hydration(text), 0);
  });

  test('loaves of nothing', () => {
    const found = only(loaf('  makes     2 loaves of 0 g\n', PLAIN), 'makes-nothing');
    expect(found.text).toBe('0 g');
    expect(found.finding.fixes).toEqual([]);
  });

  test('the second way out writes each number as its author did, and leaves `makes` alone', () => {
    const found = only(`formula "Honey loaf"
  makes     2 loaves of 860 g   # the two tins

dough
  500 g     bread flour
  350 g     water
  10 g      salt
  2.5 g     instant yeast
  1/2 tsp (3.5 g) honey
  40 to 50 g   raisins     # whatever is there

steps
  mix       8 min, add 20 g of raisins
  bulk      3 h at 24 C
    fold    at 30 min, add rest of raisins
`, 'makes-disagrees');
    const [, scale] = found.finding.fixes;
    const scaled = found.after(scale!);
    expect(scaled).toContain('makes     2 loaves of 860 g   # the two tins\n');
    expect(scaled).toMatch(/^ {2}944 g {5}bread flour\n {2}661 g {5}water\n {2}18\.9 g {4}salt\n {2}4\.7 g {5}instant yeast\n/m);
    expect(scaled).toMatch(/^ {2}1 tsp \(7 g\) honey\n {2}76 to 94 g {3}raisins {5}# whatever is there\n/m);
    expect(scaled).toContain('add 38 g of raisins');
  });

  test('rounding eggs never passes for scaling', () => {
    const buns = (pieces: number) => `formula "Buns"
  makes     ${pieces} buns of 80 g
  style     enriched

dough
  1000 g    bread flour
  400 g     milk
  3 eggs
  15 g      salt
`;
    // 1565 g of dough: twice as much takes 6 eggs, half as much takes one egg and a half, and the milk makes up for the half.
    expect(only(buns(39), 'makes-disagrees').finding.fixes).toHaveLength(2);
    const half = only(buns(10), 'makes-disagrees');
    const [, scale] = half.finding.fixes;
    expect(codes(half.after(scale!))).toEqual([]);
    expect(half.after(scale!)).toContain('  2 eggs\n');
    // Without a liquid there is nothing to make up for it.
    const dry = inPoint(buns(8).replace('  400 g     milk\n', '  250 g     butter\n')).find(({ code }) => code === 'makes-disagrees')!;
    expect(dry.finding.fixes).toHaveLength(1);
  });

  test('either way out settles it, whatever the size', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 60, max: 2500 }), fc.integer({ min: 80, max: 9000 }), (pieces, each, flour) => {
        const text = `formula "Country loaf"\n  makes     ${pieces} loaves of ${each} g\n\ndough\n  ${flour} g    bread flour\n  70 %      water\n  ${(flour * 0.02).toFixed(1)} g salt\n`;
        // A piece under 10 g is no bread, and no scale shows 2 % of it.
        fc.pre((flour * 1.72) / pieces >= 40 && pieces * each >= 200);
        for (const found of findingsIn(text)) {
          for (const fix of found.finding.fixes) {
            expect(codes(found.after(fix)), found.after(fix)).toEqual([]);
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('portions', () => {
  const steps = (...lines: readonly string[]) =>
    loaf('', `${PLAIN}\n  200 g     walnuts\n  50 g      unsalted butter`, `\nsteps\n  mix         8 min\n${lines.map((line) => `  do "work in" 2 min, ${line}\n`).join('')}`);

  test.each([
    ['halves', ['add half of walnuts', 'add half of walnuts']],
    ['thirds', ['add 1/3 of walnuts', 'add 1/3 of walnuts', 'add 1/3 of walnuts']],
    ['per cent', ['add 33 % of walnuts', 'add 33 % of walnuts', 'add 33 % of walnuts']],
    ['grams', ['add 50 g of walnuts', 'add 0.15 kg of walnuts']],
    ['a weight and the rest', ['add 40 g of walnuts', 'add rest of walnuts']],
    ['a shorter name', ['add butter']],
    ['in one step', ['add half of walnuts, add rest of walnuts']],
  ])('%s come to the whole', (_, lines) => {
    expect(codes(steps(...lines))).toEqual([]);
  });

  test.each([
    ['all of “walnuts” has been added', ['add walnuts', 'add rest of walnuts'], 'All of “walnuts” has been added before, so nothing is left for this step.'],
    ['more than there is', ['add 150 g of walnuts', 'add half of walnuts'], 'With this step 250 g of 200 g of “walnuts” would be added, more than there is.'],
    ['too little', ['add 40 g of walnuts', 'add 40 g of walnuts'], 'The steps add 40 % of “walnuts”; 120 g of it is never added.'],
    ['nothing of the name', ['add hazelnuts'], 'This step adds “hazelnuts”, but nothing of that name is in the dough.'],
  ])('%s', (_, lines, message) => {
    const found = only(steps(...lines), 'portions-not-whole');
    expect(found.message.startsWith(message), found.message).toBe(true);
    expect(found.text).toBe(lines[lines.length - 1]);
    for (const fix of found.finding.fixes) {
      expect(codes(found.after(fix))).toEqual([]);
    }
  });

  test('a filling that no dough takes in may be added by a step', () => {
    expect(codes(`${loaf('', PLAIN)}\nfilling\n  200 g     walnuts\n\nsteps\n  fill        5 min, add filling\n`)).toEqual([]);
  });

  test('nothing is said while the whole is not known', () => {
    const text = steps('add 40 g of walnuts').replace('200 g     walnuts', '2 handfuls walnuts');
    expect(codes(text)).not.toContain('portions-not-whole');
  });
});

describe('folds', () => {
  const bulk = (length: string, fold: string) => loaf('', `${PLAIN}\n  5 g       instant yeast`, `\nsteps\n  mix         8 min\n  bulk        ${length} at 24 C\n    fold      ${fold}\n`);

  test.each([
    ['3 h', 'at 180 min'],
    ['2 to 3 h', 'at 170 min'],
    ['2 h', 'every 30 min, 4 times'],
    ['2 h', '10 min'],
  ])('in a bulk of %s, %s fits', (length, fold) => {
    expect(codes(bulk(length, fold))).not.toContain('fold-outside-bulk');
  });

  test.each([
    ['3 h', 'at 181 min', 'This fold falls 3 h 1 min into a bulk that ends after 3 h.'],
    ['90 min', 'every 30 min, 4 times', 'This fold falls 2 h into a bulk that ends after 1 h 30 min.'],
  ])('in a bulk of %s, %s does not', (length, fold, message) => {
    expect(only(bulk(length, fold), 'fold-outside-bulk').message).toContain(message);
  });

  test('one with a time of its own under no bulk', () => {
    const text = loaf('', PLAIN, '\nsteps\n  mix         8 min\n  fold        at 30 min\n');
    expect(only(text, 'fold-outside-bulk').message).toMatch(/stands under none\. Indent it under the `bulk`/);
  });
});

describe('the oven', () => {
  const bake = (...lines: readonly string[]) => loaf('', PLAIN, `\nsteps\n${lines.map((line) => `  ${line}\n`).join('')}`);

  test('the second bake finds it hot', () => {
    expect(codes(bake('preheat 45 min at 240 C', 'bake 20 min at 240 C', 'bake 20 min at 220 C'))).toEqual([]);
    expect(codes(bake('bake 20 min at 240 C', 'bake 20 min at 220 C'))).toEqual(['no-oven-heat']);
  });

  test('a preheat after the bake does not help it', () => {
    expect(codes(bake('bake 20 min at 240 C', 'preheat 45 min at 240 C'))).toEqual(['no-oven-heat', 'steps-out-of-order']);
  });

  test('a range of temperatures is copied as it is', () => {
    const found = only(bake('bake 20 min at 230 to 240 C'), 'no-oven-heat');
    expect(found.after(found.finding.fixes[0]!)).toContain('  preheat 45 min at 230 to 240 C\n  bake 20 min at 230 to 240 C\n');
  });

  test('without a temperature there is nothing to preheat to', () => {
    expect(only(bake('bake 20 min'), 'no-oven-heat').finding.fixes).toEqual([]);
  });

  test('dough heat in place of oven heat', () => {
    expect(only(bake('preheat 45 min at 240 C', 'bake 20 min at 24 C'), 'oven-temperature-odd').message).toBe('24 C is no oven heat: nothing bakes under 90 C. Is a digit missing?');
  });
});

describe('a total formula', () => {
  const total = (list: string) => `formula "Baguette"
  makes     5 baguettes of 350 g

poolish
  100 %     bread flour
  100 %     water
  0.1 %     instant yeast

total formula
${list}
  30 % of flour in poolish
`;

  test('what is missing is added as a share where the list is in shares', () => {
    const found = only(total('  100 %     bread flour\n  70 %      water\n  2 %       salt'), 'total-leaves-out');
    const after = found.after(found.finding.fixes[0]!);
    expect(after).toContain('  2 %       salt\n  0.03 %    instant yeast\n');
    expect(codes(after)).toEqual([]);
  });

  test('what is too little is raised to what is used', () => {
    const found = only(total('  100 %     bread flour\n  70 %      water\n  2 %       salt\n  0.01 %    instant yeast'), 'total-leaves-out');
    const after = found.after(found.finding.fixes[0]!);
    expect(after).toContain('  0.03 %    instant yeast\n');
    expect(codes(after)).toEqual([]);
  });
});

describe('room and fridge', () => {
  test('each is told once, at its first place', () => {
    const text = loaf('  fridge    4 C\n', PLAIN, '\nsteps\n  rest        20 min at room\n  bulk        3 h at room\n  retard      12 h at fridge\n');
    const found = only(text, 'room-not-said');
    expect(found.finding.related).toHaveLength(1);
    expect(text.slice(0, found.start)).toContain('rest        20 min at ');
    expect(text.slice(0, found.start)).not.toContain('bulk');
  });

  test('a record says its own', () => {
    expect(codes(loaf('', PLAIN, '\nrecord 2026-03-14\n  retard    13 h at fridge\n'))).toEqual([]);
  });
});

describe('vague amounts', () => {
  test('overnight, and several pinches, with what they are counted as', () => {
    const text = loaf('', `${PLAIN}\n  2 pinches cinnamon`, '\nsteps\n  retard      overnight at 4 C\n');
    const found = inPoint(text);
    expect(found.map(({ code, text: at }) => `${code} ${at}`)).toEqual(['vague-amount 2 pinches', 'vague-amount overnight']);
    expect(found.map((one) => one.after(one.finding.fixes[0]!)).map((after) => codes(after))).toEqual([['vague-amount'], ['vague-amount']]);
    expect(found[0]!.after(found[0]!.finding.fixes[0]!)).toContain('  0.6 g cinnamon\n');
    expect(found[1]!.after(found[1]!.finding.fixes[0]!)).toContain('retard      8 to 14 h at 4 C\n');
  });

  test('a pinch with its weight in brackets is not vague', () => {
    expect(codes(loaf('', `${PLAIN}\n  pinch (0.4 g) cinnamon`))).toEqual([]);
  });
});

describe('names that are nearly right', () => {
  test('an unknown ingredient without a near name gets a block of its own', () => {
    const found = only(loaf('', `${PLAIN}\n  10 g      zzyzx`), 'unknown-ingredient');
    expect(found.message).toBe('“zzyzx” is not in the ingredient table. Its weight counts; its water, sugar, salt and allergens do not. To make it known, add a block `ingredient "zzyzx"`.');
    const after = found.after(found.finding.fixes[0]!);
    expect(after.endsWith('  10 g      zzyzx\n\ningredient "zzyzx"\n  role      other\n')).toBe(true);
    expect(codes(after)).toEqual([]);
  });

  test('a formula that a dish uses', () => {
    const text = 'formula "Milk loaf"\n\ndough\n  1000 g    bread flour\n  700 g     milk\n  20 g      salt\n\ndish "Toast"\n  uses      300 g "Mlik loaf"\n';
    const found = only(text, 'formula-missing');
    expect(found.message).toContain('Did you mean “milk loaf”?');
    expect(codes(found.after(found.finding.fixes[0]!))).toEqual([]);
  });
});

describe('one mistake is told once', () => {
  test('a dough of no size has no other findings', () => {
    expect(codes(loaf('', '  100 %     bread flour\n  120 %     water\n  9 %       salt\n  90 %      raisins'))).toEqual(['no-size']);
  });

  test('a salt line half typed is no dough without salt', () => {
    expect(codes(loaf('', '  1000 g    bread flour\n  700 g     water\n  20'))).toEqual(['incomplete']);
  });

  test('a levain that is forgotten is no stiff dough', () => {
    const text = `formula "Country loaf"\n\nlevain\n  400 g     bread flour\n  400 g     water\n  40 g      starter\n\ndough\n  600 g     bread flour\n  300 g     water\n  20 g      salt\n`;
    expect(codes(text)).toEqual(['part-unused']);
  });
});

test('a share that is written as the limit is not over it, whatever the flour weighs', () => {
  const dough = '  100 %     bread flour\n  55 %      water\n  20 %      butter\n  1.8 %     salt\n  1.2 %     instant yeast';
  const steps = '\nsteps\n  mix       10 min, by mixer\n';
  for (const grams of [70, 71, 73, 77, 79, 81, 83, 85.7]) {
    expect(findingsIn(loaf(`  makes     24 buns of ${String(grams)} g\n  style     enriched\n`, dough, steps)).map(({ code }) => code)).not.toContain('fat-before-gluten');
  }
});

test('a second base counts nowhere, and that is said at its line', () => {
  const text = `${loaf('', PLAIN)}\nformula "Wet loaf"\n  based on  "Country loaf"\n  set       water to 750 g\n\nformula "Both"\n  based on  "Country loaf"\n  based on  "Wet loaf"\n`;
  const { message } = only(text, 'change-twice');
  expect(message).toBe('This formula is based on “Country loaf” by a line above, and only that one counts. Keep one of the two.');
});
