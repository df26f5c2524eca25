/**
 * The numbers of a bake day: how soon an oven is ready again, what is alike enough to share it, how far a search goes.
 *
 * None of them has a published source that fits small ovens of every make; what a bakery measures itself is worth more.
 */

/** A number with its unit and where it comes from. */
interface DayConstant {
  readonly value: number;
  readonly unit: string;
  readonly what: string;
  readonly source: string;
}

const practice = (value: number, unit: string, what: string): DayConstant => ({ value, unit, what, source: 'common practice, no source' });

/** Loads go in together when they bake like this, stage by stage. */
export const SHARED_CELSIUS = practice(10, 'C', 'how far apart two bakes may be, stage by stage, to share an oven');
export const SHARED_MINUTES = practice(5, 'min', 'how far apart two bakes may be in length, stage by stage, to share an oven');

export const SHARING_GIVES_MINUTES = practice(30, 'min', 'how much earlier a dough is begun, or later it is done, for its load to share an oven');

/** After a load the door has been open and the floor has given off its heat. */
export const RECOVERY_MINUTES = practice(10, 'min', 'an oven coming back to its heat between two loads at the same temperature');
export const HEATING_CELSIUS_PER_MINUTE = practice(4, 'C/min', 'a hot oven going on to a higher temperature');
export const COOLING_CELSIUS_PER_MINUTE = practice(3, 'C/min', 'a hot oven coming down with its door ajar');
export const STAYS_HOT_MINUTES = practice(120, 'min', 'the longest that an oven is kept hot and empty before it is switched off');
export const HEATING_UP_MINUTES = practice(45, 'min', 'heating an oven up where no formula says how long');

/** A loaf, where the plan counts loaves and bakes none by that name. */
export const USUAL_LOAF_GRAMS = practice(900, 'g', 'the dough of one loaf, where a plan counts loaves that nothing on it is called');

/** How much less than full counts as room for one more: dust of division. */
export const DUST = 1e-9;

/** Bread may wait so long for the last load of its day: as fresh as can be, and last of all from the evening before. */
export const READY_EARLY_HOURS = {
  fresh: practice(3, 'h', 'how long before its time an order of a bake day is ready where that can be'),
  sameDay: practice(6, 'h', 'how long before its time it is ready where the ovens need longer'),
  most: practice(12, 'h', 'the longest before its time that it may be ready'),
};

/** Beyond this nobody means it, and a search would take for ever. */
export const MOST_LOADS = practice(200, 'loads', 'oven loads on one plan');
export const MOST_HANDS = practice(100, 'people', 'people on one plan');

/** Batches put in their place while a better day is sought: many tries at a short day, few at a long one; and tries at any day at all. */
export const MOST_PLACED = 1500;
export const MOST_TRIES = 200;
export const MOST_FIRST_TRIES = 16;
