/**
 * Three samples worked by hand from their text and the composition table alone, and then compared, digit for digit, with the
 * sheet that the program prints. The bakery is invented and the arithmetic our own: this shows that the sheet is what its
 * definitions say, not that anybody published it. Whoever changes one of these samples works it anew.
 */
import { beforeAll, describe, expect } from 'vitest';
import { proofsheet } from '../cli/program';
import { outside } from './outside';

const check = outside('worked by hand', 'the definitions of the sheet, pencil and paper');

const NUMBER = /<?-?\d+(?:\.\d+)?|–/g;
type Digits = Readonly<Record<string, string>>;

/** `rows` and `nutrition`: the figures of a line, left to right. `totals`: the one figure behind a name. `beside`: lines of parts on their own. */
interface Worked {
  readonly sample: string;
  readonly rows: Digits;
  readonly totals: Digits;
  readonly nutrition: Digits;
  readonly beside?: Digits;
}

function figuresOf(lines: readonly string[], name: string): string {
  const line = lines.find((one) => one.trimStart().startsWith(`${name}  `)) ?? '';
  return (line.trimStart().slice(name.length).match(NUMBER) ?? []).join(' ');
}

function compare({ sample, rows, totals, nutrition, beside = {} }: Worked): void {
  describe(sample, () => {
    let blocks: readonly (readonly string[])[] = [];
    beforeAll(async () => {
      const { out } = await proofsheet(['sheet', `samples/${sample}.bake`]);
      blocks = out.split('\n\n').map((block) => block.split('\n'));
    });
    const block = (has: string) => blocks.find((lines) => lines.some((line) => line.includes(has))) ?? [];

    check('every row of the table', () => {
      const table = block('Total formula').filter((line) => /\d/.test(line));
      expect(Object.fromEntries(Object.keys(rows).map((name) => [name, figuresOf(table, name)]))).toEqual(rows);
      expect(table).toHaveLength(Object.keys(rows).length);
    });

    check('every total', () => {
      const text = block('flour in all').join('\n');
      const found = [...text.matchAll(/([a-z][a-z, ]*[a-z])\s{1,}(\d+(?:\.\d+)?)\s+[g%]/g)].map(([, name = '', figure = '']) => [name, figure]);
      expect(Object.fromEntries(found)).toEqual(totals);
    });

    check('every food fact', () => {
      const table = block('Food facts').filter((line) => /^ {2}(energy|fat|carbohydrate|fibre|protein|salt| {2}of which) ?/.test(line));
      expect(Object.fromEntries(Object.keys(nutrition).map((name) => [name, figuresOf(table, name)]))).toEqual(nutrition);
      expect(table).toHaveLength(Object.keys(nutrition).length);
    });

    if (Object.keys(beside).length === 0) return;
    check('every line of the parts that go on it', () => {
      const found = Object.keys(beside).map((key) => {
        const [part = '', name = ''] = key.split(': ');
        const lines = blocks.find(([first = '']) => first.startsWith(`${part} `)) ?? [];
        return [key, figuresOf(lines, name).split(' ').slice(0, 2).join(' ')];
      });
      expect(Object.fromEntries(found)).toEqual(beside);
    });
  });
}

/*
 * 6 loaves of 950 g with 1.5 % lost at the bench: dough 5700 / 0.985 = 5786.802 g. The list is 100 + 73 + 2 + 0.1 = 175.1 %
 * of the flour, so the flour is 3304.856 g.
 *
 * Levain, 10 % of the flour = 330.486 g. For 1 of its flour there is 0.6 water and 0.2 starter, which is 0.1 flour and 0.1
 * water: 1.1 flour in 1.8. Taken in: 330.486 / 1.1 = 300.441 flour, 180.265 water, 60.088 starter, 540.795 in all. With
 * the 60 g kept it is 600.795: 333.775 flour, 200.265 water, 66.755 starter.
 *
 * Poolish, 20 % of the flour = 660.971 g; as much water; 0.08 % yeast = 0.529 g; 1322.471 in all.
 *
 * Final dough: bread flour 0.75 × 3304.856 - 300.441 - 30.044 (in the starter) - 660.971 = 1487.185; whole wheat 660.971;
 * rye 165.243; water 0.73 × 3304.856 - 180.265 - 30.044 - 660.971 = 1541.264; salt 66.097; yeast 3.305 - 0.529 = 2.776. Its own
 * flour is 2313.399. Rounded, the column misses 5787 by a gram; the water is furthest off, parts aside: 1542.
 */
