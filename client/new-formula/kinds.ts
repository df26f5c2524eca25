/** What a new formula can be: a usual dough of each kind, to begin from. Shares are of all the flour. Plain data. */

export type KindId = 'hearth' | 'tin' | 'rolls' | 'flatbread' | 'sweet';
export type Leaven = 'levain' | 'poolish' | 'yeast';

export interface Kind {
  readonly id: KindId;
  /** As the choice says it. */
  readonly label: string;
  readonly detail: string;
  /** Between the quotes of the first line. */
  readonly name: string;
  /** What its pieces can be called, each as one and as many; the first where nobody says. */
  readonly nouns: readonly (readonly [one: string, many: string])[];
  /** A usual batch. */
  readonly pieces: number;
  readonly pieceGrams: number;
  /** Lighter or heavier than this it is another kind of bread, and its times would be wrong. */
  readonly leastPieceGrams: number;
  readonly mostPieceGrams: number;
  readonly style: string;
  readonly ovenLossPct: number;
  readonly doughCelsius: number;
  /** Share and name; leavens aside. Enough water in each for a poolish. */
  readonly ingredients: readonly (readonly [pct: number, name: string])[];
  /** Instant yeast of the straight dough, and of one that a poolish helps, that in the poolish counted in. */
  readonly yeastPct: number;
  readonly yeastWithPoolishPct: number;
  readonly ovenCelsius: number;
}

/** The doughs are common practice and from no one source; the tests hold each to every check. */
export const KINDS: readonly Kind[] = [
  {
    id: 'hearth', label: 'Hearth loaf', detail: 'A crusty loaf, baked in a lidded pot', name: 'Hearth loaf',
    nouns: [['loaf', 'loaves']], pieces: 2, pieceGrams: 900, leastPieceGrams: 300, mostPieceGrams: 2500,
    style: 'hearth', ovenLossPct: 14, doughCelsius: 25, ovenCelsius: 240,
    ingredients: [[90, 'bread flour'], [10, 'whole wheat flour'], [72, 'water'], [2, 'salt']],
    yeastPct: 0.6, yeastWithPoolishPct: 0.4,
  },
  {
    id: 'tin', label: 'Tin loaf', detail: 'A soft loaf for slicing', name: 'Tin loaf',
    nouns: [['loaf', 'loaves']], pieces: 2, pieceGrams: 850, leastPieceGrams: 250, mostPieceGrams: 2000,
    style: 'tin', ovenLossPct: 11, doughCelsius: 26, ovenCelsius: 210,
    ingredients: [[80, 'bread flour'], [20, 'whole wheat flour'], [66, 'water'], [3, 'butter'], [2, 'honey'], [2, 'salt']],
    yeastPct: 0.9, yeastWithPoolishPct: 0.7,
  },
  {
    id: 'rolls', label: 'Enriched rolls', detail: 'Soft rolls with milk, butter and an egg', name: 'Enriched rolls',
    nouns: [['roll', 'rolls']], pieces: 16, pieceGrams: 70, leastPieceGrams: 30, mostPieceGrams: 200,
    style: 'enriched', ovenLossPct: 11, doughCelsius: 26, ovenCelsius: 200,
    ingredients: [[100, 'bread flour'], [30, 'water'], [22, 'milk'], [10, 'eggs'], [8, 'sugar'], [12, 'butter'], [1.8, 'salt']],
    yeastPct: 1.1, yeastWithPoolishPct: 0.8,
  },
  {
    id: 'flatbread', label: 'Flatbread', detail: 'Rolled out thin, baked hot and quickly', name: 'Flatbread',
    nouns: [['flatbread', 'flatbreads']], pieces: 8, pieceGrams: 120, leastPieceGrams: 40, mostPieceGrams: 400,
    style: 'flatbread', ovenLossPct: 12, doughCelsius: 25, ovenCelsius: 250,
    ingredients: [[100, 'bread flour'], [66, 'water'], [4, 'olive oil'], [2, 'salt']],
    yeastPct: 0.7, yeastWithPoolishPct: 0.4,
  },
  {
    id: 'sweet', label: 'Sweet dough', detail: 'Braids or buns with butter, eggs and sugar', name: 'Sweet dough',
    nouns: [['braid', 'braids'], ['bun', 'buns']], pieces: 2, pieceGrams: 500, leastPieceGrams: 50, mostPieceGrams: 1200,
    style: 'enriched', ovenLossPct: 11, doughCelsius: 25, ovenCelsius: 185,
    ingredients: [[100, 'bread flour'], [26, 'water'], [14, 'milk'], [18, 'eggs'], [13, 'sugar'], [18, 'butter'], [1.5, 'salt']],
    yeastPct: 1.3, yeastWithPoolishPct: 1,
  },
];

export const LEAVENS: readonly { readonly leaven: Leaven; readonly label: string; readonly detail: string }[] = [
  { leaven: 'levain', label: 'Levain', detail: 'From a starter that you keep; ripens 6 to 8 h before the dough is mixed' },
  { leaven: 'poolish', label: 'Poolish', detail: 'Flour, water and a pinch of yeast; ripens 12 to 14 h, overnight say' },
  { leaven: 'yeast', label: 'Yeast', detail: 'Instant yeast straight into the dough; bread on the same day' },
];
