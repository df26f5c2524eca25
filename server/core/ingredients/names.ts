/** How names are compared: what of the spelling matters, which words only say how a thing is prepared. */

/** Words written together or in another spelling, as the words that the lists use. */
const SPELLINGS: Readonly<Record<string, string>> = {
  yoghurt: 'yogurt', yoghourt: 'yogurt', wholewheat: 'whole wheat', wholegrain: 'whole grain', breadcrumbs: 'bread crumbs',
  breadcrumb: 'bread crumb', flaxseed: 'flax seed', flaxseeds: 'flax seeds', poppyseed: 'poppy seed',
  poppyseeds: 'poppy seeds', sundried: 'sun dried', nonfat: 'non fat', lowfat: 'low fat', fullfat: 'full fat', fatfree: 'fat free',
  allpurpose: 'all purpose', selfraising: 'self raising', selfrising: 'self rising', dessicated: 'desiccated', stoneground: 'stone ground',
  alkalized: 'alkalised', caramelized: 'caramelised', sulfured: 'sulphured', '&': 'and',
};

/**
 * A name with case, accents, hyphens, apostrophes, signs and spelling variants evened out: `Crème fraîche` is
 * `creme fraiche`, `Whole-wheat` is `whole wheat`. Works for any script.
 */
export function normaliseName(name: string): string {
  const words = name
    .normalize('NFD')
    // Latin, Greek and Cyrillic accents only: in other scripts a mark can be a vowel.
    .replace(/[\u0300-\u036f]/g, '')
    .normalize('NFC')
    .toLowerCase()
    .replace(/['’ʼ`]/g, '')
    .replace(/&/g, ' & ')
    .split(/[^\p{L}\p{M}\p{N}&]+/u)
    .filter((word) => word !== '');
  // A name of signs alone is still a name.
  if (words.length === 0) return name.trim().toLowerCase();
  return words.map((word) => (Object.hasOwn(SPELLINGS, word) ? SPELLINGS[word] : word)).join(' ');
}

const IRREGULAR: Readonly<Record<string, string>> = { leaves: 'leaf', halves: 'half', loaves: 'loaf', molasses: 'molasses' };

/** The singular of one English word, or the word itself. Only for comparing: `currants` and `currant` come out alike. */
function singular(word: string): string {
  const irregular = Object.hasOwn(IRREGULAR, word) ? IRREGULAR[word] : undefined;
  if (irregular !== undefined) return irregular;
  if (word.length <= 3 || !word.endsWith('s') || /(?:ss|us|is)$/.test(word)) return word;
  if (/.ies$/.test(word)) return `${word.slice(0, -3)}y`;
  if (/(?:oes|ches|shes|xes|sses)$/.test(word)) return word.slice(0, -2);
  return word.slice(0, -1);
}

/** What two spellings of one name have in common: normalised, every word in the singular. The key of all look-ups. */
export function foldName(name: string): string {
  return normaliseName(name).split(' ').map(singular).join(' ');
}

/** What a word of preparation does to an ingredient. */
export type Preparation =
  /** Nothing that arithmetic would see. */
  | 'none'
  /** Cut, broken or sifted: the same thing, another weight in a cup. */
  | 'cut'
  /** As `cut`, and one of it is no longer one piece of the table: `walnut halves`. */
  | 'piece'
  /** As `cut`; pieces that are ground to meal drink like a flour. */
  | 'ground'
  /** Pieces become part of the dough. */
  | 'liquefied'
  /** Said of water, butter, milk; of a chocolate it would be another thing. */
  | 'temperature'
  /** Dries it a little: right to ignore for a nut, wrong for an onion. */
  | 'toasted';

const WORDS: Readonly<Record<Preparation, string>> = {
  none: `and finely roughly coarsely thinly lightly freshly well peeled cored pitted stoned shelled deseeded drained rinsed
    washed organic stone unbleached thawed defrosted frozen softened beaten ripe leaf needle room temperature unsalted`,
  cut: 'chopped sliced diced cubed quartered halved crushed crumbled grated shredded minced torn cut sifted',
  piece: 'half piece chunk cube slice strip segment wedge quarter',
  ground: 'ground powdered milled',
  liquefied: 'melted mashed pureed',
  temperature: 'cold warm hot lukewarm tepid cool chilled boiling warmed cooled scalded',
  toasted: 'toasted roasted',
};

const PREPARATION_OF: ReadonlyMap<string, Preparation> = new Map(
  (Object.entries(WORDS) as [Preparation, string][]).flatMap(([kind, words]) =>
    words.trim().split(/\s+/).map((word) => [word, kind] as const),
  ),
);

/** What a folded word says about preparation; undefined if it is part of the name. */
export function preparationOf(word: string): Preparation | undefined {
  return PREPARATION_OF.get(word);
}

/** A lower-case key with hyphens: `Fig jam` is `fig-jam`. */
export function slug(name: string): string {
  return normaliseName(name).replaceAll(' ', '-');
}
