/** What is told of one change after another to one loaf. */
import { describe, expect, it } from 'vitest';
import { compareFiles, sidesOfConflict } from '../../../server/core/compare';
import { bestPairs } from '../../../server/core/compare/likeness';
import { changesIn, compared, fileOf, told } from './texts';

const LOAF = `# The stall's loaf.
formula "Country loaf"
  makes     2 loaves of 912 g
  style     hearth
  room      22 C

levain
  60 g      whole wheat flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

soaker "seeds"
  60 g      pumpkin seeds
  60 g      water
  rest      1 h

dough at 25 C
  900 g     bread flour
  640 g     water
  all       levain
  all       seeds
  20 g      salt
  12 g      honey

steps
  mix       8 min, by hand
  bulk      4 h at 24 C
    fold    at 30 min
    fold    at 60 min, add seeds
  shape     10 min
  retard    12 h at 4 C
  preheat   60 min at 240 C
  bake      25 min at 240 C, lid on
  bake      20 min at 220 C, lid off, until core 97 C
  cool      2 h
`;

/** The loaf with some of its words exchanged, each of which it has. */
function loaf(...exchanges: readonly (readonly [string, string])[]): string {
  return exchanges.reduce((text, [was, is]) => {
    expect(text).toContain(was);
    return text.replace(was, is);
  }, LOAF);
}

const after = (...exchanges: readonly (readonly [string, string])[]): readonly string[] => told(compared(LOAF, loaf(...exchanges)));

describe('a variant whose base is gone', () => {
  const BASE = 'formula "Rye"\n\ndough\n  500 g     dark rye flour\n  400 g     water\n  10 g      salt\n\n';
  const VARIANTS = 'formula "Seed rye"\n  based on  "Rye"\n  set       water to 420 g\n\nformula "Nut rye"\n  based on  "Seed rye"\n  add       60 g walnuts\n';

  it('has lost no allergen: what is in it is not known', () => {
    const sections = compared(BASE + VARIANTS, BASE.replace('"Rye"', '"Dark rye"') + VARIANTS);
    expect(changesIn(sections, 'allergen')).toEqual([]);
    expect(told(sections)).toEqual([
      'formula-name Rye -> Dark rye',
      'base-missing – -> Rye',
      expect.stringMatching(/^finding – -> formula-missing: – -> error No formula called “Rye”/),
      'base-missing – -> Seed rye',
    ]);
  });

  it('and when it is back, none is gained', () => {
    expect(changesIn(compared(VARIANTS, BASE + VARIANTS), 'allergen').map(({ after: fact }) => fact?.name)).toEqual(changesIn(compared('', BASE), 'allergen').map(({ after: fact }) => fact?.name));
  });
});

