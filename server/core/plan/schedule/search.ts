/**
 * The order in which batches are placed, and with it the day. Each is placed as well as those before it let it be; other orders, other
 * ovens and other sharings are tried as long as that may go on, always the same ones for the same day.
 */
import { nearMiddle } from '../../timeline/choose';
import { MOST_FIRST_TRIES, MOST_PLACED, MOST_TRIES } from '../constants';
import type { Job, Limits } from './job';
import { placeJob, replaced, type Aim, type Around, type Choice, type Placement } from './place';
import { takenOf } from './taken';

export interface Day {
  /** By job. */
  readonly placements: readonly Placement[];
  readonly startMs: number;
  readonly doneMs: number;
  /** When its batches are done, all together: of two days that begin at once, the fresher bread is the later. */
  readonly donesMs: number;
}

export type Searched =
  | { readonly kind: 'found'; readonly day: Day }
  /** The batch that found no place beside the others, in the best try. */
  | { readonly kind: 'stuck'; readonly job: Job };

/** How a day is tried: which batch (its position among the jobs) is placed when, and how. */
interface Recipe {
  readonly order: readonly number[];
  readonly choices: readonly Choice[];
}

/** Work that may be left and gone on with: it yields `undefined` where others can have their turn, between two placings, and days that it finds. */
export type Steps<Result, Found = never> = Generator<Found | undefined, Result, void>;

export interface SearchOptions {
  readonly limits: Limits;
  readonly aim: Aim;
  /** Asked before each placing once a day has been tried; false ends the search with the best day so far. */
  readonly mayGoOn: () => boolean;
  /** True when no day can be better. */
  readonly isBest: (day: Day) => boolean;
  readonly tries?: number;
}

/** A recipe that stands, with what came of it in its order: another that begins alike begins with the same placings. */
interface Standing {
  readonly recipe: Recipe;
  readonly placed: readonly Placement[];
}

/** The best day that was found; the first that stands is yielded as well. */
export function* searchDay(jobs: readonly Job[], options: SearchOptions): Steps<Searched, Day> {
  const { aim, mayGoOn, isBest, tries = Math.min(MOST_TRIES, Math.ceil(MOST_PLACED / Math.max(1, jobs.length))) } = options;
  const random = randomFrom(jobs.length);
  let standing: Standing = { recipe: yield* firstRecipe(jobs, options), placed: [] };
  const { choices } = standing.recipe;
  const orders = jobs.length <= EVERY_ORDER_OF ? ordersOf(standing.recipe.order).slice(1) : [];
  let best: Day | undefined;
  let stuck: Job | undefined;
  for (let count = 0; count <= tries; count++) {
    if (count > 0 && (!mayGoOn() || (best === undefined ? count > MOST_FIRST_TRIES : isBest(best)))) break;
    const { recipe } = standing;
    const order = orders[count - 1];
    const tried = count === 0 ? recipe : order ? { order, choices } : best === undefined && stuck ? firstOf(recipe, jobs.indexOf(stuck)) : otherwise(recipe, random);
    const found = yield* built(jobs, tried, standing, { ...options, mayGoOn: count === 0 ? () => true : mayGoOn });
    if (found === undefined) break;
    // Until a day stands, go on from here: what found no place comes first next time.
    if (found.stuck !== undefined) {
      if (best === undefined) standing = { recipe: tried, placed: found.placed };
      stuck = found.stuck;
      continue;
    }
    const day = dayOf(jobs.flatMap((job) => found.placed.find((placement) => placement.job === job) ?? []));
    if (best !== undefined && isBetterDay(best, day, aim)) continue;
    if (best === undefined) yield day;
    standing = { recipe: tried, placed: found.placed };
    best = day;
  }
  return best ? { kind: 'found', day: best } : { kind: 'stuck', job: stuck ?? (jobs[0] as Job) };
}

function isBetterDay(one: Day, other: Day, aim: Aim): boolean {
  if (aim === 'latest-start') return one.startMs > other.startMs || (one.startMs === other.startMs && one.donesMs > other.donesMs);
  return one.doneMs < other.doneMs || (one.doneMs === other.doneMs && one.donesMs < other.donesMs);
}

/** Longest first: it has the least to give. */
function* firstRecipe(jobs: readonly Job[], { limits, aim }: SearchOptions): Steps<Recipe> {
  const spansMs: number[] = [];
  for (const job of jobs) {
    yield;
    const own = placeJob(job, { limits, taken: takenOf([], limits), aim }, { turn: 0, sharing: false });
    spansMs.push(own ? own.doneMs - own.startMs : Infinity);
  }
  return {
    order: [...jobs.keys()].sort((a, b) => (spansMs[b] ?? 0) - (spansMs[a] ?? 0) || a - b),
    choices: jobs.map((_, index) => ({ turn: index, sharing: true })),
  };
}

