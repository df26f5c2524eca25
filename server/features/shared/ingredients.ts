/** What an ingredient is made of, in words. */
import { listed, trimmed } from '../../core/checks/words';
import { allergenLabels } from '../../core/ingredients/allergens';
import type { Catalogue, Ingredient } from '../../core/ingredients/model';
import { code, escaped, gramsOrNothing, paragraphs, table } from './markdown';

/** Composition per 100 g, allergens and source of the ingredient by that name. For a culture, what it counts as. */
export function ingredientWords(name: string, catalogue: Catalogue, starterHydrationPct?: number): string {
  if (starterHydrationPct !== undefined) {
    const flour = gramsOrNothing(10000 / (100 + starterHydrationPct)) ?? '';
    return `A ripe culture at ${starterHydrationPct} % hydration: of 100 g, ${flour} count as flour, the rest as water, and all of it as prefermented.`;
  }
  const ingredient = catalogue.find(name);
  if (ingredient !== undefined) return compositionWords(ingredient);
  const near = catalogue.nearest(name, 3);
  return paragraphs(
    `No ingredient ${code(name)} in the table: what is in it is not known.`,
    near.length > 0 ? `Nearest: ${near.map(code).join(', ')}.` : undefined,
    `To describe it, open a block ${code(`ingredient "${name}"`)}.`,
  );
}

export function compositionWords(ingredient: Ingredient): string {
  const { composition, allergens, absorbs, eachGrams, gramsPerMeasure, gramsPerMl, cost } = ingredient;
  const { cup } = gramsPerMeasure;
  return paragraphs(
    `**${escaped(ingredient.label)}**, ${ingredient.role}${ingredient.wholeGrain ? ', whole grain' : ''}`,
    table(['in 100 g', ''], [
      ['water', component(composition.water)],
      ['protein', component(composition.protein)],
      ['fat', component(composition.fat)],
      ['of it saturated', component(composition.saturated)],
      [composition.carbohydrateBasis === 'by-difference' ? 'carbohydrate, fibre in it' : 'carbohydrate, without fibre', component(composition.carbohydrate)],
      ['of it sugars', component(composition.sugars)],
      ['fibre', component(composition.fibre)],
      ['salt', component(composition.salt)],
      ['alcohol', composition.alcohol === null || composition.alcohol === 0 ? undefined : component(composition.alcohol)],
    ]),
    absorbs === null ? undefined : `Drinks ${trimmed(absorbs, 2)} times its weight of water`,
    allergens.eu.length > 0 ? `Allergens, EU: ${escaped(listed(allergenLabels(allergens.eu, 'eu')))}` : undefined,
    allergens.us.length > 0 ? `Allergens, US: ${escaped(listed(allergenLabels(allergens.us, 'us')))}` : undefined,
    allergens.checkLabel.length > 0 ? `May hold, check the label: ${escaped(listed(allergens.checkLabel))}` : undefined,
    eachGrams === null ? undefined : `One weighs ${gramsOrNothing(eachGrams)}${ingredient.eachOf === '' ? '' : ` (${escaped(ingredient.eachOf)})`}`,
    cup !== undefined ? `A US cup weighs ${gramsOrNothing(cup)}` : gramsPerMl !== null ? `100 ml weigh ${gramsOrNothing(gramsPerMl * 100)}` : undefined,
    cost === null ? undefined : `Costs ${cost.amount} ${escaped(cost.currency)} for ${gramsOrNothing(cost.perGrams)}`,
    ingredient.note === '' ? undefined : escaped(ingredient.note),
    ingredient.source === '' ? undefined : `*Source: ${escaped(ingredient.source)}*`,
  );
}

function component(grams: number | null): string {
  return gramsOrNothing(grams) ?? 'not known';
}