compare({
  sample: 'country-loaf',
  rows: {
    'mill bread flour': '2449 74.1 334 100.0 661 100.0 1487 64.3', // in all 0.75 × 3304.856 - 30.044 = 2448.598
    'whole wheat flour': '661 20.0 661 28.6', // 660.971 / 2313.399
    'stone-ground rye': '165 5.0 165 7.1',
    'water': '2383 72.1 200 60.0 661 100.0 1542 66.6', // in all 0.73 × 3304.856 - 30.044 = 2382.500, the tie goes up
    'salt': '66 2.0 66 2.9',
    'instant yeast': '3.3 0.1 0.5 0.08 2.8 0.12',
    'starter': '60 1.8 67 20.0', // 60.088 reach the dough, 66.755 are weighed
    'levain': '541 23.4',
    'poolish': '1322 57.2',
    'in all': '5787 175.1 601 180.0 1322 200.1 5787 250.1',
    'kept back': '-60',
    'for the dough': '541',
  },
  totals: {
    'flour in all': '3305', 'dough': '5787', 'one piece': '950',
    'one piece, baked': '808', // 950 × 0.85 = 807.5
    'hydration': '73.0', 'water in all': '73.0',
    'effective hydration': '73.0', // and 0.2 % of the salt, 5.08 % of the yeast: 73.009
    'salt': '2.0',
    'prefermented flour': '30.0',
    'inoculation': '16.4', // 540.795 / 3304.856
    'flour protein': '12.9', // (2448.598 × 12.6 + 660.971 × 13.21 + 165.243 × 15.91) / 3274.812 = 12.890
  },
  // Baked 5786.802 × 0.85 = 4918.782 g. The starter's flour is the blend, so of the flours 2471.065, 667.035 and 166.759 g: fat
  // 61.65, carbohydrate without fibre 2216.9, fibre 171.3, protein 427.3, salt 66.097 × 38.758 % × 2.5 + … = 64.21 g.
  nutrition: {
    'energy in kJ': '988 494 7979', // 37 × 61.649 + 17 × (2216.879 + 427.337) + 8 × 171.256 = 48 602.7 in all
    'energy in kcal': '233 117 1884',
    'fat': '1.3 0.6 10', 'of which saturates': '0.2 <0.1 1.5',
    'carbohydrate': '45 23 364', 'of which sugars': '<0.5 <0.5 2.3',
    'fibre': '3.5 1.7 28', 'protein': '8.7 4.3 70', 'salt': '1.3 0.65 10.5',
  },
});

/*
 * 24 knots of 90 g: 2160 g. The final dough is 100 + 54 + 38 + 14 + 18 + 22 + 2 + 1.4 + 1.2 = 250.6 % of its flour: 861.931 g of
 * flour, 465.443 g of sponge. The sponge is 161 % of its own flour: 289.095 g, with 173.457 milk and 2.891 yeast.
 * All flour: 1151.026 g.
 */
