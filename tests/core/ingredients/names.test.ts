import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BUILT_IN } from '../../../server/core/ingredients/builtin';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { DERIVED } from '../../../server/core/ingredients/derived';
import { foldName, normaliseName } from '../../../server/core/ingredients/names';
import { AMBIGUOUS } from '../../../server/core/ingredients/names/ambiguous';
import { DOUGH_NAMES } from '../../../server/core/ingredients/names/dough';
import { FILLING_NAMES } from '../../../server/core/ingredients/names/filling';
import { lettersOf, nearestNames } from '../../../server/core/ingredients/nearest';
import { editDistance } from '../../../grammar';
import { TABLE } from '../../../server/core/ingredients/table';

const { find, nearest } = builtInCatalogue;
const listed = BUILT_IN.flatMap(({ ingredient, names }) => names.map((name) => ({ name, ingredient })));

describe('the lists of names', () => {
  it('name every ingredient', () => {
    expect(BUILT_IN.filter(({ names }) => names.length === 0).map(({ ingredient }) => ingredient.key)).toEqual([]);
  });

  it('name nothing that is not there, and nothing in both lists', () => {
    const keys = [...TABLE.map(([key]) => key), ...DERIVED.map(({ key }) => key)];
    expect([...Object.keys(DOUGH_NAMES), ...Object.keys(FILLING_NAMES)].sort()).toEqual(keys.sort());
  });

  it('hold no name twice: none is ambiguous, none is said already by singular, hyphen or accent', () => {
    const seen = new Map<string, string>();
    const twice: string[] = [];
    for (const { name } of listed) {
      const other = seen.get(foldName(name));
      if (other !== undefined) twice.push(`${name} = ${other}`);
      seen.set(foldName(name), name);
    }
    expect(twice).toEqual([]);
    expect(seen.size).toBeGreaterThan(1200);
  });

  it('hold no culture: that is the resolver’s', () => {
    for (const name of ['starter', 'sourdough starter', 'levain', 'ripe culture', 'sourdough']) expect(find(name), name).toBeUndefined();
  });

  it('offer, for words that could be two things, only names that are known', () => {
    for (const [word, choices] of Object.entries(AMBIGUOUS)) {
      expect(find(word), word).toBeUndefined();
      for (const choice of choices) expect(find(choice), choice).toBeDefined();
      expect(nearest(word, 9), word).toEqual(choices);
    }
  });
});