describe('what is weighed', () => {
  it('more water: the amount with its share, and the totals that follow', () => {
    expect(after(['640 g     water', '690 g     water'])).toEqual([
      'total hydration_pct: 73.08 % -> 78.26 %', 'total dough_g: 1824 g -> 1874 g', 'total piece_g: 912 g -> 937 g', 'amount dough/water: 640 g 66.25 % -> 690 g 71.43 %',
      expect.stringMatching(/^finding – -> makes-disagrees: – -> warning `makes` asks for 1824 g of dough, the amounts give 1874 g/),
    ]);
  });

  it('nuts that are added bring their allergen, which stands first', () => {
    const lines = after(['  12 g      honey', '  12 g      honey\n  90 g      walnuts, toasted']);
    expect(lines.slice(0, 2)).toEqual(['allergen – -> nuts:walnut: – -> walnuts eu', 'allergen – -> tree-nuts:walnut: – -> walnuts us']);
    expect(lines).toContain('ingredient – -> dough/walnuts: – -> 90 g 9.32 % toasted');
  });

  it('one thing of a role for another of like weight is a swap', () => {
    expect(after(['12 g      honey', '14 g      molasses'])).toContain('ingredient-swapped dough/honey -> dough/molasses: 12 g 1.24 % -> 14 g 1.45 %');
    expect(after(['12 g      honey', '60 g      molasses'])).toEqual(expect.arrayContaining(['ingredient dough/honey -> –: 12 g 1.24 % -> –', 'ingredient – -> dough/molasses: – -> 60 g 6.21 %']));
  });

  it('what goes from one part to another has moved', () => {
    expect(after(['  60 g      pumpkin seeds\n', '  40 g      flax seeds\n'], ['  12 g      honey', '  60 g      pumpkin seeds'])).toContain('ingredient-moved seeds/pumpkin seeds -> dough/pumpkin seeds: 60 g 6.21 % -> 60 g 6.21 %');
  });

  it('out of the dough and onto the top is the same thing for another purpose', () => {
    expect(after(['12 g      honey', '12 g      honey for the top'])).toContain('ingredient-detail dough/honey: 12 g 1.24 % -> 12 g 1.24 % for the top');
  });

  it('a temperature and a note of a line are told', () => {
    expect(after(['water at 28 C', 'water at 30 C'])).toEqual(['ingredient-detail levain/water: 60 g 6.21 % at 28 °C -> 60 g 6.21 % at 30 °C']);
  });

  it('a part that is another kind of part, has another name, or grew as a whole', () => {
    expect(after(['soaker "seeds"', 'soaker "crunch"'], ['all       seeds', 'all       crunch'], ['add seeds', 'add crunch'])).toEqual(['part-name seeds -> crunch: 120 g soaker -> 120 g soaker']);
    expect(after(['60 g      whole wheat flour', '120 g     whole wheat flour'], ['60 g      water at', '120 g     water at'], ['12 g      starter', '24 g      starter'])).toContain('part-scaled levain: 132 g levain -> 264 g levain');
  });

  it('a part that comes brings its line in the dough, and is told once', () => {
    const lines = after(['dough at 25 C', 'poolish\n  50 g      bread flour\n  50 g      water\n  0.1 g     instant yeast\n  ripen     12 h at 21 C\n\ndough at 25 C\n  all       poolish']);
    expect(lines).toContain('part – -> poolish: – -> 100.1 g poolish');
    expect(lines.filter((line) => line.includes('dough/poolish'))).toEqual([]);
  });

  it('an ingredient of one’s own by another name is the same ingredient', () => {
    const own = (name: string): string => `ingredient "${name}"\n  like      bread flour\n  protein   11 %\n\n${LOAF.replace('bread flour', name.toLowerCase())}`;
    const lines = told(compared(own('River flour'), own('Cais flour')));
    expect(lines).toContain('ingredient-name dough/river flour -> dough/cais flour: 900 g 93.17 % -> 900 g 93.17 %');
    expect(lines.filter((line) => line.startsWith('ingredient-swapped'))).toEqual([]);
  });
});

describe('what has no weight', () => {
  it('is told by what is written', () => {
    expect(after(['12 g      honey', '2 cups    moss'])).toContain('ingredient – -> dough/moss: – -> 2 cup');
    const mossy = loaf(['12 g      honey', '2 cups    moss, wet']);
    expect(told(compared(mossy, mossy.replace('2 cups', '3 cups')))).toContain('amount dough/moss: 2 cup, wet -> 3 cup, wet');
  });
});

describe('the size', () => {
  it('twice the weight of everything is the same formula × 2', () => {
    const doubled = LOAF.replace(/(\d+) g /g, (_all, grams: string) => `${Number(grams) * 2} g `).replace('2 loaves', '4 loaves');
    const [section] = compared(LOAF, doubled);
    expect(section?.factor).toBe(2);
    expect(told([section!])).toEqual([
      'scaled Country loaf: 1824 g -> 3648 g', 'total flour_g: 966 g -> 1932 g', 'total dough_g: 1824 g -> 3648 g', 'total pieces: 2 pieces -> 4 pieces',
      'property makes: 2 loaves of 912 g -> 4 loaves of 912 g',
    ]);
  });

  it('what was scaled and then changed is told against the factor', () => {
    const third = LOAF.replace(/(\d+) g /g, (_all, grams: string) => `${Math.round(Number(grams) / 3)} g `).replace(' 7 g      salt', ' 9 g      salt').replace('2 loaves of 912 g', '1 loaf of 608 g');
    const whats = told(compared(LOAF, third));
    expect(whats[0]).toMatch(/^scaled Country loaf: 1824 g -> 61\d g$/);
    expect(whats).toContain('amount dough/salt: 20 g 2.07 % -> 9 g 2.8 %');
  });

  it('what a scale’s step moves by more than 1 % is told as rounded', () => {
    const half = LOAF.replace(/(\d+) g /g, (_all, grams: string) => `${Number(grams) / 2} g `).replace(' 6 g      honey', ' 6.2 g    honey').replace('2 loaves', '1 loaf');
    expect(told(compared(LOAF, half))).toContain('amount-rounded dough/honey: 12 g 1.24 % -> 6.2 g 1.28 %');
  });

  it('in a dough of a set size another share moves every weight, and only that share is told', () => {
    const shares = 'formula "Tin"\n  makes 2 loaves of 850 g\n\ndough\n  100 % bread flour\n  68 % water\n  2 % salt\n  1 % instant yeast\n';
    expect(told(compared(shares, shares.replace('68 %', '72 %'))).filter((line) => !line.startsWith('finding'))).toEqual([
      'scaled Tin: 1700 g -> 1700 g', 'total hydration_pct: 68 % -> 72 %', 'total flour_g: 994.15 g -> 971.43 g', 'amount dough/water: 676.02 g 68 % -> 699.43 g 72 %',
    ]);
  });
});

