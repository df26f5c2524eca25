import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unknownAllergens } from '../../../server/core/ingredients/allergens';
import { builtInCatalogue, extend } from '../../../server/core/ingredients/catalogue';
import type { Catalogue, Ingredient } from '../../../server/core/ingredients/model';
import { blocksOf, catalogueOf } from './blocks';

const breadFlour = builtInCatalogue.find('bread flour')!;

describe('an ingredient block', () => {
  it('starts from what it is like and says what is different', () => {
    const flour = catalogueOf(`ingredient "Mill flour"
  like bread flour
  protein 13.5 %
  water 14 %
  absorbs 1.2 times its weight
  costs 2.40 EUR per kg
`).find('mill flour')!;
    expect(flour).toMatchObject({
      key: 'mill-flour', label: 'Mill flour', role: 'flour', isWater: false, absorbs: 1.2, absorbsAs: 'bread-flour',
      cost: { amount: 2.4, currency: 'EUR', perGrams: 1000 },
      gramsPerMeasure: { cup: 137 },
      allergens: { eu: ['gluten:wheat'], us: ['wheat'] },
    });
    expect(flour.composition).toEqual({ ...breadFlour.composition, protein: 13.5, water: 14 });
  });

  it('knows nothing but what it says when it is like nothing', () => {
    const filling = catalogueOf('ingredient "Plum butter"\n  water 45 %\n  sugar 40 %\n  salt 0.1 %\n  fibre 3 %\n').find('plum butter');
    expect(filling).toMatchObject({
      role: 'other', wholeGrain: false, gramsPerMl: null, eachGrams: null, absorbs: null, cost: null,
      composition: { water: 45, protein: null, fat: null, saturated: null, carbohydrate: null, sugars: 40, fibre: 3, salt: 0.1, alcohol: null },
      note: 'its allergens are not stated',
    });
  });

  it('has as carbohydrate what is not water, protein, fat or salt, where those are said', () => {
    const { find } = catalogueOf('ingredient "Seeds"\n  water 6 %\n  protein 22 %\n  fat 48 %\n  salt 0.5 %\n\ningredient "Fat"\n  water 20 %\n  protein 1 %\n  fat 80 %\n');
    expect(find('seeds')?.composition).toMatchObject({ carbohydrate: 23.5, carbohydrateBasis: 'by-difference', saturated: null });
    expect(find('fat')?.composition.carbohydrate).toBe(0);
  });

  it('takes a range of a share by its middle and passes a senseless one over', () => {
    const { find } = catalogueOf('ingredient "A"\n  like butter\n  fat 80 to 82 %\n  water 160 %\n');
    expect(find('a')?.composition).toMatchObject({ fat: 81, water: 17.94 });
  });

  it('keeps saturated fat in proportion', () => {
    const butter = builtInCatalogue.find('butter')!.composition;
    const half = catalogueOf('ingredient "Half-fat butter"\n  like butter\n  fat 40 %\n').find('half-fat butter')!.composition;
    expect(half.saturated).toBeCloseTo((butter.saturated! * 40) / butter.fat!, 10);
  });

  it('is found as its name is, whatever the case, plural or preparation', () => {
    const { find, nearest, all } = catalogueOf('ingredient "Quince cube"\n  like apples\n');
    for (const name of ['quince cube', 'QUINCE CUBES', 'quince-cubes', 'chopped quince cubes']) expect(find(name)?.key, name).toBe('quince-cube');
    expect(nearest('qiunce cube')).toEqual(['Quince cube']);
    expect(all[0]).toMatchObject({ name: 'Quince cube' });
    expect(all).toHaveLength(builtInCatalogue.all.length + 1);
  });

  it.each(['जौ का आटा', '麦粉', 'ржаная мука', '🌾', 'açorda & “broa” 2'])('may be called %s', (name) => {
    expect(catalogueOf(`ingredient "${name}"\n  like rye flour\n`).find(name)?.label).toBe(name);
  });

  it('has a density by any unit, which replaces the measures of what it is like', () => {
    const text = (density: string): string => `ingredient "Flour"\n  like bread flour\n  density ${density}\n`;
    expect(catalogueOf(text('0.53 g per ml')).find('flour')).toMatchObject({ gramsPerMl: 0.53, gramsPerMeasure: {} });
    expect(catalogueOf(text('120 g per cup'), 'metric').find('flour')?.gramsPerMl).toBeCloseTo(0.48, 12);
    expect(catalogueOf(text('120 g per cup'), 'us').find('flour')?.gramsPerMl).toBeCloseTo(120 / 236.5882365, 12);
  });

  it('costs by mass, by volume and by the piece; unknown when what it is by has no weight', () => {
    const cost = (lines: string): Ingredient['cost'] | undefined => catalogueOf(`ingredient "Thing"\n${lines}`).find('thing')?.cost;
    expect(cost('  costs 3 EUR per kg\n')).toEqual({ amount: 3, currency: 'EUR', perGrams: 1000 });
    expect(cost('  like milk\n  costs 1.10 EUR per l\n')?.perGrams).toBeCloseTo((1000 * 244) / 236.5882365, 9);
    expect(cost('  like eggs\n  costs 0.30 EUR each\n')?.perGrams).toBe(50);
    expect(cost('  each 58 g\n  costs 0.30 EUR each\n')?.perGrams).toBe(58);
    expect(cost('  costs 1.10 EUR per l\n')).toBeNull();
    expect(cost('  costs 0.30 EUR each\n')).toBeNull();
  });

  it('has the role it names, or that of what it is like', () => {
    expect(catalogueOf('ingredient "Oats"\n  like rolled oats\n  role inclusion\n').find('oats')?.role).toBe('inclusion');
    expect(catalogueOf('ingredient "Oats"\n  like rolled oats\n  role nonsense\n').find('oats')?.role).toBe('absorber');
  });

  it('is water only as long as it is nothing but water', () => {
    const { find } = catalogueOf('ingredient "Well water"\n  like water\n\ningredient "Sugar water"\n  like water\n  water 50 %\n  sugar 50 %\n');
    expect(find('well water')?.isWater).toBe(true);
    expect(find('sugar water')?.isWater).toBe(false);
  });
});

