/** What an ingredient is made of, in words. */
import { listed } from '../../core/checks/words';
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
  const { composition, allergens, eachGrams, gramsPerMeasure, gramsPerMl, cost } = ingredient;
  const { cup } = gramsPerMeasure;
  return paragraphs(
    `**${escaped(ingredient.label)}**, ${ingredient.role}${ingredient.wholeGrain ? ', whole grain' : ''}`,
    table(['in 100 g', ''], [
      ['water', gramsOrNothing(composition.water)],
      ['protein', gramsOrNothing(composition.protein)],
      ['fat', gramsOrNothing(composition.fat)],
      ['carbohydrate', gramsOrNothing(composition.carbohydrate)],
      ['of it sugars', gramsOrNothing(composition.sugars)],
      ['fibre', gramsOrNothing(composition.fibre)],
      ['salt', gramsOrNothing(composition.salt)],
    ]),
    allergens.eu.length > 0 ? `Allergens: ${escaped(listed(allergenLabels(allergens.eu, 'eu')))}` : undefined,
    eachGrams === null ? undefined : `One weighs ${gramsOrNothing(eachGrams)}${ingredient.eachOf === '' ? '' : ` (${escaped(ingredient.eachOf)})`}`,
    cup !== undefined ? `A US cup weighs ${gramsOrNothing(cup)}` : gramsPerMl !== null ? `100 ml weigh ${gramsOrNothing(gramsPerMl * 100)}` : undefined,
    cost === null ? undefined : `Costs ${cost.amount} ${escaped(cost.currency)} for ${gramsOrNothing(cost.perGrams)}`,
    ingredient.source === '' ? undefined : `*Source: ${escaped(ingredient.source)}*`,
  );
}
