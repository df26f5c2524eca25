/**
 * Every threshold of every check, in one table, each with where it comes from. A baker can change any of them; where no
 * published number was found the source says so, so that nobody takes a habit for a standard.
 *
 * Names begin with `most` (a finding above it) or `least` (a finding below it): where several styles of one formula
 * disagree, that says which of them is the more lenient one.
 */
import { TIN_FACTORS as TINS } from '../scaling/tin-factors';
import type { Check } from './check';

/** One threshold: its default, its unit, what it limits, its value by style, and where it comes from. */
export type Threshold = NonNullable<Check['limits']>[string] & { readonly source: string };

export const COMMON_PRACTICE = 'common practice, no source';

const FLOUR = '% of all flour';
const HABIT = COMMON_PRACTICE;
const SLIP = 'common practice, no source: far outside what any bakery does, so that only slips of the pen are found';

const TIN = 'ml of tin for each g of dough';
const TIN_SOURCE = 'common practice, no source: beyond the range in which bakers fill such a tin, by the table in scaling/tin-factors.ts; a trade text on wholesale open tins has 4.4, the most that was found';

/** What the table of tins says of the styles that have a row of their own. */
function tinsByStyle(figure: 'runsOverMlPerGram' | 'staysLowMlPerGram'): Readonly<Record<string, number>> {
  return { rye: TINS.rye[figure], 'whole grain': TINS['whole grain'][figure], brioche: TINS.brioche[figure], 'sweet sourdough': TINS['paper case'][figure] };
}

