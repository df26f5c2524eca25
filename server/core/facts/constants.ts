/** Every number that food facts lean on: energy factors, limits of food safety, limits of names. Each with where it comes from. */
import type { Constant } from '../estimate';
import { celsius } from '../units/temperature';

const EU_ENERGY = 'Regulation (EU) 1169/2011, Annex XIV';

/** Energy of a gram by EU rules. Carbohydrate is the available kind, without fibre. */
export const EU_FACTORS = {
  carbohydrate: { kj: 17, kcal: 4 },
  protein: { kj: 17, kcal: 4 },
  fat: { kj: 37, kcal: 9 },
  fibre: { kj: 8, kcal: 2 },
  alcohol: { kj: 29, kcal: 7 },
  basis: 'read' as const,
  source: EU_ENERGY,
};

/** Energy of a gram by the general factors of US rules, on all carbohydrate, fibre counted in. */
export const US_FACTORS = { carbohydrate: 4, protein: 4, fat: 9, alcohol: 7, basis: 'read' as const, source: '21 CFR 101.9(c)(1)(i), general factors; alcohol from memory' };

/** Salt on an EU label is sodium times this, whatever the sodium comes from. */
export const EU_SALT_PER_SODIUM: Constant = { value: 2.5, unit: 'g/g', basis: 'read', source: 'Regulation (EU) 1169/2011, Annex I' };

/** A slice where nobody says how thick. */
export const SLICE_GRAMS: Constant = { value: 50, low: 25, high: 60, unit: 'g', basis: 'common practice, no source', source: 'a thick slice of a hearth loaf' };

/** Below this share of the whole an ingredient of unknown composition is left out; above it the whole is not known. */
export const TRACE_SHARE: Constant = { value: 0.0025, unit: 'of the whole', basis: 'common practice, no source', source: 'cannot move a figure that is rounded for a label' };

/** What public guidance says of time and temperature. A tool's message, no legal advice: local food rules come first. */
export const SAFETY = {
  coldCelsius: { value: 5, unit: 'C', basis: 'read', source: 'FDA Food Code 3-501.16(A), as adopted by a state (41 F)' },
  hotCelsius: { value: 57, unit: 'C', basis: 'read', source: 'FDA Food Code 3-501.16(A), as adopted by a state (135 F)' },
  /** Cooling: down to here first … */
  coolFirstCelsius: { value: 21, unit: 'C', basis: 'read', source: 'FDA Food Code 3-501.14(A), as adopted by a state (70 F)' },
  coolFirstHours: { value: 2, unit: 'h', basis: 'read', source: 'FDA Food Code 3-501.14(A), as adopted by a state' },
  /** … and to the cold within this, from the start. */
  coolAllHours: { value: 6, unit: 'h', basis: 'read', source: 'FDA Food Code 3-501.14(A), as adopted by a state' },
  timeOnlyHours: { value: 4, unit: 'h', basis: 'read', source: 'FDA Food Code 3-501.19(B), as adopted by a state' },
  timeOnlyColdHours: { value: 6, unit: 'h', basis: 'read', source: 'FDA Food Code 3-501.19(C), as adopted by a state: starts at 5 C, never above 21 C' },
  /** For a household. */
  outOfColdHours: { value: 2, low: 1, high: 2, unit: 'h', basis: 'read in part', source: 'USDA-FSIS, danger zone 40 to 140 F: 2 h, 1 h above 90 F; secondary pages' },
  eggDishCelsius: { value: celsius(160), unit: 'C', basis: 'read', source: 'US federal chart of safe minimum temperatures, egg dishes 160 F; copies by state extension services' },
  reheatCelsius: { value: celsius(165), unit: 'C', basis: 'read', source: 'US federal chart of safe minimum temperatures, leftovers 165 F' },
  steamJoulesPerGram: { value: 2256, unit: 'J/g', basis: 'read', source: 'Boston University physics, “Changes of state”' },
} as const satisfies Readonly<Record<string, Constant>>;