describe('finding by name', () => {
  it('finds every listed name, in any case and spacing', () => {
    for (const { name, ingredient } of listed) {
      for (const spelling of [name, name.toUpperCase(), `  ${name.replaceAll(' ', '   ')} `, name.replaceAll(' ', '-')]) {
        expect(find(spelling), spelling).toBe(ingredient);
      }
    }
  });

  it('finds every listed name under random changes of case and hyphens', () => {
    const change = fc.array(fc.constantFrom('keep', 'upper', 'hyphen'), { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(fc.constantFrom(...listed), change, ({ name, ingredient }, changes) => {
        const spelling = [...name]
          .map((char, index) => (changes[index] === 'upper' ? char.toUpperCase() : changes[index] === 'hyphen' && char === ' ' ? '-' : char))
          .join('');
        return find(spelling) === ingredient;
      }),
    );
  });

  it('takes every name without its accents', () => {
    for (const { name, ingredient } of listed) expect(find(name.normalize('NFD').replace(/[\u0300-\u036f]/g, '')), name).toBe(ingredient);
  });

  it.each([
    ['bread flour', 'bread-flour'], ['strong white flour', 'bread-flour'], ['AP flour', 'all-purpose-flour'], ['plain flour', 'all-purpose-flour'],
    ['Wholemeal Flour', 'whole-wheat-flour'], ['whole-wheat flour', 'whole-wheat-flour'], ['wholewheat flour', 'whole-wheat-flour'],
    ['wholemeal rye', 'rye-flour-whole'], ['dark rye flour', 'rye-flour-dark'], ['rye flour', 'rye-flour-medium'], ['00 flour', 'double-zero-flour'],
    ['caster sugar', 'sugar-white'], ['icing sugar', 'sugar-powdered'], ['half and half', 'half-and-half'], ['half & half', 'half-and-half'],
    ['double cream', 'cream-double'], ['bicarbonate of soda', 'baking-soda'], ['sultanas', 'raisins-golden'], ['currants', 'currants-dried'],
    ['rolled oats', 'oat-flakes'], ['porridge oats', 'oat-flakes'], ['oats', 'oat-flakes'], ['egg', 'egg-whole'], ['egg yolk', 'egg-yolk'],
    ['fine sea salt', 'salt'], ['flaky sea salt', 'salt'], ['instant yeast', 'yeast-instant'], ['osmotolerant yeast', 'yeast-osmotolerant'],
    ['fresh yeast', 'yeast-fresh'], ['dry yeast', 'yeast-dry-active'], ['diastatic malt', 'malt-flour'], ['milk', 'milk-whole'],
    ['oil', 'vegetable-oil'], ['candied peel', 'peel-candied-orange'], ['lemon zest', 'lemon-peel'], ['dark chocolate', 'chocolate-dark-60'],
    ['chocolate chips', 'chocolate-semisweet'], ['cocoa', 'cocoa-powder-unsweetened'], ['vanilla', 'vanilla-extract'], ['tahini', 'tahini'],
    ['linseed', 'flax-seeds'], ['Crème fraiche', 'creme-fraiche'], ['pumpkin puree', 'pumpkin-puree'], ['jalapenos', 'peppers-jalapeno'],
    ['goats’ cheese', 'goat-cheese-soft'], ['confectioner’s sugar', 'sugar-powdered'], ['olives', 'olives-black'], ['ice', 'water'], ['hot water', 'water'],
    ['yoghurt', 'yogurt'], ['breadcrumbs', 'bread-crumbs'], ['medium eggs', 'egg-whole'],
  ])('%s is %s', (name, key) => {
    expect(find(name)?.key).toBe(key);
  });

  it.each([
    ['walnut', 'walnuts'], ['dried fig', 'figs-dried'], ['strawberry', 'strawberries'], ['dried cherry', 'cherries-dried'], ['potatoes', 'potato-boiled'],
    ['egg whites', 'egg-white'], ['peach', 'peach'], ['breads flours', 'bread-flour'], ['clove', 'cloves'], ['tomato', undefined],
    ['sun-dried tomato', 'tomatoes-sun-dried'], ['thyme leaf', 'thyme'], ['anchovy', 'anchovies'],
  ])('singular or plural: %s is %s', (name, key) => {
    expect(find(name)?.key).toBe(key);
  });

  it.each([
    // Two things that differ by one word stay two.
    ['dried figs', 'figs-dried'], ['fresh figs', 'fig'], ['figs', 'fig'], ['dried rosemary', 'rosemary-dried'], ['rosemary', 'rosemary'],
    ['ground ginger', 'ginger'], ['fresh ginger', 'ginger-fresh'], ['ginger', undefined], ['yeast', undefined],
    ['cornflour', 'corn-starch'], ['corn flour', 'corn-flour'], ['ground almonds', 'almond-flour'], ['almonds', 'almonds'],
    ['roasted hazelnuts', 'hazelnuts-roasted'], ['chopped roasted hazelnuts', 'hazelnuts-roasted'], ['hazelnuts', 'hazelnuts'],
    ['white spelt flour', 'spelt-flour-white'], ['spelt flour', 'spelt-flour'], ['black pepper', 'pepper-black'], ['peppers', undefined],
    ['cloves', 'cloves'], ['garlic cloves', 'garlic'], ['whole milk', 'milk-whole'], ['whole milk powder', 'milk-powder-whole'],
  ])('never one for the other: %s is %s', (name, key) => {
    expect(find(name)?.key).toBe(key);
  });

  it.each([
    ['toasted walnuts', 'walnuts'], ['walnut halves', 'walnuts'], ['walnut pieces', 'walnuts'], ['finely chopped dried figs', 'figs-dried'],
    ['quartered dried figs', 'figs-dried'], ['melted butter', 'butter-unsalted'], ['softened butter', 'butter-unsalted'], ['cold unsalted butter', 'butter-unsalted'],
    ['warm milk', 'milk-whole'], ['room-temperature butter', 'butter-unsalted'], ['beaten eggs', 'egg-whole'], ['toasted sesame seeds', 'sesame-seeds'],
    ['grated cheddar', 'cheddar'], ['pitted green olives', 'olives-green'], ['toasted and chopped pecans', 'pecans'], ['organic rye flour', 'rye-flour-medium'],
    ['frozen blueberries', 'blueberries'], ['frozen raspberries', 'raspberries-frozen'], ['stone-ground rye flour', 'rye-flour-medium'], ['crushed ice', 'water'],
  ])('leaves words of preparation out: %s is %s', (name, key) => {
    expect(find(name)?.key).toBe(key);
  });

  it.each([
    'hot chocolate', 'roasted potatoes', 'roasted garlic', 'dried milk chocolate', 'purple flour', 'mill flour', 'walnut flour', 'wild rice flour', 'apple cake',
    'chopped', 'and', '', '   ', '🥖', 'soaked raisins', 'bread', 'flour bread', 'dried', 'constructor', '__proto__', 'toString',
  ])('does not guess: %j is unknown', (name) => {
    expect(find(name)).toBeUndefined();
  });

  it('makes ground nuts meal, melted chocolate part of the dough, and forgets the cup of another cut', () => {
    expect(find('walnuts')).toMatchObject({ role: 'inclusion', gramsPerMeasure: { cup: 117 } });
    expect(find('chopped walnuts')).toMatchObject({ role: 'inclusion', gramsPerMeasure: { cup: 117 } });
    expect(find('ground walnuts')).toMatchObject({ key: 'walnuts', role: 'absorber', gramsPerMeasure: {} });
    expect(find('crushed walnuts')).toMatchObject({ gramsPerMeasure: {}, gramsPerMl: null });
    expect(find('melted dark chocolate')).toMatchObject({ role: 'other' });
    expect(find('dried fig')).toMatchObject({ eachGrams: 8.4 });
    expect(find('dried fig halves')).toMatchObject({ key: 'figs-dried', eachGrams: null });
    expect(find('chopped dried figs')).toMatchObject({ eachGrams: 8.4 });
  });
});

describe('nearest names', () => {
  it.each([
    ['bred flour', 'bread flour'], ['wlanuts', 'walnuts'], ['whole weat flour', 'whole wheat flour'], ['slat', 'salt'], ['hony', 'honey'],
    ['cinamon', 'cinnamon'], ['dryed figs', 'dried figs'], ['toasted wlanuts', 'walnuts'], ['Crme fraîche', 'crème fraîche'], ['bicarbonate of sofa', 'bicarbonate of soda'],
    ['pistacchios', 'pistachios'], ['buter', 'butter'],
  ])('%s: %s', (typed, meant) => {
    expect(nearest(typed)[0]).toBe(meant);
  });

  it.each(['', 'x', 'xylophone', 'brontosaurus', '🥖', 'levain'])('nothing is near %j', (typed) => {
    expect(nearest(typed)).toEqual([]);
  });

  it('gives at most as many as asked, each another ingredient', () => {
    expect(nearest('yeast', 1)).toEqual(['instant yeast']);
    const names = nearest('rhe flour', 5);
    expect(names).toContain('rye flour');
    expect(names.length).toBeLessThanOrEqual(5);
    expect(new Set(names.map((name) => find(name))).size).toBe(names.length);
  });

  it('rules no name out that is near enough', () => {
    const word = fc.string({ minLength: 6, maxLength: 9, unit: fc.constantFrom('a', 'b', 'c', 'A', 'é') });
    fc.assert(
      fc.property(word, word, (typed, name) => {
        const found = nearestNames(typed, [{ name, normal: name, letters: lettersOf(name), of: {} }], 1);
        expect(found).toEqual(editDistance(typed, name, 2) <= 2 ? [name] : []);
      }),
    );
  });

  it('finds any longer name with one slip in it', () => {
    const long = listed.filter(({ name }) => normaliseName(name).length >= 6);
    fc.assert(
      fc.property(fc.constantFrom(...long), fc.nat(), fc.constantFrom('swap', 'drop', 'double'), ({ name }, where, slip) => {
        const normal = normaliseName(name);
        const at = where % (normal.length - 1);
        const [a = '', b = ''] = [normal[at], normal[at + 1]];
        const middle = slip === 'swap' ? b + a : slip === 'drop' ? b : a + a + b;
        const typed = normal.slice(0, at) + middle + normal.slice(at + 2);
        // Some slips lead to another name, or to a word of its own: then there is nothing to suggest.
        if (find(typed) !== undefined) return true;
        const distances = nearest(typed, 20).map((near) => Math.min(...namesLike(near).map((other) => editDistance(typed, other, 3))));
        return distances.length > 0 && Math.min(...distances) <= 1;
      }),
    );
  });
});

/** All normalised names of the ingredient found by one. */
function namesLike(name: string): readonly string[] {
  const ingredient = find(name);
  return listed.filter((other) => other.ingredient === ingredient).map((other) => normaliseName(other.name));
}

describe('edit distance', () => {
  it.each([
    ['walnuts', 'wlanuts', 1], ['bread', 'bred', 1], ['rye', 'rice', 2], ['', '', 0], ['', 'abc', 3], ['salt', 'malt', 1], ['abcd', 'badc', 2],
  ])('%j to %j is %i', (a, b, distance) => {
    expect(editDistance(a, b, 5)).toBe(distance);
    expect(editDistance(b, a, 5)).toBe(distance);
  });

  it('stops counting beyond what is asked', () => {
    expect(editDistance('flour', 'butter', 2)).toBe(3);
  });

  it('is symmetric, zero only for equals, and bounded by the longer word', () => {
    const word = fc.string({ maxLength: 8, unit: fc.constantFrom('a', 'b', 'c') });
    fc.assert(
      fc.property(word, word, (a, b) => {
        const distance = editDistance(a, b, 20);
        expect(editDistance(b, a, 20)).toBe(distance);
        expect(distance === 0).toBe(a === b);
        expect(distance).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(editDistance(a, b, 2)).toBe(Math.min(distance, 3));
      }),
    );
  });
});

describe('comparing names', () => {
  it('keeps marks that are vowels in their script', () => {
    expect(normaliseName('कि')).not.toBe(normaliseName('का'));
    expect(normaliseName('がが')).not.toBe(normaliseName('かか'));
    expect(normaliseName('Ржаная мука')).toBe('ржаная мука');
  });

  it('is stable: a folded or normalised name comes out as it is', () => {
    for (const { name } of listed) expect(normaliseName(normaliseName(name))).toBe(normaliseName(name));
  });
});