export const THRESHOLDS = {
  'salt-high': {
    mostPct: {
      value: 2.5, unit: '% of all flour', what: 'salt lines; with pieces in the dough, of flour and pieces together',
      byStyle: { flatbread: 3.2, cracker: 3.5, 'sweet sourdough': 2 },
      source: COMMON_PRACTICE,
    },
  },
  'salt-low': {
    leastPct: {
      value: 1.5, unit: '% of all flour', what: 'salt, that inside butter and cheese counted in',
      byStyle: { enriched: 1, brioche: 1, 'sweet sourdough': 0.5 },
      source:
        'common practice, no source; for sweet doughs the proportion of A Treatise on Baking, “Salt and Its Effect ' +
        'on Fermentation”: a third less in milk bread, a third of the dose in sweet bread',
    },
  },
  'hydration-high': {
    mostPct: {
      value: 90, unit: '% of all flour', what: 'moisture that reaches the dough',
      byStyle: {
        pan: 80, enriched: 85, brioche: 85, rye: 110, 'whole grain': 105, flatbread: 95, bagel: 65, 'sweet sourdough': 75,
      },
      source: COMMON_PRACTICE,
    },
    mostInBatterPct: { value: 300, unit: '% of all flour', what: 'the same, in a batter', source: COMMON_PRACTICE },
  },
  'hydration-low': {
    leastPct: {
      value: 55, unit: '% of all flour', what: 'moisture that reaches the dough',
      byStyle: {
        pan: 52, enriched: 45, brioche: 48, rye: 60, 'whole grain': 60, flatbread: 48, cracker: 30, bagel: 45, 'sweet sourdough': 40,
      },
      source: COMMON_PRACTICE,
    },
  },
  'inclusion-load': {
    mostPct: {
      value: 40, unit: '% of all flour', what: 'fruit, nuts, seeds and other pieces',
      byStyle: { enriched: 50, brioche: 90, rye: 75, cracker: 90, 'sweet sourdough': 90, 'with inclusions': 75 },
      source:
        'common practice, no source; fruit breads run from 30 to 75 %, and the German guidelines for fine baked goods ask at least ' +
        '60 % of dried fruit for a stollen (from memory), which is a rich dough',
    },
  },
  'oven-temperature-odd': {
    leastCelsius: { value: 90, unit: 'C', what: 'oven temperature of a bake', source: COMMON_PRACTICE },
    mostCelsius: {
      value: 320, unit: 'C', what: 'oven temperature of a bake',
      byStyle: { flatbread: 510 },
      source:
        'common practice, no source; flatbread leaves room for the 485 C of Regulation (EU) 97/2010 (Pizza ' +
        'Napoletana), read in summary',
    },
  },

  // --- leaven --------------------------------------------------------------------------------------------------------
  'yeast-high': {
    mostFreshPct: {
      value: 5, unit: FLOUR, what: 'yeast as fresh yeast (instant counts 2.5 times, active dry twice)',
      byStyle: { enriched: 8, brioche: 8 },
      source: HABIT,
    },
  },
  'sugar-slows-yeast': {
    mostPct: {
      value: 12, unit: FLOUR, what: 'sugar in a dough raised by ordinary yeast', byStyle: { enriched: 16, brioche: 16 },
      source:
        'chapter text on sugar and fermentation rate: the rate falls from 5 % upward; a published strain fell to a ' +
        'quarter of its rate at 10 % and to a hundredth at 26 %; where to warn is common practice, no source',
    },
  },
  'spice-slows-yeast': {
    mostPct: { value: 1.5, unit: FLOUR, what: 'cinnamon, cloves and allspice together, ground', source: HABIT },
    mostGarlicPct: { value: 5, unit: FLOUR, what: 'raw garlic', source: HABIT },
  },
  'rye-without-acid': {
    mostRyePct: {
      value: 40, unit: FLOUR, what: 'rye in a dough with no sourdough and no other acid',
      byStyle: { flatbread: 100, cracker: 100 },
      source: 'cereal-science pages: rye amylase is still at work when its starch swells; the number is a habit',
    },
  },
  'prefermented-high': {
    mostPct: {
      value: 50, unit: FLOUR, what: 'flour inside preferments and starter',
      byStyle: { pan: 70, enriched: 60, brioche: 60, rye: 60, flatbread: 80, cracker: 100, 'sweet sourdough': 60 },
      source: HABIT,
    },
  },
  'preferment-warm': {
    mostHours: { value: 18, unit: 'h', what: 'ripening of a preferment without salt, above the temperature below', source: HABIT },
    mostCelsius: { value: 24, unit: 'C', what: 'where it may ripen longer', source: HABIT },
  },
  'culture-too-warm': {
    mostCelsius: {
      value: 32, unit: 'C', what: 'where a preferment with starter ripens',
      source: 'M. Gänzle in the sourdough FAQ, “What factors affect microbial growth in sourdough?”: sourdough yeast grows at half its best rate at 32 C and not at all at 35 C',
    },
  },
  'levain-past-peak': {
    mostShare: {
      value: 1.25, unit: 'times the longest time to its peak', what: 'ripening at the shortest written time',
      source: 'growth of sourdough yeast after Rosso, Lobry and Flandrois 1993 and Gänzle; the leeway is a habit',
    },
  },
  'levain-not-ripe': {
    leastShare: {
      value: 0.7, unit: 'times the shortest time to its peak', what: 'ripening at the longest written time',
      source: 'growth of sourdough yeast after Rosso, Lobry and Flandrois 1993 and Gänzle; the leeway is a habit',
    },
  },
  'rise-too-short': {
    leastShare: {
      value: 0.5, unit: 'times the shortest time its leaven needs', what: 'all rising from mixer to oven, at the temperature of the bulk',
      source: 'for sourdough the growth model of the levain; for yeast a habit (time falls as yeast rises); both are rough, so only far misses are found',
    },
  },
  'rise-too-long': {
    mostShare: {
      value: 2, unit: 'times the longest time its leaven needs', what: 'all rising from mixer to oven, at the temperature of the bulk',
      source: 'for sourdough the growth model of the levain; for yeast a habit (time falls as yeast rises); both are rough, so only far misses are found',
    },
  },
  'retard-too-long': {
    mostHours: {
      value: 48, unit: 'h', what: 'time in the cold', byStyle: { flatbread: 120 },
      source: "a manufacturer's baking compendium, retarded fermentation: at most 48 h; flatbread is a habit",
    },
  },
  'retard-too-warm': {
    mostCelsius: {
      value: 10, unit: 'C', what: 'a retard of more than the hours below',
      source: 'bread dictionary, “retarding”: below about 50 F fermentation nearly stands still',
    },
    mostHours: { value: 6, unit: 'h', what: 'a retard that is warmer', source: HABIT },
  },
  'retard-with-yeast': {
    mostHours: {
      value: 12, unit: 'h', what: 'time in the cold of a dough with more yeast than below',
      byStyle: { enriched: 24, brioche: 36, flatbread: 96 },
      source: HABIT,
    },
    mostFreshPct: { value: 0.75, unit: FLOUR, what: 'yeast as fresh yeast (0.3 % instant)', byStyle: { enriched: 3, brioche: 4 }, source: HABIT },
  },
  'chemical-leaven-high': {
    mostPowderPct: { value: 8, unit: FLOUR, what: 'baking powder', source: HABIT },
    mostSodaPct: { value: 2, unit: FLOUR, what: 'baking soda', source: HABIT },
  },

  // --- the dough -----------------------------------------------------------------------------------------------------
  'hydration-impossible': {
    mostPct: { value: 200, unit: FLOUR, what: 'moisture of a dough that is no batter', source: SLIP },
    leastPct: { value: 20, unit: FLOUR, what: 'moisture of a dough', source: SLIP },
  },
  'sugar-high': {
    mostPct: {
      value: 15, unit: FLOUR, what: 'sugar in the dough, that inside fruit left out',
      byStyle: { hearth: 10, pan: 15, enriched: 30, brioche: 30, rye: 10, 'whole grain': 12, flatbread: 10, bagel: 10, 'sweet sourdough': 45 },
      source: HABIT,
    },
  },
  'fat-high': {
    mostPct: {
      value: 15, unit: FLOUR, what: 'fat in the dough, that inside nuts and seeds left out',
      byStyle: { hearth: 10, pan: 12, enriched: 30, brioche: 100, rye: 8, 'whole grain': 12, flatbread: 20, cracker: 40, bagel: 6, 'sweet sourdough': 70 },
      source: 'common practice, no source; brioche: formulas to 100 % butter exist in a published comparison of brioches',
    },
  },
  'fat-before-gluten': {
    mostPct: { value: 20, unit: FLOUR, what: 'fat that goes in at the first mixing', source: HABIT },
  },
  'cocoa-load': {
    mostPct: {
      value: 10, unit: FLOUR, what: 'cocoa powder', source: 'common practice, no source; cocoa has 13.7 % fat by the USDA table and no gluten',
    },
  },
  'absorbers-dry': {
    mostPct: {
      value: 15, unit: FLOUR, what: 'water that seeds, flakes and bran weighed dry into the dough will drink',
      source: 'common practice, no source: the table of absorbers',
    },
  },
  'soaker-dry': {
    leastShare: { value: 0.5, unit: 'times what it can drink at least', what: 'liquid in a soaker', source: 'common practice, no source: the table of absorbers' },
  },
  'scald-too-cool': {
    leastCelsius: { value: 65, unit: 'C', what: 'the water of a scald that is not cooked', source: 'common practice, no source: wheat starch swells from about 60 C' },
  },
  'inclusions-wet': {
    mostPct: { value: 20, unit: FLOUR, what: 'pieces that are more than two thirds water', source: HABIT },
    mostWaterPct: { value: 65, unit: '% of their weight', what: 'water in a piece that is not wet', source: HABIT },
  },
  'inclusions-early': {
    mostPct: { value: 25, unit: FLOUR, what: 'hard and sticky pieces that go in at the first mixing', source: HABIT },
  },
  'flour-weak': {
    leastProteinPct: {
      value: 8, unit: '% of the flour', what: 'protein of the flours together',
      byStyle: { hearth: 9.5, brioche: 9.5, 'sweet sourdough': 9.5, bagel: 9.5, rye: 0, flatbread: 7, cracker: 0 },
      source: HABIT,
    },
  },
  'style-not-met': {
    leastRyePct: { value: 30, unit: FLOUR, what: 'rye in a formula of style `rye`', source: 'a habit; the German guidelines for bread ask 50 % for rye mixed bread and 90 % for rye bread' },
    leastWholeGrainPct: { value: 40, unit: FLOUR, what: 'whole grain in a formula of style `whole grain`', source: 'a habit; the German guidelines for bread ask 90 % for wholemeal bread' },
    leastBriocheFatPct: { value: 12, unit: FLOUR, what: 'fat in a formula of style `brioche`', source: HABIT },
  },

  // --- temperature ---------------------------------------------------------------------------------------------------
  'water-too-hot': { mostCelsius: { value: 45, unit: 'C', what: 'water that meets yeast or starter', source: 'common practice, no source: yeast makes no gas above about 45 C and dies from about 50 C' } },
  'water-needs-ice': {
    leastCelsius: { value: 10, unit: 'C', what: 'water that a tap can be asked to give', source: 'common practice, no source: taps give 5 to 25 C by place and season' },
  },
  'dough-temperature-missed': {
    mostCelsius: { value: 2, unit: 'C', what: 'difference between the dough wanted and the dough that comes out', source: HABIT },
  },
  'dough-too-warm': {
    mostCelsius: {
      value: 28, unit: 'C', what: 'temperature wanted of the dough', byStyle: { brioche: 26, rye: 33, 'sweet sourdough': 30, flatbread: 30 },
      source: HABIT,
    },
  },
  'butter-melts': {
    mostCelsius: { value: 30, unit: 'C', what: 'where a buttery dough rises', source: 'common practice, no source: butter is soft at 28 C and runs at 32 to 35 C' },
    mostButterPct: { value: 15, unit: FLOUR, what: 'butter in a dough that may rise warmer', source: HABIT },
  },
  'mix-too-long': { mostMinutes: { value: 30, unit: 'min', what: 'mixing by machine', byStyle: { brioche: 45, 'sweet sourdough': 60 }, source: HABIT } },
  'room-odd': {
    mostCelsius: { value: 45, unit: 'C', what: 'a room', source: SLIP },
    leastCelsius: { value: -5, unit: 'C', what: 'a room', source: SLIP },
    leastFlourCelsius: { value: -25, unit: 'C', what: 'flour, which some keep in the freezer', source: SLIP },
    mostFridgeCelsius: { value: 15, unit: 'C', what: 'a fridge or a cool cellar', source: SLIP },
    leastFridgeCelsius: { value: -6, unit: 'C', what: 'a fridge or a retarder', source: SLIP },
  },
  'temperature-odd': {
    mostRisingCelsius: { value: 50, unit: 'C', what: 'a place where dough rises or ripens', source: SLIP },
    mostColdCelsius: { value: 25, unit: 'C', what: 'a retard or a chill', source: SLIP },
    leastCelsius: { value: -40, unit: 'C', what: 'anything in a bakery', source: SLIP },
    mostWaterCelsius: { value: 100, unit: 'C', what: 'water', source: 'water boils at 100 C at sea level' },
    mostHotCelsius: { value: 300, unit: 'C', what: 'a pan, a pot or hot fat', source: SLIP },
  },

  // --- the oven ------------------------------------------------------------------------------------------------------
  'oven-cool': {
    leastCelsius: {
      value: 140, unit: 'C', what: 'the hottest oven of a bake',
      byStyle: { hearth: 195, pan: 165, enriched: 150, brioche: 145, rye: 165, 'whole grain': 185, flatbread: 200, cracker: 140, bagel: 185, 'sweet sourdough': 140 },
      source: 'common practice, no source: 20 to 50 C under the usual oven of the style',
    },
  },
  'oven-hot': {
    mostCelsius: {
      value: 320, unit: 'C', what: 'the coolest oven of a bake',
      byStyle: { hearth: 275, pan: 245, enriched: 225, brioche: 215, rye: 275, 'whole grain': 265, flatbread: 510, bagel: 265, 'sweet sourdough': 205 },
      source: 'common practice, no source: 25 C over the usual oven of the style',
    },
  },
  'preheat-cooler': { leastShare: { value: 0.95, unit: 'times the first bake', what: 'preheat temperature, in C', source: HABIT } },
  'preheat-short': {
    leastMinutes: { value: 10, unit: 'min', what: 'preheat', byStyle: { hearth: 25, rye: 25, 'whole grain': 20 }, source: HABIT },
  },
  'core-low': {
    leastCelsius: {
      value: 85, unit: 'C', what: 'core at the end of the bake, at sea level',
      byStyle: { hearth: 93, pan: 88, enriched: 85, brioche: 85, rye: 96, 'whole grain': 93, bagel: 93, 'sweet sourdough': 90, flatbread: 85 },
      source: 'lists of home bread bakers (soft breads 85 to 91 C, lean ones 93 to 98 C) and a teaching page of the New Zealand industry; the limits are a habit',
    },
  },
  'record-odd': {
    mostCelsius: { value: 45, unit: 'C', what: 'a room or a dough that was measured', source: SLIP },
    leastCelsius: { value: -5, unit: 'C', what: 'a room or a dough that was measured', source: SLIP },
    leastCoreCelsius: { value: 40, unit: 'C', what: 'the core of what was baked; the most is where water boils', source: SLIP },
    leastPh: { value: 3, unit: 'pH', what: 'a dough or a crumb', source: 'common practice, no source: acid goes on to about 3.6 in a sourdough' },
    mostPh: { value: 9.5, unit: 'pH', what: 'a dough or a crumb', source: 'common practice, no source: soda breads and pretzels are alkaline' },
  },
  'record-loss-differs': {
    mostPoints: { value: 2, unit: 'points of the loss', what: 'between the loss that the formula says and the mean of the bakes', source: HABIT },
    leastBakes: { value: 3, unit: 'bakes', what: 'weighed, before anything is said', source: HABIT },
  },
  'core-never-reached': {
    leastUnderBoilingCelsius: { value: 0.5, unit: 'C', what: 'how far a core stays under the boiling point of water', source: 'common practice, no source: crumb is wet and cannot pass the boiling point' },
  },
  'bake-too-short': {
    leastShare: { value: 0.5, unit: 'times 1.4 min x the root of the dough piece in g', what: 'baking at the longest written time', byStyle: { flatbread: 0.1, bagel: 0.4 }, source: HABIT },
  },
  'bake-too-long': {
    mostShare: { value: 2.5, unit: 'times 1.4 min x the root of the dough piece in g', what: 'baking at the shortest written time', byStyle: { rye: 40, flatbread: 3, cracker: 8 }, source: HABIT },
  },
  'cool-too-short': {
    leastHours: {
      value: 0.75, unit: 'h for a piece of 700 g; less for a smaller one', what: 'cooling before it is sliced',
      byStyle: { hearth: 1, pan: 1, enriched: 0.5, brioche: 0.5, rye: 8, 'whole grain': 1.5, flatbread: 0, bagel: 0.25, cracker: 0, 'sweet sourdough': 6 },
      source: 'trade encyclopedia, “Bread cooling”: core at 35 to 40 C, up to 2 h; rye and sweet sourdough are a habit',
    },
  },
  'tin-too-full': {
    leastMlPerGram: { value: TINS.tin.runsOverMlPerGram, unit: TIN, what: 'room in the tin', byStyle: tinsByStyle('runsOverMlPerGram'), source: TIN_SOURCE },
    leastLiddedMlPerGram: { value: TINS.lidded.runsOverMlPerGram, unit: TIN, what: 'room in a tin with a lid', source: TIN_SOURCE },
    leastBatterMlPerGram: { value: TINS.batter.runsOverMlPerGram, unit: TIN, what: 'room in a tin of batter', source: TIN_SOURCE },
  },
  'tin-too-empty': {
    mostMlPerGram: { value: TINS.tin.staysLowMlPerGram, unit: TIN, what: 'room in the tin', byStyle: tinsByStyle('staysLowMlPerGram'), source: TIN_SOURCE },
    mostLiddedMlPerGram: { value: TINS.lidded.staysLowMlPerGram, unit: TIN, what: 'room in a tin with a lid', source: TIN_SOURCE },
    mostBatterMlPerGram: { value: TINS.batter.staysLowMlPerGram, unit: TIN, what: 'room in a tin of batter', source: TIN_SOURCE },
  },
  'loss-unusual': {
    mostPct: { value: 25, unit: '% of the dough', what: 'loss in the oven', byStyle: { flatbread: 25, cracker: 45, enriched: 20, brioche: 18, pan: 18, rye: 22 }, source: 'German bread lexicon, “Backverlust”: 10 to 20 % for household loaves; the limits are a habit' },
    leastPct: { value: 4, unit: '% of the dough', what: 'loss in the oven', source: HABIT },
  },
  'loss-odd': {
    mostPct: { value: 40, unit: '% of the dough', what: 'loss in the oven', byStyle: { cracker: 50 }, source: SLIP },
    mostBenchPct: { value: 15, unit: '% of the dough', what: 'loss at the bench', source: SLIP },
  },

  // --- the method ----------------------------------------------------------------------------------------------------
  'fold-too-late': { mostPct: { value: 85, unit: '% of the bulk at its shortest', what: 'when the last fold is done', source: HABIT } },
  'duration-odd': {
    mostDays: { value: 14, unit: 'd', what: 'any step', source: SLIP },
    mostHandMinutes: { value: 240, unit: 'min', what: 'work by hand: mixing, dividing, shaping, scoring', source: SLIP },
    mostRisingDays: { value: 6, unit: 'd', what: 'a bulk, a proof or a rest', source: SLIP },
  },

  // --- safety --------------------------------------------------------------------------------------------------------
  'out-of-the-cold': {
    mostHours: {
      value: 2, unit: 'h', what: 'eggs, milk, custard or fresh cheese between 5 and 32 C, before they are cooked',
      source: 'USDA-FSIS, danger zone 40 to 140 F: 2 h, 1 h above 90 F (read on secondary pages); FDA Food Code 3-501.19 allows trained kitchens 4 h',
    },
    mostHotHours: { value: 1, unit: 'h', what: 'the same above 32 C', source: 'USDA-FSIS, danger zone (read on secondary pages)' },
    mostColdCelsius: { value: 5, unit: 'C', what: 'what is cold', source: 'FDA Food Code 3-501.16(A), as adopted by a state (41 F)' },
  },
  'egg-dish-core-low': {
    leastCelsius: { value: 71, unit: 'C', what: 'core of a dish with eggs', source: 'US federal chart of safe minimum temperatures: egg dishes 160 F' },
  },

  // --- slips of the pen ----------------------------------------------------------------------------------------------
  'friction-odd': { mostCelsius: { value: 25, unit: 'C', what: 'friction factor', source: 'published factors run from 5 to 35 F (2.8 to 19.4 C); the limit leaves room' } },
  'altitude-odd': {
    mostMetres: { value: 5500, unit: 'm', what: 'height of a bakery', source: SLIP },
  },
  'pieces-odd': {
    leastGrams: { value: 8, unit: 'g', what: 'one piece', source: SLIP },
    mostGrams: { value: 30000, unit: 'g', what: 'one piece', source: SLIP },
    mostDoughGrams: { value: 5_000_000, unit: 'g', what: 'a whole dough', source: SLIP },
  },
  'ingredient-odd': {
    leastGramsPerMl: { value: 0.02, unit: 'g per ml', what: 'density of an ingredient', source: SLIP },
    mostGramsPerMl: { value: 2.5, unit: 'g per ml', what: 'density of an ingredient', source: 'a salt crystal has 2.2 g per ml; the limit leaves room' },
    mostEachGrams: { value: 20000, unit: 'g', what: 'one piece of an ingredient', source: SLIP },
    mostAbsorbs: { value: 50, unit: 'times its weight', what: 'water that an ingredient drinks', source: 'common practice, no source: psyllium husk drinks up to 40 times its weight' },
  },
  'yields-odd': {
    mostShare: { value: 1.02, unit: 'times what goes in', what: 'weight of a part after cooking that has no `boil`, `steam` or `soak`', source: SLIP },
  },
  'starter-hydration-odd': {
    mostPct: { value: 250, unit: '%', what: 'hydration of a starter', source: SLIP },
    leastPct: { value: 35, unit: '%', what: 'hydration of a starter', source: SLIP },
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, Threshold>>>>;
