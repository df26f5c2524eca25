/**
 * Ingredients that no table has but that are another one in a different form: milled, flaked, of another size, or packed so
 * differently that its spoon weight says nothing. Everything is taken from the row `from`, except what is given here; unless
 * `measures` are kept, volumes then need a weight.
 */
import type { Role } from '../../../grammar';

export interface Derived {
  /** The key in the list of names. */
  readonly key: string;
  readonly from: string;
  /** True when it is the same thing on a sheet (a medium egg is egg, coarse salt is salt): it keeps the key of `from`. */
  readonly same?: true;
  readonly keepsMeasures?: true;
  readonly label: string;
  readonly role?: Role;
  readonly wholeGrain?: true;
  readonly eachGrams?: number;
  readonly eachOf?: string;
  readonly checkLabel?: readonly string[];
  readonly note: string;
}

const MILLED = 'the composition is that of the grain, milled whole';
const CUT = 'the composition is that of the whole grain';
const LIKE_DRY_YEAST = 'composition of active dry yeast; the table has no spoon weight of it';

export const DERIVED: readonly Derived[] = [
  { key: 'einkorn-flour', from: 'einkorn-grain', label: 'Einkorn flour, whole grain', role: 'flour', wholeGrain: true, note: MILLED },
  { key: 'khorasan-flour', from: 'khorasan-grain', label: 'Khorasan flour, whole grain', role: 'flour', wholeGrain: true, note: MILLED },
  { key: 'teff-flour', from: 'teff-grain', label: 'Teff flour, whole grain', role: 'flour', wholeGrain: true, note: MILLED },
  { key: 'quinoa-flour', from: 'quinoa', label: 'Quinoa flour', role: 'flour', note: MILLED },
  { key: 'lupin-flour', from: 'lupin-seed', label: 'Lupin flour', role: 'flour', note: 'the composition is that of the seed' },
  { key: 'rye-cracked', from: 'rye-grain', label: 'Cracked rye (rye chops)', note: CUT },
  { key: 'rye-flakes', from: 'rye-grain', label: 'Rye flakes', role: 'absorber', note: CUT },
  { key: 'spelt-flakes', from: 'spelt-grain', label: 'Spelt flakes', role: 'absorber', note: CUT },
  { key: 'wheat-cracked', from: 'wheat-berries', label: 'Cracked wheat', note: CUT },
  { key: 'wheat-flakes', from: 'wheat-berries', label: 'Wheat flakes', role: 'absorber', note: CUT },
  { key: 'oat-steel-cut', from: 'oat-flakes', label: 'Steel-cut oats', role: 'inclusion', note: 'composition of oat flakes' },
  { key: 'almonds-flaked', from: 'almonds-blanched', same: true, label: 'Almonds, blanched, flaked', note: 'a cup of flakes is not a cup of almonds: write a weight' },
  { key: 'salt-coarse', from: 'salt', same: true, label: 'Salt, coarse or flaked', note: 'a spoon of it holds up to half as much as of table salt: write a weight' },
  { key: 'sugar-pearl', from: 'sugar-white', same: true, label: 'Sugar, pearl', note: 'composition of white sugar' },
  { key: 'yeast-instant', from: 'yeast-dry-active', label: 'Yeast, instant', note: LIKE_DRY_YEAST },
  { key: 'yeast-osmotolerant', from: 'yeast-dry-active', label: 'Yeast, instant, osmotolerant', note: LIKE_DRY_YEAST },
  { key: 'glucose-syrup', from: 'corn-syrup-light', label: 'Glucose syrup', note: 'composition of light corn syrup, the nearest in the table' },
  { key: 'invert-sugar', from: 'corn-syrup-light', label: 'Invert sugar syrup', note: 'composition of light corn syrup, the nearest in the table' },
  {
    key: 'vegetable-oil', from: 'sunflower-oil', keepsMeasures: true, label: 'Vegetable oil', checkLabel: ['soy'],
    note: 'composition of sunflower oil; which oil it is, the bottle says',
  },
  {
    key: 'cream-double', from: 'cream', keepsMeasures: true, label: 'Double cream',
    note: 'counted as heavy cream of 36 % fat; British double cream holds about 48 %, so give the label’s fat and water in an ingredient block',
  },
  {
    key: 'cream-single', from: 'half-and-half', keepsMeasures: true, label: 'Single cream',
    note: 'counted as half and half of 10.4 % fat; single cream holds about 18 %, so give the label’s fat and water in an ingredient block',
  },
  // Edible part by US size. Source: USDA Standard Reference, NDB 01123; large is the row itself.
  { key: 'egg-small', from: 'egg-whole', same: true, keepsMeasures: true, label: 'Egg, whole, raw', eachGrams: 38, eachOf: 'small egg (US), without shell', note: '' },
  { key: 'egg-medium', from: 'egg-whole', same: true, keepsMeasures: true, label: 'Egg, whole, raw', eachGrams: 44, eachOf: 'medium egg (US), without shell', note: 'a European M egg is nearer to 50 g' },
  { key: 'egg-extra-large', from: 'egg-whole', same: true, keepsMeasures: true, label: 'Egg, whole, raw', eachGrams: 56, eachOf: 'extra large egg (US), without shell', note: '' },
  { key: 'egg-jumbo', from: 'egg-whole', same: true, keepsMeasures: true, label: 'Egg, whole, raw', eachGrams: 63, eachOf: 'jumbo egg (US), without shell', note: '' },
];
