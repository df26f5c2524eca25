/** Names with words of preparation around them: `melted butter`, `walnut halves, toasted`, `finely chopped dried figs`. */
import type { Ingredient } from './model';
import { foldName, preparationOf, type Preparation } from './names';

/** Words that name the same cut: the table's own measure is then the right one. */
const SAME_CUT: readonly (readonly string[])[] = [
  ['grated', 'shredded'],
  ['chopped', 'diced', 'cubed', 'quartered'],
  ['half', 'halves', 'halved'],
  ['sliced', 'slice', 'slices'],
  ['ground'], ['mashed'], ['crumbled'],
];

/** Whether the table's measures are of the ingredient cut like this: its note says `cup: chopped`. */
function isMeasuredSo(ingredient: Ingredient, word: string): boolean {
  const words = SAME_CUT.find((group) => group.includes(word)) ?? [word];
  return words.some((one) => new RegExp(`\\b${one}\\b`).test(ingredient.note));
}

/** The ingredient after one word of preparation; undefined where the word makes it another thing. */
function prepare(ingredient: Ingredient, word: string, kind: Preparation): Ingredient | undefined {
  const inPieces = ingredient.role === 'inclusion';
  const unmeasured = isMeasuredSo(ingredient, word) ? ingredient : { ...ingredient, gramsPerMl: null, gramsPerMeasure: {} };
  switch (kind) {
    case 'none':
      return ingredient;
    case 'cut':
      return unmeasured;
    case 'piece':
      return { ...unmeasured, eachGrams: null, eachOf: '' };
    case 'ground':
      return inPieces ? { ...unmeasured, role: 'absorber' } : unmeasured;
    case 'liquefied':
      return inPieces ? { ...unmeasured, role: 'other' } : ingredient;
    case 'temperature':
      return inPieces || ingredient.role === 'spice' ? undefined : ingredient;
    case 'toasted': {
      // A nut at 4 % water has little to lose; an onion or a potato is another food after the oven.
      const { water } = ingredient.composition;
      return water !== null && water < 20 ? ingredient : undefined;
    }
  }
}

const MOST_WORDS = 4;

/**
 * Finds a folded name after leaving out words of preparation, as few as will do: `chopped roasted hazelnut` is roasted
 * hazelnut, not hazelnut. Nothing else is left out: one strange word makes a name unknown.
 */
export function findPrepared(folded: string, exact: (folded: string) => Ingredient | undefined): Ingredient | undefined {
  const words = folded.split(' ');
  const removable = words.flatMap((word, index) => (preparationOf(word) === undefined ? [] : [index])).slice(0, MOST_WORDS);
  const choices = Array.from({ length: 2 ** removable.length - 1 }, (_, index) =>
    removable.filter((_word, bit) => ((index + 1) >> bit) & 1),
  );
  choices.sort((a, b) => a.length - b.length);
  for (const dropped of choices) {
    if (dropped.length === words.length) continue;
    let found = exact(words.filter((_, index) => !dropped.includes(index)).join(' '));
    for (const index of dropped) {
      const word = words[index] ?? '';
      const kind = preparationOf(word);
      if (found !== undefined && kind !== undefined) found = prepare(found, word, kind);
    }
    if (found !== undefined) return found;
  }
  return undefined;
}

/** A normalised name without its words of preparation; itself if nothing would be left. */
export function withoutPreparation(normal: string): string {
  const kept = normal.split(' ').filter((word) => preparationOf(foldName(word)) === undefined);
  return kept.length === 0 ? normal : kept.join(' ');
}
