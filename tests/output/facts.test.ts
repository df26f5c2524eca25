/** What stands under a sheet, in words, and its JSON. The arithmetic itself is tested in the core. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHOICES } from '../../server/core/settings/settings';
import { shortly } from '../../server/output/facts/cautions';
import { factsJson } from '../../server/output/facts/json';
import { hoursWords, named } from '../../server/output/facts/words';
import { plain } from '../../server/output/paint';
import { sheetFacts, type FactsOptions } from '../../server/output/sheet-facts';
import { sheetJson } from '../../server/output/sheet-json';
import { sheetText } from '../../server/output/sheet-text';
import { widthOf } from '../../server/output/width';
import { bakeText } from '../grammar/arbitrary';
import { someText, wholeText } from '../core/arbitrary';
import { entriesOf, entryOf } from './from-text';

const factsOf = (text: string, options: FactsOptions = {}): string =>
  `\n${sheetFacts(entryOf(text), options, { width: 100, paint: plain }).map((block) => block.join('\n')).join('\n\n')}\n`;

const RYE = `
formula "Rye"
  makes     2 loaves
  style     hearth
  room      22 C
  fridge    4 C
  friction  12 C
  loses     12 % in the oven

levain
  100 g     dark rye flour
  100 g     water at 28 C
  20 g      starter
  ripen     6 h at 25 C

dough at 25 C
  900 g     bread flour
  600 g     water
  all       levain
  20 g      salt
  100 g     walnuts

steps
  mix       8 min, by mixer
  bulk      4 h at 24 C
  shape     10 min
  retard    12 h
  bake      45 min at 230 C, lid on
`;

describe('under a sheet', () => {
  test('what a loaf wants, does and holds, in short', () => {
    expect(factsOf(RYE)).toMatchInlineSnapshot(`
      "
      Dough temperature
        water to use   19 °C (66 °F) by the factor rule, the friction being measured; heat balance says 21
                       °C (70 °F)
                       The flour is taken as at room temperature, 22 C. As warm as the room: walnuts. Goes
                       in at 25 C: levain. The friction is taken as measured with four factors.

      Fermentation (estimates: watch the dough)
        levain   about ripe when it goes in: it gets 6 h of 25 °C and peaks after 5 h to 9 h 30 min
        bulk     counts as 3 h 15 min to 5 h of 24 °C, the dough beginning at 25 °C; in the room it would
                 take 3 h 45 min to 5 h 45 min
        retard   adds 30 min to 2 h 30 min of 24 °C, most of it in the first 2 h 30 min to 4 h 30 min

      Food facts (100 g baked, estimated from composition tables)
        1086 kJ (257 kcal) · fat 5.1 g, saturates 0.5 g · carbohydrate 42.6 g, sugars 0.5 g · fibre 3.2 g
        protein 8.7 g · salt 1.2 g

      Allergens
        EU   cereals containing gluten (rye, wheat), nuts (walnut)
        US   tree nuts (walnut), wheat

      Cautions
        · Flour is raw food. Do not taste raw dough, batter or starter, and wash hands and tools after
          them.
        · The pot and its lid are as hot as the oven: dry gloves, lift the lid away from you, and leave a
          glove on the lid afterwards.
        These are reminders from public guidance. Local food rules come first. In full with --facts.
      "
    `);
  });

  test('in full: the table, and cautions with their sources', () => {
    expect(factsOf(RYE, { full: true })).toMatchInlineSnapshot(`
      "
      Dough temperature
        water to use   19 °C (66 °F) by the factor rule, the friction being measured; heat balance says 21
                       °C (70 °F)
                       The flour is taken as at room temperature, 22 C.
                       As warm as the room: walnuts. Say \`at 5 C\` on a line that comes from the fridge.
                       Goes in at 25 C: levain.
                       The friction is taken as measured with four factors.

      Fermentation (estimates: watch the dough)
        levain   about ripe when it goes in: it gets 6 h of 25 °C and peaks after 5 h to 9 h 30 min
        bulk     counts as 3 h 15 min to 5 h of 24 °C, the dough beginning at 25 °C; in the room it would
                 take 3 h 45 min to 5 h 45 min
        retard   adds 30 min to 2 h 30 min of 24 °C, most of it in the first 2 h 30 min to 4 h 30 min
                 Pace: cardinal temperature model, Rosso and others 1993 and 1995; limits by M. Gänzle in
                 the sourdough FAQ, “What factors affect microbial growth in sourdough?” (Kazachstania
                 humilis); optimum also Brandt, Hammes, Gänzle 2004.

      Food facts (baked, estimated from composition tables)
                                  100 g   a slice of 50 g    one loaf
        energy in kJ            1086 kJ            543 kJ     8792 kJ
        energy in kcal         257 kcal          129 kcal   2084 kcal
        fat                       5.1 g             2.5 g      41.3 g
          of which saturates      0.5 g             0.3 g       4.3 g
        carbohydrate             42.6 g            21.3 g     344.9 g
          of which sugars         0.5 g             0.2 g       3.9 g
        fibre                     3.2 g             1.6 g      26.3 g
        protein                   8.7 g             4.3 g      70.1 g
        salt                      1.2 g             0.6 g      9.72 g
        An estimate from composition tables; what fermentation eats is not taken off.
        The flour of the starter is taken as the blend of the other flours.

      Allergens
        EU   cereals containing gluten (rye, wheat), nuts (walnut)
        US   tree nuts (walnut), wheat

      Ingredients list (a draft: local food law comes first)
        ingredients   bread flour (WHEAT), water, dark RYE flour, WALNUTS, sourdough culture (flour,
                      water), salt
                      Heaviest first, as weighed into the bowl; allergens in capitals. Names are those of
                      the formula: write the ones that your law and the packets give.
                      Water has the place of what is left of it after the oven, as EU law has it.

      Cautions
        · Flour is raw food. Do not taste raw dough, batter or starter, and wash hands and tools after
          them.
          US FDA advice on raw flour, as repeated on several pages.
        · The pot and its lid are as hot as the oven: dry gloves, lift the lid away from you, and leave a
          glove on the lid afterwards. No cold water into hot enamel, and check that the knob of the lid
          stands the heat.
          H. McGee, On Food and Cooking, “Enamelware” (quenched enamel cracks); the rest common practice.
        These are reminders from public guidance. Local food rules come first.
      "
    `);
  });

  test('for a label: its rounding, its list of allergens', () => {
    expect(factsOf(RYE, { rounding: 'us', allergens: 'us', sliceGrams: 40 })).toMatchInlineSnapshot(`
      "
      Dough temperature
        water to use   19 °C (66 °F) by the factor rule, the friction being measured; heat balance says 21
                       °C (70 °F)
                       The flour is taken as at room temperature, 22 C. As warm as the room: walnuts. Goes
                       in at 25 C: levain. The friction is taken as measured with four factors.

      Fermentation (estimates: watch the dough)
        levain   about ripe when it goes in: it gets 6 h of 25 °C and peaks after 5 h to 9 h 30 min
        bulk     counts as 3 h 15 min to 5 h of 24 °C, the dough beginning at 25 °C; in the room it would
                 take 3 h 45 min to 5 h 45 min
        retard   adds 30 min to 2 h 30 min of 24 °C, most of it in the first 2 h 30 min to 4 h 30 min

      Food facts (baked, estimated from composition tables)
                                    100 g   a slice of 40 g   one loaf
        calories                      260               110       2140
        total fat                     5 g               2 g       41 g
          of which saturated fat    0.5 g               0 g      4.5 g
        sodium                     480 mg            190 mg    3890 mg
        total carbohydrate           46 g              18 g      371 g
          of which dietary fiber      3 g               1 g       26 g
          of which total sugars       0 g               0 g        4 g
        protein                       9 g               3 g       70 g
        An estimate from composition tables; what fermentation eats is not taken off.
        The flour of the starter is taken as the blend of the other flours.
        Rounded by 21 CFR 101.9(c), calories by the general factors 4, 4 and 9. No finished label: have
        one checked.

      Allergens
        US   tree nuts (walnut), wheat

      Cautions
        · Flour is raw food. Do not taste raw dough, batter or starter, and wash hands and tools after
          them.
        · The pot and its lid are as hot as the oven: dry gloves, lift the lid away from you, and leave a
          glove on the lid afterwards.
        These are reminders from public guidance. Local food rules come first. In full with --facts.
      "
    `);
    const european = factsOf(RYE, { rounding: 'eu', allergens: 'eu' });
    expect(european).toContain('nuts (walnut)');
    expect(european).not.toMatch(/^ {2}US/m);
  });

  test('water as it is written: the dough that comes out', () => {
    expect(factsOf(RYE.replace('600 g     water', '600 g     water at 21 C'))).toMatch(/comes out at +[\d.]+ °C \(\d+ °F\) by the factor rule, [\d.]+ °C \(\d+ °F\) by heat balance, with the\s+water as written; wanted 25 °C/);
  });

  test('ice, when the tap is too warm', () => {
    expect(factsOf(RYE.replace('dough at 25 C', 'dough at 19 C').replace('room      22 C', 'room      30 C'))).toMatch(/^ {2}ice {12}\d+ g of it as ice$/m);
  });

  test('no dough temperature asked for, none foretold: not a word of it', () => {
    expect(factsOf(RYE.replace('dough at 25 C', 'dough'))).not.toContain('Dough temperature');
    expect(factsOf(RYE.replace('  room      22 C\n', '').replace('ripen     6 h at 25 C', 'ripen     6 h'))).toMatch(/water to use {3}not known: nothing says how warm the room is \(room 22 C\)/);
  });

  test('what cannot be known says why', () => {
    const odd = factsOf(RYE.replace('100 g     walnuts', '3 tsp     grains of paradise'));
    expect(odd).toContain('Not known: 3 tsp grains of paradise has no weight.');
    expect(odd).not.toContain('Food facts');
    expect(odd).toContain('not known   what is in grains of paradise');
    expect(factsOf(RYE.replace('walnuts', 'moon cheese'))).toContain('Not known: any of it, for want of the composition of moon cheese.');
  });

  test('cost, when anything has a price', () => {
    const price = (name: string): string => `ingredient "${name}"\n  like ${name}\n  costs 2 EUR per kg\n\n`;
    expect(factsOf(RYE)).not.toContain('Cost');
    expect(factsOf(price('bread flour') + RYE)).toMatch(/Cost\n {2}not known {3}no price or weight of dark rye flour, salt and walnuts/);
    const all = ['bread flour', 'dark rye flour', 'salt', 'walnuts'].map(price).join('') + RYE;
    // 900 + 100 + 10 g in the starter of flour, 20 g of salt, 100 g of walnuts at 2 EUR a kilogram.
    expect(factsOf(all)).toMatch(/Cost\n {2}all of it {2} 2\.26 EUR\n {2}one loaf {4}1\.13 EUR/);
  });

  test('a dish takes in what the bread that it uses brings', () => {
    const price = (name: string): string => `ingredient "${name}"\n  like ${name}\n  costs 2 EUR per kg\n\n`;
    const book = ['bread flour', 'salt', 'milk'].map(price).join('') + 'formula "Loaf"\n  makes 2 loaves of 500 g\n  loses 10 % in the oven\n\ndough\n  100 % bread flour\n  65 % water\n  2 % salt\n\ndish "Toast"\n  serves 2\n  uses 400 g of "Loaf"\n  100 g milk\n';
    const [, toast] = entriesOf(book);
    const text = sheetFacts(toast!, {}, { width: 100, paint: plain }).flat().join('\n');
    expect(text).toContain('cereals containing gluten (wheat), milk');
    const form = factsJson(toast!) as { readonly cost: { readonly amount: number }; readonly nutrition_per_100g: { readonly salt_g: number }; readonly nutrition_per_slice: unknown };
    // 1000 g of dough is 900 g of bread; its flour and salt weigh 1000 × 102 / 167 g.
    expect(form.cost.amount).toBeCloseTo(((1000 * 102) / 167 / 900) * 400 * 0.002 + 0.2, 9);
    expect(form.nutrition_per_100g.salt_g).toBeGreaterThan(1);
    expect(form.nutrition_per_slice).toBeNull();
  });
});

test('lengths of time to what is worth reading, lists to what is worth naming, cautions to a line', () => {
  expect([{ low: 0.52, high: 2.41 }, { low: 5.02, high: 7.02 }, { low: 1.2, high: 1.8 }, { low: 0.01, high: 0.02 }].map(hoursWords)).toEqual(['30 min to 2 h 30 min', '5 to 7 h', '1 h 15 min to 1 h 45 min', '0 min']);
  expect([named([]), named(['a']), named(['a', 'b', 'c']), named(['a', 'b', 'c', 'd', 'e', 'f']), named(['a', 'b', 'c', 'd', 'e', 'f', 'g'])]).toEqual(['', 'a', 'a, b and c', 'a, b, c, d, e and f', 'a, b, c, d, e and 2 more']);
  expect(shortly({ text: 'Hot. Mind the lid.' })).toBe('Hot. Mind the lid.');
  expect(shortly({ text: 'Hot at 4.5 C. Mind the lid.' }, 10)).toBe('Hot at 4.5 C.');
});

test('the words of the settings for labels are the words of the options', () => {
  expect(Object.keys(CHOICES.labelRounding.words)).toEqual(['none', 'eu', 'us']);
  expect(Object.keys(CHOICES.allergens.words)).toEqual(['eu', 'us', 'both']);
});

/** Where a number is none. */
function badNumbers(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (value === undefined) return [`${path} is undefined`];
  return typeof value === 'object' && value !== null ? Object.entries(value).flatMap(([key, inside]) => badNumbers(inside, `${path}.${key}`)) : [];
}