compare({
  sample: 'knots',
  rows: {
    'bread flour': '1151 100.0 289 100.0 862 100.0',
    'salt': '17 1.5 17 2.0', // 17.239
    'osmotolerant yeast': '15 1.3 2.9 1.0 12 1.4', // 2.891 + 12.067 = 14.958
    'milk': '501 43.5 173 60.0 328 38.0', // 173.457 + 327.534 = 500.991
    'eggs': '121 10.5 121 14.0',
    'sugar': '155 13.5 155 18.0',
    'butter': '190 16.5 190 22.0',
    'ground cardamom': '10 0.9 10 1.2',
    'sponge': '465 54.0',
    'in all': '2160 187.7 465 161.0 2160 250.6',
  },
  totals: {
    'flour in all': '1151', 'dough': '2160', 'one piece': '90',
    'one piece, baked': '80', // 90 × 0.89 = 80.1
    'hydration': '0.0', 'water in all': '0.0', // there is no line of water
    'effective hydration': '49.4', // milk 88.13 %, eggs 76.15, butter 17.94, yeast 5.08, cardamom 8.28, salt 0.2, sugar 0.02: 569.1 / 1151.026
    'salt': '1.5',
    'salt within others': '0.09', // sodium × 2.5421: milk 43 mg, eggs 142, butter 11, yeast 51, cardamom 18, sugar 1
    'prefermented flour': '25.1', // 289.095 / 1151.026
    'sugar': '15.7', // sugar 99.8 %, milk 5.05, eggs 0.37, butter 0.06: 180.7
    'fat': '15.9', // butter 81.11 %, milk 3.27, eggs 9.51, yeast 7.61, cardamom 6.7: 183.5
    'egg': '10.5',
    'milk solids': '3.7', // 500.991 × (100 - 88.13 - 3.27) % = 43.09
    'flour protein': '12.0',
  },
  // Filling, wash and topping are eaten too: 2160 + 439 + 65 + 60 = 2724 g, baked × 0.89 = 2424.36 g.
  nutrition: {
    'energy in kJ': '1629 1645', // 37 × 403.583 + 17 × (1237.835 + 188.334) + 8 × 39.024 = 39 489.6 in all
    'energy in kcal': '388 392',
    'fat': '17 17', 'of which saturates': '9.7 9.8',
    'carbohydrate': '51 52', 'of which sugars': '17 17',
    'fibre': '1.6 1.6', 'protein': '7.8 7.8', 'salt': '0.87 0.88',
  },
  beside: {
    'filling: butter': '240 54.7', 'filling: brown sugar': '180 41.0', 'filling: ground cardamom': '16 3.6', 'filling: salt': '3 0.68', 'filling: in all': '439 100.0',
    'wash: egg': '50 76.9', 'wash: milk': '15 23.1', 'wash: in all': '65 100.0',
    'topping: pearl sugar': '60 100.0',
  },
});

/*
 * Everything is weighed. Dough 840 + 240 + 460 + 285 + 445 + 16 + 14 + 30 + 36 = 2366 g, 788.667 g each; flour 840 + 240 + 60 =
 * 1140 g; the scald goes in with 300 g and comes out with 285 g.
 */
compare({
  sample: 'seeded-tin',
  rows: {
    'mill bread flour': '840 73.7 840 77.8', // of 1140 and of 1080
    'whole wheat flour': '300 26.3 60 100.0 240 22.2',
    'water': '900 78.9 240 400.0 200 44.9 460 42.6', // in the soaker of 445, which has no flour
    'salt': '21 1.8 5 1.1 16 1.5',
    'fresh yeast': '14 1.2 14 1.3',
    'honey': '30 2.6 30 2.8',
    'sunflower oil': '36 3.2 36 3.3',
    'stall seed mix': '240 21.1 240 53.9',
    'scald': '285 26.4',
    'soaked seeds': '445 41.2',
    'in all': '2381 208.9 300 500.0 445 100.0 2366 219.1',
    'cooked off': '-15 -15',
    'for the dough': '2366 285',
  },
  totals: {
    'flour in all': '1140', 'dough': '2366', 'one piece': '789',
    'one piece, baked': '702', // 788.667 × 0.89 = 701.913
    'hydration': '60.1', // (900 - 200 that the seeds drink - 15 cooked off) / 1140
    'water in all': '77.6', // (900 - 15) / 1140
    'effective hydration': '57.9', // (900 + honey 5.13 + yeast 9.66 + salt 0.042 - 240 bound by the seeds - 15) / 1140
    'salt': '1.8',
    'inclusions': '21.1',
    'fat': '3.2', // (36 + 14 × 1.9 %) / 1140: what is in the seeds stays in them
    'flour protein': '12.8', // (840 × 12.6 + 300 × 13.21) / 1140 = 12.76
  },
  // Baked 2366 × 0.89 = 2105.74 g. The seed mix has carbohydrate by difference, 100 - 5.4 - 22 - 48 = 24.6, 12 of it fibre.
  nutrition: {
    'energy in kJ': '1166 583 8181', // 37 × 172.910 + 17 × (829.202 + 199.536) + 8 × 82.254 = 24 544.2 in all
    'energy in kcal': '277 139 1945',
    'fat': '8.2 4.1 58', 'of which saturates': '– – –', // nobody says the saturates of the seed mix
    'carbohydrate': '39 20 276', 'of which sugars': '1.6 0.8 11',
    'fibre': '3.9 2 27', 'protein': '9.5 4.7 67', 'salt': '0.97 0.48 6.8',
  },
});
