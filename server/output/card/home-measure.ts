/**
 * A weight in spoons and cups, for a kitchen without a scale: only what a set of spoons and cups can measure, and only where a
 * spoon is no danger to the bread. Level measures; limits are common practice, no source.
 */
import type { Role } from '../../../grammar';
import type { Ingredient } from '../../core/ingredients/model';
import { gramsPerUnit, PINCH_GRAMS } from '../../core/ingredients/weigh';
import { plural } from '../../core/scaling/nouns';
import { volumeToMl, type MeasureSystem } from '../../core/units/volume';

/** A spoon or cup that weighs more than this beside the weight wanted is said to be `about` it, as a share of the weight. */
const EXACT = 0.02;
/** Of more than this it is not offered: salt and what raises a dough, and anything else. */
const MOST_OFF = { careful: 0.12, other: 0.25 } as const;
/** Nobody counts right beyond these. */
const MOST_TABLESPOONS_OF_SALT = 3;
const MOST_CUPS = 8;
/** What two fingers take is a pinch, give or take half of it. */
const PINCH = { least: PINCH_GRAMS * 0.5, most: PINCH_GRAMS * 1.5 } as const;

const EIGHTH_SPOON = 1 / 8;
/** From so many of the smaller measure on the larger one is taken. */
const LEAST_TABLESPOONS = 0.9;
const LEAST_CUPS = 0.24;

const CUP_PARTS = [0, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4, 1] as const;
const MOST_SPOONS_BESIDE_A_CUP = 3;
/** Where a cup and a tablespoon are weighed this differently, the source weighed two things; the cup counts. */
const SAME_DENSITY = 0.1;

const FRACTIONS: readonly (readonly [number, string])[] = [[1 / 8, '⅛'], [1 / 4, '¼'], [1 / 3, '⅓'], [1 / 2, '½'], [2 / 3, '⅔'], [3 / 4, '¾']];

export interface Weighed {
  readonly ingredient: Ingredient | undefined;
  readonly role: Role;
  readonly grams: number;
}

/**
 * `1½ tsp`, `about 2¾ cups`, `about ½ cup + 1 tbsp`, `about 3 large eggs`, `a pinch`. Undefined where no density is known, where
 * spoons and cups come too far from the weight, where there are too many to count, and under a pinch.
 */
export function homeMeasure({ ingredient, role, grams }: Weighed, measures: MeasureSystem): string | undefined {
  if (ingredient === undefined || !(grams > 0)) return undefined;
  const isCareful = role === 'salt' || role === 'leaven';
  if (role === 'egg' && ingredient.eachGrams !== null) return counted(ingredient.eachGrams, ingredient.eachOf, grams);
  const [teaspoon, tablespoon, cup] = (['tsp', 'tbsp', 'cup'] as const).map((unit) => gramsPerUnit(ingredient, unit, measures));
  if (!teaspoon || !tablespoon || !cup) return undefined;

  const pinch = grams >= PINCH.least && grams <= PINCH.most ? 'a pinch' : undefined;
  if (grams < teaspoon * EIGHTH_SPOON * 0.75) return pinch;
  if (isCareful && grams > MOST_TABLESPOONS_OF_SALT * tablespoon) return undefined;
  if (grams > MOST_CUPS * cup) return undefined;
  const found = grams >= LEAST_CUPS * cup ? inCups(grams, cup, spoonBeside(tablespoon, cup, measures))
    : grams >= LEAST_TABLESPOONS * tablespoon ? inTablespoons(grams, tablespoon) : inTeaspoons(grams, teaspoon);
  const off = Math.abs(found.grams / grams - 1);
  if (off > (isCareful ? MOST_OFF.careful : MOST_OFF.other)) return pinch;
  return off > EXACT ? `about ${found.text}` : found.text;
}

interface Measured {
  readonly text: string;
  readonly grams: number;
}

/** A set has ⅛, ¼, ½ and 1; two of them make the quarters between. */
function inTeaspoons(grams: number, each: number): Measured {
  const wanted = grams / each;
  const number = wanted < 0.1875 ? EIGHTH_SPOON : Math.max(1, Math.round(wanted * 4)) / 4;
  return { text: `${fractional(number)} tsp`, grams: number * each };
}

function inTablespoons(grams: number, each: number): Measured {
  const number = Math.round((grams / each) * 2) / 2;
  return { text: `${fractional(number)} tbsp`, grams: number * each };
}

/** Cups and their usual parts; a few tablespoons beside them where that comes nearer. */
function inCups(grams: number, cup: number, spoon: number): Measured {
  const whole = Math.floor(grams / cup);
  const tries = CUP_PARTS.map((part) => whole + part).filter((cups) => cups > 0).flatMap((cups) => (
    Array.from({ length: MOST_SPOONS_BESIDE_A_CUP + 1 }, (_, spoons) => ({ cups, spoons, off: Math.abs((cups * cup + spoons * spoon) / grams - 1) }))
  ));
  const nearest = (list: typeof tries) => list.reduce((best, one) => (one.off < best.off - 1e-9 ? one : best));
  const plain = nearest(tries.filter(({ spoons }) => spoons === 0));
  const best = plain.off <= EXACT * 1.5 ? plain : nearest(tries);
  const text = `${fractional(best.cups)} ${best.cups > 1 ? 'cups' : 'cup'}${best.spoons === 0 ? '' : ` + ${String(best.spoons)} tbsp`}`;
  return { text, grams: best.cups * cup + best.spoons * spoon };
}

function spoonBeside(tablespoon: number, cup: number, measures: MeasureSystem): number {
  const byVolume = cup * (volumeToMl('tbsp', measures) / volumeToMl('cup', measures));
  return Math.abs(tablespoon / byVolume - 1) <= SAME_DENSITY ? tablespoon : byVolume;
}

function counted(eachGrams: number, eachOf: string, grams: number): string | undefined {
  const number = Math.round(grams / eachGrams);
  const off = Math.abs((number * eachGrams) / grams - 1);
  if (number === 0 || off > MOST_OFF.careful) return undefined;
  const [what = ''] = eachOf.split(',');
  return `${off > EXACT ? 'about ' : ''}${String(number)} ${number === 1 ? what : plural(what)}`.trim();
}

/** `1½`, `¾`, `2` */
function fractional(number: number): string {
  const whole = Math.floor(number + 1e-9);
  const rest = number - whole;
  const sign = FRACTIONS.find(([value]) => Math.abs(value - rest) < 1e-6)?.[1] ?? '';
  return `${whole === 0 && sign !== '' ? '' : String(whole)}${sign}`;
}

/** Stands under a list that has home measures: whose they are, and how far they go. */
export function homeMeasureNote(measures: MeasureSystem): string {
  const cup = Math.round(volumeToMl('cup', measures));
  const whose = { us: 'US', metric: 'metric', imperial: 'imperial' }[measures];
  return `Spoons and cups are level and ${whose} (a cup is ${String(cup)} ml). A cup of flour may be a fifth off, and a spoon of coarse salt weighs less than one of fine: weigh if you can, salt and yeast above all.`;
}