describe('what it contains', () => {
  it('adds to the allergens of what it is like, and never takes one away', () => {
    const found = catalogueOf('ingredient "Nut flour"\n  like bread flour\n  contains milk, hazelnuts, rye\n').find('nut flour');
    expect(found?.allergens).toEqual({
      eu: ['gluten:wheat', 'milk', 'nuts:hazelnut', 'gluten:rye'], us: ['wheat', 'milk', 'tree-nuts:hazelnut'], checkLabel: [],
    });
  });

  it('starts afresh with nothing', () => {
    expect(catalogueOf('ingredient "Plant butter"\n  like butter\n  contains nothing\n').find('plant butter')?.allergens.eu).toEqual([]);
    expect(catalogueOf('ingredient "Soy butter"\n  like butter\n  contains nothing, soya\n').find('soy butter')?.allergens).toEqual({
      eu: ['soy'], us: ['soy'], checkLabel: [],
    });
  });

  it('keeps a word that is no class as something to check, and reports it', () => {
    const text = 'ingredient "Mix"\n  contains Milk, unicorn dust, pine nuts\n';
    expect(catalogueOf(text).find('mix')?.allergens).toEqual({ eu: ['milk'], us: ['milk', 'tree-nuts:pine'], checkLabel: ['unicorn dust'] });
    expect(blocksOf(text).flatMap(unknownAllergens).map((item) => item.text)).toEqual(['unicorn dust']);
  });

  it('no longer asks to check what it states', () => {
    expect(builtInCatalogue.find('dark chocolate')?.allergens.checkLabel).toEqual(['milk', 'soy']);
    const found = catalogueOf('ingredient "House chocolate"\n  like dark chocolate\n  contains soy\n').find('house chocolate');
    expect(found?.allergens).toEqual({ eu: ['soy'], us: ['soy'], checkLabel: ['milk'] });
  });
});

