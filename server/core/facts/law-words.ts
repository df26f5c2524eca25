/**
 * The words by which the two laws want an allergen named, and where they stand in the name of an ingredient.
 *
 * Names: Annex II of Regulation (EU) 1169/2011, the cereal or the nut by itself and not its group; the nine major allergens
 * of United States law, a nut by its own name. Spelt and khorasan are wheat to both.
 */

interface LawWord {
  /** As it is set off where the name of the ingredient does not hold it. */
  readonly word: string;
  /** Words of a name that already say it. */
  readonly said: RegExp;
}

const word = (text: string, said: RegExp): LawWord => ({ word: text, said });
const nut = (name: string): LawWord => word(`${name}S`, new RegExp(`\\b${name}s?\\b`, 'i'));

/** By the part of a class after its colon, else by the class: one word serves both laws. */
export const LAW_WORDS: Readonly<Record<string, LawWord>> = {
  gluten: word('CEREALS CONTAINING GLUTEN', /\bgluten\b/i),
  wheat: word('WHEAT', /\bwheat\b/i),
  rye: word('RYE', /\brye\b/i),
  barley: word('BARLEY', /\bbarley\b/i),
  oats: word('OATS', /\boats?\b/i),
  crustaceans: word('CRUSTACEANS', /\bcrustaceans?\b/i),
  shellfish: word('CRUSTACEAN SHELLFISH', /\bcrustacean shellfish\b/i),
  eggs: word('EGG', /\beggs?\b/i),
  egg: word('EGG', /\beggs?\b/i),
  fish: word('FISH', /\bfish\b/i),
  peanuts: word('PEANUTS', /\bpeanuts?\b/i),
  soy: word('SOYBEANS', /\bsoy(?:a|beans?)?\b/i),
  milk: word('MILK', /\bmilk\b/i),
  nuts: word('NUTS', /\bnuts?\b/i),
  'tree-nuts': word('TREE NUTS', /\btree nuts?\b/i),
  almond: nut('ALMOND'),
  hazelnut: nut('HAZELNUT'),
  walnut: nut('WALNUT'),
  cashew: nut('CASHEW'),
  pecan: nut('PECAN'),
  brazil: word('BRAZIL NUTS', /\bbrazil nuts?\b/i),
  pistachio: nut('PISTACHIO'),
  macadamia: word('MACADAMIA NUTS', /\bmacadamias?(?: nuts?)?\b/i),
  pine: word('PINE NUTS', /\bpine nuts?\b/i),
  celery: word('CELERY', /\bceler(?:y|iac)\b/i),
  mustard: word('MUSTARD', /\bmustard\b/i),
  sesame: word('SESAME', /\bsesame\b/i),
  sulphites: word('SULPHITES', /\bsul(?:ph|f)ites?\b/i),
  lupin: word('LUPIN', /\blupine?\b/i),
  molluscs: word('MOLLUSCS', /\bmolluscs?\b/i),
};

/**
 * An ingredient's name with its allergens set off: a word of the name that says one in capitals, the others behind it.
 *
 * @param ids classes as in `Ingredient.allergens`, of either list
 */
export function lawWords(name: string, ids: readonly string[]): { readonly text: string; readonly allergens: readonly string[] } {
  const words = new Map<string, LawWord>();
  for (const id of ids) {
    const key = id.split(':').at(-1) ?? id;
    const found = Object.hasOwn(LAW_WORDS, key) ? LAW_WORDS[key] : undefined;
    // A word of the baker's own that no law knows is set off as it is written: rather one too many.
    const one = found ?? word(key.toUpperCase(), /(?!)/);
    words.set(one.word, one);
  }
  let text = name;
  const behind: string[] = [];
  for (const { word: lawWord, said } of words.values()) {
    if (said.test(name)) text = text.replace(said, (own) => own.toUpperCase());
    else behind.push(lawWord);
  }
  return { text: behind.length === 0 ? text : `${text} (${behind.join(', ')})`, allergens: [...words.keys()] };
}
