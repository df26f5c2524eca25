/**
 * Every number that the arithmetic of the oven leans on, with where it comes from. Ranges by class are mostly habit: the
 * trade has few published figures, and core temperature is a poor last word (it stands still a few degrees under the
 * boiling point): time, colour and loss of weight finish the judgement.
 */
import type { Constant } from '../estimate';

/** Classes of bake as the trade groups them. */
export const BAKE_CLASSES = [
  'hearth', 'baguette', 'pan', 'enriched', 'brioche', 'rye', 'whole grain', 'flatbread', 'bagel', 'sweet sourdough',
] as const;
export type BakeClass = (typeof BAKE_CLASSES)[number];

export interface ClassFigures {
  /** Core when done, at sea level; null where nobody measures it. */
  readonly coreCelsius: Constant | null;
  /** A deck oven; with a fan about 15 C less. */
  readonly ovenCelsius: Constant;
  /** Share of the dough's weight lost in the oven, 0 to 1. */
  readonly ovenLoss: Constant;
  /** Hours before it is cut. */
  readonly coolHours: Constant;
}

const HABIT = 'common practice, no source';
const SOFT_CORE = 'soft breads 185 to 195 F in a list of home bread bakers, May 2008; the range is a habit';
const LEAN_CORE = 'lean breads 200 to 208 F in a list of home bread bakers, May 2008; 98 C out of the oven in a teaching page of the New Zealand industry; the range is a habit';
const LEAN_OVEN = 'a baking-education page gives 400 to 425 F for lean loaves; the range is a habit';
const SWEET_OVEN = 'a baking-education page gives 375 F with some sugar and 350 F with much; the range is a habit';
const LOAF_LOSS = 'German bread lexicon, “Backverlust”: 10 to 20 % for household loaves; the range is a habit';
const COOL = 'trade encyclopedia, “Bread cooling”: core at 35 to 40 C, up to 2 h';

function between(low: number, high: number, unit: string, source: string): Constant {
  return { low, value: (low + high) / 2, high, unit, basis: HABIT, source };
}

const core = (low: number, high: number, source: string) => between(low, high, 'C', source);
const oven = (low: number, high: number, source: string) => between(low, high, 'C', source);
const loss = (low: number, high: number, source: string) => between(low / 100, high / 100, 'of the dough', source);
const cool = (low: number, high: number, source: string) => between(low, high, 'h', source);

export const CLASS_FIGURES: Readonly<Record<BakeClass, ClassFigures>> = {
  hearth: { coreCelsius: core(93, 99, LEAN_CORE), ovenCelsius: oven(220, 250, LEAN_OVEN), ovenLoss: loss(12, 20, LOAF_LOSS), coolHours: cool(1, 2, COOL) },
  baguette: { coreCelsius: core(96, 99, LEAN_CORE), ovenCelsius: oven(240, 260, HABIT), ovenLoss: loss(18, 25, HABIT), coolHours: cool(0.5, 1, HABIT) },
  pan: {
    coreCelsius: core(88, 96, SOFT_CORE),
    ovenCelsius: oven(190, 220, 'US Armed Forces recipe for pan bread: 425 F; the range is a habit'),
    ovenLoss: loss(9, 12, 'a bakery text gives 11 % from proof to cooled loaf; the range is a habit'),
    coolHours: cool(1, 2, COOL),
  },
  enriched: { coreCelsius: core(85, 93, SOFT_CORE), ovenCelsius: oven(175, 200, SWEET_OVEN), ovenLoss: loss(8, 13, 'a habit; small rolls lose up to 20 %'), coolHours: cool(0.5, 1.5, HABIT) },
  brioche: { coreCelsius: core(85, 91, SOFT_CORE), ovenCelsius: oven(165, 190, SWEET_OVEN), ovenLoss: loss(7, 12, HABIT), coolHours: cool(0.5, 2, HABIT) },
  rye: {
    coreCelsius: core(96, 99, LEAN_CORE),
    ovenCelsius: oven(190, 250, 'falling from hot to moderate: a habit'),
    ovenLoss: loss(10, 15, 'Rumford, Munich bakehouse: 13.1 % for a 2.5 lb rye loaf; the range is a habit'),
    coolHours: cool(12, 24, 'a habit; dense whole rye up to 48 h'),
  },
  'whole grain': { coreCelsius: core(93, 99, LEAN_CORE), ovenCelsius: oven(210, 240, HABIT), ovenLoss: loss(10, 18, LOAF_LOSS), coolHours: cool(2, 4, HABIT) },
  flatbread: {
    coreCelsius: null,
    ovenCelsius: oven(250, 300, 'a home oven, a habit; Neapolitan pizza bakes at 485 C for 60 to 90 s, Regulation (EU) 97/2010 read in summary'),
    ovenLoss: loss(6, 12, HABIT),
    coolHours: cool(0, 0.5, HABIT),
  },
  bagel: { coreCelsius: core(93, 97, HABIT), ovenCelsius: oven(210, 240, HABIT), ovenLoss: loss(8, 13, HABIT), coolHours: cool(0.5, 1, HABIT) },
  'sweet sourdough': { coreCelsius: core(92, 95, HABIT), ovenCelsius: oven(160, 180, HABIT), ovenLoss: loss(8, 12, HABIT), coolHours: cool(8, 14, 'hung upside down overnight: a habit') },
};

/** A fan oven is set this much lower than a deck. */
export const FAN_CELSIUS: Constant = { value: 15, low: 10, high: 20, unit: 'C', basis: HABIT, source: 'a habit of the trade' };

/** Core at which bread is cut and wrapped. */
export const CUT_CELSIUS: Constant = {
  value: 35, low: 35, high: 40, unit: 'C', basis: 'read', source: 'New Zealand baking-industry teaching page, “Cooling” (35 C); trade encyclopedia, “Bread cooling” (35 to 40 C)',
};
/** Core out of the oven, where nothing better is known. */
export const CORE_OUT_CELSIUS: Constant = { value: 98, unit: 'C', basis: 'read', source: 'New Zealand baking-industry teaching page, “Cooling”' };
/** How slowly a loaf cools. Fitted: from 98 to 35 C in a room of 22 C within two hours. */
export const COOLING_MINUTES: Constant = { value: 68, low: 45, high: 90, unit: 'min', basis: 'derived', source: 'end points of two teaching pages; measured on no loaf of ours' };
/** The loaf that this is of. */
export const COOLING_LOAF_GRAMS: Constant = { value: 750, low: 500, high: 1000, unit: 'g', basis: HABIT, source: 'a pan loaf; the source does not say how large' };

/** The standard atmosphere: pressure in Pa by height in m, p = at sea level x (1 - lapse x h) ^ exponent. */
export const ATMOSPHERE = { seaLevelPascal: 101_325, lapse: 2.255_77e-5, exponent: 5.255_88, basis: 'from memory', source: 'international standard atmosphere; checked against a published table of boiling points' } as const;
/** Antoine's equation for water, T = B / (A - log10 p) - C, p in mm of mercury. */
export const ANTOINE_WATER = { a: 8.071_31, b: 1730.63, c: 233.426, pascalPerMmHg: 133.322_368, basis: 'from memory', source: 'common constants for 1 to 100 C; checked against the same table' } as const;
/** From here on bakers adjust for height. */
export const HIGH_ALTITUDE: Constant = { value: 900, unit: 'm', basis: 'read', source: 'USDA-FSIS text on cooking at high altitude (3000 ft)' };