interface Built {
  /** In the order of the recipe. */
  readonly placed: readonly Placement[];
  /** What found no place among them. */
  readonly stuck: Job | undefined;
}

/** Undefined when it was ended on the way. */
function* built(jobs: readonly Job[], { order, choices }: Recipe, standing: Standing, { limits, aim, mayGoOn }: SearchOptions): Steps<Built | undefined> {
  const same = order.findIndex((index, at) => standing.recipe.order[at] !== index || standing.recipe.choices[index] !== choices[index]);
  const placed = standing.placed.slice(0, same < 0 ? order.length : same);
  for (const index of order.slice(placed.length)) {
    const [job, choice] = [jobs[index], choices[index]];
    if (!job || !choice) continue;
    yield;
    if (!mayGoOn()) return undefined;
    const found = placeJob(job, { limits, taken: takenOf(placed.map(({ taking }) => taking), limits), aim }, choice);
    if (!found) return { placed, stuck: job };
    placed.push(found);
  }
  return { placed, stuck: undefined };
}

function dayOf(placements: readonly Placement[]): Day {
  return {
    placements,
    startMs: placements.reduce((least, { startMs }) => Math.min(least, startMs), Infinity),
    doneMs: placements.reduce((most, { doneMs }) => Math.max(most, doneMs), -Infinity),
    donesMs: placements.reduce((sum, { doneMs }) => sum + doneMs, 0),
  };
}

/**
 * The same day with every length as near the middle of its range as it may be without beginning earlier or being done later: a baker
 * plans for 75 minutes where 70 to 80 are written.
 */
export function* relaxed({ placements, startMs, doneMs }: Day, limits: Limits): Steps<Day> {
  const now = [...placements];
  for (const [index, placement] of placements.entries()) {
    yield;
    const taken = takenOf(now.flatMap(({ taking }, other) => (other === index ? [] : [taking])), limits);
    const around: Around = { limits, taken, aim: 'latest-start' };
    const boxes = nearMiddle(placement.job.of.network, (tried) => replaced(placement, around, tried, { fromMs: startMs, toMs: doneMs }) !== undefined);
    now[index] = replaced(placement, around, boxes, { fromMs: startMs, toMs: doneMs }) ?? placement;
  }
  return dayOf(now);
}

// --- other tries ----------------------------------------------------------------------------------------------------

/** @param job position among the jobs */
function firstOf({ order, choices }: Recipe, job: number): Recipe {
  return { order: [job, ...order.filter((index) => index !== job)], choices };
}

/** So few batches are tried in every order there is. */
const EVERY_ORDER_OF = 5;

function ordersOf(all: readonly number[]): readonly (readonly number[])[] {
  return all.length < 2 ? [all] : all.flatMap((first) => ordersOf(all.filter((other) => other !== first)).map((rest) => [first, ...rest]));
}

/** One change, and sometimes two at once: where no single one is any better, two may be. */
function otherwise(recipe: Recipe, random: (below: number) => number): Recipe {
  const once = changed(recipe, random);
  return random(3) === 0 ? changed(once, random) : once;
}

/** A batch is placed earlier or later, two change places, some in a row are turned round, or one is put into another oven, or shares one or does not. */
function changed({ order, choices }: Recipe, random: (below: number) => number): Recipe {
  const [one, other] = [random(order.length), random(order.length)];
  const move = random(5);
  if (order.length > 1 && move === 0) {
    const moved = order.filter((index) => index !== order[one]);
    return { order: [...moved.slice(0, other), order[one] ?? 0, ...moved.slice(other)], choices };
  }
  if (order.length > 1 && move < 3) {
    const swapped = [...order];
    [swapped[one], swapped[other]] = [order[other] ?? 0, order[one] ?? 0];
    return { order: swapped, choices };
  }
  if (order.length > 2 && move === 3) {
    const [from, to] = [Math.min(one, other), Math.max(one, other) + 1];
    return { order: [...order.slice(0, from), ...order.slice(from, to).reverse(), ...order.slice(to)], choices };
  }
  const turned = random(2) === 0;
  return {
    order,
    choices: choices.map((choice, index) => (index !== one ? choice : turned ? { ...choice, turn: choice.turn + 1 } : { ...choice, sharing: !choice.sharing })),
  };
}

/** Whole numbers below a limit, always the same (mulberry32, a public-domain generator of 32 bits; from memory). */
function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % Math.max(1, below);
  };
}
