/**
 * The two lists of allergens that a label may have to follow, and the baker's words for them.
 *
 * Sources: Annex II of Regulation (EU) 1169/2011 (fourteen classes, the cereal or nut to be named); the nine major
 * allergens of US law, sesame since 1 January 2023, tree nuts by the FDA's Questions and Answers, Edition 5 (January 2025):
 * pine nut is one, coconut and chestnut are not.
 */
import type { Block, Text } from '../../../grammar';
import type { Ingredient } from './model';

export interface AllergenClass {
  /** As in `Ingredient.allergens`; a cereal or nut follows after a colon: `gluten:rye`. */
  readonly id: string;
  readonly label: string;
}

/** Annex II, in its order. */
export const EU_ALLERGENS: readonly AllergenClass[] = [
  { id: 'gluten', label: 'cereals containing gluten' },
  { id: 'crustaceans', label: 'crustaceans' },
  { id: 'eggs', label: 'eggs' },
  { id: 'fish', label: 'fish' },
  { id: 'peanuts', label: 'peanuts' },
  { id: 'soy', label: 'soybeans' },
  { id: 'milk', label: 'milk' },
  { id: 'nuts', label: 'nuts' },
  { id: 'celery', label: 'celery' },
  { id: 'mustard', label: 'mustard' },
  { id: 'sesame', label: 'sesame' },
  { id: 'sulphites', label: 'sulphites' },
  { id: 'lupin', label: 'lupin' },
  { id: 'molluscs', label: 'molluscs' },
];

/** The nine of US law. Rye, barley and oats are none of them. */
export const US_ALLERGENS: readonly AllergenClass[] = [
  { id: 'milk', label: 'milk' },
  { id: 'egg', label: 'egg' },
  { id: 'fish', label: 'fish' },
  { id: 'shellfish', label: 'crustacean shellfish' },
  { id: 'tree-nuts', label: 'tree nuts' },
  { id: 'wheat', label: 'wheat' },
  { id: 'peanuts', label: 'peanuts' },
  { id: 'soy', label: 'soybeans' },
  { id: 'sesame', label: 'sesame' },
];

export type AllergenList = 'eu' | 'us';

/** What a word stands for in each list; several words for one thing share a line. */
const WORDS: readonly { readonly words: string; readonly eu?: string; readonly us?: string }[] = [
  { words: 'gluten, cereals, cereals containing gluten', eu: 'gluten' },
  { words: 'wheat, spelt, khorasan, einkorn, durum', eu: 'gluten:wheat', us: 'wheat' },
  { words: 'rye', eu: 'gluten:rye' },
  { words: 'barley', eu: 'gluten:barley' },
  { words: 'oats, oat', eu: 'gluten:oats' },
  { words: 'crustaceans, crustacean, crustacean shellfish, shellfish', eu: 'crustaceans', us: 'shellfish' },
  { words: 'prawns, shrimp, crab, lobster', eu: 'crustaceans', us: 'shellfish' },
  { words: 'eggs, egg', eu: 'eggs', us: 'egg' },
  { words: 'fish', eu: 'fish', us: 'fish' },
  { words: 'peanuts, peanut', eu: 'peanuts', us: 'peanuts' },
  { words: 'soy, soya, soybeans, soybean, soya beans', eu: 'soy', us: 'soy' },
  { words: 'milk, lactose, dairy', eu: 'milk', us: 'milk' },
  { words: 'nuts, nut, tree nuts', eu: 'nuts', us: 'tree-nuts' },
  { words: 'almonds, almond', eu: 'nuts:almond', us: 'tree-nuts:almond' },
  { words: 'hazelnuts, hazelnut', eu: 'nuts:hazelnut', us: 'tree-nuts:hazelnut' },
  { words: 'walnuts, walnut', eu: 'nuts:walnut', us: 'tree-nuts:walnut' },
  { words: 'cashews, cashew, cashew nuts', eu: 'nuts:cashew', us: 'tree-nuts:cashew' },
  { words: 'pecans, pecan, pecan nuts', eu: 'nuts:pecan', us: 'tree-nuts:pecan' },
  { words: 'brazil nuts, brazil nut', eu: 'nuts:brazil', us: 'tree-nuts:brazil' },
  { words: 'pistachios, pistachio, pistachio nuts', eu: 'nuts:pistachio', us: 'tree-nuts:pistachio' },
  { words: 'macadamias, macadamia, macadamia nuts, queensland nuts', eu: 'nuts:macadamia', us: 'tree-nuts:macadamia' },
  { words: 'pine nuts, pine nut', us: 'tree-nuts:pine' },
  { words: 'celery, celeriac', eu: 'celery' },
  { words: 'mustard', eu: 'mustard' },
  { words: 'sesame, sesame seeds', eu: 'sesame', us: 'sesame' },
  { words: 'sulphites, sulfites, sulphite, sulfite, sulphur dioxide, sulfur dioxide', eu: 'sulphites' },
  { words: 'lupin, lupine', eu: 'lupin' },
  { words: 'molluscs, mollusc, mussels, oysters, squid', eu: 'molluscs' },
];

const BY_WORD = new Map(WORDS.flatMap(({ words, eu, us }) => words.split(', ').map((word) => [word, { eu, us }] as const)));

const wordOf = (text: string): string => text.trim().toLowerCase().replace(/[\s-]+/g, ' ');

/** The classes of a word in `contains`, in each list; undefined for a word that is no class of either. */
export function allergenClassesOf(word: string): { readonly eu?: string; readonly us?: string } | undefined {
  return BY_WORD.get(wordOf(word));
}

/** `contains nothing` takes back what `like` brought. */
export function saysNothing(word: string): boolean {
  return ['nothing', 'none', 'no allergens'].includes(wordOf(word));
}

/** The words after `contains` of an ingredient block, in order. */
export function containsOf(block: Block): readonly Text[] {
  return block.lines.flatMap(({ node }) =>
    node.kind === 'property' && node.key === 'contains' && node.value.kind === 'list' ? node.value.items : [],
  );
}

/** The words after `contains` that no list of allergens knows. They are kept as something to check on the label. */
export function unknownAllergens(block: Block): readonly Text[] {
  return containsOf(block).filter(({ text }) => allergenClassesOf(text) === undefined && !saysNothing(text));
}

/** All classes of some ingredients, each once, in the order of the list: `gluten:rye`, `gluten:wheat`, `milk`. */
export function allergensOf(ingredients: Iterable<Ingredient>, list: AllergenList): readonly string[] {
  const order = (list === 'eu' ? EU_ALLERGENS : US_ALLERGENS).map(({ id }) => id);
  const place = (id: string): number => order.indexOf(id.split(':')[0] ?? id);
  const ids = new Set<string>();
  for (const { allergens } of ingredients) for (const id of allergens[list]) ids.add(id);
  return [...ids].sort((a, b) => place(a) - place(b) || (a < b ? -1 : 1));
}

/** Classes as a label would name them: `cereals containing gluten (rye, wheat)`, `milk`. In the order of the list. */
export function allergenLabels(ids: readonly string[], list: AllergenList): readonly string[] {
  return (list === 'eu' ? EU_ALLERGENS : US_ALLERGENS).flatMap(({ id, label }) => {
    const mine = ids.filter((other) => other.split(':')[0] === id);
    if (mine.length === 0) return [];
    const kinds = mine.flatMap((other) => other.split(':').slice(1)).sort();
    return [kinds.length === 0 ? label : `${label} (${kinds.join(', ')})`];
  });
}