describe('the method', () => {
  it('longer, warmer, with other words', () => {
    expect(after(['bulk      4 h at 24 C', 'bulk      5 h at 25 C'], ['25 min at 240 C, lid on', '25 min at 250 C, with steam'])).toEqual(expect.arrayContaining([
      'step-time bulk: 4 h -> 5 h', 'step-temperature bulk: 24 °C -> 25 °C', 'step-temperature bake: 240 °C -> 250 °C', 'step-detail bake: lid on -> with steam',
    ]));
  });

  it('steps that come, go, and stand elsewhere', () => {
    const lines = after(['  shape     10 min\n', ''], ['  cool      2 h\n', '  cool      2 h\n  shape     10 min\n  slice     5 min\n']);
    expect(lines).toEqual(expect.arrayContaining(['step-moved shape: after bulk -> after cool', 'step – -> slice: – -> 5 min']));
    expect(after(['    fold    at 30 min\n', ''])).toContain('step fold -> –: at 30 min -> –');
  });

  it('what is swapped in the dough is not told again where it goes in', () => {
    expect(after(['60 g      pumpkin seeds', '60 g      sunflower seeds']).filter((line) => line.startsWith('step'))).toEqual([]);
  });
});

describe('everything else', () => {
  it('properties, a record, a plan', () => {
    const record = '\nrecord 2026-05-09\n  room 21 C\n  weighed 1600 g, 2 loaves, after 2 h\n';
    const plan = '\nplan "Cais market"\n  ready 2026-05-16 07:30 Europe/Lisbon\n  oven holds 4 loaves\n  bake 4 loaves of "Country loaf"\n';
    const now = `${loaf(['room      22 C', 'room      24 C'], ['style     hearth', 'style     hearth\n  note      "Keeps."'])}${record}${plan}`;
    expect(told(compared(LOAF, now))).toEqual(expect.arrayContaining(['property room: 22 C -> 24 C', 'property – -> note: – -> "Keeps."', 'record – -> 2026-05-09', 'plan – -> Cais market']));
    expect(told(compared(now, now.replace('holds 4 loaves', 'holds 6 loaves').replace('1600 g', '1580 g')))).toEqual(expect.arrayContaining([
      'property oven: holds 4 loaves -> holds 6 loaves', 'record 2026-05-09: weighed 1600 g, 2 loaves, after 2 h -> weighed 1580 g, 2 loaves, after 2 h',
    ]));
  });

  it('findings come and go by what they find, not by their line', () => {
    const salty = loaf(['20 g      salt', '45 g      salt']);
    expect(changesIn(compared(LOAF, salty), 'finding').map(({ before, after: now }) => [before?.name, now?.name])).toContainEqual([undefined, 'salt-high']);
    const moved = `# a\n# b\n\n${salty.replace('45 g      salt', '46 g      salt')}`;
    expect(changesIn(compared(salty, moved), 'finding').map(({ after: now }) => now?.name)).not.toContain('salt-high');
  });

  it('a formula of another name, in another file, that came or that went', () => {
    expect(after(['"Country loaf"', '"Cais loaf"'])).toEqual(['formula-name Country loaf -> Cais loaf']);
    const flat = 'formula "Flatbread"\n\ndough\n  500 g bread flour\n  300 g water\n  10 g salt\n';
    expect(told(compared(LOAF, `${LOAF}\n${flat}`))).toContain('formula – -> Flatbread: – -> 810 g');
    const sections = compareFiles([fileOf(LOAF, 'a.bake'), fileOf(flat, 'b.bake')], [fileOf(flat, 'a.bake'), fileOf(loaf(['"Country loaf"', '"Cais loaf"'], ['20 g      salt', '21 g      salt']), 'c.bake')]);
    expect(told(sections).filter((line) => line.startsWith('formula'))).toEqual(['formula-file Flatbread: b.bake -> a.bake', 'formula-name Country loaf -> Cais loaf', 'formula-file Country loaf -> Cais loaf: a.bake -> c.bake']);
  });

  it('two files of one formula each are compared, whatever they are called', () => {
    const flat = 'formula "Flatbread"\n\ndough\n  500 g bread flour\n  300 g water\n  10 g salt\n';
    expect(told(compared(LOAF, flat))).toEqual(expect.arrayContaining(['formula-name Country loaf -> Flatbread', 'part levain -> –: 132 g levain -> –']));
  });

  it('files that are used, and lines that nobody can read', () => {
    const using = (name: string): string => `use "${name}.bake"\n\n${LOAF}`;
    expect(told(compared(using('pantry'), using('store')))).toEqual(['use – -> store.bake', 'use pantry.bake -> –']);
    expect(after(['dough at 25 C', 'duogh\n  5 g moss\n\ndough at 25 C'])).toContain('property – -> a block that is not understood: – -> duogh 5 g moss');
  });

  it('a dish: what it uses and whom it serves, each once', () => {
    const dish = `${LOAF}\ndish "Crumb pudding"\n  serves 4\n  uses 300 g "Country loaf"\n\ncustard\n  4 eggs\n  400 g milk\n`;
    expect(told(compared(dish, dish.replace('300 g "', '350 g "').replace('serves 4', 'serves 5')))).toEqual([
      'amount Crumb pudding/Country loaf: 300 g -> 350 g', 'property serves: 4 -> 5',
    ]);
  });

  it('shares for grams are the same dough in other words', () => {
    expect(after(['640 g     water', '71.1 %    water'], ['20 g      salt', '2.22 %    salt'])).toEqual(['rewritten Country loaf']);
  });

  it('lines in another order, and Fahrenheit for Celsius, too', () => {
    expect(after(['  20 g      salt\n  12 g      honey', '  12 g      honey\n  20 g      salt'], ['bulk      4 h at 24 C', 'bulk      240 min at 24 C'])).toEqual(['rewritten Country loaf']);
  });

  it('a base that changes is told of its variants', () => {
    const both = `${LOAF}\nformula "Walnut loaf"\n  based on  "Country loaf"\n  add       90 g walnuts\n`;
    const nuttier = told(compared(both, both.replace('90 g walnuts', '120 g walnuts')));
    expect(nuttier).toContain('amount dough/walnuts: 90 g 9.32 % -> 120 g 12.42 %');
    expect(nuttier.filter((line) => line.startsWith('property'))).toEqual([]);
    const wetter = compared(both, both.replace('640 g     water', '690 g     water'));
    expect(wetter.map(({ after: now, changes }) => [now?.name, changes.some(({ what }) => what === 'amount')])).toEqual([['Country loaf', true], ['Walnut loaf', true]]);
    // The whole of it written out is the same bread.
    const out = `${LOAF.replace('Country loaf', 'Walnut loaf').replace('  12 g      honey', '  12 g      honey\n  90 g      walnuts')}`;
    expect(told(compared(both, `${LOAF}\n${out}`)).filter((line) => !/^(property|finding) /.test(line))).toEqual([]);
  });
});

