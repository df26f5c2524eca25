/** Measures as people write them, and what of the language each one is. */
import type { MassUnit, VolumeUnit } from '../../../grammar';
import { CUPS_PER_GALLON, CUPS_PER_PINT, CUPS_PER_QUART } from './constants';

export type Measure =
  | { readonly kind: 'mass'; readonly unit: MassUnit }
  /** `times` of the unit are in one: ten millilitres in a centilitre, two cups in a pint. */
  | { readonly kind: 'volume'; readonly unit: VolumeUnit; readonly times: number }
  | { readonly kind: 'share' }
  /** Of butter. */
  | { readonly kind: 'stick' }
  /** Of dry yeast. */
  | { readonly kind: 'packet' }
  | { readonly kind: 'pinch' }
  /** What things are counted by: cloves, slices, and the like. */
  | { readonly kind: 'piece'; readonly holds: boolean }
  /** Nobody can say how much: a handful, a splash. */
  | { readonly kind: 'vague' };

const mass = (unit: MassUnit): Measure => ({ kind: 'mass', unit });
const volume = (unit: VolumeUnit, times = 1): Measure => ({ kind: 'volume', unit, times });
const piece = (holds: boolean): Measure => ({ kind: 'piece', holds });

const WORDS: readonly (readonly [words: string, measure: Measure])[] = [
  ['g gr gm gms gs gram grams gramme grammes', mass('g')],
  ['kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes', mass('kg')],
  ['mg milligram milligrams', mass('mg')],
  ['oz ozs ounce ounces', mass('oz')],
  ['lb lbs pound pounds', mass('lb')],
  ['ml mls cc millilitre millilitres milliliter milliliters', volume('ml')],
  ['cl centilitre centilitres centiliter centiliters', volume('ml', 10)],
  ['dl decilitre decilitres deciliter deciliters', volume('ml', 100)],
  ['l litre litres liter liters', volume('l')],
  ['tsp tsps teaspoon teaspoons teaspoonful teaspoonfuls', volume('tsp')],
  ['tbsp tbsps tbs tbl tblsp tb tablespoon tablespoons tablespoonful tablespoonfuls', volume('tbsp')],
  ['cup cups c cupful cupfuls', volume('cup')],
  ['floz', volume('fl oz')],
  ['pint pints pt pts', volume('cup', CUPS_PER_PINT.value)],
  ['quart quarts qt qts', volume('cup', CUPS_PER_QUART.value)],
  ['gallon gallons gal', volume('cup', CUPS_PER_GALLON.value)],
  ['% percent', { kind: 'share' }],
  ['stick sticks', { kind: 'stick' }],
  ['packet packets sachet sachets envelope envelopes', { kind: 'packet' }],
  ['pinch pinches', { kind: 'pinch' }],
  ['handful handfuls splash splashes knob knobs drizzle dash dashes glug glugs sprinkle sprinkling dollop dollops smear', { kind: 'vague' }],
  ['can cans tin tins jar jars package packages pkg pack packs bag bags bottle bottles box boxes carton cartons tub tubs tube tubes', piece(true)],
  ['clove cloves sprig sprigs slice slices piece pieces leaf leaves bunch bunches head heads stalk stalks bulb bulbs sheet sheets strip strips', piece(false)],
];

const BY_WORD: ReadonlyMap<string, Measure> = new Map(WORDS.flatMap(([words, measure]) => words.split(' ').map((word) => [word, measure] as const)));
/** One letter, of which the case decides. */
const BY_LETTER: ReadonlyMap<string, Measure> = new Map([['T', volume('tbsp')], ['t', volume('tsp')]]);

/** The measure that a word stands for; a full stop behind it is not in it. */
export function measureOf(word: string): Measure | undefined {
  return BY_LETTER.get(word) ?? BY_WORD.get(word.toLowerCase());
}