describe('layers of ingredients', () => {
  it('lets a block win over a name that ships, without a row of both', () => {
    const { find, all } = catalogueOf('ingredient "bread flour"\n  like bread flour\n  protein 13 %\n');
    expect(find('Bread flours')).toMatchObject({ key: 'own-bread-flour', role: 'flour', composition: { protein: 13, water: 13.36 } });
    // Its other names still mean what ships.
    expect(find('strong flour')).toBe(breadFlour);
    expect(all.filter(({ name }) => name === 'bread flour')).toHaveLength(1);
    expect(all).toHaveLength(builtInCatalogue.all.length);
  });

  it('reads like in any order, through any number of blocks', () => {
    const blocks = ['ingredient "C"\n  like B\n', 'ingredient "B"\n  like A\n  fat 2 %\n', 'ingredient "A"\n  like rye flour\n  protein 9 %\n'];
    for (const text of [blocks.join('\n'), [...blocks].reverse().join('\n')]) {
      expect(catalogueOf(text).find('c')).toMatchObject({ role: 'flour', composition: { protein: 9, fat: 2 }, allergens: { eu: ['gluten:rye'] } });
    }
  });

  it('ends in a circle of likes, and gives each what it says itself', () => {
    const { find } = catalogueOf('ingredient "A"\n  like B\n  fat 1 %\n\ningredient "B"\n  like C\n  fat 2 %\n\ningredient "C"\n  like A\n  fat 3 %\n');
    expect(['a', 'b', 'c'].map((name) => find(name)?.composition.fat)).toEqual([1, 2, 3]);
  });

  it('is like nothing when what it names is unknown', () => {
    expect(catalogueOf('ingredient "A"\n  like moon dust\n').find('a')).toMatchObject({ role: 'other', composition: { water: null } });
  });

  it('takes the later of two blocks with one name', () => {
    expect(catalogueOf('ingredient "A"\n  fat 1 %\n\ningredient "a"\n  fat 2 %\n').find('A')?.composition.fat).toBe(2);
  });

  it('lies over another layer: what a file uses, then what it says itself', () => {
    const pantry = catalogueOf('ingredient "Mill flour"\n  like bread flour\n  protein 13 %\n');
    const file = extend(pantry, blocksOf('ingredient "Sunday flour"\n  like mill flour\n  fat 3 %\n'));
    expect(file.find('sunday flour')?.composition).toMatchObject({ protein: 13, fat: 3 });
    expect(file.find('mill flour')?.composition.protein).toBe(13);
    expect(file.find('rye flour')?.key).toBe('rye-flour-medium');
    expect(pantry.find('sunday flour')).toBeUndefined();
  });

  it('lies over a catalogue that is not ours', () => {
    const only: Catalogue = { find: (name) => (name === 'bread flour' ? breadFlour : undefined), nearest: () => [], all: [] };
    const { find } = extend(only, blocksOf('ingredient "A"\n  like bread flour\n'));
    expect(find('a')?.role).toBe('flour');
    expect(find('bread flour')).toBe(breadFlour);
  });

  it('is the same catalogue when no block is an ingredient with a name', () => {
    expect(catalogueOf('formula "A"\n  makes 2 loaves\n\ningredient\n  like butter\n\ningredient ""\n')).toBe(builtInCatalogue);
  });

  it('never throws, whatever the lines', () => {
    const line = fc.constantFrom(
      'like A', 'like B', 'like butter', 'like', 'water 10 %', 'water', 'fat -3 %', 'costs 2 EUR per cup', 'costs', 'density 3 g per', 'each 4', 'each 58 g',
      'contains', 'contains milk,, ,nuts', 'role', 'role salt', 'absorbs 2', '¿?', 'density 0 g per ml', 'each 0 g', 'costs 1 EUR each',
    );
    const block = fc.tuple(fc.constantFrom('A', 'B', 'butter', ''), fc.array(line, { maxLength: 6 }));
    fc.assert(
      fc.property(fc.array(block, { maxLength: 4 }), (blocks) => {
        const text = blocks.map(([name, lines]) => `ingredient "${name}"\n${lines.map((one) => `  ${one}\n`).join('')}\n`).join('');
        const { find } = catalogueOf(text);
        for (const name of ['A', 'B', 'butter']) {
          const found = find(name);
          if (found === undefined) continue;
          expect(found.cost === null || found.cost.perGrams > 0).toBe(true);
          expect(Object.values(found.composition).filter((value) => typeof value === 'number' && !(value >= 0 && value <= 100))).toEqual([]);
        }
      }),
    );
  });
});
