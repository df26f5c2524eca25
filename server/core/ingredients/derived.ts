/**
 * Ingredients that no table has but that are another one in a different form: milled, flaked, of another size, or packed so
 * differently that its spoon weight says nothing. Everything is taken from the row `from`, except what is given here; unless
 * `measures` are kept, volumes then need a weight.
 */
import type { Role } from '../../../grammar';
import { EU_EGG_GRADES, euEggEdibleGrams, US_EGG_SIZES } from './eggs';

export interface Derived {
  /** The key in the list of names. */
  readonly key: string;
  readonly from: string;
  /** True when it is the same thing on a sheet (a medium egg is egg, coarse salt is salt): it keeps the key of `from`. */
  readonly same?: true;
  readonly keepsMeasures?: true;
  /** Where its spoon weighs something else than that of `from`. */
  readonly gramsPerTsp?: number;
  readonly label: string;
  readonly role?: Role;
  readonly wholeGrain?: true;
  readonly eachGrams?: number;
  readonly eachOf?: string;
  /** Whose entry in the table of absorbers it goes by. */
  readonly absorbsAs?: string;
  readonly checkLabel?: readonly string[];
  readonly note: string;
}

const MILLED = 'the composition is that of the grain, milled whole';
const CUT = 'the composition is that of the whole grain';
const NEAREST_SYRUP = 'composition of light corn syrup, the nearest in the table';
const LIKE_DRY_YEAST = 'composition of active dry yeast; a packet of 7 g is 2 1/4 tsp, from memory';
const INSTANT_GRAMS_PER_TSP = 7 / 2.25;

/** A form of one thing that a sheet keeps on one row. */
function form(key: string, from: string, label: string, note: string): Derived {
  return { key, from, same: true, label, note };
}

/** An egg of a size by one market; the row itself is a US large one. */
function egg(size: string, market: 'US' | 'EU', eachGrams: number | undefined): readonly Derived[] {
  if (eachGrams === undefined) return [];
  const key = `egg-${market.toLowerCase()}-${size.toLowerCase().replace(' ', '-')}`;
  const eachOf = `${size} egg (${market}), without shell`;
  return [{ ...form(key, 'egg-whole', 'Egg, whole, raw', ''), keepsMeasures: true, eachGrams, eachOf }];
}

/** A whole grain flour of a grain that the table has only as grain. */
function milled(key: string, from: string, label: string): Derived {
  return { key, from, label: `${label}, whole grain`, role: 'flour', wholeGrain: true, note: MILLED };
}

/** Flakes of a grain: they drink like those of oats. */
function flaked(key: string, from: string, label: string): Derived {
  return { key, from, label, role: 'absorber', absorbsAs: 'oat-flakes', note: CUT };
}

export const DERIVED: readonly Derived[] = [
  milled('einkorn-flour', 'einkorn-grain', 'Einkorn flour'),
  milled('khorasan-flour', 'khorasan-grain', 'Khorasan flour'),
  milled('teff-flour', 'teff-grain', 'Teff flour'),
  milled('quinoa-flour', 'quinoa', 'Quinoa flour'),
  { key: 'lupin-flour', from: 'lupin-seed', label: 'Lupin flour', role: 'flour', note: 'the composition is that of the seed' },
  flaked('rye-flakes', 'rye-grain', 'Rye flakes'),
  flaked('spelt-flakes', 'spelt-grain', 'Spelt flakes'),
  flaked('wheat-flakes', 'wheat-berries', 'Wheat flakes'),
  { key: 'rye-cracked', from: 'rye-grain', label: 'Cracked rye (rye chops)', note: CUT },
  { key: 'wheat-cracked', from: 'wheat-berries', label: 'Cracked wheat', note: CUT },
  { key: 'oat-steel-cut', from: 'oat-flakes', label: 'Steel-cut oats', role: 'inclusion', note: 'composition of oat flakes' },
  form('almonds-flaked', 'almonds-blanched', 'Almonds, blanched, flaked', 'a cup of flakes is not a cup of almonds'),
  form('salt-coarse', 'salt', 'Salt, coarse or flaked', 'a spoon of it may hold half as much salt as a spoon of table salt'),
  form('sugar-pearl', 'sugar-white', 'Sugar, pearl', 'composition of white sugar'),
  { key: 'yeast-instant', from: 'yeast-dry-active', gramsPerTsp: INSTANT_GRAMS_PER_TSP, label: 'Yeast, instant', note: LIKE_DRY_YEAST },
  {
    key: 'yeast-osmotolerant', from: 'yeast-dry-active', gramsPerTsp: INSTANT_GRAMS_PER_TSP, label: 'Yeast, instant, osmotolerant',
    note: LIKE_DRY_YEAST,
  },
  { key: 'glucose-syrup', from: 'corn-syrup-light', label: 'Glucose syrup', note: NEAREST_SYRUP },
  { key: 'invert-sugar', from: 'corn-syrup-light', label: 'Invert sugar syrup', note: NEAREST_SYRUP },
  {
    key: 'vegetable-oil', from: 'sunflower-oil', keepsMeasures: true, label: 'Vegetable oil', checkLabel: ['soy'],
    note: 'composition of sunflower oil; which oil it is, the bottle says',
  },
  {
    key: 'cream-double', from: 'cream', keepsMeasures: true, label: 'Double cream',
    note: 'counted as heavy cream of 36 % fat; British double cream holds about 48 %: an ingredient block gives it its own',
  },
  {
    key: 'cream-single', from: 'half-and-half', keepsMeasures: true, label: 'Single cream',
    note: 'counted as half and half of 10.4 % fat; single cream holds about 18 %: an ingredient block gives it its own',
  },
  ...US_EGG_SIZES.filter(({ size }) => size !== 'large').flatMap(({ size, edibleGrams }) => egg(size, 'US', edibleGrams)),
  ...EU_EGG_GRADES.flatMap(({ grade }) => egg(grade, 'EU', euEggEdibleGrams(grade))),
];
