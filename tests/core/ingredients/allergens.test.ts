import { describe, expect, it } from 'vitest';
import { allergenClassesOf, allergenLabels, allergensOf, EU_ALLERGENS, US_ALLERGENS } from '../../../server/core/ingredients/allergens';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';

const labels = (names: readonly string[], list: 'eu' | 'us'): readonly string[] =>
  allergenLabels(allergensOf(names.map((name) => builtInCatalogue.find(name)!), list), list);

describe('allergens', () => {
  it('are named once each, in the order of the list, with the cereal or nut', () => {
    const names = ['walnuts', 'rye flour', 'butter', 'bread flour', 'milk', 'hazelnuts'];
    expect(labels(names, 'eu')).toEqual(['cereals containing gluten (rye, wheat)', 'milk', 'nuts (hazelnut, walnut)']);
    expect(labels(names, 'us')).toEqual(['milk', 'tree nuts (hazelnut, walnut)', 'wheat']);
  });

  it.each([
    ['rye flour', ['cereals containing gluten (rye)'], []],
    ['oats', ['cereals containing gluten (oats)'], []],
    ['spelt flour', ['cereals containing gluten (wheat)'], ['wheat']],
    ['pine nuts', [], ['tree nuts (pine)']],
    ['desiccated coconut', [], []],
    ['celery', ['celery'], []],
    ['dried apricots', ['sulphites'], []],
    ['water', [], []],
  ])('differ between the lists: %s', (name, eu, us) => {
    expect(labels([name], 'eu')).toEqual(eu);
    expect(labels([name], 'us')).toEqual(us);
  });

  it('come from words in any case, singular or plural', () => {
    expect(allergenClassesOf('Almonds')).toEqual({ eu: 'nuts:almond', us: 'tree-nuts:almond' });
    expect(allergenClassesOf('tree-nuts')).toEqual({ eu: 'nuts', us: 'tree-nuts' });
    expect(allergenClassesOf('sulfites')).toEqual({ eu: 'sulphites', us: undefined });
    expect(allergenClassesOf('unicorn dust')).toBeUndefined();
  });

  it('have a word of their own for each class', () => {
    for (const { id, label } of EU_ALLERGENS) expect(allergenClassesOf(label)?.eu, id).toBe(id);
    for (const { id, label } of US_ALLERGENS) expect(allergenClassesOf(label)?.us, id).toBe(id);
  });
});