it('two thousand changes are all found, and more names than can be looked at in pairs came and went', () => {
  const letters = (n: number): string => [...String(n)].map((digit) => 'qrstuvwxyz'[Number(digit)]).join('');
  const many = (grams: number, name: string): string => Array.from({ length: 80 }, (_, i) => (
    `formula "${name} ${i}"\n\ndough\n${Array.from({ length: 25 }, (_each, j) => `  ${grams * (j + 1)} g nut ${letters(j)}\n`).join('')}`
  )).join('\n');
  const changes = compared(many(10, 'Loaf'), many(11, 'Loaf').replaceAll('110 g', '112 g').replaceAll('121 g', '124 g')).flatMap((section) => section.changes);
  expect(changes.filter(({ what }) => what === 'scaled')).toHaveLength(80);
  expect(changes.filter(({ what }) => what === 'amount')).toHaveLength(160);
  expect(bestPairs([...Array(501).keys()], [...Array(501).keys()], 0.5, () => 1)).toEqual([]);
});

describe('conflicts of a merge', () => {
  const conflict = loaf(['  640 g     water\n', '<<<<<<< HEAD\n  640 g     water\n||||||| base\n  600 g     water\n=======\n  690 g     water\n>>>>>>> wetter\n']);

  it('are two texts', () => {
    const sides = sidesOfConflict(conflict)!;
    expect(sides).toMatchObject({ ours: LOAF, theirs: loaf(['640 g     water', '690 g     water']), oursName: 'HEAD', theirsName: 'wetter', conflicts: 1 });
    expect(told(compared(sides.ours, sides.theirs))).toContain('amount dough/water: 640 g 66.25 % -> 690 g 71.43 %');
  });

  it('are none where a mark is missing, or it is a line of equals signs', () => {
    expect(sidesOfConflict(conflict.replace('>>>>>>> wetter\n', ''))).toBeUndefined();
    expect(sidesOfConflict(`${LOAF}\n=======\n`)).toBeUndefined();
  });

  it('with line ends of Windows, too', () => {
    expect(sidesOfConflict(conflict.replaceAll('\n', '\r\n'))?.ours).toBe(LOAF.replaceAll('\n', '\r\n'));
  });
});