describe('whatever is written', () => {
  test('the JSON has numbers or null before anything is made of it, and words fit the width', () => {
    const check = (text: string): void => {
      for (const entry of entriesOf(text)) {
        expect(badNumbers(factsJson(entry))).toEqual([]);
        for (const facts of [{}, { full: true }, { rounding: 'us' }, { rounding: 'eu' }] as const) {
          const words = sheetText(entry, { width: 80, paint: plain, facts });
          expect(words).not.toMatch(/\b(NaN|undefined|null|Infinity)\b|\[object/);
        }
      }
      expect(sheetJson(entriesOf(text))).not.toMatch(/NaN|Infinity/);
    };
    fc.assert(fc.property(fc.oneof(someText, wholeText, bakeText), check), { numRuns: 200 });
  });

  test('facts of 100 g, of a slice and of a piece do not change with the size of the batch', () => {
    fc.assert(fc.property(wholeText, fc.integer({ min: 2, max: 9 }), (text, times) => {
      // Every weight several times over, and as many more pieces.
      const larger = text.replace(/^( {2})([\d.]+) g /gm, (_, indent: string, grams: string) => `${indent}${String(Number((Number(grams) * times).toFixed(3)))} g `)
        .replace(/makes (\d+)/, (_, pieces: string) => `makes ${String(Number(pieces) * times)}`);
      const [one, many] = [text, larger].map((each) => factsJson(entryOf(each)) as Readonly<Record<string, Readonly<Record<string, number | null>> | null>>);
      for (const name of ['nutrition_per_100g', 'nutrition_per_slice', 'nutrition_per_piece']) {
        for (const [key, value] of Object.entries(one![name] ?? {})) {
          const other = many![name]?.[key];
          if (value === null) expect(other).toBeNull();
          else expect(Math.abs((other ?? NaN) - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
        }
      }
      expect(many!.allergens).toEqual(one!.allergens);
    }), { numRuns: 100 });
  });

  test('lines of facts are no wider than the page', () => {
    fc.assert(fc.property(wholeText, fc.integer({ min: 60, max: 120 }), (text, width) => {
      for (const line of sheetFacts(entryOf(text), {}, { width, paint: plain }).flat()) expect(widthOf(line)).toBeLessThanOrEqual(width);
    }), { numRuns: 100 });
  });
});