/** Advice that has no number in it. */
export const RAW_FLOUR = { basis: 'read in part', source: 'US FDA advice on raw flour, as repeated on several pages' } as const;

/** The same: spores of botulism are known to stand more heat than the middle of a loaf has. */
export const HONEY = { basis: 'from memory', source: 'advice of public health services on infant botulism' } as const;

/** Limits that a name of a bread stands for. Rules of sale, not of safety. */
export const NAMES = {
  fineBakedGoodParts: { value: 10, unit: 'parts fat and sugar for 90 parts cereal', basis: 'read', source: 'German Food Book, Guidelines for Fine Baked Goods, I.1' },
  ryeBreadPct: { value: 90, unit: '% rye', basis: 'read', source: 'German Guidelines for Bread and Small Baked Goods' },
  mixedBreadPct: { value: 50, unit: '% of the cereal that is named', basis: 'read', source: 'German Guidelines for Bread and Small Baked Goods' },
  usSolidsPct: { value: 62, unit: '% solids of the finished bread', basis: 'read', source: '21 CFR 136.110(a)' },
  usEggSolidsPct: { value: 2.56, unit: '% whole egg solids of the finished bread', basis: 'read', source: '21 CFR 136.115' },
  usRaisinParts: { value: 50, unit: 'parts raisins for 100 parts flour', basis: 'from memory', source: '21 CFR 136.160; a secondary page says 50 % by weight' },
  panettoneButterPct: { value: 16, unit: '% of the product', basis: 'read', source: 'Italian decree of 22 July 2005; one page writes milk fat, others butter' },
  panettoneFruitPct: { value: 20, unit: '% of the product', basis: 'read', source: 'Italian decree of 22 July 2005' },
  panettoneYolkPct: { value: 4, unit: '% of the product', basis: 'read', source: 'Italian decree of 22 July 2005' },
  panettoneYeastPct: { value: 1, unit: '% of the product, at most', basis: 'read', source: 'Italian decree of 22 July 2005' },
  pandoroButterPct: { value: 20, unit: '% of the product', basis: 'read', source: 'Italian decree of 22 July 2005' },
} as const satisfies Readonly<Record<string, Constant>>;

const US_ROUNDING = "FDA's Food Labeling Guide, Appendix H (2009): 21 CFR 101.9(c)";
const EU_ROUNDING = 'guidance of the European Commission on tolerances and rounding, December 2012';

/**
 * How figures are rounded for a label. `to`: the step, up to `upTo`; above it `thenTo`. `noneBelow`, `noneUpTo`: what is
 * declared as none. `lessThan`: what is declared as less than that.
 */
export const LABEL_STEPS = {
  usCalories: { noneBelow: 5, to: 5, upTo: 50, thenTo: 10, unit: 'kcal', basis: 'read', source: US_ROUNDING },
  usFat: { noneBelow: 0.5, to: 0.5, upTo: 5, thenTo: 1, unit: 'g', basis: 'read', source: US_ROUNDING },
  usCholesterol: { noneBelow: 2, lessThan: 5, to: 5, unit: 'mg', basis: 'read', source: US_ROUNDING },
  usSodium: { noneBelow: 5, to: 5, upTo: 140, thenTo: 10, unit: 'mg', basis: 'read', source: US_ROUNDING },
  usGrams: { noneBelow: 0.5, lessThan: 1, to: 1, unit: 'g', basis: 'read', source: US_ROUNDING },
  euEnergy: { to: 1, unit: 'kJ or kcal', basis: 'from memory', source: EU_ROUNDING },
  euGrams: { noneUpTo: 0.5, to: 0.1, upTo: 10, thenTo: 1, unit: 'g', basis: 'from memory', source: EU_ROUNDING },
  euSaturates: { noneUpTo: 0.1, to: 0.1, upTo: 10, thenTo: 1, unit: 'g', basis: 'from memory', source: EU_ROUNDING },
  euSalt: { noneUpTo: 0.0125, to: 0.01, upTo: 1, thenTo: 0.1, unit: 'g', basis: 'from memory', source: EU_ROUNDING },
} as const;
